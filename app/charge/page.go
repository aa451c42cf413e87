package charge

import (
	"fmt"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// step is the question that stands over a page; none: the page itself.
type step int

const (
	stepNone     step = iota
	stepActs          // what can be done, where it is narrow
	stepSecond        // who is the second person
	stepRole          // a tag that nobody has named: of which role
	stepNumber        // and which number
	stepTemplate      // what kit is prepared
	stepSeal          // the number of a kit's seal, by digits
	stepOpen          // how the seal was found
	stepApart         // whether a kit is taken apart
	stepEnds          // what became of something that is asked singly
	stepPart          // how much of it came to an end, by digits
	stepWhy           // why an issue is closed although it is short
	stepClass         // of a waste container
	stepLitres        // what it holds
	stepBoxRoom       // whose it is
	stepBoxSeal       // the number of its seal
	stepPar           // how many a place should hold, by digits
	stepOther         // an alternative, by its spoken number
	stepBuy           // how many were ordered, by digits
	stepFind          // a spoken number
	stepField         // one field of a form
	stepWords         // one that is typed in words
	stepRead          // where a file is
	stepFile          // where one shall be
)

// words tells whether a question may be answered with typed words.
func (s step) words() bool {
	return s == stepWhy || s == stepSeal || s == stepBoxSeal || s.everywhere()
}

// everywhere tells whether words are typed also where there is no keyboard.
func (s step) everywhere() bool { return s == stepWords || s == stepRead || s == stepFile }

// purpose is what the second person is for.
type purpose int

const (
	forKit     purpose = iota // found the kit as it is proposed
	forCheck                  // found a prepared kit as it was prepared
	forCount                  // counted too
	forWitness                // saw what is recorded already
)

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	at    Wanted // the page that is open
	step  step
	to    purpose
	role  mesh.ID
	typed string // digits, or words on a desk

	count    counting
	place    kits.Place  // whose par is changed
	item     mesh.Number // that was ordered
	straight bool        // the way to counting leads to the only room with something inside
	class    mesh.ID     // of a waste container
	litresT  int64
	room     mesh.ID // it is of

	draft    draft   // what a form has so far; nil: it was not begun
	field    string  // that is asked for
	path     string  // of the file that is read
	imported *Import // what it would change; nil: not known yet
	code     string  // a barcode that is added to the line that is opened

	fault [2]string
	said  string // what was recorded last
	last  mesh.Ref
	until time.Time // as long as it can be taken back
}

// what a tap means.
type what int

const (
	picksNothing what = iota
	picksPage         // goes to a page
	picksStep         // goes on to a question
	picksSecond       // asks for the second person
	picksRole
	picksTag
	picksNobody // no second person
	picksKit    // prepares a new kit of a template
	picksOpened // opens a kit
	picksApart  // takes it apart
	picksAll    // accepts what need not be asked for
	picksEnd    // an end of what is asked singly
	picksPart   // an end of a part of it
	picksClose
	picksWhy
	picksFetched // a line of the pick list
	picksBuy
	picksClass
	picksLitres
	picksRoom
	picksBy // how waste is told apart
	picksHold
	picksPar
	picksNoOther // takes an alternative away
	picksField   // of a form
	picksValue   // for it
	picksWrite   // writes a form down
	picksPath    // of a file
	picksTake    // takes what a file changes
)

// pick is one choice, as data.
type pick struct {
	what  what
	at    Wanted
	step  step
	to    purpose
	id    mesh.ID
	tag   mesh.Tag
	item  mesh.Number
	place kits.Place
	n     int // which line, or how many
	yes   bool
	text  string
}

type face = sheet.Face[pick]

// Line is one line with what a tap on it does; Off where it is only read.
type Line struct {
	Face look.RowFace
	Pick pick
}

// Button is a way, or what can be done with the whole page.
type Button struct {
	Face look.BannerFace
	Pick pick
	Off  bool
}

// View is what is shown: a question, or a page.
type View struct {
	Head    look.BannerFace
	Tell    look.BannerFace // what has to be known; empty: nothing
	Table   *Table          // in place of Lines where it is broad
	Lines   []Line
	Empty   string // said where there are no lines
	Buttons []Button
	Search  bool // words can be typed
	Sheet   *face
}

// setting is what the page depends on beside snapshot and hand.
type setting struct {
	shape
	zone  *time.Location
	files bool // the unit's lists can be read from files
}

func (v *View) line(f look.RowFace, p pick) {
	f.Off = p.what == picksNothing
	v.Lines = append(v.Lines, Line{f, p})
}

func (v *View) button(word string, p pick) {
	v.Buttons = append(v.Buttons, Button{Face: look.BannerFace{Sentence: word}, Pick: p})
}

// toPage is a tap that goes to a page.
func toPage(p Page) pick { return pick{what: picksPage, at: Wanted{Page: p}} }

// page decides what is shown.
func page(w words.Words, s Snapshot, h hand, x setting) View {
	var f face
	switch v := pageOf(w, s, h, x); {
	case h.step == stepActs:
		f = actsQuestion(v)
	case h.step != stepNone:
		f = question(w, s, h)
	default:
		if x.narrow && len(v.Buttons) > buttonsNarrow {
			v.Buttons = nil
			v.button(w.Say("charge.acts"), pick{what: picksStep, step: stepActs})
		}
		return v
	}
	return View{Sheet: &f}
}

// buttonsNarrow is how many ways stand under the lines where it is narrow.
const buttonsNarrow = 2

