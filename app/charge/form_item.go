package charge

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

// Fields that more than one form has, or that a scanned label fills.
const (
	fieldItem   = "item"
	fieldCount  = "count"
	fieldLot    = "lot"
	fieldExpiry = "expiry"
	fieldCodes  = "codes"
	fieldHow    = "how" // how the lot is known; no line of its own
	yes         = "yes"
)

// itemField is a field of a catalogue line: how it is read off a line, and put
// into one. set tells whether the value is one.
type itemField struct {
	field
	get func(kits.ItemLine) string
	set func(*kits.ItemLine, string) bool
}

// labelField is a field of words.
func labelField(id string, of func(*kits.ItemLine) *mesh.Label) itemField {
	return itemField{
		field: field{id: id},
		get:   func(i kits.ItemLine) string { return string(*of(&i)) },
		set:   func(i *kits.ItemLine, v string) bool { *of(i) = mesh.Label(v); return true },
	}
}

// idField is a field of one of the ids that the catalogue uses.
func idField(id string, of func(*kits.ItemLine) *mesh.ID) itemField {
	return itemField{
		field: field{id: id, asks: asksOne},
		get:   func(i kits.ItemLine) string { return string(*of(&i)) },
		set:   func(i *kits.ItemLine, v string) bool { *of(i) = mesh.ID(v); return true },
	}
}

// amountField is a field of a whole number.
func amountField(id string, how asks, most int, of func(*kits.ItemLine) *int64) itemField {
	return itemField{
		field: field{id: id, asks: how, most: most},
		get:   func(i kits.ItemLine) string { return positive(*of(&i)) },
		set: func(i *kits.ItemLine, v string) bool {
			*of(i) = number(v)
			return number(v) <= kits.QuantityMax
		},
	}
}

// positive writes a number; 0 is nothing.
func positive(n int64) string {
	if n == 0 {
		return ""
	}
	return strconv.FormatInt(n, 10)
}

// itemFields are those of a catalogue line, in the order in which they are shown.
func itemFields() []itemField {
	return append(nameFields(), append(contentFields(), keptFields()...)...)
}

func nameFields() []itemField {
	return []itemField{
		labelField("name", func(i *kits.ItemLine) *mesh.Label { return &i.Name }),
		labelField("detail", func(i *kits.ItemLine) *mesh.Label { return &i.Detail }),
		labelField("tall-man", func(i *kits.ItemLine) *mesh.Label { return &i.TallMan }),
		idField("group", func(i *kits.ItemLine) *mesh.ID { return &i.Group }),
		{field{id: "flags", asks: asksMany}, flagsOf, setFlags},
		idField("label-class", func(i *kits.ItemLine) *mesh.ID { return &i.LabelClass }),
	}
}

func contentFields() []itemField {
	return []itemField{
		{field{id: "stocked", asks: asksOne}, func(i kits.ItemLine) string { return measureText(i.Stocked) }, func(i *kits.ItemLine, v string) bool {
			i.Stocked = measureOf(v)
			return true
		}},
		{field{id: "content-measure", asks: asksOne}, func(i kits.ItemLine) string { return measureText(i.Content.Measure) }, func(i *kits.ItemLine, v string) bool {
			i.Content.Measure = measureOf(v)
			return true
		}},
		amountField("content", asksDigits, 12, func(i *kits.ItemLine) *int64 { return &i.Content.N }),
		amountField("volume", asksTenths, 6, func(i *kits.ItemLine) *int64 { return &i.VolumeUL }),
		amountField("mass", asksDigits, 9, func(i *kits.ItemLine) *int64 { return &i.MassMG }),
		idField("waste", func(i *kits.ItemLine) *mesh.ID { return &i.Waste }),
		{field{id: "exit", asks: asksOne}, func(i kits.ItemLine) string { return positive(int64(i.Exit)) }, func(i *kits.ItemLine, v string) bool {
			i.Exit = kits.ExitPolicy(number(v))
			return v != ""
		}},
		{field{id: "exit-days", asks: asksDigits, most: 3}, func(i kits.ItemLine) string { return positive(int64(i.ExitDays)) }, func(i *kits.ItemLine, v string) bool {
			i.ExitDays = uint32(number(v))
			return true
		}},
	}
}

