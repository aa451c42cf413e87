package main

import (
	"cmp"
	"slices"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// caller is what calls whoever has this device, as it is said on every page.
type caller struct {
	Room    string
	Why     requests.CallWhy
	Urgency requests.Urgency
	Item    string         // a request's; empty: it is none
	Detail  string         // strength of a drug
	Count   requests.Count // of it
	Said    string         // a phrase, or a breach
	Tag     mesh.Tag       // whose breach it is
}

// waiting are the calls for whoever has this device, the gravest first.
func waiting(v station.View) (out []requests.Call) {
	self := v.Peer.Self()
	for _, c := range v.Calls() {
		if slices.Contains(c.For, self) {
			out = append(out, c)
		}
	}
	return out
}

// callerOf reads what a call is about.
func callerOf(v station.View, c requests.Call) caller {
	out := caller{Room: string(c.Room), Why: c.Why, Urgency: c.Urgency}
	if r, known := v.Board.Request(c.Ref); known {
		item, _ := v.Ledger.Item(r.Thing.Item)
		out.Item, out.Count = words.ShortName(string(item.Value.Name), false), r.Thing.Count
		if d, is := v.Drug(r.Thing.Item); is {
			out.Item, out.Detail = d.Name, words.Measured(words.FirstPart(string(r.Thing.Strength)))
		}
		return out
	}
	of, _ := v.Board.CaseOf(c.Ref)
	all, _ := v.Board.Case(of)
	for _, p := range all.Said {
		if p.Ref == c.Ref {
			out.Said = lineOf(v, "phrase-out", p.Phrase)
		}
	}
	for _, b := range all.Breaches {
		if b.Ref == c.Ref {
			out.Said, out.Tag = lineOf(v, "breach", b.What), b.Tag
		}
	}
	return out
}

// lineOf says a line of a list; one that is gone is said by its name.
func lineOf(v station.View, list, id mesh.ID) string {
	line, _ := v.Board.ListLine(list, id)
	return cmp.Or(string(line.Words), string(id))
}

// callFace says who calls, on pages that do not say it themselves.
func callFace(w words.Words, c caller, calls int, flash bool) look.TileFace {
	face := look.TileFace{Word: w.Say("window.called", c.Room, c.what(w)), Chosen: true}
	if calls > 1 {
		face.Word = w.Say("window.called-more", c.Room, c.what(w), calls-1)
	}
	switch {
	case flash:
		face.Tone, face.Chosen = look.TonePlain, false
	case c.Why == requests.CallBreach:
		face.Tone = look.ToneFault
	case c.Urgency == requests.RightNow:
		face.Tone = look.ToneNow
	default:
		face.Tone = look.ToneNext
	}
	return face
}

// what is in a few words what is called for.
func (c caller) what(w words.Words) string {
	thing := w.Thing(int64(c.Count), c.Item, c.Detail)
	switch {
	case c.Item != "" && c.Why == requests.CallStill:
		return w.Say("window.called-still", thing)
	case c.Item != "" && (c.Why == requests.CallTakeBack || c.Why == requests.CallPutBack):
		return w.Say("window.called-back", thing)
	case c.Item != "":
		return thing
	case c.Tag != "":
		return w.Say("window.called-breach", c.Tag, c.Said)
	case c.Why == requests.CallTest:
		return w.Say("window.called-test")
	}
	return c.Said
}
