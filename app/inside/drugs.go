package inside

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// DrugIn is a drug inside the room: containers as supplied, or one syringe.
type DrugIn struct {
	Item       mesh.Number
	Syringe    mesh.Ref // zero: containers
	Name       string
	Detail     string
	Containers int64
	UL         int64 // what is left in the syringe
}

// using is the drug that somebody says the end of; the zero value is none.
type using struct {
	item    mesh.Number
	syringe mesh.Ref
	whole   bool     // what is typed is containers, else millilitres
	seen    mesh.Tag // who saw it; empty: nobody yet
}

// Bounds of what is typed.
const (
	amountLenMax   = 6
	microlitreLen  = 3 // digits of a millilitre behind the point
	microlitres    = 1000
	amountKeysWide = 26.0 // least width of a key in mm, so that all stand on one page
)

// drugsIn are the drugs inside a room, by name.
func drugsIn(v station.View, room mesh.ID) (out []DrugIn) {
	for _, b := range v.Ledger.BalancesAt(kits.Place{Sort: kits.InRoom, ID: room}) {
		d, is := v.Drug(b.Cell.Item)
		if !is || b.N <= 0 {
			continue
		}
		i, _ := v.Ledger.Item(b.Cell.Item)
		x := DrugIn{Item: b.Cell.Item, Syringe: b.Cell.Syringe, Name: d.Name, Detail: string(i.Value.Detail)}
		switch {
		case !x.Syringe.IsZero():
			line := kits.Line{Item: x.Item, Lot: b.Cell.Lot, Syringe: x.Syringe, Quantity: kits.Quantity{N: b.N, Measure: b.Cell.Measure}}
			x.UL = v.Ledger.MeasuredLine(line).OverUL
		case b.Cell.Measure == mesh.Each:
			x.Containers = b.N
		default:
			continue
		}
		at := slices.IndexFunc(out, func(y DrugIn) bool { return y.Item == x.Item && y.Syringe == x.Syringe })
		if at >= 0 {
			out[at].Containers += x.Containers
			continue
		}
		out = append(out, x)
	}
	slices.SortStableFunc(out, func(a, b DrugIn) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Item, b.Item), a.Syringe.Compare(b.Syringe))
	})
	return out
}

// left says how much of a drug is left.
func (d DrugIn) left(w words.Words) string {
	if d.Syringe.IsZero() {
		return w.Count("inside.drug.whole", int(d.Containers))
	}
	return w.Say("inside.drug.syringe", millilitres(d.UL))
}

