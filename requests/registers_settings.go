package requests

import (
	"strconv"
	"time"

	"lintel/mesh"
)

// Setting returns one of the unit's own choices as it stands, else the starter
// value; false if there is neither.
func (b *Board) Setting(name mesh.ID) (mesh.Text, bool) {
	if stand := b.standing(b.settings[name]); len(stand) > 0 {
		return stand[0].body.(*Setting).Value, true
	}
	value, known := b.starterSettings[name]
	return value, known
}

// SettingValues returns every value of a setting that stands, the one in use
// first: more than one means that people chose without knowing of each other.
// None if the unit never chose.
func (b *Board) SettingValues(name mesh.ID) (values []mesh.Text) {
	for _, n := range b.standing(b.settings[name]) {
		values = append(values, n.body.(*Setting).Value)
	}
	return values
}

// SettingWrites are the standing writes of a setting, the one in use first:
// what a new Setting replaces.
func (b *Board) SettingWrites(name mesh.ID) []mesh.Ref { return refsOf(b.standing(b.settings[name])) }

// Number is a setting that is a whole number. A value of the unit's that is
// none gives way to the starter value; 0 if that is none either.
func (b *Board) Number(name mesh.ID) int64 {
	value, _ := b.Setting(name)
	if n, err := strconv.ParseInt(string(value), 10, 64); err == nil {
		return n
	}
	n, err := strconv.ParseInt(string(b.starterSettings[name]), 10, 64)
	if err != nil {
		return 0
	}
	return n
}

// IsNumber tells whether a setting is a whole number: its starter value is one.
func (b *Board) IsNumber(name mesh.ID) bool {
	_, err := strconv.ParseInt(string(b.starterSettings[name]), 10, 64)
	return err == nil
}

// secondsMax is the longest setting in seconds, a hundred years: it fits a
// Duration.
const secondsMax = 100 * 366 * 24 * 3600

// Seconds is a setting in whole seconds, never below 0.
func (b *Board) Seconds(name mesh.ID) time.Duration {
	return time.Duration(min(max(b.Number(name), 0), secondsMax)) * time.Second
}

// settingValues makes the starter settings ready to be looked up.
func settingValues(settings []Setting) map[mesh.ID]mesh.Text {
	out := make(map[mesh.ID]mesh.Text, len(settings))
	for _, s := range settings {
		out[s.Name] = s.Value
	}
	return out
}