// actsQuestion shows what can be done with a page, on a page of its own.
func actsQuestion(v View) face {
	f := face{Head: v.Head.Sentence}
	for _, b := range v.Buttons {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: b.Face.Sentence}, b.Pick))
	}
	return f
}

// pageOf decides what is shown of a page.
func pageOf(w words.Words, s Snapshot, h hand, x setting) View {
	if s.For != h.at {
		return View{Head: look.BannerFace{Sentence: w.Say("charge.looking")}}
	}
	switch h.at.Page {
	case PageKits:
		return kitsPage(w, s)
	case PageKit:
		return kitPage(w, s)
	case PageExpiry:
		return expiryPage(w, s)
	case PagePrepare:
		return preparePage(w, s)
	case PageCounts:
		return countsPage(w, s)
	case PageCount:
		return countPage(w, s, h)
	case PageControlled:
		return controlledPage(w, s, x)
	case PageIssue:
		return issuePage(w, s, x)
	case PageRestock:
		return restockPage(w, s)
	case PageOrders:
		return ordersPage(w, s)
	case PageWaste:
		return wastePage(w, s)
	case PageRecall:
		return recallPage(w, s)
	case PageCatalogue:
		return cataloguePage(w, s, x)
	case PageItem:
		return itemPage(w, s)
	case PagePlaces:
		return placesPage(w, s)
	case PageClasses:
		return classesPage(w, s)
	case PageSets:
		return setsPage(w, s)
	case PageLists:
		return listsPage(w, h)
	case PageForm:
		return formPage(w, s, h.draft)
	}
	return readyPage(w, s)
}

// parent is the page that the way back leads to.
func parent(at Wanted) Wanted {
	switch at.Page {
	case PageKit, PageExpiry, PagePrepare:
		return Wanted{Page: PageKits}
	case PageCount:
		return Wanted{Page: PageCounts}
	case PageClasses:
		return Wanted{Page: PageWaste}
	case PageIssue:
		return Wanted{Page: PageControlled}
	case PageOrders:
		return Wanted{Page: PageRestock}
	case PageItem, PagePlaces, PageSets, PageLists:
		return Wanted{Page: PageCatalogue}
	case PageForm:
		return formParent(at)
	case PageRecall:
		return Wanted{Page: PageItem, Item: at.Item}
	}
	return Wanted{}
}

// joined puts what is there behind each other.
func joined(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, " · ")
}

// named is an item with its size or strength.
func named(i kits.ItemLine) string {
	if i.Name == "" {
		return fmt.Sprint(i.Number)
	}
	return strings.TrimSpace(string(i.Name) + " " + words.Measured(string(i.Detail)))
}

// thing is so many containers of an item.
func thing(w words.Words, n int64, i kits.ItemLine) string { return w.Counted(n, named(i)) }

// amount reads an amount as people do: containers and volume first, then the
// base measure.
func amount(w words.Words, m kits.Measured) string {
	base := w.Amount(m.Base.N, words.MeasureID(m.Base.Measure))
	if m.Base.Measure == mesh.Each {
		return w.Say("charge.containers", m.Containers)
	}
	var parts []string
	if m.Containers > 0 {
		parts = append(parts, w.Count("charge.ampoules", int(m.Containers)))
	}
	if m.OverUL > 0 {
		parts = append(parts, volume(w, m.OverUL))
	}
	if len(parts) == 0 {
		return base
	}
	return w.Say("charge.in-base", strings.Join(parts, " + "), base)
}

// volume writes a volume in millilitres, as syringes are read.
func volume(w words.Words, ul int64) string {
	text := fmt.Sprintf("%d.%03d", ul/1000, ul%1000)
	return w.Say("measure.greater.microlitre", strings.TrimSuffix(strings.TrimRight(text, "0"), "."))
}

// day writes a day as lists do: 2027-12-31; inferred: the day was not on the label.
func day(w words.Words, d uint32) string {
	switch {
	case d == 0:
		return w.Say("charge.no-day")
	case d%100 == 0:
		return fmt.Sprintf("%04d-%02d", d/10000, d/100%100)
	}
	return fmt.Sprintf("%04d-%02d-%02d", d/10000, d/100%100, d%100)
}

// lot is a lot with its last day and how surely it is known.
func lot(w words.Words, x kits.LotHeld) string {
	how := w.Say("charge.how." + words.LotHowID(x.How))
	if x.Lot == "" {
		return w.Say("charge.no-lot")
	}
	inferred := ""
	if x.Inferred {
		inferred = w.Say("charge.inferred")
	}
	return joined(w.Say("charge.lot", x.Lot), strings.TrimSpace(day(w, x.Expiry)+" "+inferred), how)
}

// clock is a day and time of the wall.
func clock(at mesh.Wall, zone *time.Location) string {
	if at == 0 {
		return ""
	}
	return time.UnixMilli(int64(at)).In(zone).Format("2006-01-02 15:04")
}

// formParent is the page that a form was opened on.
func formParent(at Wanted) Wanted {
	switch at.Form {
	case FormIssue, FormDrawUp:
		return Wanted{Page: PageControlled}
	case FormEnd, FormReverse:
		return Wanted{Page: PageIssue, Ref: at.Ref}
	case FormWaste:
		return Wanted{Page: PageClasses}
	case FormSet:
		return Wanted{Page: PageSets}
	case FormTake, FormPlace:
		return Wanted{Page: PagePlaces}
	}
	if at.Item != 0 {
		return Wanted{Page: PageItem, Item: at.Item}
	}
	return Wanted{Page: PageCatalogue}
}
