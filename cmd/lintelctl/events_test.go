package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// Goal: who reads a request's line knows what is unusual about it. Method: one
// line with nothing unusual, then each way and direction.
func TestARequestsLineSaysDirectionAndOrigin(t *testing.T) {
	w := words.English()
	for _, c := range []struct {
		out    bool
		origin words.ID
		said   string
	}{
		{false, "tapped", "12345 A1: 1 × Tube, now: asked, by L1"},
		{true, "tapped", "12345 A1: 1 × Tube, now, coming out: asked, by L1"},
		{false, "voice", "12345 A1: 1 × Tube, now, asked by voice: asked, by L1"},
		{true, "passed", "12345 A1: 1 × Tube, now, coming out, passed in unasked: asked, by L1"},
	} {
		e := requestEvent{Request: "12345", Room: "A1", thingOf: thingOf{Item: "Tube", Count: 1}, Urgency: "now", Out: c.out, Origin: c.origin, By: "L1", shown: "asked"}
		require.Equal(t, c.said, e.say(w))
	}
}
