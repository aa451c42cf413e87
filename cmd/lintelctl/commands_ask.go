package main

import (
	"context"
	"encoding/hex"
	"errors"
	"slices"
	"strings"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// room is the named room, else the first that the device was started with.
func (s *session) room(named mesh.ID) mesh.ID {
	if named == "" && len(s.hold.Rooms) > 0 {
		return s.hold.Rooms[0]
	}
	return named
}

// asked makes the act of an ask or a voice.
func (s *session) asked(ctx context.Context, w wanted) (act station.Ask, lies string, err error) {
	if w.urgency == 0 {
		w.urgency = requests.RightNow
	}
	if err := s.knownRoom(ctx, w.room); err != nil {
		return act, lies, err
	}
	err = s.lists(ctx, func(v station.View) error {
		t, err := thing(v, w, 1)
		if err != nil {
			return err
		}
		if b, ok := v.Ledger.Bundle(t.Item); ok {
			lies = string(b.Value.Words)
		}
		act = station.Ask{Room: s.room(w.room), Thing: t, Urgency: w.urgency, Out: w.out, Tag: w.tag}
		if act.Room == "" {
			return station.ErrNoRoom
		}
		return nil
	})
	return act, lies, err
}

func (s *session) ask(ctx context.Context, a *arguments) (event, error) {
	w, err := a.wanted(append(urgencies(), wordRoom, wordOut)...)
	if err != nil {
		return nil, err
	}
	act, lies, err := s.asked(ctx, w)
	if err != nil {
		return nil, err
	}
	e, err := s.record(ctx, "ask", a, act)
	if d, ok := e.(doneEvent); ok && lies != "" {
		d.Lies = lies
		d.text += s.w.Say("done.lies", lies)
		e = d
	}
	return e, err
}

func (s *session) voice(ctx context.Context, a *arguments) (event, error) {
	w, err := a.wanted(append(urgencies(), wordRoom, wordTag, wordCode)...)
	if err != nil {
		return nil, err
	}
	act, _, err := s.asked(ctx, w)
	if err != nil {
		return nil, err
	}
	act.Origin, act.Code, a.way = requests.AskedByVoice, w.code, mesh.WayVoice
	return s.record(ctx, "voice", a, act)
}

func (s *session) passed(ctx context.Context, a *arguments) (event, error) {
	w, err := a.wanted(wordRoom)
	if err != nil {
		return nil, err
	}
	act, _, err := s.asked(ctx, w)
	if err != nil {
		return nil, err
	}
	return s.record(ctx, "passed", a, station.PassIn{Room: act.Room, Thing: act.Thing})
}

// request reads REQ and finds it.
func (s *session) request(ctx context.Context, a *arguments) (r requests.Request, err error) {
	name, more := a.next()
	if !more {
		return r, a.bad()
	}
	err = s.view(ctx, func(v station.View) error {
		r, err = findRequest(v.Board, name)
		return err
	})
	return r, err
}

func (s *session) change(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	w, err := a.wanted(urgencies()...)
	if err != nil {
		return nil, err
	}
	if w.item == "" && w.count == 0 && w.urgency == 0 {
		return nil, a.bad()
	}
	t := r.Thing
	err = s.view(ctx, func(v station.View) error {
		if w.item != "" {
			t, err = thing(v, w, int64(r.Thing.Count))
			return err
		}
		if w.count > requests.CountMax {
			return station.ErrCount
		}
		if w.count > 0 {
			t.Count = requests.Count(w.count)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if w.urgency == 0 {
		w.urgency = r.Urgency
	}
	return s.record(ctx, "change", a, station.Change{Request: r.Ref, Thing: t, Urgency: w.urgency})
}

// withWhy carries out a command of the form REQ [WHY].
func (s *session) withWhy(ctx context.Context, name string, a *arguments, make func(mesh.Ref, mesh.Label) station.Act) (event, error) {
	r, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	return s.record(ctx, name, a, make(r.Ref, mesh.Label(a.rest())))
}

func (s *session) withdraw(ctx context.Context, a *arguments) (event, error) {
	return s.withWhy(ctx, "withdraw", a, func(r mesh.Ref, why mesh.Label) station.Act { return station.Withdraw{Request: r, Why: why} })
}

func (s *session) joinRequests(ctx context.Context, a *arguments) (event, error) {
	one, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	other, err := s.request(ctx, a)
	if err != nil {
		return nil, err
	}
	if err := a.done(); err != nil {
		return nil, err
	}
	return s.record(ctx, "join-requests", a, station.Join{One: one.Ref, Other: other.Ref})
}

// undo takes back one mark: the named one, or this device's last on a request
// that still stands.
func (s *session) undo(ctx context.Context, a *arguments) (event, error) {
	name := ""
	if len(a.words) > 0 {
		name = a.words[0].text
	}
	before := *a
	r, err := s.request(ctx, a)
	if err != nil {
		return s.undoFact(ctx, &before, err)
	}
	if err := a.done(); err != nil {
		return nil, err
	}
	var mark mesh.Ref
	for _, m := range r.Marks {
		switch {
		case m.Ref.Hex() == name && name != r.Ref.Hex():
			return s.record(ctx, "undo", a, station.Undo{Mark: m.Ref})
		case m.Device() == s.dev.Key() && !m.Undone && m.Kind != requests.KindUndone:
			mark = m.Ref
		}
	}
	if mark.IsZero() {
		return nil, &fault{id: "nothing-to-undo", blanks: []any{name}}
	}
	return s.record(ctx, "undo", a, station.Undo{Mark: mark})
}

// undoFact takes back something that is no mark of a request: what was recorded
// for a case, by its code, or anything by its whole ref. unknown is the error
// where nothing has that name.
func (s *session) undoFact(ctx context.Context, a *arguments, unknown error) (event, error) {
	whole := *a
	ref, err := s.fact(ctx, a)
	var f *fault
	if errors.As(err, &f) && f.id == "fact-many" {
		return nil, err
	}
	if err != nil {
		name, _ := whole.next()
		if ref, err = readRef(name); err != nil {
			return nil, unknown
		}
	}
	if err := a.done(); err != nil {
		return nil, err
	}
	held := s.belongings(ctx, ref)
	e, err := s.plain(ctx, "undo", a, station.Undo{Mark: ref})
	if errors.Is(err, station.ErrNoFact) {
		return nil, unknown
	}
	if d, is := e.(doneEvent); is && held > 0 {
		d.Apart = held
		d.text += s.w.Count("done.case-apart", held)
		e = d
	}
	return e, err
}

// readRef reads a whole ref.
func readRef(name string) (ref mesh.Ref, err error) {
	b, err := hex.DecodeString(strings.ToLower(name))
	if err != nil || len(b) != len(ref) {
		return ref, station.ErrNoFact
	}
	return mesh.Ref(b), nil
}

// places reads the optional PLACE of ledger and restock. One that the unit
// never wrote about is a slip, and not an empty place.
func (s *session) places(ctx context.Context, a *arguments) (all []kits.Place, err error) {
	text := ""
	if len(a.words) > 0 {
		text = a.words[0].text
	}
	if all, err = place(a); err != nil || len(all) == 0 {
		return nil, err
	}
	err = s.view(ctx, func(v station.View) error {
		if !isKnown(v, all[0]) {
			return &fault{id: "place", blanks: []any{text}}
		}
		return nil
	})
	return all, err
}

// isKnown tells whether a place is named, a room's, or was ever used.
func isKnown(v station.View, p kits.Place) bool {
	_, named := v.Ledger.Place(p)
	_, room := v.Board.Room(p.ID)
	if named || p.ID == "" || room && (p.Sort == kits.Door || p.Sort == kits.InRoom) {
		return true
	}
	for _, i := range v.Ledger.Items() {
		if _, par := v.Ledger.Par(p, i.Number); par {
			return true
		}
	}
	return slices.ContainsFunc(v.Ledger.Movements(), func(m kits.Movement) bool { return m.From == p || m.To == p || m.Then == p })
}

// place reads the optional PLACE.
func place(a *arguments) (places []kits.Place, err error) {
	if text, ok := a.next(); ok {
		p, known := kits.ParsePlace(text)
		if !known {
			return nil, &fault{id: "place", blanks: []any{text}}
		}
		places = append(places, p)
	}
	return places, a.done()
}
