package main

import (
	"context"
	"io"
	"os"
	"strings"

	"lintel/app/picture"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
)

// pictureCommands are about what items look like and where they are kept.
func pictureCommands() []command {
	return []command{{"picture", "picture [all] | picture ITEM FILE|outline NAME|none | picture map PLACE FILE|none", "help.picture", (*session).picture}}
}

// pictureEvent is one picture that the catalogue names.
type pictureEvent struct {
	Event  string `json:"event"` // picture
	Place  string `json:"place,omitempty"`
	Number uint32 `json:"number,omitempty"`
	Name   string `json:"name"`
	Own    string `json:"own,omitempty"` // an embedded outline or map, by name
	Hash   string `json:"hash"`
	Here   bool   `json:"here"`
}

func (e pictureEvent) say(w words.Words) string {
	what := w.Say("picture.unit", e.Hash[:8])
	switch {
	case !e.Here:
		what = w.Say("picture.missing")
	case e.Own != "" && e.Place != "":
		what = w.Say("picture.map", e.Own)
	case e.Own != "":
		what = w.Say("picture.outline", e.Own)
	}
	if e.Place != "" {
		return w.Say("picture.place", e.Name, e.Place, what)
	}
	return w.Say("picture.item", e.Number, e.Name, what)
}

// picture lists pictures, or sets one: the file is the last word.
func (s *session) picture(ctx context.Context, a *arguments) (event, error) {
	if _, all := a.keyword("all"); all || len(a.words) == 0 {
		if err := a.done(); err != nil {
			return nil, err
		}
		return s.pictures(ctx, all)
	}
	_, ofPlace := a.keyword("map")
	n := len(a.words)
	if n < 2 {
		return nil, a.bad()
	}
	last := a.words[n-1]
	a.words = a.words[:n-1]
	if ofPlace {
		return s.setMap(ctx, a, last)
	}
	return s.setPicture(ctx, a, last)
}

// setPicture reads ITEM, or ITEM outline, before the last word.
func (s *session) setPicture(ctx context.Context, a *arguments, last word) (event, error) {
	drawn := false
	if n := len(a.words); n > 1 && a.words[n-1].text == "outline" && !a.words[n-1].quoted {
		drawn, a.words = true, a.words[:n-1]
	}
	text := a.rest()
	var item kits.ItemLine
	err := s.lists(ctx, func(v station.View) (err error) {
		item, err = findItem(v.Ledger, text)
		return err
	})
	if err != nil {
		return nil, err
	}
	var b []byte
	switch {
	case drawn:
		var known bool
		if b, known = assets.Outline(last.text); !known {
			return nil, &fault{id: "picture-no-line", blanks: []any{last.text, strings.Join(assets.OutlineNames(), ", ")}}
		}
	case last.text != "none" || last.quoted:
		if b, err = readPicture(last.text, picture.FileLenMax); err == nil {
			b, err = picture.OfItem(b)
		}
	}
	if err != nil {
		return nil, err
	}
	h, err := s.keepPicture(ctx, b)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "picture", a, station.SetPicture{Item: item.Number, Hash: h})
}

// setMap reads PLACE before the last word.
func (s *session) setMap(ctx context.Context, a *arguments, last word) (event, error) {
	places, err := place(a)
	if err != nil {
		return nil, err
	}
	err = s.lists(ctx, func(v station.View) error {
		if at, known := v.Ledger.Place(places[0]); !known || at.Value.Gone {
			return &fault{id: "picture-no-place", blanks: []any{places[0].Words(), strings.Join(placeWords(v), ", ")}}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	var b []byte
	if last.text != "none" || last.quoted {
		if b, err = readPicture(last.text, picture.MapLenMax); err == nil {
			b, err = picture.OfPlace(b)
		}
	}
	if err != nil {
		return nil, err
	}
	h, err := s.keepPicture(ctx, b)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "picture", a, station.SetMap{Place: places[0], Hash: h})
}

func placeWords(v station.View) (all []string) {
	for _, p := range v.Ledger.Places() {
		all = append(all, p.Place.Words())
	}
	return all
}

// keepPicture puts bytes on the disk before an entry names them; none are zeros.
func (s *session) keepPicture(ctx context.Context, b []byte) (h mesh.Hash, err error) {
	if len(b) == 0 {
		return h, nil
	}
	if _, err := s.unit(ctx); err != nil {
		return h, err
	}
	return s.dev.KeepPicture(ctx, b)
}

// readPicture reads a file, and no more of it than shows that it is too long.
func readPicture(name string, most int) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, &fault{id: "picture-file", blanks: []any{name}}
	}
	b, err := io.ReadAll(io.LimitReader(f, int64(most)+1))
	if closing := f.Close(); err != nil || closing != nil {
		return nil, &fault{id: "picture-file", blanks: []any{name}}
	}
	return b, nil
}

// pictures lists those that are missing here, or all.
func (s *session) pictures(ctx context.Context, all bool) (event, error) {
	var out []event
	own := embeddedNames()
	err := s.lists(ctx, func(v station.View) error {
		add := func(e pictureEvent, h mesh.Hash) {
			if h == (mesh.Hash{}) || !all && s.dev.HasPicture(h) {
				return
			}
			e.Event, e.Hash, e.Own, e.Here = "picture", h.Hex(), own[h], s.dev.HasPicture(h)
			out = append(out, e)
		}
		for _, i := range v.Ledger.Items() {
			add(pictureEvent{Number: uint32(i.Number), Name: itemName(i)}, i.Picture)
		}
		for _, p := range v.Ledger.Places() {
			add(pictureEvent{Place: p.Place.Words(), Name: string(p.Name)}, p.Map)
		}
		return nil
	})
	return s.list("picture", out, err)
}

// embeddedNames are the names of the pictures that every device has.
func embeddedNames() map[mesh.Hash]string {
	names := map[mesh.Hash]string{}
	for _, n := range assets.OutlineNames() {
		b, _ := assets.Outline(n) // it was just listed
		names[station.HashPicture(b)] = n
	}
	for _, n := range assets.ShelfMapNames() {
		b, _ := assets.ShelfMap(n)
		names[station.HashPicture(b)] = n
	}
	return names
}
