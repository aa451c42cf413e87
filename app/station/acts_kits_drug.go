package station

import (
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Acts of controlled drugs, and of what is given and thrown away. A case or
// room that is left out is filled in as for the acts of a case. What belongs to
// an issue is found by what was brought in for it.
type (
	// IssueDrug opens one line of the case's controlled-drug record. The ampoules
	// are carried inside before the door closes, or lie at the door; where a
	// request is named, bringing that request moves them.
	IssueDrug struct {
		Case         mesh.Ref
		Room         mesh.ID
		Request      mesh.Ref
		Thing        requests.Thing // containers; left out: what the request wants
		Lot          mesh.Label     // left out: first expired first
		From         kits.Place     // left out: where it is kept
		AtDoor       bool
		TakenBy      mesh.Tag // left out: whoever taps
		CheckedBy    mesh.Tag
		AuthorisedBy mesh.ID    // a role
		Register     mesh.Label // the page of the paper register
	}
	// Portion is how much of a drug: whole containers, or microlitres of a syringe.
	// Where no syringe is named, it is the only one of the item inside; if there is
	// none, containers are opened for it and the rest stays in a syringe.
	Portion struct {
		Item       mesh.Number
		Containers int64
		Syringe    mesh.Ref
		VolumeUL   int64 // of the syringe; 0 with a syringe: all that is in it
	}
	// GiveDrug says that a portion was given.
	GiveDrug struct {
		Case    mesh.Ref
		Room    mesh.ID
		Portion Portion
		Why     mesh.Label
	}
	// WasteDrug says that a portion was thrown away, and who saw it.
	WasteDrug struct {
		Case    mesh.Ref
		Room    mesh.ID
		Portion Portion
		Why     mesh.Label // left out: opened and not used
		Seen    Seen
	}
	// Seen is a second person who saw what the same entry records.
	Seen struct {
		Tag   mesh.Tag // empty: nobody
		Grade kits.Grade
	}
	// Witness says that a second person saw movements, at most WitnessMax of them.
	Witness struct {
		Movements []mesh.Ref
		Tag       mesh.Tag   // left out: whoever taps
		Grade     kits.Grade // 0: own device, or the same one if it recorded them
	}
	// CloseIssue closes an issue, also one that is short.
	CloseIssue struct {
		Issue mesh.Ref
		Why   mesh.Text
	}
)

// WitnessMax is how many movements one Witness names.
const WitnessMax = mesh.PartsMax - 1

func (a IssueDrug) parts(m *maker) error {
	if !a.Request.IsZero() {
		r, err := m.request(a.Request)
		if err != nil {
			return err
		}
		a.Room = r.Room
		if a.Case.IsZero() {
			a.Case = r.Case
		}
		if a.Thing.Item == 0 {
			_, a.Thing = m.brings(r)
		}
	}
	t, err := m.thing(a.Thing)
	if err != nil {
		return err
	}
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	item, _ := m.view.Ledger.Item(t.Item)
	if a.From.Sort == 0 {
		a.From = placeOr(item.Value.KeptAt)
	}
	if a.TakenBy == "" {
		a.TakenBy = m.by.Tag
	}
	lines := m.lots(a.From, t.Item, int64(t.Count), a.Lot)
	line := kits.Containers(t.Item, int64(t.Count))
	if len(lines) == 1 {
		line.Lot = lines[0].Lot
	}
	issue := m.add(kits.KindIssued, &kits.Issued{
		Case: of, Line: line, TakenBy: a.TakenBy, CheckedBy: a.CheckedBy, AuthorisedBy: a.AuthorisedBy, Register: a.Register,
	})
	m.ref = issue
	if !a.Request.IsZero() {
		return nil
	}
	body := kits.Moved{From: a.From, To: kits.Place{Sort: kits.InRoom, ID: room}, Lines: lines, Case: of, Issue: issue}
	if a.AtDoor {
		body = kits.PutAtDoor(a.From, room, lines, of, mesh.Ref{})
		body.Issue = issue
	}
	m.add(kits.KindMoved, &body)
	return nil
}

// lots are n containers of an item at a place: of the lot that is named, else
// first expired first; what does not lie there is of no known lot.
func (m *maker) lots(p kits.Place, item mesh.Number, n int64, lot mesh.Label) (out []kits.Line) {
	add := func(lot mesh.Label, n int64) {
		if n > 0 {
			out = append(out, kits.Line{Item: item, Lot: lot, Quantity: kits.Quantity{N: n, Measure: mesh.Each}})
		}
	}
	if lot != "" {
		add(lot, n)
		return out
	}
	got := m.view.Ledger.Pick(p, item, n, m.view.Today())
	unknown := got.Short
	for _, x := range got.Lots {
		if x.Lot == "" {
			unknown += x.N
		} else {
			add(x.Lot, x.N)
		}
	}
	add("", unknown)
	return out
}

func (a GiveDrug) parts(m *maker) error {
	return m.endPortion(a.Case, a.Room, a.Portion, kits.Given, a.Why, Seen{})
}

func (a WasteDrug) parts(m *maker) error {
	if a.Why == "" {
		a.Why = kits.WhyOpened
	}
	return m.endPortion(a.Case, a.Room, a.Portion, kits.Wasted, a.Why, a.Seen)
}

// endPortion brings a portion to an end, one movement for each issue that it
// belongs to, each with who saw it.
func (m *maker) endPortion(of mesh.Ref, room mesh.ID, p Portion, end kits.PlaceSort, why mesh.Label, seen Seen) error {
	of, room, err := m.where(of, room)
	if err != nil {
		return err
	}
	inside := kits.Place{Sort: kits.InRoom, ID: room}
	shares, err := m.portion(inside, of, p)
	if err != nil {
		return err
	}
	for i, x := range shares {
		body := kits.Moved{From: inside, To: kits.Place{Sort: end, ID: room}, Lines: x.lines, Case: of, Issue: x.issue, Why: why}
		moved := m.add(kits.KindMoved, &body)
		if i == 0 {
			m.ref = moved
		}
		if seen.Tag == "" {
			continue
		}
		if seen.Grade == 0 {
			seen.Grade = kits.SameDevice
		}
		m.add(kits.KindWitnessed, &kits.Witnessed{Names: moved, Lines: x.lines, Tag: seen.Tag, Grade: seen.Grade})
	}
	return nil
}

// portion is what a portion takes of what is inside, by issue.
func (m *maker) portion(inside kits.Place, of mesh.Ref, p Portion) ([]shared, error) {
	if p.Syringe.IsZero() && p.VolumeUL == 0 {
		t, err := m.thing(requests.Thing{Item: p.Item, Count: requests.Count(p.Containers)})
		if err != nil {
			return nil, err
		}
		return m.shares(inside, t.Item, int64(t.Count), ""), nil
	}
	if p.Syringe.IsZero() {
		s, known := m.view.OnlySyringe(inside, p.Item)
		if !known {
			return m.openContainers(inside, of, p)
		}
		p.Syringe = s.Ref
	}
	mv, known := m.view.Ledger.Movement(p.Syringe)
	if !known || mv.Kind != kits.KindDrawnUp {
		return nil, ErrNoSyringe
	}
	left := m.view.Ledger.Balance(kits.Cell{Place: inside, Item: mv.Syringe.Item, Syringe: mv.Ref, Measure: mv.Syringe.Quantity.Measure})
	line := mv.Syringe
	line.Quantity.N = baseOf(p.VolumeUL, m.view.Ledger.MeasuredLine(mv.Syringe).OverUL, mv.Syringe.Quantity.N)
	rest := mv.Syringe
	if rest.Quantity.N = max(left, 0); p.VolumeUL == 0 || p.VolumeUL == m.view.Ledger.MeasuredLine(rest).OverUL {
		line.Quantity.N = rest.Quantity.N // what is left, also of what was rounded before
	}
	if line.Quantity.N == 0 {
		return nil, ErrNothing
	}
	return []shared{{lines: []kits.Line{line}, issue: mv.Issue}}, nil
}

// openContainers opens as many containers as a volume needs, and takes the volume of
// what is then in the syringe.
func (m *maker) openContainers(inside kits.Place, of mesh.Ref, p Portion) ([]shared, error) {
	item, known := m.view.Ledger.Item(p.Item)
	each := item.Value.VolumeUL
	if !known || item.Value.Content.N == 0 || each <= 0 {
		return nil, ErrNoDrug
	}
	n := (p.VolumeUL + each - 1) / each
	if n > requests.CountMax {
		return nil, ErrCount
	}
	amount := kits.Quantity{N: item.Value.Content.N * n, Measure: item.Value.Content.Measure}
	body := kits.DrawnUp{
		Case: of, At: inside, Lines: m.flat(m.shares(inside, p.Item, n, "")), Item: p.Item, Amount: amount, VolumeUL: each * n,
		Label: item.Value.Name, DrawnBy: m.by.Tag, Issue: m.issueOf(inside, p.Item),
	}
	drawn := m.add(kits.KindDrawnUp, &body)
	line := kits.Line{Item: p.Item, Syringe: drawn, Quantity: kits.Quantity{N: baseOf(p.VolumeUL, each*n, amount.N), Measure: amount.Measure}}
	return []shared{{lines: []kits.Line{line}, issue: body.Issue}}, nil
}

// baseOf is what a volume of a syringe holds, rounded to the nearest.
func baseOf(ul, wholeUL, whole int64) int64 {
	if wholeUL <= 0 || ul <= 0 || ul > kits.QuantityMax/1000 {
		return 0
	}
	q, r := whole/wholeUL, whole%wholeUL
	return q*ul + (r*ul+wholeUL/2)/wholeUL
}

func (a Witness) parts(m *maker) error {
	if a.Tag == "" {
		a.Tag = m.by.Tag
	}
	if err := tags(a.Tag); err != nil {
		return err
	}
	if len(a.Movements) == 0 || len(a.Movements) > WitnessMax {
		return ErrNothing
	}
	for _, r := range a.Movements {
		mv, known := m.view.Ledger.Movement(r)
		if !known {
			return ErrNoMovement
		}
		grade := a.Grade
		if grade == 0 {
			grade = kits.OwnDevice
			if mv.Ref.Author() == m.self {
				grade = kits.SameDevice
			}
		}
		body := mv.Witness(a.Tag, grade)
		m.add(kits.KindWitnessed, &body)
	}
	return nil
}

func (a CloseIssue) parts(m *maker) error {
	if _, known := m.view.Ledger.Issue(a.Issue); !known {
		return ErrNoIssue
	}
	m.ref = a.Issue
	m.add(kits.KindIssueShut, &kits.IssueShut{Issue: a.Issue, Why: a.Why})
	return nil
}
