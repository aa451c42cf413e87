package main

import (
	"context"
	"strconv"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// lineEvent is one line of a list, as it stands in the case of this device.
type lineEvent struct {
	Event string     `json:"event"` // line
	List  mesh.ID    `json:"list"`
	Line  mesh.ID    `json:"line"`
	Words mesh.Text  `json:"words"`
	Marks uint32     `json:"marks"`
	From  mesh.Label `json:"source"`
	Open  bool       `json:"open"` // it is not ticked in the case
	Two   bool       `json:"two_values,omitempty"`
}

func (e lineEvent) say(w words.Words) string {
	said := w.Say("list.line", e.Line, e.Words)
	if !e.Open {
		said += w.Say("device.and") + w.Say("list.ticked")
	}
	if e.Two {
		said += w.Say("device.and") + w.Say("flag.two-values")
	}
	return said
}

// listNames are the lists that the program asks for.
func listNames() []string {
	return []string{
		"what", "plan", "brief", "don", "doff", "transfer", "extubation", "time", "time-after",
		"phrase-in", "phrase-out", "breach", "debrief", "not-held", "inject",
	}
}

func (s *session) listCommand(ctx context.Context, a *arguments) (event, error) {
	name, more := a.next()
	if !more {
		return nil, &fault{id: "list-none", blanks: []any{"", strings.Join(listNames(), " ")}}
	}
	c, err := s.someCase(ctx, a)
	if err != nil {
		return nil, err
	}
	var all []event
	err = s.lists(ctx, func(v station.View) error {
		lines := v.Board.List(mesh.ID(name))
		if len(lines) == 0 {
			return &fault{id: "list-none", blanks: []any{name, strings.Join(listNames(), " ")}}
		}
		open := map[mesh.ID]bool{}
		for _, l := range v.Board.NotDone(c, mesh.ID(name)) {
			open[l.ID] = true
		}
		for _, l := range lines {
			all = append(all, lineEvent{"line", l.List, l.ID, l.Words, l.Marks, l.Source, open[l.ID], l.TwoValues})
		}
		return nil
	})
	return s.list("list", all, err)
}

// lineCommand writes a line of a list: LIST ID [place N] WORDS…, or gone.
func (s *session) lineCommand(ctx context.Context, a *arguments) (event, error) {
	list, _ := a.next()
	id, more := a.next()
	if !more {
		return nil, a.bad()
	}
	l := requests.ListLine{List: mesh.ID(list), ID: mesh.ID(id)}
	if err := s.knownList(ctx, l.List); err != nil {
		return nil, err
	}
	err := s.lists(ctx, func(v station.View) error {
		if stands, known := v.Board.ListLine(l.List, l.ID); known {
			l.Words, l.Place, l.Marks = stands.Words, stands.Place, stands.Marks
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if _, ok := a.keyword("place"); ok {
		n, err := a.number(32)
		if err != nil {
			return nil, err
		}
		l.Place = uint32(n)
	}
	_, l.Gone = a.keyword("gone")
	if len(a.words) > 0 {
		l.Words = mesh.Text(a.rest())
	}
	l.Source = "written by the unit"
	return s.plain(ctx, "line", a, station.WriteLine{Line: l})
}

// settingEvent is one of the unit's own choices.
type settingEvent struct {
	Event string      `json:"event"` // setting
	Name  mesh.ID     `json:"name"`
	Value mesh.Text   `json:"value"`
	Two   []mesh.Text `json:"two_values,omitempty"` // written without knowing of each other
}

func (e settingEvent) say(w words.Words) string { return w.Say("list.setting", e.Name, e.Value) }

func (s *session) setting(ctx context.Context, a *arguments) (event, error) {
	name, more := a.next()
	if more && len(a.words) > 0 {
		return s.plain(ctx, "setting", a, station.WriteSetting{Name: mesh.ID(name), Value: mesh.Text(a.rest())})
	}
	var all []event
	err := s.lists(ctx, func(v station.View) error {
		names := []mesh.ID{mesh.ID(name)}
		if !more {
			names = settingNames(v)
		}
		for _, n := range names {
			value, known := v.Board.Setting(n)
			if !known {
				return &station.NamedError{Err: station.ErrSetting, Name: n}
			}
			e := settingEvent{Event: "setting", Name: n, Value: value}
			if two := v.Board.SettingValues(n); len(two) > 1 {
				e.Two = two
			}
			all = append(all, e)
		}
		return nil
	})
	return s.list("setting", all, err)
}

// settingNames are the settings that every unit starts with.
func settingNames(station.View) (names []mesh.ID) {
	starter, err := station.ReadStarter()
	if err != nil {
		return nil // it was read before the device began
	}
	for _, x := range starter.Roles.Settings {
		names = append(names, x.Name)
	}
	return names
}

// tileEvent is one place of the board inside.
type tileEvent struct {
	Event  string `json:"event"` // tile
	Layout string `json:"layout"`
	Place  uint32 `json:"place"`
	Number uint32 `json:"number"`
	Item   string `json:"item"`
}

func (e tileEvent) say(w words.Words) string { return w.Say("list.tile", e.Place, e.Number, e.Item) }

// layout lists the board that is in force, or accepts a new one by name, with
// some places exchanged: accept NAME [PLACE=ITEM]…
func (s *session) layout(ctx context.Context, a *arguments) (event, error) {
	_, accept := a.keyword("accept")
	name := ""
	if accept {
		var more bool
		if name, more = a.next(); !more {
			return nil, a.bad()
		}
	}
	var l requests.Layout
	var all []event
	err := s.lists(ctx, func(v station.View) (err error) {
		if l, err = layoutNow(v); err != nil {
			return err
		}
		for accept && len(a.words) > 0 {
			if err := exchange(v, &l, a); err != nil {
				return err
			}
		}
		for _, t := range l.Tiles {
			all = append(all, tileEvent{"tile", string(l.Name), t.Place, uint32(t.Item), nameOf(v.Ledger, t.Item)})
		}
		return a.done()
	})
	if err != nil || !accept {
		return s.list("layout", all, err)
	}
	l.Name, l.Accepted = mesh.Label(name), s.hold.Tag
	return s.plain(ctx, "layout", a, station.AcceptLayout{Layout: l})
}

// layoutNow is the board that a person accepted last, else the one that every
// unit starts with.
func layoutNow(v station.View) (l requests.Layout, err error) {
	if stands, known := v.Board.Layout(); known {
		l = stands.Layout
		l.Tiles = append([]requests.Tile(nil), l.Tiles...)
		return l, nil
	}
	starter, err := station.ReadStarter()
	if err != nil {
		return l, err
	}
	l.Name = mesh.Label(starter.Board.Name)
	for _, t := range starter.Board.Tiles {
		l.Tiles = append(l.Tiles, requests.Tile{Place: uint32(t.Place), Item: t.Item})
	}
	return l, nil
}

// exchange takes one PLACE=ITEM.
func exchange(v station.View, l *requests.Layout, a *arguments) error {
	text, _ := a.next()
	place, number, _ := strings.Cut(text, "=")
	n, err := strconv.ParseUint(place, 10, 16)
	if err != nil || n == 0 {
		return a.bad()
	}
	item, err := findItem(v.Ledger, number)
	if err != nil {
		return err
	}
	for i := range l.Tiles {
		if l.Tiles[i].Place == uint32(n) {
			l.Tiles[i].Item = item.Number
			return nil
		}
	}
	return &fault{id: "tile-beyond", blanks: []any{n, len(l.Tiles)}}
}
