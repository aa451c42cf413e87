package device

import (
	"context"
	"errors"
	"time"

	"lintel/app/picture"
	"lintel/app/station"
	"lintel/mesh"
)

// Pace of fetching pictures: it is never urgent, and never in the way.
const (
	fetchPauseMin = time.Second     // between two rounds
	fetchPauseMax = 5 * time.Minute // between rounds that brought nothing, or had nothing to bring
	fetchesMax    = 64              // asks in one round
)

// fetcher fetches what the catalogue names and this device lacks, one picture at
// a time, from members with a link. Its run owns all of it but wake.
type fetcher struct {
	has    func(mesh.Hash) bool
	look   func(context.Context) (wanted []mesh.Hash, linked []mesh.Key, err error)
	ask    func(context.Context, mesh.Key, mesh.Hash) ([]byte, error)
	put    func([]byte, []mesh.Hash) (mesh.Hash, error)
	wake   chan struct{} // has a value when something can be missing, or had
	turn   int           // whom and what to begin with: another one each round
	broken map[mesh.Hash]bool
	full   bool // the disk took none in this round
}

// wakeUp makes it look again. It never blocks.
func (f *fetcher) wakeUp() {
	select {
	case f.wake <- struct{}{}:
	default: // it will look anyway
	}
}

// run fetches until ctx ends. Where nothing is missing it hardly looks until it
// is woken.
func (f *fetcher) run(ctx context.Context) {
	f.broken = map[mesh.Hash]bool{}
	pause := fetchPauseMin
	for {
		missing, got := f.round(ctx)
		switch {
		case !missing:
			pause = fetchPauseMax
		case got:
			pause = fetchPauseMin
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(pause):
			pause = min(2*pause, fetchPauseMax)
		case <-f.wake:
			pause = fetchPauseMin
			select { // many entries may come at once
			case <-ctx.Done():
				return
			case <-time.After(fetchPauseMin):
			}
			select { // what came meanwhile is looked at now
			case <-f.wake:
			default:
			}
		}
	}
}

// round asks for what is missing, and tells whether something still is, and
// whether something came.
func (f *fetcher) round(ctx context.Context) (missing, got bool) {
	wanted, linked, err := f.look(ctx)
	if err != nil {
		return false, false // there is no unit, or it ends
	}
	var lack []mesh.Hash
	for _, h := range wanted {
		if !f.has(h) && !f.broken[h] {
			lack = append(lack, h)
		}
	}
	left := fetchesMax
	f.full = false
	for i := range lack {
		h := lack[(i+f.turn)%len(lack)]
		came := false
		for j := 0; j < len(linked) && left > 0 && !came && !f.full && !f.broken[h] && ctx.Err() == nil; j++ {
			left--
			came = f.fetch(ctx, linked[(j+f.turn)%len(linked)], h, wanted)
		}
		got, missing = got || came, missing || !came && !f.broken[h]
	}
	f.turn++
	return missing, got
}

// fetch asks one device for one picture.
func (f *fetcher) fetch(ctx context.Context, from mesh.Key, h mesh.Hash, wanted []mesh.Hash) bool {
	b, err := f.ask(ctx, from, h)
	if err != nil {
		return false
	}
	_, err = f.put(b, wanted)
	var refused *picture.Refused
	if errors.As(err, &refused) {
		f.broken[h] = true // these bytes are what was named, and no picture: others have no better ones
	}
	f.full = err != nil && refused == nil
	return err == nil
}

// newFetcher makes that of a device.
func (d *Device) newFetcher() *fetcher {
	return &fetcher{
		has: d.pictures.has, ask: d.net.FetchPicture, put: d.pictures.put, wake: make(chan struct{}, 1),
		look: func(ctx context.Context) (wanted []mesh.Hash, linked []mesh.Key, err error) {
			s, err := d.Station()
			if err != nil {
				return nil, nil, err
			}
			err = s.Look(ctx, func(v station.View) {
				wanted = v.Pictures()
				for _, p := range v.Peer.Peers() {
					if p.Health == mesh.Connected {
						linked = append(linked, p.Peer)
					}
				}
			})
			return wanted, linked, err
		},
	}
}

// missesPicture tells whether an effect can mean that a picture is missing, or
// that one can be had now.
func missesPicture(ef mesh.Effect) bool {
	switch e := ef.(type) {
	case mesh.LinkState:
		return e.Peer.Health == mesh.Connected
	case mesh.Learnt:
		return station.NamesPicture(e.Facts)
	}
	return false
}
