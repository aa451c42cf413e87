package charge

import (
	"fmt"
	"slices"
	"strconv"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// What a new set is, as Wanted.Text.
const (
	newBundle   = "bundle"
	newTemplate = "template"
)

// Sets are what is asked for together, and what kits are prepared from.
type Sets struct {
	Bundles   []kits.BundleLine
	Templates []kits.Template
	Bundle    kits.BundleLine // that is filled in
	Template  kits.Template   // or this one
	Names     map[mesh.Number]kits.ItemLine
}

// sets lists bundles and templates.
func (s *Snapshot) sets(v station.View) {
	s.Form.Sets = Sets{Bundles: v.Ledger.Bundles(), Templates: v.Ledger.Templates(), Names: map[mesh.Number]kits.ItemLine{}}
	x := &s.Form.Sets
	b, _ := v.Ledger.Bundle(s.For.Item)
	t, _ := v.Ledger.Template(s.For.Template)
	x.Bundle, x.Template = b.Value, t.Value
	for _, l := range s.setLines() {
		x.Names[l.Item] = itemOf(v, l.Item)
	}
}

// setLines are the lines of the set that is filled in.
func (s Snapshot) setLines() []kits.TemplateLine {
	if s.For.Template != "" {
		return s.Form.Sets.Template.Lines
	}
	return s.Form.Sets.Bundle.Lines
}

// isTemplate tells whether the set is a template of kits.
func (s Snapshot) isTemplate() bool { return s.For.Template != "" || s.For.Text == newTemplate }

// setsPage lists bundles and templates.
func setsPage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconKit, Sentence: w.Say("charge.sets.head")}, Empty: w.Say("charge.sets.none")}
	for _, t := range s.Form.Sets.Templates {
		f := look.RowFace{Icon: look.IconKit, Word: string(t.Name), Detail: w.Say("charge.sets.template"), State: w.Count("charge.lines", len(t.Lines))}
		v.line(f, pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormSet, Template: t.ID}})
	}
	for _, b := range s.Form.Sets.Bundles {
		f := look.RowFace{Icon: look.IconList, Word: string(b.Name), Detail: joined(w.Say("charge.sets.bundle", b.Number), string(b.Words)), State: w.Count("charge.lines", len(b.Lines))}
		v.line(f, pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormSet, Item: b.Number}})
	}
	v.button(w.Say("charge.sets.new-template"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormSet, Text: newTemplate}})
	v.button(w.Say("charge.sets.new-bundle"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormSet, Text: newBundle}})
	return v
}

// wheres are where a line of a set belongs.
func wheres(w words.Words) (out []option) {
	for _, x := range []mesh.ID{kits.WhereInside, kits.WhereAtDoor, kits.WhereOutside} {
		out = append(out, option{string(x), w.Say("charge.where." + words.ID(x)), ""})
	}
	return out
}

// setForm asks for a set: what it is called, how many of each line and where they
// belong, and one more line.
func setForm(w words.Words, s Snapshot, d draft) form {
	x := s.Form.Sets
	f := form{head: string(x.Template.Name) + string(x.Bundle.Name), tell: w.Say("charge.sets.tell")}
	switch s.For.Text {
	case newTemplate:
		f.head, f.fields = w.Say("charge.sets.new-template"), []field{{id: "id", note: w.Say("charge.note.id")}}
	case newBundle:
		f.head, f.fields = w.Say("charge.sets.new-bundle"), []field{{id: "number", asks: asksDigits, most: itemDigits}}
	}
	f.fields = append(f.fields, field{id: "name"})
	if !s.isTemplate() {
		f.fields = append(f.fields, field{id: "lies"})
	}
	if len(s.setLines()) > 0 {
		f.fields = append(f.fields, field{id: "wheres", asks: asksOne, of: []option{{yes, w.Say("charge.form.yes"), ""}}})
	}
	for n, l := range s.setLines() {
		name := named(x.Names[l.Item])
		where := field{id: fmt.Sprint("w", n), asks: asksOne, of: wheres(w), name: w.Say("charge.sets.where", name)}
		note := joined(where.word(d[where.id]), w.Say("charge.sets.zero"))
		f.fields = append(f.fields, field{id: fmt.Sprint("n", n), asks: asksDigits, most: parDigits, name: name, note: note})
		if d["wheres"] == yes {
			f.fields = append(f.fields, where)
		}
	}
	more := itemAsked(s, d)
	more.name = w.Say("charge.sets.more")
	f.fields = append(f.fields, more)
	if d[fieldItem] != "" {
		f.fields = append(f.fields, field{id: fieldCount, asks: asksDigits, most: parDigits}, field{id: "where", asks: asksOne, of: wheres(w)})
	}
	f.fields = append(f.fields, field{id: "gone", asks: asksOne, of: []option{{yes, w.Say("charge.form.yes"), ""}}})
	return f
}

