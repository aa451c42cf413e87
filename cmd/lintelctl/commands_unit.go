package main

import (
	"context"
	"slices"
	"strings"
	"unicode"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/lan"
	"lintel/requests"
)

func equalRooms(a, b []mesh.ID) bool { return slices.Equal(a, b) }

// holdCommand says who has this device from now on; without words it lists who
// has which.
func (s *session) holdCommand(ctx context.Context, a *arguments) (event, error) {
	if len(a.words) == 0 {
		return s.listHolders(ctx)
	}
	next := s.hold
	var rooms []mesh.ID
	for len(a.words) > 0 {
		key, ok := a.keyword("role", wordTag, wordRoom, "every-room")
		if !ok {
			return nil, a.bad()
		}
		if key == "every-room" {
			rooms, next.Rooms = nil, nil
			continue
		}
		value, more := a.next()
		if !more {
			return nil, a.bad()
		}
		switch key {
		case "role":
			next.Role = mesh.ID(value)
		case wordTag:
			next.Tag = mesh.Tag(value)
		default:
			rooms = append(rooms, mesh.ID(value))
			next.Rooms = rooms
		}
	}
	if err := s.knownRole(ctx, next.Role); err != nil {
		return nil, err
	}
	before := s.hold
	s.hold = next
	e, _, err := s.write(ctx, "hold", a, station.Hold{Holds: next})
	if err != nil {
		s.hold = before
		return nil, err
	}
	return e, nil
}

// knownRole reports a role that the unit's list does not have.
func (s *session) knownRole(ctx context.Context, role mesh.ID) error {
	var roles []requests.Role
	if err := s.lists(ctx, func(v station.View) error { roles = v.Board.Roles(); return nil }); err != nil {
		return err
	}
	var ids []string
	for _, r := range roles {
		if r.ID == role {
			return nil
		}
		ids = append(ids, string(r.ID))
	}
	return &fault{id: "no-role", blanks: []any{role, strings.Join(ids, " ")}, usage: true}
}

func (s *session) found(ctx context.Context, a *arguments) (event, error) {
	name := a.rest()
	if name == "" {
		return nil, a.bad()
	}
	if err := s.dev.Found(mesh.Label(name)); err != nil {
		return nil, err
	}
	e := s.said("found")
	e.Unit, e.text = name, s.w.Say("done.found", name)
	return e, s.holdAgain(ctx)
}

func (s *session) invite(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	m := s.mail
	code, until, err := s.dev.Invite(ctx, s.by(a), func(k mesh.Key, err error) { m.post(aboutInvite{k.Hex()}, invited{k, err}) })
	if err != nil {
		return nil, err
	}
	e := s.said("invite")
	e.Code, e.Until, e.Address = strings.ReplaceAll(code, " ", ""), until.UnixMilli(), s.dev.Address()
	e.text = s.w.Say("done.invite", code, until.Local().Format("15:04:05"), e.Address)
	return e, nil
}

func (s *session) join(ctx context.Context, a *arguments) (event, error) {
	var code strings.Builder
	for len(a.words) > 0 && strings.IndexFunc(a.words[0].text, func(r rune) bool { return !unicode.IsDigit(r) && r != '-' && r != ' ' }) < 0 {
		digits, _ := a.next()
		code.WriteString(digits)
	}
	if code.Len() == 0 {
		return nil, &fault{id: "code-missing"}
	}
	if _, err := lan.ReadCode(code.String()); err != nil {
		return nil, err
	}
	where := s.joiningBy(code.String())
	addr, named := a.next()
	if err := a.done(); err != nil {
		return nil, err
	}
	var err error
	if named {
		err = where.join(ctx, addr)
	} else {
		err = where.run(ctx)
	}
	if err != nil {
		return nil, err
	}
	if err := s.holdAgain(ctx); err != nil {
		return nil, err
	}
	e := s.said("join")
	err = s.view(ctx, func(v station.View) error { e.Unit = string(v.Peer.Unit()); return nil })
	e.text = s.w.Say("done.join", e.Unit)
	return e, err
}

func (s *session) dial(_ context.Context, a *arguments) (event, error) {
	addr, more := a.next()
	if !more || len(a.words) > 0 {
		return nil, a.bad()
	}
	if !strings.Contains(addr, ":") {
		return nil, about(lan.ErrAddress, addr)
	}
	s.dev.Keep(addr)
	e := s.said("dial")
	e.Address, e.text = addr, s.w.Say("done.dial", addr)
	return e, nil
}

func (s *session) remove(ctx context.Context, a *arguments) (event, error) {
	name, more := a.next()
	if !more {
		return nil, a.bad()
	}
	var found []mesh.Device
	err := s.view(ctx, func(v station.View) error {
		for _, d := range v.Peer.Devices() {
			if d.Status == mesh.Member && (string(d.Name) == name || strings.HasPrefix(d.Key.Hex(), name)) {
				found = append(found, d)
			}
		}
		return nil
	})
	switch {
	case err != nil:
		return nil, err
	case len(found) == 0:
		return nil, about(station.ErrNoDevice, name)
	case len(found) > 1:
		return nil, &fault{id: "device-many", blanks: []any{name}}
	}
	e, _, err := s.write(ctx, "remove", a, station.Remove{Key: found[0].Key, Why: mesh.Label(a.rest())})
	if err != nil {
		return nil, err
	}
	e.Device, e.text = found[0].Key.Hex(), s.w.Say("done.remove", found[0].Name)
	return e, nil
}

// stockDemo fills the invented unit: rooms, par levels and opening stock.
func (s *session) stockDemo(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	acts, n, err := station.DemoStock()
	if err != nil {
		return nil, err
	}
	st, err := s.unit(ctx)
	if err != nil {
		return nil, err
	}
	err = s.view(ctx, func(v station.View) error {
		if len(v.Ledger.Movements()) > 0 {
			return &fault{id: "stock-there"}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	saved := true
	for _, act := range acts {
		r, err := st.Do(ctx, s.by(a), act)
		if err != nil {
			return nil, err
		}
		saved = saved && r.Saved
	}
	e := s.said("stock-demo")
	e.Saved, e.Count, e.Invented, e.text = &saved, &n, true, s.w.Say("done.stock", n)
	return e, nil
}
