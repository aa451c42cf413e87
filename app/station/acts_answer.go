package station

import (
	"fmt"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// answered is what an Agree or Refuse answers: with an alternative the newest
// offer that is open, else the newest read-back that stands, else that offer.
func (m *maker) answered(r requests.Request, which uint8) (mesh.Ref, error) {
	for i := len(r.Offers) - 1; i >= 0; i-- {
		o := r.Offers[i]
		if which > 0 && o.Open() {
			if int(which) > len(o.Things) {
				return mesh.Ref{}, fmt.Errorf("%w: %d of %d", ErrAlternative, which, len(o.Things))
			}
			return o.Ref, nil
		}
	}
	if which == 0 {
		for i := len(r.InHand) - 1; i >= 0; i-- {
			if r.InHand[i].Live {
				return r.InHand[i].Ref, nil
			}
		}
	}
	return mesh.Ref{}, ErrNoAnswer
}

// shown is the read-back or offer that somebody had before their eyes, which
// need not be the newest by the time they tap.
func (m *maker) shown(r requests.Request, mark mesh.Ref) (mesh.Ref, error) {
	if asked, ok := m.view.Board.RequestOf(mark); !ok || asked != r.Ref {
		return mesh.Ref{}, ErrNoAnswer
	}
	return mark, nil
}

func (a Agree) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	names, err := m.answered(r, a.Which)
	if !a.Answers.IsZero() {
		names, err = m.shown(r, a.Answers)
	}
	if err != nil {
		return err
	}
	m.add(requests.KindAgreed, &requests.Agreed{Names: names, Which: a.Which})
	return nil
}

func (a Refuse) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	names, err := m.answered(r, a.Which)
	if !a.Answers.IsZero() {
		names, err = m.shown(r, a.Answers)
	} else if err != nil && a.Which == 0 {
		for i := len(r.Offers) - 1; i >= 0 && err != nil; i-- {
			if r.Offers[i].Open() {
				names, err = r.Offers[i].Ref, nil
			}
		}
	}
	if err != nil {
		return err
	}
	m.add(requests.KindRefused, &requests.Refused{Names: names, Which: a.Which, Why: a.Why})
	return nil
}

func (a CouldNot) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	m.add(requests.KindCouldNot, &requests.CouldNot{Names: r.Ref, Why: a.Why})
	return nil
}

func (a PassOn) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	if own, _ := m.view.Board.Holder(m.self); a.To == "" || a.To == own.Tag || a.To == m.by.Tag {
		return ErrNoRunner
	}
	body := requests.PassedOn{Names: r.Ref, To: a.To}
	for _, h := range m.view.Board.Holders() {
		if h.Tag == a.To && h.Device != m.self {
			body.Key = h.Device
		}
	}
	m.add(requests.KindPassedOn, &body)
	return nil
}

func (a PassIn) parts(m *maker) error {
	if a.Room == "" {
		return ErrNoRoom
	}
	t, err := m.thing(a.Thing)
	if err != nil {
		return err
	}
	of := m.openCase(a.Case, a.Room)
	asked := m.add(requests.KindAsked, &requests.Asked{Case: of, Room: a.Room, Thing: t, Urgency: requests.NextOpening, Origin: requests.PassedIn})
	held := m.add(requests.KindInHand, &requests.InHand{Names: asked, Thing: t, How: requests.Chosen})
	door := m.add(requests.KindAtDoor, &requests.AtDoor{Names: held, Door: a.Room})
	m.handOver(requests.Request{Case: of}, t, door, a.Room, placesMax, "")
	return nil
}

func (a Join) parts(m *maker) error {
	one, err := m.request(a.One)
	if err != nil {
		return err
	}
	other, err := m.request(a.Other)
	if err != nil {
		return err
	}
	if one.Ref == other.Ref {
		return ErrSameRequest
	}
	m.ref = one.Ref
	m.add(requests.KindJoined, &requests.Joined{One: one.Ref, Other: other.Ref})
	return nil
}

func (a JoinCode) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	return m.joinCode(r.Ref, r.Room, a.Code)
}

func (m *maker) joinCode(asked mesh.Ref, room mesh.ID, code mesh.Label) error {
	if !mesh.DammFits(string(code)) {
		return fmt.Errorf("%w: %s", ErrCode, code)
	}
	m.add(requests.KindJoinedCode, &requests.JoinedCode{Names: asked, Room: room, Code: code})
	return nil
}

func (a Move) parts(m *maker) error {
	for i := range a.Movements {
		m.add(kits.KindMoved, &a.Movements[i])
	}
	return nil
}

func (a Admit) parts(m *maker) error {
	m.add(mesh.KindAdmitted, &mesh.Admitted{Key: a.Key, Name: a.Name})
	return nil
}

func (a Name) parts(m *maker) error {
	part, err := m.view.Peer.NameOf(a.Key, a.Name)
	m.made = append(m.made, part)
	return err
}

func (a Remove) parts(m *maker) error {
	parts, err := m.view.Peer.RemovalOf(a.Key, a.Why)
	if err != nil {
		return err
	}
	for _, d := range m.view.Peer.Devices() {
		if d.Key == a.Key {
			m.made = append(m.made, parts...)
			return nil
		}
	}
	return ErrNoDevice
}

func (a ClosePairing) parts(m *maker) error {
	m.add(mesh.KindPairingClosed, &mesh.PairingClosed{Failures: a.Failures, ForSeconds: a.ForSeconds})
	return nil
}
