package main

import (
	"context"
	"strconv"
	"strings"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// prepare reads KIT TEMPLATE [by T] [checked-by T] and fills the kit as it is
// proposed: first expired, first out.
func (s *session) prepare(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine(nil, wordBy, wordChecked)
	if err != nil || len(l.words) != 2 || l.count != 0 {
		return nil, a.bad()
	}
	var acts []station.Act
	err = s.lists(ctx, func(v station.View) error {
		f, err := v.FillKit(mesh.ID(l.words[0]), mesh.ID(l.words[1]))
		f.PreparedBy, f.CheckedBy = mesh.Tag(l.given[wordBy]), mesh.Tag(l.given[wordChecked])
		if err == nil {
			acts = f.Entries()
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	for _, act := range acts[:len(acts)-1] {
		if _, _, err := s.write(ctx, "prepare", a, act); err != nil {
			return nil, err
		}
	}
	return s.plain(ctx, "prepare", a, acts[len(acts)-1])
}

func (s *session) checkKit(ctx context.Context, a *arguments) (event, error) {
	kit, more := a.next()
	tag, _ := a.next()
	if !more || len(a.words) > 0 {
		return nil, a.bad()
	}
	return s.plain(ctx, "check-kit", a, station.CheckKit{Kit: mesh.ID(kit), CheckedBy: mesh.Tag(tag)})
}

func (s *session) seal(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine(nil, wordExpires)
	if err != nil || len(l.words) != 2 {
		return nil, a.bad()
	}
	act := station.SealKit{Kit: mesh.ID(l.words[0]), Seal: mesh.Label(l.words[1])}
	if act.Expiry, err = readDay(l.given[wordExpires]); err != nil {
		return nil, err
	}
	return s.plain(ctx, "seal", a, act)
}

func (s *session) openKit(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine([]string{"broken", "inside"}, "seal", wordRoom)
	if err != nil || len(l.words) != 1 {
		return nil, a.bad()
	}
	return s.plain(ctx, "open-kit", a, station.OpenKit{
		Kit: mesh.ID(l.words[0]), Seal: mesh.Label(l.given["seal"]), Broken: l.flags["broken"], Inside: l.flags["inside"], Room: mesh.ID(l.given[wordRoom]),
	})
}

func (s *session) breakDown(ctx context.Context, a *arguments) (event, error) {
	kit, more := a.next()
	if !more || len(a.words) > 0 {
		return nil, a.bad()
	}
	return s.plain(ctx, "break-down", a, station.BreakDown{Kit: mesh.ID(kit)})
}

// order reads ITEM xN [from WORDS].
func (s *session) order(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine(nil, wordFrom)
	if err != nil {
		return nil, err
	}
	n, err := s.countedItem(ctx, l)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "order", a, station.Order{Item: n, Count: l.count, From: mesh.Label(l.given[wordFrom])})
}

// countedItem finds the item of a line that must say how many.
func (s *session) countedItem(ctx context.Context, l kitLine) (n mesh.Number, err error) {
	if l.count == 0 {
		return 0, &fault{id: "count-missing"}
	}
	return s.itemOf(ctx, l)
}

// itemOf finds the item of a line.
func (s *session) itemOf(ctx context.Context, l kitLine) (n mesh.Number, err error) {
	err = s.lists(ctx, func(v station.View) error {
		item, err := findItem(v.Ledger, l.item())
		n = item.Number
		return err
	})
	return n, err
}

// receive reads ITEM xN [lot L] [expires YYYYMMDD] [scanned] [from PLACE] [to PLACE].
func (s *session) receive(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine([]string{wordScanned}, wordLot, wordExpires, wordFrom, wordTo)
	if err != nil {
		return nil, err
	}
	act := station.Receive{Count: l.count, Lot: mesh.Label(l.given[wordLot]), How: kits.Assumed}
	if l.flags[wordScanned] {
		act.How = kits.ByScanner
	}
	if act.Expiry, err = readDay(l.given[wordExpires]); err != nil {
		return nil, err
	}
	act.Inferred = act.Expiry != 0 && act.Expiry%100 == 0
	for key, at := range map[string]*kits.Place{wordFrom: &act.From, wordTo: &act.To} {
		if text, named := l.given[key]; named {
			if *at, err = readPlace(text); err != nil {
				return nil, err
			}
		}
	}
	if act.Item, err = s.countedItem(ctx, l); err != nil {
		return nil, err
	}
	return s.plain(ctx, "receive", a, act)
}

func (s *session) holdLot(ctx context.Context, a *arguments) (event, error) {
	return s.heldLot(ctx, "hold-lot", a, true)
}
func (s *session) freeLot(ctx context.Context, a *arguments) (event, error) {
	return s.heldLot(ctx, "free-lot", a, false)
}

// heldLot reads ITEM lot L [WHY].
func (s *session) heldLot(ctx context.Context, command string, a *arguments, held bool) (event, error) {
	var item []string
	for len(a.words) > 0 {
		if lot, ok, err := a.after(wordLot); err != nil {
			return nil, err
		} else if ok {
			n, err := s.itemOf(ctx, kitLine{words: item})
			if err != nil {
				return nil, err
			}
			return s.plain(ctx, command, a, station.HoldLot{Item: n, Lot: mesh.Label(lot), Held: held, Why: mesh.Label(a.rest())})
		}
		text, _ := a.next()
		item = append(item, text)
	}
	return nil, a.bad()
}

// sealWaste reads CLASS SEAL [litres N] [room A1].
func (s *session) sealWaste(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine(nil, "litres", wordRoom)
	if err != nil || len(l.words) != 2 {
		return nil, a.bad()
	}
	act := station.SealWaste{Class: mesh.ID(l.words[0]), Seal: mesh.Label(l.words[1]), Room: mesh.ID(l.given[wordRoom])}
	if text, given := l.given["litres"]; given {
		whole, part, _ := strings.Cut(text, ".")
		act.LitresT, err = strconv.ParseInt(whole+(part + "0")[:1], 10, 32)
		if err != nil || len(part) > 1 || act.LitresT < 0 {
			return nil, a.bad()
		}
	}
	return s.plain(ctx, "seal-waste", a, act)
}