// setStarted is a set as it stands.
func setStarted(s Snapshot) draft {
	x := s.Form.Sets
	d := draft{"name": string(x.Template.Name) + string(x.Bundle.Name), "lies": string(x.Bundle.Words)}
	for n, l := range s.setLines() {
		d[fmt.Sprint("n", n)], d[fmt.Sprint("w", n)] = strconv.FormatInt(l.Count, 10), string(l.Where)
	}
	if s.For.Text == newBundle {
		d["number"] = positive(int64(s.Form.Free))
	}
	return d
}

// setActs is the set as it was filled in, or the field that cannot be so.
func setActs(s Snapshot, d draft) ([]station.Act, string) {
	if d["name"] == "" {
		return nil, "name"
	}
	lines, bad := linesOf(s, d)
	if bad != "" {
		return nil, bad
	}
	if s.isTemplate() {
		return templateActs(s, d, lines)
	}
	return bundleActs(s, d, lines)
}

// linesOf are the lines that stay, and the one that is added.
func linesOf(s Snapshot, d draft) (out []kits.TemplateLine, bad string) {
	for n, l := range s.setLines() {
		l.Count, l.Where = number(d[fmt.Sprint("n", n)]), mesh.ID(d[fmt.Sprint("w", n)])
		if l.Where == "" {
			return nil, fmt.Sprint("w", n)
		}
		if l.Count > 0 {
			out = append(out, l)
		}
	}
	if d[fieldItem] == "" {
		if len(out) == 0 {
			return nil, fieldItem
		}
		return out, ""
	}
	item, known := s.itemLine(d)
	switch {
	case !known || item.Has(kits.IsBundle) || slices.ContainsFunc(out, func(l kits.TemplateLine) bool { return l.Item == item.Number }):
		return nil, fieldItem
	case number(d[fieldCount]) < 1:
		return nil, fieldCount
	case d["where"] == "":
		return nil, "where"
	}
	return append(out, kits.TemplateLine{Item: item.Number, Count: number(d[fieldCount]), Where: mesh.ID(d["where"])}), ""
}

func templateActs(s Snapshot, d draft, lines []kits.TemplateLine) ([]station.Act, string) {
	x := s.Form.Sets.Template
	if s.For.Text == newTemplate {
		x.ID = mesh.ID(d["id"])
		if x.ID == "" || x.ID.Valid() != nil || slices.ContainsFunc(s.Form.Sets.Templates, func(t kits.Template) bool { return t.ID == x.ID }) {
			return nil, "id"
		}
	}
	x.Name, x.Lines, x.Gone = mesh.Label(d["name"]), lines, d["gone"] == yes
	if _, err := station.LineLen(kits.KindTemplate, &x); err != nil {
		return nil, "name"
	}
	return []station.Act{station.Catalogue{Templates: []kits.Template{x}}}, ""
}

// bundleActs writes a bundle; a new one also gets the line of the catalogue that
// its number is asked for by.
func bundleActs(s Snapshot, d draft, lines []kits.TemplateLine) ([]station.Act, string) {
	x := s.Form.Sets.Bundle
	var act station.Catalogue
	if s.For.Text == newBundle {
		n, spoken := kits.ParseNumber(d["number"])
		if !spoken || s.isUsed(n) {
			return nil, "number"
		}
		x.Number = n
		act.Items = []kits.ItemLine{{Number: n, Name: mesh.Label(d["name"]), Stocked: mesh.Each, Flags: kits.IsBundle, Exit: kits.Discard}}
	}
	if x.Rescue != "" && d["lies"] == "" {
		return nil, "lies"
	}
	x.Name, x.Words, x.Lines, x.Gone = mesh.Label(d["name"]), mesh.Label(d["lies"]), lines, d["gone"] == yes
	act.Bundles = []kits.BundleLine{x}
	if _, err := station.LineLen(kits.KindBundleLine, &x); err != nil {
		return nil, "name"
	}
	return []station.Act{act}, ""
}
