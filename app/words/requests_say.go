package words

import (
	"slices"
	"strings"

	"lintel/requests"
)

// Reach is what a device knows of how far an entry of its own got. Each field
// has evidence of its own; none is worked out from another.
type Reach struct {
	Saved    bool // the sync returned
	Copies   int  // other devices that said "on my disk"
	OnRunner bool // one of them is held, now, in a role that fetches for the room
}

// Delivery names the weakest fact that people must know first: a disk that
// failed is never hidden behind somebody else's copy.
func (r Reach) Delivery() Delivery {
	switch {
	case !r.Saved:
		return NotSaved
	case r.OnRunner:
		return OnRunner
	case r.Copies > 0:
		return Copies
	}
	return Saved
}

// Delivered says how far an own entry got: this device's disk and the others'
// copies, and apart from them the runner's device.
func (w Words) Delivered(r Reach) string {
	said := w.Say("delivery.saved")
	switch {
	case !r.Saved:
		said = w.Count("delivery.not-saved", r.Copies)
	case r.Copies > 0:
		said = w.Count("delivery.copies", r.Copies)
	}
	if r.OnRunner {
		said += " · " + w.Say("step.runner")
	}
	return said
}

// ReachIDs lists what is known of how far a request got, from the least to the
// furthest; the sentences stand under "step.". Each is there only with its own
// evidence: a copy on the runner's device acknowledges nothing, and an
// acknowledgement saves nothing.
func ReachIDs(r requests.Request, reach Reach) []ID {
	out := []ID{"not-saved"}
	if reach.Saved {
		out[0] = "saved"
	}
	if reach.Copies > 0 {
		out = append(out, "copies")
	}
	if reach.OnRunner {
		out = append(out, "runner")
	}
	if slices.ContainsFunc(r.Acknowledged, func(g requests.Going) bool { return g.Still }) {
		out = append(out, "acknowledged")
	}
	switch r.Loop {
	case requests.LoopMatches:
		out = append(out, "matches")
	case requests.LoopClosed:
		out = append(out, "closed")
		if AgreedUnlike(r) {
			out[len(out)-1] = "agreed-unlike"
		}
	}
	return out
}

// Reached says, apart from each other, all that is known of how far a request got.
func (w Words) Reached(r requests.Request, reach Reach) string {
	var said []string
	for _, id := range ReachIDs(r, reach) {
		if id == "copies" {
			said = append(said, w.Count("step.copies", reach.Copies))
			continue
		}
		said = append(said, w.Say("step."+id))
	}
	return strings.Join(said, " · ")
}

// Request says what people see of a request: who is going, or its step, and
// from the read-back on how far the loop got.
func (w Words) Request(r requests.Request) string {
	shown := w.Say("shown."+ShownID(r.Shown), w.Say("going.tag"))
	switch r.Shown {
	case requests.ShownAcknowledged:
		if going := w.Going(r); going != "" {
			return going
		}
		return w.Say("step.acknowledged")
	case requests.ShownInHand, requests.ShownAtDoor, requests.ShownTakenIn:
		return shown + " · " + w.Loop(r)
	}
	return shown
}

// Loop says how far saying and repeating got. Somebody in the room may agree to
// something else than was asked: then that is said, and not that the loop closed.
func (w Words) Loop(r requests.Request) string {
	return w.Say("loop." + LoopWord(r.Loop, AgreedUnlike(r)))
}

// LoopWord is how far the loop got, as people are told: a read-back that was
// agreed although it differs is not said to close it.
func LoopWord(l requests.Loop, unlike bool) ID {
	if l == requests.LoopClosed && unlike {
		return "agreed-unlike"
	}
	return LoopID(l)
}

// AgreedUnlike tells whether a read-back in play was agreed that differs from
// what was asked.
func AgreedUnlike(r requests.Request) bool {
	return slices.ContainsFunc(r.InHand, func(h requests.ReadBack) bool { return h.Live && h.Closed && !h.Matches })
}

// Going says who is going; nothing if nobody is.
func (w Words) Going(r requests.Request) string {
	var who []string
	for _, g := range r.Acknowledged {
		tag := string(g.By.Tag)
		if tag == "" {
			tag = w.Say("going.tag")
		}
		if g.Still && !slices.Contains(who, tag) {
			who = append(who, tag)
		}
	}
	switch len(who) {
	case 0:
		return ""
	case 1:
		return w.Say("going.one", who[0])
	}
	return w.Say("going.many", strings.Join(who, ", "))
}

// Flag says one flag and what to do about it.
func (w Words) Flag(f requests.Flags) (sentence, hint string) {
	id := FlagID(f)
	return w.Say("flag." + id), w.Say("hint.flag." + id)
}
