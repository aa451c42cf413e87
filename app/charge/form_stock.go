package charge

import (
	"slices"
	"strconv"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Bounds of what is typed into forms of stock.
const (
	countDigits  = 6
	expiryDigits = 8
	hourDigits   = 3
	tenthDigits  = 5
	hourMS       = 3_600_000
)

// Where something of the record lies when it is issued.
const (
	atDoor = "door"
	within = "inside"
)

// itemLine is the line of the catalogue whose number a form holds.
func (s Snapshot) itemLine(d draft) (kits.ItemLine, bool) {
	for _, i := range s.Items {
		if int64(i.Number) == number(d[fieldItem]) {
			return i, true
		}
	}
	return kits.ItemLine{}, false
}

// itemAsked asks for an item by its spoken number, and says which it is.
func itemAsked(s Snapshot, d draft) field {
	x := field{id: fieldItem, asks: asksDigits, most: itemDigits}
	if i, known := s.itemLine(d); known {
		x.note = named(i)
	}
	return x
}

// drugAsked asks which of the few drugs of a form it is. Strength and volume are
// read whole: some differ in nothing else.
func drugAsked(s Snapshot) field {
	x := field{id: fieldItem, asks: asksOne, long: true}
	for _, i := range s.Items {
		x.of = append(x.of, option{strconv.Itoa(int(i.Number)), named(i), joined(strconv.Itoa(int(i.Number)), string(i.KeptWords))})
	}
	return x
}

// tagAsked asks for a person. Whoever is the first one of a form can be nobody
// else's second.
func tagAsked(id string, s Snapshot) field {
	x := field{id: id, asks: asksOne}
	for _, t := range s.Tags {
		x.of = append(x.of, option{string(t), string(t), ""})
	}
	return x
}

func roomAsked(s Snapshot) field {
	x := field{id: "room", asks: asksOne}
	for _, r := range s.Rooms {
		x.of = append(x.of, option{string(r.ID), r.Name, s.Cases[r.Case]})
	}
	return x
}

// receiveForm asks what came. A label fills all but how many.
func receiveForm(w words.Words, s Snapshot, d draft) form {
	return form{head: w.Say("charge.form.receive"), tell: w.Say("charge.form.receive-tell"), fields: []field{
		itemAsked(s, d),
		{id: fieldCount, asks: asksDigits, most: countDigits, note: w.Say("charge.note.count")},
		{id: fieldLot, note: howNote(w, d)},
		{id: fieldExpiry, asks: asksDigits, most: expiryDigits, note: w.Say("charge.note.expiry")},
		{id: "to", asks: asksOne, of: placeOptions(s)},
	}}
}

// howNote says how a lot is known.
func howNote(w words.Words, d draft) string {
	if d[fieldHow] == "" || d[fieldLot] == "" {
		return ""
	}
	return w.Say("charge.how." + words.ID(d[fieldHow]))
}

// isDay tells whether a day is one, or a month without a day: 20271231, 202712.
func isDay(text string) (day uint32, ok bool) {
	if text == "" {
		return 0, true
	}
	if len(text) == 6 {
		text += "00"
	}
	n := number(text)
	month, last := n/100%100, n%100
	return uint32(n), len(text) == 8 && n/10000 >= 2000 && month >= 1 && month <= 12 && last <= 31
}

func receiveActs(s Snapshot, d draft) ([]station.Act, string) {
	item, known := s.itemLine(d)
	if !known {
		return nil, fieldItem
	}
	n := number(d[fieldCount])
	if n < 1 || n > kits.PiecesMax {
		return nil, fieldCount
	}
	day, ok := isDay(d[fieldExpiry])
	if !ok || day != 0 && d[fieldLot] == "" {
		return nil, map[bool]string{true: fieldLot, false: fieldExpiry}[ok]
	}
	act := station.Receive{Item: item.Number, Count: n, Lot: mesh.Label(d[fieldLot]), Expiry: day, Inferred: day != 0 && day%100 == 0, How: kits.Assumed}
	if d[fieldHow] == "scanned" {
		act.How = kits.ByScanner
	}
	if act.To, _ = kits.ParsePlace(d["to"]); act.To.Sort == 0 && item.KeptAt.Sort == 0 {
		return nil, "to"
	}
	return []station.Act{act}, ""
}

// issueForm asks for one line of the controlled-drug record.
func issueForm(w words.Words, s Snapshot, _ draft) form {
	roles := field{id: "authorised", asks: asksOne}
	for _, r := range s.Roles {
		roles.of = append(roles.of, option{string(r.ID), r.Words, ""})
	}
	return form{head: w.Say("charge.form.issue"), tell: w.Say("charge.controlled.caution"), fields: []field{
		drugAsked(s),
		{id: fieldCount, asks: asksDigits, most: countDigits, note: w.Say("charge.note.count")},
		roomAsked(s),
		{id: "where", asks: asksOne, of: []option{{within, w.Say("charge.form.inside"), ""}, {atDoor, w.Say("charge.form.door"), ""}}},
		{id: "from", asks: asksOne, of: placeOptions(s)},
		{id: fieldLot, note: w.Say("charge.note.lot")},
		tagAsked("taken", s), tagAsked("checked", s), roles, {id: "register"},
	}}
}

func issueActs(s Snapshot, d draft) ([]station.Act, string) {
	item, known := s.itemLine(d)
	n := number(d[fieldCount])
	switch {
	case !known:
		return nil, fieldItem
	case n < 1 || n > requests.CountMax:
		return nil, fieldCount
	case d["room"] == "":
		return nil, "room"
	case d["where"] == "":
		return nil, "where"
	case d["taken"] == "":
		return nil, "taken"
	case d["checked"] == d["taken"]:
		return nil, "checked"
	}
	act := station.IssueDrug{
		Case: s.caseIn(d["room"]), Room: mesh.ID(d["room"]), Thing: requests.Thing{Item: item.Number, Count: requests.Count(n)}, Lot: mesh.Label(d[fieldLot]),
		AtDoor: d["where"] == atDoor, TakenBy: mesh.Tag(d["taken"]), CheckedBy: mesh.Tag(d["checked"]), AuthorisedBy: mesh.ID(d["authorised"]), Register: mesh.Label(d["register"]),
	}
	act.From, _ = kits.ParsePlace(d["from"])
	return []station.Act{act}, ""
}

// caseIn is the case that is open in a room.
func (s Snapshot) caseIn(room string) mesh.Ref {
	for _, r := range s.Rooms {
		if string(r.ID) == room {
			return r.Case
		}
	}
	return mesh.Ref{}
}

// drawForm asks for a syringe: containers and what was added become one. It says
// what the label has to say.
func drawForm(w words.Words, s Snapshot, d draft) form {
	f := form{head: w.Say("charge.form.draw"), tell: w.Say("charge.form.draw-tell"), fields: []field{
		drugAsked(s),
		{id: fieldCount, asks: asksDigits, most: countDigits, note: w.Say("charge.note.drawn")},
		roomAsked(s),
		{id: "volume", asks: asksTenths, most: tenthDigits, note: w.Say("charge.note.volume")},
		{id: "hours", asks: asksDigits, most: hourDigits, note: w.Say("charge.note.hours")},
		tagAsked("drawn", s), tagAsked("checked", s),
	}}
	if label := syringeLabel(w, s, d); label != "" {
		f.fields = append(f.fields, field{id: "label", name: label, note: w.Say("charge.note.label"), off: true})
	}
	return f
}

// syringeLabel is what has to be written on the syringe: name, whole amount in
// the whole volume, and who drew and checked it.
func syringeLabel(w words.Words, s Snapshot, d draft) string {
	item, known := s.itemLine(d)
	n, ul := number(d[fieldCount]), number(d["volume"])
	if !known || n < 1 || n > requests.CountMax || ul < 1 {
		return ""
	}
	whole := w.Amount(item.Content.N*n, words.MeasureID(item.Content.Measure))
	return joined(string(item.Name), w.Say("charge.form.in-volume", whole, volume(w, ul)), strings.Trim(d["drawn"]+" / "+d["checked"], " /"))
}

func drawActs(s Snapshot, d draft) ([]station.Act, string) {
	item, known := s.itemLine(d)
	n, ul := number(d[fieldCount]), number(d["volume"])
	switch {
	case !known:
		return nil, fieldItem
	case n < 1 || n > requests.CountMax:
		return nil, fieldCount
	case d["room"] == "":
		return nil, "room"
	case ul < 1 || ul > kits.QuantityMax:
		return nil, "volume"
	case d["drawn"] == "":
		return nil, "drawn"
	case d["checked"] == d["drawn"]:
		return nil, "checked"
	}
	act := station.DrawUp{
		Case: s.caseIn(d["room"]), Room: mesh.ID(d["room"]), Thing: requests.Thing{Item: item.Number, Count: requests.Count(n)}, VolumeUL: ul,
		Label: item.Name, DrawnBy: mesh.Tag(d["drawn"]), CheckedBy: mesh.Tag(d["checked"]),
	}
	if h := number(d["hours"]); h > 0 {
		act.DiscardAfter = s.Now + mesh.Wall(h*hourMS)
	}
	return []station.Act{act}, ""
}

// started is a form as it is opened. Nothing is chosen for a person; what stands
// already is there.
func started(s Snapshot) draft {
	d := draft{}
	switch s.For.Form {
	case FormItem:
		d = drafted(s.Form.Line)
		if s.For.Item == 0 {
			d["number"], d["stocked"] = positive(int64(s.Form.Free)), measureText(mesh.Each)
		}
	case FormReceive:
		if s.For.Item != 0 {
			d[fieldItem] = strconv.Itoa(int(s.For.Item))
		}
		d["to"] = placeText(s.Form.Line.KeptAt)
	case FormWaste:
		x := s.class()
		d["name"], d["code"], d["source"] = string(x.Name), string(x.Code), string(x.Source)
	case FormSet:
		return setStarted(s)
	case FormPlace:
		d["name"], d["shelf"] = string(s.Form.Place.Name), string(s.Form.Place.Shelf)
		if s.Form.Place.Gone {
			d["gone"] = yes
		}
	}
	return d
}

// actsOf is what a form writes, or the field that cannot be as it is.
func actsOf(s Snapshot, d draft) ([]station.Act, string) {
	acts := map[Form]func(Snapshot, draft) ([]station.Act, string){
		FormItem: itemActs, FormReceive: receiveActs, FormIssue: issueActs, FormDrawUp: drawActs, FormEnd: endActs, FormReverse: reverseActs, FormTake: takeActs, FormPlace: placeActs, FormSet: setActs, FormWaste: wasteActs,
	}[s.For.Form]
	if acts == nil || d == nil {
		return nil, fieldItem
	}
	return acts(s, d)
}

// isUsed tells whether a number was ever given to a line.
func (s Snapshot) isUsed(n mesh.Number) bool {
	is := func(i kits.ItemLine) bool { return i.Number == n }
	return slices.ContainsFunc(s.Items, is) || slices.ContainsFunc(s.Form.Gone, is)
}
