package charge

import (
	"slices"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// classes lists the classes of waste in the codes that the unit chose.
func (s *Snapshot) classes(v station.View) {
	s.Form.Country = v.WasteQuestion().Country
	s.Form.Classes = v.Ledger.WasteLines(s.Form.Country)
}

// class is the class of waste that is filled in.
func (s Snapshot) class() kits.WasteLine {
	if n := slices.IndexFunc(s.Form.Classes, func(x kits.WasteLine) bool { return x.Class == s.For.ID }); n >= 0 && s.For.ID != "" {
		return s.Form.Classes[n]
	}
	return kits.WasteLine{Country: s.Form.Country}
}

// classesPage lists the classes of waste with their codes.
func classesPage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconList, Sentence: w.Say("charge.classes.head"), Hint: string(s.Form.Country)}, Empty: w.Say("charge.classes.none")}
	for _, x := range s.Form.Classes {
		v.line(look.RowFace{Word: string(x.Name), Detail: string(x.Class), State: string(x.Code)}, pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormWaste, ID: x.Class}})
	}
	v.button(w.Say("charge.classes.new"), pick{what: picksPage, at: Wanted{Page: PageForm, Form: FormWaste}})
	return v
}

// wasteForm asks for a class of waste.
func wasteForm(w words.Words, s Snapshot) form {
	f := form{head: w.Say("charge.classes.new"), tell: w.Say("charge.classes.tell", s.Form.Country)}
	if s.For.ID == "" {
		f.fields = append(f.fields, field{id: "id", note: w.Say("charge.note.id")})
	} else {
		f.head = string(s.class().Name)
	}
	f.fields = append(f.fields, field{id: "name"}, field{id: "code"}, field{id: "source"}, field{id: "gone", asks: asksOne, of: []option{{yes, w.Say("charge.form.yes"), ""}}})
	return f
}

func wasteActs(s Snapshot, d draft) ([]station.Act, string) {
	x := s.class()
	if s.For.ID == "" {
		x.Class = mesh.ID(d["id"])
		if x.Class == "" || x.Class.Valid() != nil || slices.ContainsFunc(s.Form.Classes, func(y kits.WasteLine) bool { return y.Class == x.Class }) {
			return nil, "id"
		}
	}
	if d["name"] == "" {
		return nil, "name"
	}
	x.Name, x.Code, x.Source, x.Gone = mesh.Label(d["name"]), mesh.Label(d["code"]), mesh.Label(d["source"]), d["gone"] == yes
	if _, err := station.LineLen(kits.KindWasteLine, &x); err != nil {
		return nil, "name"
	}
	return []station.Act{station.WriteWaste{Line: x}}, ""
}
