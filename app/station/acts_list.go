package station

import (
	"fmt"
	"strconv"

	"lintel/mesh"
	"lintel/requests"
)

// Acts that change what the unit has written down as its own.
type (
	// AcceptLayout puts a board in force, which a person accepted by name: the
	// By's tag, if the layout has none. Never while a case is open.
	AcceptLayout struct{ Layout requests.Layout }
	// WriteLine writes a line of a list in place of what stands there.
	WriteLine struct{ Line requests.ListLine }
	// WriteSetting writes one of the unit's own choices.
	WriteSetting struct {
		Name  mesh.ID
		Value mesh.Text
	}
)

func (a AcceptLayout) parts(m *maker) error {
	l := a.Layout
	if l.Accepted == "" {
		l.Accepted = m.by.Tag
	}
	if err := tags(l.Accepted); err != nil {
		return err
	}
	for _, c := range m.view.Board.Cases() {
		if !c.Over {
			return &NamedError{Err: ErrDuring, Name: c.Room}
		}
	}
	if len(l.Tiles) == 0 {
		return ErrNothing
	}
	there := map[uint32]bool{}
	for _, t := range l.Tiles {
		if _, known := m.view.Ledger.Item(t.Item); !known {
			return fmt.Errorf("%w: %d", ErrNoItem, t.Item)
		}
		if t.Place == 0 || there[t.Place] {
			return fmt.Errorf("%w: %d", ErrTile, t.Place)
		}
		there[t.Place] = true
	}
	l.Replaces = m.view.Board.LayoutWrites()
	m.add(requests.KindLayout, &l)
	return nil
}

func (a WriteLine) parts(m *maker) error {
	l := a.Line
	if l.List == "" || l.ID == "" || l.Words == "" && !l.Gone {
		return ErrNothing
	}
	l.Replaces = m.view.Board.ListWrites(l.List, l.ID)
	m.add(requests.KindListLine, &l)
	return nil
}

// settingMax is the highest number that a setting may have: ten years in
// minutes, or two months in seconds.
const settingMax = 5_300_000

func (a WriteSetting) parts(m *maker) error {
	if _, known := m.view.Board.Setting(a.Name); !known {
		return &NamedError{Err: ErrSetting, Name: a.Name}
	}
	if n, err := strconv.ParseUint(string(a.Value), 10, 31); m.view.Board.IsNumber(a.Name) && (err != nil || n > settingMax) {
		return &NamedError{Err: ErrSettingValue, Name: a.Name}
	}
	m.add(requests.KindSetting, &requests.Setting{
		Replaces: m.view.Board.SettingWrites(a.Name), Name: a.Name, Value: a.Value,
	})
	return nil
}
