package door

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
)

// Goal: the sign says what the published table says, as clock time and minutes
// left, begins again with each event and gives no number where there is none.
// Method: 12 air changes an hour (CDC 2003, Appendix B, Table B.1: 23 and 35
// minutes), then no air changes, then no event.
func TestSignSaysWhatTheTableSays(t *testing.T) {
	w := words.English()
	at := func(clock string) mesh.Wall {
		when, err := time.Parse("2006-01-02 15:04:05", "2026-11-25 "+clock)
		require.NoError(t, err)
		return mesh.Wall(when.UnixMilli())
	}
	r := Room{ID: "A1", Air: Air{Event: "Extubated", Since: at("12:00:00"), Milli: 12_000}}
	s := sign(w, at("12:10:30"), r, time.UTC)
	require.Equal(t, look.SignFace{Head: "99\u00a0%", Word: "12:24", Detail: "14\u00a0min", Tone: look.ToneNext}, s.Nearly, "23.03 minutes, to the full minute after")
	require.Equal(t, look.SignFace{Head: "99.9\u00a0%", Word: "12:35", Detail: "25\u00a0min", Tone: look.ToneNext}, s.Clear, "34.54 minutes")
	require.Contains(t, s.Tell.Sentence, "Counted from 12:00, Extubated")
	require.Contains(t, s.Tell.Sentence, "12 air changes an hour as stated, perfect mixing")
	s = sign(w, at("12:35:00"), r, time.UTC)
	require.Equal(t, look.SignFace{Head: "99.9\u00a0%", Word: "12:35", Detail: "over"}, s.Clear)
	r.Air.Since = at("12:30:00")
	require.Equal(t, "13:05", sign(w, at("12:35:00"), r, time.UTC).Clear.Word)
	r.Air.Milli = 0
	s = sign(w, at("12:10:00"), r, time.UTC)
	require.Equal(t, "not known", s.Clear.Word)
	require.Empty(t, s.Nearly.Word)
	require.NotRegexp(t, `\d`, s.Tell.Sentence)
	r.Air = Air{Milli: 12_000}
	require.Equal(t, "none noted", sign(w, at("12:10:00"), r, time.UTC).Clear.Word)
	require.Equal(t, "7.5", changesSaid(7_500))
}

// Goal: a person's tile says where, since when and who checked, and what is
// wrong before all else; there is a prompt only where the unit set one. Method:
// a table.
func TestPeopleSayWhatIsWrongFirst(t *testing.T) {
	w := words.English()
	now := mesh.Wall(100 * time.Minute / time.Millisecond)
	for _, c := range []struct {
		person Person
		prompt time.Duration
		detail string
		tone   look.Tone
	}{
		{Person{Checker: "O1"}, 0, "PPE: O1", look.TonePlain},
		{Person{}, 0, "no PPE check", look.ToneNext},
		{Person{Checker: "O1"}, 90 * time.Minute, "PPE over 1:30:00", look.ToneNext},
		{Person{Checker: "O1"}, 110 * time.Minute, "PPE: O1", look.TonePlain},
		{Person{Checker: "O1", Harm: "Feeling faint"}, 90 * time.Minute, "Feeling faint", look.ToneNow},
	} {
		c.person.Tag = "L1"
		f := personFace(w, Snapshot{Now: now, Prompt: c.prompt}, c.person)
		require.Equal(t, "L1 1:40:00", f.Word)
		require.Equal(t, c.detail, f.Detail)
		require.Equal(t, c.tone, f.Tone)
	}
}

// Goal: nobody is said to be checked by themselves, and who checked is never
// the first choice by itself. Method: the choices for somebody who has the
// device, and for one whose equipment was checked.
func TestCheckersAreOfferedAndNeverFilledIn(t *testing.T) {
	w, s := words.English(), busy(t)
	details := func(tag mesh.Tag) (out []string) {
		for _, c := range howPage(w, s, s.Rooms[0], hand{tag: tag}).Choices {
			out = append(out, c.Face.Detail)
		}
		return out
	}
	require.Equal(t, []string{"no PPE check", "no PPE check", ""}, details("O1"))
	require.Equal(t, []string{"PPE: A1", "PPE: A1", "PPE: O1", "PPE: O1", "no PPE check", "no PPE check", ""}, details("R1"))
}
