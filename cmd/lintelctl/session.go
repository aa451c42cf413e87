package main

import (
	"context"
	"errors"
	"time"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// session is one run of a device with its standard input. Its loop owns
// everything in it but the mailbox.
type session struct {
	dev  *device.Device
	w    words.Words
	out  *printer
	mail *mail

	hold  requests.Holds // who has this device, as started or said since
	peers []string       // addresses to join at
	find  bool           // the device looks for others
	over  bool           // quit was said

	requests map[mesh.Ref]look        // nil: not looked at yet
	cases    map[mesh.Ref]seenCase    // nil: not looked at yet
	members  map[mesh.Key]mesh.Status // nil: not looked at yet
	links    map[mesh.Key]linkEvent
	dials    map[string]string // by address: the last failure that was told
}

// newSession begins with nothing shown.
func newSession(dev *device.Device, w words.Words, out *printer, m *mail, o deviceOptions) *session {
	return &session{
		dev: dev, w: w, out: out, mail: m, peers: o.peers, find: o.find,
		hold:  requests.Holds{Role: mesh.ID(o.role), Tag: mesh.Tag(o.tag), Rooms: o.rooms},
		links: map[mesh.Key]linkEvent{}, dials: map[string]string{},
	}
}

// loop works until quit, the end of input (unless stay), the end of ctx or of
// the device.
func (s *session) loop(ctx context.Context, lines <-chan inputLine, stay bool, ended <-chan struct{}) {
	for !s.over && s.out.err == nil {
		var changed <-chan struct{}
		if st, err := s.dev.Station(); err == nil {
			changed = st.Changed()
		}
		select {
		case <-ctx.Done():
			return
		case <-ended:
			return
		case l, more := <-lines:
			switch {
			case more:
				s.obey(ctx, l)
			case stay:
				lines = nil
				continue
			default:
				return
			}
		case <-changed:
		case <-s.mail.news:
		}
		s.report(ctx)
	}
}

// obey carries out one line and answers it once.
func (s *session) obey(ctx context.Context, l inputLine) {
	name := ""
	e, err := func() (event, error) {
		if l.long {
			return nil, &fault{id: "line-long", blanks: []any{lineLenMax}}
		}
		all, err := split(l.text)
		if err != nil || len(all) == 0 || all[0].text[:min(1, len(all[0].text))] == "#" {
			return nil, err
		}
		name = all[0].text
		c, known := commandNamed(name)
		if !known {
			return nil, &fault{id: "command", blanks: []any{name}}
		}
		a := &arguments{words: all[1:], usage: c.usage}
		if err := a.readHappened(time.Now()); err != nil {
			return nil, err
		}
		return c.run(s, ctx, a)
	}()
	if err != nil {
		sentence, hint := explain(s.w, err)
		s.out.print(errorEvent{Event: "error", Command: name, Error: sentence, Hint: hint})
	} else if e != nil {
		s.out.print(e)
	}
}

// view looks at the station between two steps.
func (s *session) view(ctx context.Context, look func(station.View) error) error {
	st, err := s.dev.Station()
	if err != nil {
		return err
	}
	var inner error
	if err := st.Look(ctx, func(v station.View) { inner = look(v) }); err != nil {
		return err
	}
	return inner
}

// lists looks at the lists of the unit or, before there is one, at those that
// every unit starts with.
func (s *session) lists(ctx context.Context, look func(station.View) error) error {
	err := s.view(ctx, look)
	if !errors.Is(err, device.ErrNoUnit) {
		return err
	}
	starter, err := station.ReadStarter()
	if err != nil {
		return err
	}
	return look(station.Read(mesh.GroupID{}, nil, device.Verifier{}, starter).View)
}

// unit gives the station; a device that belongs to no unit founds one of its
// own first and says so, so that nothing a person records is lost.
func (s *session) unit(ctx context.Context) (*station.Station, error) {
	if st, err := s.dev.Station(); err == nil {
		return st, nil
	}
	if err := s.dev.FoundAlone(); err != nil {
		return nil, err
	}
	s.note("alone", "")
	if err := s.holdAgain(ctx); err != nil {
		return nil, err
	}
	return s.dev.Station()
}

// note tells people something.
func (s *session) note(id words.ID, address string, blanks ...any) {
	s.out.print(noteEvent{Event: "note", Note: id, Text: s.w.Say("note."+id, blanks...), Address: address})
}

// by says who records.
func (s *session) by(a *arguments) mesh.By {
	return mesh.By{Role: s.hold.Role, Tag: s.hold.Tag, Happened: a.happened, Way: a.way}
}

// record writes a mark on a request, or a new one, and says how it was kept.
func (s *session) record(ctx context.Context, command string, a *arguments, act station.Act) (event, error) {
	e, asked, err := s.write(ctx, command, a, act)
	if err != nil {
		return nil, err
	}
	e.Request, e.Ref = requests.Code(asked), asked.Hex()
	e.text = s.w.Say("done.request", command, e.Request, s.kept(e))
	return e, nil
}

// write writes any act. ref is what the act made or answered.
func (s *session) write(ctx context.Context, command string, a *arguments, act station.Act) (e doneEvent, ref mesh.Ref, err error) {
	st, err := s.unit(ctx)
	if err != nil {
		return e, ref, err
	}
	r, err := st.Do(ctx, s.by(a), act)
	if err != nil {
		return e, ref, err
	}
	e = doneEvent{Event: "done", Command: command, Saved: &r.Saved, Copies: new(int), Mark: mesh.MakeRef(s.dev.Key(), r.Tap, 1).Hex()}
	err = s.view(ctx, func(v station.View) error {
		*e.Copies, e.Outside = len(v.Peer.Copies(r.At)), !v.Peer.IsMember(s.dev.Key())
		return nil
	})
	e.text = s.w.Say("done.recorded", command, s.kept(e))
	return e, r.Ref, err
}

// kept says how a record was kept, as known at that moment.
func (s *session) kept(e doneEvent) string {
	if e.Outside {
		return s.w.Say("done.outside")
	}
	if *e.Saved {
		return s.w.Say("done.saved")
	}
	return s.w.Count("delivery.not-saved", *e.Copies)
}

// holdAgain records who has this device, if that is not what stands.
func (s *session) holdAgain(ctx context.Context) error {
	st, err := s.dev.Station()
	if err != nil {
		return err
	}
	same := false
	err = st.Look(ctx, func(v station.View) {
		h, known := v.Board.Holder(s.dev.Key())
		same = known && h.Role == s.hold.Role && h.Tag == s.hold.Tag && equalRooms(h.Rooms, s.hold.Rooms)
	})
	if err != nil || same {
		return err
	}
	_, err = st.Do(ctx, mesh.By{Role: s.hold.Role, Tag: s.hold.Tag}, station.Hold{Holds: s.hold})
	return err
}
