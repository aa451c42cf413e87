package charge

import (
	"slices"
	"strings"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
)

// Form is what is filled in on a page of its own, one field after the other, and
// written down with one tap at the end.
type Form int

// Forms.
const (
	FormNone    Form = iota
	FormItem         // a line of the catalogue: Item; 0: a new one
	FormReceive      // stock that came, of Item if that is known
	FormIssue        // a controlled drug that is taken for a case
	FormDrawUp       // containers that became a syringe
	FormEnd          // what became of something of an issue: Ref
	FormReverse      // a movement that was a mistake: Movement
	FormTake         // what lies at a Place: it is counted
	FormPlace        // what a Place is called; zero: a new one
	FormSet          // a bundle: Item, a template of kits: Template, or a new one: Text
	FormWaste        // a class of waste: ID; empty: a new one
)

// draft is what was filled in so far, by field. It is text as the form keeps it.
type draft map[string]string

// asks is how a field is asked for.
type asks int

const (
	asksWords  asks = iota
	asksDigits      // a whole number
	asksTenths      // tenths of a millilitre; the draft has microlitres
	asksOne         // one of several
	asksMany        // any of several
)

// field is one question of a form.
type field struct {
	id   string
	asks asks
	of   []option
	most int    // digits
	name string // in place of the words of its id
	note string // what has to be known for it
	off  bool   // only read
	long bool   // its choices are lines, because words on tiles would be cut
}

// option is something to choose.
type option struct{ value, word, detail string }

// form is what is asked, and what stands around it.
type form struct {
	head, tell string
	fields     []field
	ways       []Button // beside the one that writes
	tone       look.Tone
	blocked    bool // nothing can be written
}

// several stands between values of a field that has more than one.
const several = "|"

// values are those of a field that may have several.
func (d draft) values(id string) []string {
	if d[id] == "" {
		return nil
	}
	return strings.Split(d[id], several)
}

// toggled has a value in a field, or not any more.
func (d draft) toggled(id, value string) string {
	all := d.values(id)
	if n := slices.Index(all, value); n >= 0 {
		return strings.Join(slices.Delete(slices.Clone(all), n, n+1), several)
	}
	return strings.Join(append(slices.Clone(all), value), several)
}

// formOf decides what is asked.
func formOf(w words.Words, s Snapshot, d draft) form {
	switch s.For.Form {
	case FormReceive:
		return receiveForm(w, s, d)
	case FormIssue:
		return issueForm(w, s, d)
	case FormDrawUp:
		return drawForm(w, s, d)
	case FormEnd:
		return endForm(w, s, d)
	case FormReverse:
		return reverseForm(w, s)
	case FormTake:
		return takeForm(w, s, d)
	case FormPlace:
		return placeForm(w, s)
	case FormWaste:
		return wasteForm(w, s)
	case FormSet:
		return setForm(w, s, d)
	}
	return itemForm(w, s, d)
}

// formPage shows a form: one line for each field.
func formPage(w words.Words, s Snapshot, d draft) View {
	f := formOf(w, s, d)
	v := View{Head: look.BannerFace{Icon: look.IconList, Sentence: f.head}, Tell: look.BannerFace{Sentence: f.tell, Tone: f.tone}}
	for _, x := range f.fields {
		p := pick{what: picksField, text: x.id}
		if x.off {
			p = pick{}
		}
		v.line(look.RowFace{Word: x.called(w), Detail: x.note, State: x.shown(w, d[x.id])}, p)
	}
	v.Empty = w.Say("charge.form.nothing")
	if !f.blocked {
		v.button(w.Say("charge.form.write"), pick{what: picksWrite})
	}
	v.Buttons = append(v.Buttons, f.ways...)
	return v
}

// called is what a field is.
func (f field) called(w words.Words) string {
	if f.name != "" {
		return f.name
	}
	return w.Say("charge.field." + words.ID(f.id))
}

// shown is what a field holds, in words.
func (f field) shown(w words.Words, value string) string {
	if value == "" {
		return w.Say("charge.form.empty")
	}
	switch f.asks {
	case asksTenths:
		return volume(w, number(value))
	case asksOne:
		return f.word(value)
	case asksMany:
		var all []string
		for _, x := range strings.Split(value, several) {
			all = append(all, f.word(x))
		}
		return strings.Join(all, ", ")
	}
	return value
}

// word is what a value of a choice is called.
func (f field) word(value string) string {
	if n := slices.IndexFunc(f.of, func(o option) bool { return o.value == value }); n >= 0 {
		return f.of[n].word
	}
	return value
}

// fieldOf is the field that is asked for.
func fieldOf(w words.Words, s Snapshot, h hand) (field, bool) {
	for _, x := range formOf(w, s, h.draft).fields {
		if x.id == h.field {
			return x, true
		}
	}
	return field{}, false
}

// fieldQuestion asks for one field: with keys, tiles, or a line to type on.
func fieldQuestion(w words.Words, s Snapshot, h hand) face {
	x, known := fieldOf(w, s, h)
	if !known {
		return face{Head: w.Say("charge.looking")}
	}
	if x.asks == asksDigits || x.asks == asksTenths {
		f := digits(w, h, x.most)
		f.Tell = look.BannerFace{Sentence: x.called(w), Hint: x.note}
		if x.asks == asksTenths {
			f.Tell.Hint, f.Word.Word = w.Say("charge.count.tenths"), volume(w, number(h.typed)*tenthUL)
		}
		return f
	}
	f := face{Head: x.called(w), Tell: look.BannerFace{Sentence: x.note}}
	tile := func(o option, on bool) {
		t := look.TileFace{Word: o.word, Detail: o.detail}
		if on && t.Detail == "" {
			t.Detail = w.Say("charge.form.chosen")
		}
		f.Choices = append(f.Choices, sheet.Tile(t, pick{what: picksValue, text: o.value}))
	}
	if h.typed != "" {
		tile(option{h.typed, h.typed, w.Say("charge.form.typed")}, false)
	}
	for _, o := range x.of {
		if x.long {
			f.Lines = append(f.Lines, sheetLine(o))
			continue
		}
		tile(o, x.asks == asksMany && slices.Contains(h.draft.values(x.id), o.value))
	}
	if x.asks == asksMany {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("charge.form.done")}, pick{what: picksStep, step: stepNone}))
		return f
	}
	if h.draft[x.id] != "" {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("charge.form.clear"), Detail: w.Say("charge.form.now", x.shown(w, h.draft[x.id]))}, pick{what: picksValue}))
	}
	return f
}

// sheetLine is a choice as a line.
func sheetLine(o option) sheet.Line[pick] {
	return sheet.Line[pick]{Face: look.BannerFace{Sentence: o.word, Hint: o.detail}, Pick: pick{what: picksValue, text: o.value}}
}