func keptFields() []itemField {
	return []itemField{
		{field{id: "kept-at", asks: asksOne}, func(i kits.ItemLine) string { return placeText(i.KeptAt) }, func(i *kits.ItemLine, v string) (ok bool) {
			i.KeptAt, ok = kits.ParsePlace(v)
			return ok || v == ""
		}},
		labelField("kept-words", func(i *kits.ItemLine) *mesh.Label { return &i.KeptWords }),
		{field{id: fieldCodes, asks: asksMany}, func(i kits.ItemLine) string {
			var all []string
			for _, c := range i.Codes {
				all = append(all, string(c))
			}
			return strings.Join(all, several)
		}, func(i *kits.ItemLine, v string) bool {
			i.Codes = nil
			for _, c := range (draft{fieldCodes: v}).values(fieldCodes) {
				i.Codes = append(i.Codes, mesh.Label(c))
			}
			return true
		}},
		amountField("cost", asksDigits, 9, func(i *kits.ItemLine) *int64 { return &i.CostMinor }),
		idField("currency", func(i *kits.ItemLine) *mesh.ID { return &i.Currency }),
		labelField("source", func(i *kits.ItemLine) *mesh.Label { return &i.Source }),
		{field{id: "gone", asks: asksOne}, func(i kits.ItemLine) string {
			if i.Gone {
				return yes
			}
			return ""
		}, func(i *kits.ItemLine, v string) bool { i.Gone = v == yes; return true }},
	}
}

// placeText is a place as a draft keeps it.
func placeText(p kits.Place) string {
	if p.Sort == 0 {
		return ""
	}
	return p.Words()
}

// measures are those that stock and strengths are written in.
func measures() []mesh.Measure {
	return []mesh.Measure{mesh.Each, mesh.Microgram, mesh.Microlitre, mesh.Unit, mesh.Micromole}
}

func measureText(m mesh.Measure) string {
	if m == 0 {
		return ""
	}
	return string(words.MeasureID(m))
}

// measureOf is the measure that is written like this; 0: none.
func measureOf(text string) mesh.Measure {
	for _, m := range measures() {
		if measureText(m) == text {
			return m
		}
	}
	return 0
}

// flagNames are the flags that a person sets, in the order of their tiles.
func flagNames() []struct {
	id   string
	flag kits.Flags
} {
	return []struct {
		id   string
		flag kits.Flags
	}{
		{"controlled", kits.Controlled}, {"must-be-seen", kits.MustBeSeen}, {"reprocessed", kits.Reprocessed}, {"high-alert", kits.HighAlert},
		{"drug", kits.IsDrug}, {"person", kits.IsPerson}, {"look-alike", kits.LookAlike}, {"comes-out", kits.ComesOut},
	}
}

func flagsOf(i kits.ItemLine) string {
	var all []string
	for _, x := range flagNames() {
		if i.Has(x.flag) {
			all = append(all, x.id)
		}
	}
	return strings.Join(all, several)
}

// setFlags sets what can be chosen, and leaves the others.
func setFlags(i *kits.ItemLine, v string) bool {
	chosen := (draft{"flags": v}).values("flags")
	for _, x := range flagNames() {
		i.Flags &^= x.flag
		if slices.Contains(chosen, x.id) {
			i.Flags |= x.flag
		}
	}
	return true
}

// itemForm asks for a catalogue line.
func itemForm(w words.Words, s Snapshot, d draft) form {
	f := form{head: named(s.Form.Line), tell: w.Say("charge.form.item")}
	if s.For.Item == 0 {
		f.head, f.tell = w.Say("charge.form.new-item"), w.Say("charge.form.free")
		f.fields = append(f.fields, field{id: "number", asks: asksDigits, most: itemDigits})
	}
	for n, x := range s.Form.Both {
		f.tell, f.tone = w.Say("charge.form.two"), look.ToneNext
		f.fields = append(f.fields, field{id: bothID(n), name: w.Say("charge.form.value"), note: joined(named(x), differing(w, s.Form.Both, x))})
	}
	for _, x := range itemFields() {
		x.of = itemOptions(w, s, x.id, d)
		x.note = itemNote(w, x.id)
		f.fields = append(f.fields, x.field)
	}
	return f
}

// bothID is the line of one of two values; a tap takes all of it.
func bothID(n int) string { return fmt.Sprint("both", n) }

// differing is what a value says where the others say something else.
func differing(w words.Words, all []kits.ItemLine, x kits.ItemLine) string {
	var out []string
	for _, f := range itemFields() {
		if slices.ContainsFunc(all, func(y kits.ItemLine) bool { return f.get(y) != f.get(x) }) {
			out = append(out, f.called(w)+": "+cmp.Or(f.get(x), w.Say("charge.form.empty")))
		}
	}
	return strings.Join(out, ", ")
}