// millilitres writes microlitres as millilitres, without zeros at the end.
func millilitres(ul int64) string {
	text := fmt.Sprintf("%d.%03d", ul/microlitres, ul%microlitres)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// microlitresOf reads what was typed as millilitres; 0: it is no amount.
func microlitresOf(typed string) int64 {
	whole, part, _ := strings.Cut(typed, ".")
	if len(part) > microlitreLen {
		return 0
	}
	n, err := strconv.ParseInt(cmp.Or(whole, "0")+part+strings.Repeat("0", microlitreLen-len(part)), 10, 64)
	if err != nil {
		return 0
	}
	return n
}

// drugsPage lists the drugs inside, to say what became of one.
func drugsPage(w words.Words, s Snapshot) *Page {
	p := &Page{Tell: look.BannerFace{Sentence: w.Say("inside.drug.which"), Hint: w.Say("inside.drug.caution")}}
	if len(s.Drugs) == 0 {
		p.Tell.Sentence = w.Say("inside.drug.none")
	}
	for _, d := range s.Drugs {
		face := look.TileFace{Word: d.Name, Detail: words.Measured(d.Detail) + " · " + d.left(w)}
		if i, known := s.item(d.Item); known && i.Drug != nil {
			face.Band = band(w.DrugClassShort(string(i.Drug.Class)), i)
		}
		p.Choices = append(p.Choices, Choice{face, pick{does: picksDrug, item: d.Item, mark: d.Syringe}})
	}
	return p
}

// endPage asks what became of a drug: all that is left, or what was typed. No
// amount is filled in.
func endPage(w words.Words, s Snapshot, h hand) *Page {
	d, there := s.drug(h.using)
	p := &Page{Tight: true}
	if !there {
		p.Tell.Sentence = w.Say("inside.drug.gone")
		return p
	}
	p.Tell = look.BannerFace{Sentence: d.Name + " " + words.Measured(d.Detail) + " · " + d.left(w)}
	amount, off := w.Say("inside.drug.all"), false
	if h.digits != "" {
		amount = w.Say("measure.greater.microlitre", h.digits)
		if h.using.whole {
			amount = w.Say("inside.drug.times", h.digits)
		}
		off = h.using.portion(d, h.digits) == (station.Portion{})
	}
	for i, id := range []words.ID{"inside.drug.given", "inside.drug.wasted", "inside.drug.broken"} {
		p.Ways = append(p.Ways, Choice{look.TileFace{Word: w.Say(id), Detail: amount, Off: off}, pick{does: picksEnd, nth: i}})
	}
	seen := look.TileFace{Word: w.Say("inside.drug.seen"), Detail: cmp.Or(string(h.using.seen), w.Say("inside.drug.later"))}
	p.Ways = append(p.Ways, Choice{seen, pick{does: picksPageKept, page: pageSeen}})
	if d.Syringe.IsZero() {
		unit := look.TileFace{Word: w.Say("inside.drug.by-ml")}
		if !h.using.whole {
			unit.Word = w.Say("inside.drug.by-whole")
		}
		p.Ways = append(p.Ways, Choice{unit, pick{does: picksUnit}})
	}
	p.First = 3
	for _, key := range strings.Split("1234567890.", "") {
		full := len(h.digits) >= amountLenMax || key == "." && (h.using.whole || strings.Contains(h.digits, "."))
		p.Choices = append(p.Choices, Choice{look.TileFace{Word: key, Off: full}, pick{does: picksKey, id: mesh.ID(key)}})
	}
	erase := look.TileFace{Word: w.Say("keys.erase"), Off: h.digits == ""}
	p.Choices = append(p.Choices, Choice{erase, pick{does: picksKey}})
	return p
}

// seenPage asks for the second person who saw it.
func seenPage(w words.Words, s Snapshot) *Page {
	p := &Page{Tell: look.BannerFace{Icon: look.IconPerson, Sentence: w.Say("inside.drug.who-saw")}}
	for _, t := range s.Tags {
		if t != s.By.Tag {
			p.Choices = append(p.Choices, Choice{look.TileFace{Word: string(t), Icon: look.IconPerson}, pick{does: picksSeen, tag: t}})
		}
	}
	p.Choices = append(p.Choices, Choice{look.TileFace{Word: w.Say("inside.drug.later")}, pick{does: picksSeen}})
	return p
}

func (s Snapshot) drug(u using) (DrugIn, bool) {
	for _, d := range s.Drugs {
		if d.Item == u.item && d.Syringe == u.syringe {
			return d, true
		}
	}
	return DrugIn{}, false
}

// portion is what was typed, or all that is left; zero: it is no amount.
func (u using) portion(d DrugIn, typed string) station.Portion {
	switch {
	case typed == "" && d.Syringe.IsZero():
		return station.Portion{Item: d.Item, Containers: d.Containers}
	case typed == "":
		return station.Portion{Item: d.Item, Syringe: d.Syringe}
	case u.whole:
		if n, err := strconv.ParseInt(typed, 10, 64); err == nil && n > 0 {
			return station.Portion{Item: d.Item, Containers: n}
		}
	default:
		if ul := microlitresOf(typed); ul > 0 {
			return station.Portion{Item: d.Item, Syringe: d.Syringe, VolumeUL: ul}
		}
	}
	return station.Portion{}
}

// useDrug opens what became of a drug.
func (s *Screen) useDrug(p pick) {
	s.show(pageEnd)
	s.hand.using = using{item: p.item, syringe: p.mark, whole: p.mark.IsZero()}
	s.Paint()
}

// typeAmount takes a key; an empty one takes the last away.
func (s *Screen) typeAmount(key string) {
	switch n := len(s.hand.digits); {
	case key == "" && n > 0:
		s.hand.digits = s.hand.digits[:n-1]
	case n < amountLenMax:
		s.hand.digits += key
	}
	s.Paint()
}

// endDrug records an end of a drug, and leads back to those inside.
func (s *Screen) endDrug(end kits.PlaceSort) {
	d, there := s.snap.drug(s.hand.using)
	p := s.hand.using.portion(d, s.hand.digits)
	if !there || p == (station.Portion{}) {
		return
	}
	act := station.EndDrug{Room: s.snap.Room, Portion: p, End: end}
	if s.hand.using.seen != "" {
		act.Seen = station.Seen{Tag: s.hand.using.seen, Grade: kits.SameDevice}
	}
	s.show(pageDrugs)
	s.do(act, func(r station.Result) {
		s.undoable(r.Ref)
		s.hand.moved = true
	})
}

// ends are what can become of a drug, in the order of their tiles.
func ends() [3]kits.PlaceSort { return [3]kits.PlaceSort{kits.Given, kits.Wasted, kits.Broken} }

// pickDrug carries out the choices of the pages of drugs.
func (s *Screen) pickDrug(p pick) {
	switch p.does {
	case picksDrug:
		s.useDrug(p)
	case picksKey:
		s.typeAmount(string(p.id))
	case picksUnit:
		s.hand.using.whole, s.hand.digits = !s.hand.using.whole, ""
		s.Paint()
	case picksPageKept:
		s.hand.page = p.page
		s.Paint()
	case picksSeen:
		s.hand.using.seen, s.hand.page = p.tag, pageEnd
		s.Paint()
	case picksEnd:
		s.endDrug(ends()[p.nth])
	}
}
