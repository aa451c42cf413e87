package charge

import (
	"fmt"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// placesPage lists the places of the unit.
func placesPage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconList, Sentence: w.Say("charge.places.head"), Hint: w.Count("charge.places", len(s.Form.Places))}, Empty: w.Say("charge.places.none")}
	for _, p := range s.Form.Places {
		at := Wanted{Page: PageForm, Form: FormPlace, Place: p.Place}
		v.line(look.RowFace{Word: string(p.Name), Detail: string(p.Shelf), State: p.Place.Words()}, pick{what: picksPage, at: at})
	}
	v.button(w.Say("charge.places.new"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormPlace}})
	return v
}

// placeForm asks what a place is called; a new one also what it is.
func placeForm(w words.Words, s Snapshot) form {
	f := form{head: w.Say("charge.form.place"), tell: s.place(s.For.Place)}
	if s.For.Place.Sort == 0 {
		sorts := field{id: "sort", asks: asksOne}
		for _, x := range []kits.PlaceSort{kits.Store, kits.Trolley, kits.Supplier} {
			sorts.of = append(sorts.of, option{kits.Place{Sort: x}.Words(), w.Say("charge.sort." + words.ID(kits.Place{Sort: x}.Words())), ""})
		}
		f.head, f.tell = w.Say("charge.places.new"), w.Say("charge.form.place-tell")
		f.fields = append(f.fields, sorts, field{id: "id", note: w.Say("charge.note.id")})
	}
	f.fields = append(f.fields, field{id: "name"}, field{id: "shelf"}, field{id: "gone", asks: asksOne, of: []option{{yes, w.Say("charge.form.yes"), ""}}, note: w.Say("charge.note.gone")})
	if s.For.Place.Sort == kits.Store || s.For.Place.Sort == kits.Trolley {
		f.ways = append(f.ways, Button{Face: look.BannerFace{Sentence: w.Say("charge.form.take")}, Pick: pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormTake, Place: s.For.Place}}})
	}
	return f
}

func placeActs(s Snapshot, d draft) ([]station.Act, string) {
	p := s.Form.Place
	if s.For.Place.Sort == 0 {
		place, known := kits.ParsePlace(d["sort"] + "/" + d["id"])
		if !known || d["id"] == "" || place.ID.Valid() != nil {
			return nil, map[bool]string{true: "sort", false: "id"}[d["sort"] == ""]
		}
		p.Place = place
		for _, x := range s.Form.Places {
			if x.Place == place {
				return nil, "id"
			}
		}
	}
	if d["name"] == "" {
		return nil, "name"
	}
	p.Name, p.Shelf, p.Gone = mesh.Label(d["name"]), mesh.Label(d["shelf"]), d["gone"] == yes
	if _, err := station.LineLen(kits.KindPlaceLine, &p); err != nil {
		return nil, "name"
	}
	return []station.Act{station.Catalogue{Places: []kits.PlaceLine{p}}}, ""
}

// takeID is the field of a line that is counted.
func takeID(n int) string { return fmt.Sprint("held", n) }

// takeForm asks how many of each lot lie at a place, and shows what writing it
// would change.
func takeForm(w words.Words, s Snapshot, d draft) form {
	f := form{head: joined(w.Say("charge.form.take"), s.place(s.For.Place)), tell: w.Say("charge.form.take-tell")}
	for n, h := range s.Form.Held {
		x := field{id: takeID(n), asks: asksDigits, most: countDigits, name: joined(named(h.Item), lot(w, h.Lot)), note: w.Say("charge.form.take-book", h.Lot.N)}
		if d[x.id] != "" {
			x.note = w.Say("charge.form.take-change", h.Lot.N, fmt.Sprintf("%+d", number(d[x.id])-h.Lot.N))
		}
		f.fields = append(f.fields, x)
	}
	f.blocked = len(f.fields) == 0
	return f
}

// takeActs are the counted lines. All lots of an item that is counted have to be:
// one that is left out would count as none.
func takeActs(s Snapshot, d draft) ([]station.Act, string) {
	counted := map[mesh.Number]bool{}
	for n, h := range s.Form.Held {
		counted[h.Item.Number] = counted[h.Item.Number] || d[takeID(n)] != ""
	}
	act := station.CountPlace{Place: s.For.Place}
	for n, h := range s.Form.Held {
		switch {
		case !counted[h.Item.Number]:
			continue
		case d[takeID(n)] == "":
			return nil, takeID(n)
		}
		line := kits.Containers(h.Item.Number, number(d[takeID(n)]))
		line.Lot = h.Lot.Lot
		act.Lines = append(act.Lines, line)
	}
	if len(act.Lines) == 0 {
		return nil, takeID(0)
	}
	return []station.Act{act}, ""
}
