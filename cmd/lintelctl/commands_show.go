package main

import (
	"context"
	"fmt"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// peerEvent is one device of the unit.
type peerEvent struct {
	Event     string   `json:"event"` // peer
	Device    string   `json:"device"`
	Name      string   `json:"name"`
	Status    words.ID `json:"status"`
	Self      bool     `json:"self"`
	Health    words.ID `json:"health,omitempty"`
	Via       string   `json:"via,omitempty"`
	Address   string   `json:"address,omitempty"`
	RoundTrip int64    `json:"round_trip_us,omitempty"`
	OffsetMS  int64    `json:"offset_ms,omitempty"`
	WithinMS  int64    `json:"within_ms,omitempty"`

	Found  []words.ID `json:"found,omitempty"`   // typed, remembered, beacon, mdns, told, itself
	ToldBy []string   `json:"told_by,omitempty"` // names of the devices that told

	Battery  *int32 `json:"battery,omitempty"` // per cent, as that device recorded it last
	Charging bool   `json:"charging,omitempty"`
	Shown    *int32 `json:"battery_drill,omitempty"` // per cent that a drill says, and screens show
	DiskMB   uint64 `json:"disk_mb,omitempty"`

	link string // for people
}

func (e peerEvent) say(w words.Words) string {
	said := e.sayDevice(w)
	if e.Battery != nil {
		said += w.Say("list.battery", *e.Battery)
	}
	if e.Charging {
		said += w.Say("list.charging")
	}
	if e.Shown != nil {
		said += w.Say("list.battery-drill", *e.Shown)
	}
	return said
}

func (e peerEvent) sayDevice(w words.Words) string {
	if len(e.Found) > 0 {
		return w.Say("list.peer-found", e.Device[:8], e.Name, w.Say("status."+e.Status), e.link, e.sayFound(w))
	}
	return w.Say("list.peer", e.Device[:8], e.Name, w.Say("status."+e.Status), e.link)
}

func statusID(s mesh.Status) words.ID {
	switch s {
	case mesh.Member:
		return "member"
	case mesh.RemovedOut:
		return "removed"
	case mesh.Unreached:
		return "unreached"
	}
	return "stranger"
}

func (s *session) listPeers(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	var all []event
	err := s.view(ctx, func(v station.View) error {
		links := map[mesh.Key]mesh.PeerState{}
		for _, p := range v.Peer.Peers() {
			links[p.Peer] = p
		}
		names := map[mesh.Key]string{}
		for _, d := range v.Peer.Devices() {
			names[d.Key] = string(d.Name)
		}
		for _, d := range v.Peer.Devices() {
			e := peerEvent{Event: "peer", Device: d.Key.Hex(), Name: string(d.Name), Status: statusID(d.Status), Self: d.Key == s.dev.Key()}
			p := links[d.Key]
			if e.link = s.w.Say("list.self"); !e.Self {
				l := linkOf(p, e.Name)
				e.Health, e.Via, e.Address, e.RoundTrip, e.link = l.Health, l.Via, l.Address, l.RoundTrip, s.w.Say("health."+l.Health)
				e.OffsetMS, e.WithinMS = p.OffsetMS, p.WithinMS
				e.foundBy(s.dev.FoundBy(d.Key), p.Link != 0, names)
			}
			if c, _, told := v.Board.Condition(d.Key); told && c.Battery >= 0 {
				e.Battery, e.Charging, e.DiskMB = &c.Battery, c.Charging, c.DiskMB
			}
			if h, held := v.Board.Holder(d.Key); held && v.BatteryInject(h) {
				c, _ := v.BatteryShown(h)
				e.Shown = &c.Battery
			}
			all = append(all, e)
		}
		return nil
	})
	return s.list("peers", all, err)
}

// list prints lines and answers with their number.
func (s *session) list(command string, all []event, err error) (event, error) {
	if err != nil {
		return nil, err
	}
	for _, e := range all {
		s.out.print(e)
	}
	return s.listed(command, len(all)), nil
}

// holderEvent says who has a device.
type holderEvent struct {
	Event  string    `json:"event"` // holder
	Device string    `json:"device"`
	Name   string    `json:"name"`
	Role   mesh.ID   `json:"role"`
	Tag    mesh.Tag  `json:"tag"`
	Rooms  []mesh.ID `json:"rooms"` // empty: every room
}

func (e holderEvent) say(w words.Words) string {
	rooms := w.Say("list.every")
	if len(e.Rooms) > 0 {
		rooms = w.Say("list.rooms", strings.Trim(fmt.Sprint(e.Rooms), "[]"))
	}
	return w.Say("list.holder", e.Name, e.Role, e.Tag, rooms)
}

func (s *session) listHolders(ctx context.Context) (event, error) {
	var all []event
	err := s.view(ctx, func(v station.View) error {
		names := map[mesh.Key]string{}
		for _, d := range v.Peer.Devices() {
			names[d.Key] = string(d.Name)
		}
		for _, h := range v.Board.Holders() {
			all = append(all, holderEvent{Event: "holder", Device: h.Device.Hex(), Name: names[h.Device], Role: h.Role, Tag: h.Tag, Rooms: append([]mesh.ID{}, h.Rooms...)})
		}
		return nil
	})
	return s.list("hold", all, err)
}

func (s *session) board(ctx context.Context, a *arguments) (event, error) {
	_, whole := a.keyword("all")
	if err := a.done(); err != nil {
		return nil, err
	}
	var all []event
	err := s.view(ctx, func(v station.View) error {
		listed := v.Board.Open()
		if whole {
			listed = v.Board.Requests()
		}
		for _, r := range listed {
			all = append(all, describe(v, s.w, r, lookAt(v, r, s.dev.Key())))
		}
		return nil
	})
	return s.list("board", all, err)
}

// balanceEvent is how much of something is at a place.
type balanceEvent struct {
	Event  string `json:"event"` // balance
	Place  string `json:"place"`
	Item   string `json:"item"`
	Number uint32 `json:"number"`
	Lot    string `json:"lot,omitempty"`
	Count  int64  `json:"count"`
}

func (e balanceEvent) say(w words.Words) string {
	return w.Say("list.balance", e.Place, e.Count, e.Item)
}

func (s *session) ledger(ctx context.Context, a *arguments) (event, error) {
	places, err := s.places(ctx, a)
	if err != nil {
		return nil, err
	}
	var all []event
	err = s.view(ctx, func(v station.View) error {
		for _, b := range v.Ledger.Balances() {
			if len(places) > 0 && b.Cell.Place != places[0] {
				continue
			}
			all = append(all, balanceEvent{
				Event: "balance", Place: b.Cell.Place.Words(), Item: nameOf(v.Ledger, b.Cell.Item), Number: uint32(b.Cell.Item),
				Lot: string(b.Cell.Lot), Count: b.N,
			})
		}
		return nil
	})
	return s.list("ledger", all, err)
}

func (s *session) audit(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	var all []event
	err := s.view(ctx, func(v station.View) error {
		for _, f := range findings(v) {
			all = append(all, f)
		}
		return nil
	})
	return s.list("audit", all, err)
}

func (s *session) hash(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	e := s.said("hash")
	err := s.view(ctx, func(v station.View) error {
		e.Hash, e.Fold = v.StateHash().Hex(), mesh.FoldVersion
		v.Peer.EachItem(func(mesh.Order, mesh.Item) { e.Entries++ })
		return nil
	})
	e.text = s.w.Say("done.hash", e.Hash, e.Fold, e.Entries)
	return e, err
}
