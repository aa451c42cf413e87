package charge

import (
	"fmt"
	"strconv"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Ends of an issue that are recorded outside a count.
func endSorts() []kits.PlaceSort {
	return []kits.PlaceSort{kits.Given, kits.Wasted, kits.Broken, kits.Returned, kits.LeftWithPatient}
}

// endForm asks what became of something of an issue. What it is and how much is
// chosen, never proposed.
func endForm(w words.Words, s Snapshot, d draft) form {
	f := form{head: joined(w.Say("charge.form.end"), named(s.Form.Line)), tell: w.Say("charge.form.end-tell")}
	if len(s.Form.Portions) == 0 {
		f.tell, f.blocked = w.Say("charge.form.end-none"), true
		return f
	}
	end := field{id: "end", asks: asksOne}
	for _, x := range endSorts() {
		end.of = append(end.of, option{strconv.Itoa(int(x)), sortWord(w, x, ""), ""})
	}
	what := field{id: "portion", asks: asksOne}
	for n, p := range s.Form.Portions {
		word := w.Say("charge.form.containers")
		if !p.Syringe.IsZero() {
			word = w.Say("charge.recall.syringe")
		}
		what.of = append(what.of, option{strconv.Itoa(n), word, amount(w, p.Amount)})
	}
	f.fields = []field{end, what}
	if p, chosen := s.portion(d); chosen {
		much := field{id: fieldCount, asks: asksDigits, most: countDigits, note: w.Say("charge.form.of", amount(w, p.Amount))}
		if !p.Syringe.IsZero() {
			much.id, much.asks, much.most = "volume", asksTenths, tenthDigits
		}
		f.fields = append(f.fields, much)
	}
	switch kits.PlaceSort(number(d["end"])) {
	case kits.Wasted:
		f.fields = append(f.fields, field{id: "why"}, tagAsked("seen", s))
	case kits.LeftWithPatient:
		f.fields = append(f.fields, field{id: "unit"}, tagAsked("received", s))
	default:
		f.fields = append(f.fields, field{id: "why"})
	}
	return f
}

// portion is what was chosen of what is inside.
func (s Snapshot) portion(d draft) (Portion, bool) {
	n := number(d["portion"])
	if d["portion"] == "" || n < 0 || n >= int64(len(s.Form.Portions)) {
		return Portion{}, false
	}
	return s.Form.Portions[n], true
}

func endActs(s Snapshot, d draft) ([]station.Act, string) {
	p, chosen := s.portion(d)
	end := kits.PlaceSort(number(d["end"]))
	n, ul := number(d[fieldCount]), number(d["volume"])
	syringe := !p.Syringe.IsZero()
	switch {
	case d["end"] == "":
		return nil, "end"
	case !chosen:
		return nil, "portion"
	case !syringe && (n < 1 || n > p.N || n > requests.CountMax):
		return nil, fieldCount
	case syringe && (ul < 1 || ul > p.Amount.OverUL):
		return nil, "volume"
	case syringe && (end == kits.Broken || end == kits.Returned):
		return nil, "end"
	case syringe && end == kits.LeftWithPatient && ul != p.Amount.OverUL:
		return nil, "volume" // all that is in it goes on
	}
	i := s.Form.Issue
	portion := station.Portion{Item: i.Line.Item, Containers: n, Syringe: p.Syringe, VolumeUL: ul}
	if syringe {
		portion.Containers = 0
	} else {
		portion.VolumeUL = 0
	}
	why := mesh.Label(d["why"])
	thing := requests.Thing{Item: i.Line.Item, Count: requests.Count(portion.Containers)}
	switch end {
	case kits.Given:
		return []station.Act{station.GiveDrug{Case: i.Case, Room: s.Form.Room, Portion: portion, Why: why}}, ""
	case kits.Wasted:
		return []station.Act{station.WasteDrug{Case: i.Case, Room: s.Form.Room, Portion: portion, Why: why, Seen: station.Seen{Tag: mesh.Tag(d["seen"])}}}, ""
	case kits.LeftWithPatient:
		return []station.Act{station.LeaveWith{Case: i.Case, Room: s.Form.Room, Thing: thing, Syringe: p.Syringe, Unit: mesh.Label(d["unit"]), ReceivedBy: mesh.Tag(d["received"])}}, ""
	}
	return []station.Act{station.EndItem{Case: i.Case, Room: s.Form.Room, Thing: thing, End: end, Why: why}}, ""
}

// reverseForm says which movement is taken back, and asks why.
func reverseForm(w words.Words, s Snapshot) form {
	m := s.Form.Moved
	f := form{head: w.Say("charge.form.reverse"), tell: w.Say("charge.form.reverse-tell"), blocked: !m.Counts()}
	why := field{id: "why"}
	for _, id := range []words.ID{"charge.form.wrong-count", "charge.form.wrong-item", "charge.form.twice"} {
		why.of = append(why.of, option{w.Say(id), w.Say(id), ""})
	}
	for n, l := range m.Lines {
		x := field{id: fmt.Sprint("line", n), off: true, name: joined(w.Say("charge.way", s.place(m.From), s.place(m.To)), w.Amount(l.Quantity.N, words.MeasureID(l.Quantity.Measure)))}
		f.fields = append(f.fields, x)
	}
	if f.blocked {
		f.tell = w.Say("charge.reversed")
		return f
	}
	f.fields = append(f.fields, why)
	return f
}

func reverseActs(s Snapshot, d draft) ([]station.Act, string) {
	if d["why"] == "" {
		return nil, "why"
	}
	return []station.Act{station.Reverse{Movement: s.For.Movement, Why: mesh.Label(d["why"])}}, ""
}