// drafted is a line as a form keeps it.
func drafted(x kits.ItemLine) draft {
	d := draft{}
	for _, f := range itemFields() {
		d[f.id] = f.get(x)
	}
	return d
}

// itemNote says in what a number is.
func itemNote(w words.Words, id string) string {
	switch id {
	case "content", "mass", "cost", fieldCodes, "gone":
		return w.Say("charge.note." + words.ID(id))
	}
	return ""
}

// itemOptions are what a field of a catalogue line can be.
func itemOptions(w words.Words, s Snapshot, id string, d draft) (out []option) {
	switch id {
	case "stocked", "content-measure":
		for _, m := range measures() {
			out = append(out, option{measureText(m), w.Say("charge.measure." + words.MeasureID(m)), ""})
		}
	case "exit":
		for _, x := range []kits.ExitPolicy{kits.Discard, kits.Decontaminate, kits.QuarantineDays, kits.ReturnUntaken} {
			out = append(out, option{fmt.Sprint(int(x)), w.Say("charge.exit." + words.ID(fmt.Sprint(int(x)))), ""})
		}
	case "flags":
		for _, x := range flagNames() {
			out = append(out, option{x.id, w.Say("charge.flag." + words.ID(x.id)), ""})
		}
	case "kept-at":
		out = placeOptions(s)
	case "waste":
		for _, c := range s.Waste.Class {
			out = append(out, option{string(c.ID), c.Words, ""})
		}
	case "gone":
		out = []option{{yes, w.Say("charge.form.yes"), ""}}
	case fieldCodes:
		for _, c := range d.values(fieldCodes) {
			out = append(out, option{c, c, w.Say("charge.item.take-away")})
		}
	case "currency":
		out = usedIDs(append(slices.Clone(s.Items), currencies()...), id)
	case "group", "label-class":
		out = usedIDs(s.Items, id)
	}
	return out
}

// usedIDs are the ids that lines of the catalogue have in a field.
func usedIDs(items []kits.ItemLine, id string) (out []option) {
	for _, x := range itemFields() {
		for _, i := range items {
			if v := x.get(i); x.id == id && v != "" && !slices.ContainsFunc(out, func(o option) bool { return o.value == v }) {
				out = append(out, option{v, v, ""})
			}
		}
	}
	slices.SortFunc(out, func(a, b option) int { return cmp.Compare(a.word, b.word) })
	return out
}

// currencies are the usual ones, each as a line that costs nothing.
func currencies() (out []kits.ItemLine) {
	for _, c := range []mesh.ID{"aud", "cad", "chf", "czk", "dkk", "eur", "gbp", "nok", "pln", "sek", "usd"} {
		out = append(out, kits.ItemLine{Currency: c})
	}
	return out
}

// placeOptions are the places that the unit named.
func placeOptions(s Snapshot) (out []option) {
	for _, p := range s.Form.Places {
		out = append(out, option{placeText(p.Place), s.place(p.Place), string(p.Shelf)})
	}
	return out
}

// itemActs is the line as it was filled in, or the field that cannot be so.
func itemActs(s Snapshot, d draft) ([]station.Act, string) {
	x := s.Form.Line
	if s.For.Item == 0 {
		n, known := kits.ParseNumber(d["number"])
		if !known || s.isUsed(n) {
			return nil, "number"
		}
		x = kits.ItemLine{Number: n}
	}
	for _, f := range itemFields() {
		if d[f.id] != f.get(x) && !f.set(&x, d[f.id]) {
			return nil, f.id
		}
	}
	switch {
	case x.Name == "":
		return nil, "name"
	case x.Stocked == 0:
		return nil, "stocked"
	case x.Exit == 0:
		return nil, "exit"
	case x.CostMinor > 0 && x.Currency == "":
		return nil, "currency"
	case x.Has(kits.IsDrug) && x.Detail == "":
		return nil, "detail"
	case x.Has(kits.IsDrug) && x.Content.N == 0:
		return nil, "content"
	case x.Content.N != 0 && x.Content.Measure == 0:
		return nil, "content-measure"
	}
	for _, f := range itemFields() { // one that is too long is found by itself
		y := kits.ItemLine{Number: x.Number, Stocked: x.Stocked, Exit: x.Exit, Content: x.Content}
		f.set(&y, d[f.id])
		if _, err := station.LineLen(kits.KindItemLine, &y); err != nil {
			return nil, f.id
		}
	}
	return []station.Act{station.Catalogue{Items: []kits.ItemLine{x}}}, ""
}
