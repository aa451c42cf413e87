package debrief

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Questions of the starter list for which the case's own record has answers.
// Any other is answered with yes, no and in part.
const (
	askFetched   mesh.ID = "fetched"
	askUnused    mesh.ID = "unused"
	askNotHeard  mesh.ID = "not-heard"
	askWrong     mesh.ID = "wrong-item"
	askWaited    mesh.ID = "waited"
	askOpenings  mesh.ID = "openings"
	askEquipment mesh.ID = "ppe"
	askLeaving   mesh.ID = "leaving"
)

// offeredMax is how many answers from the record a question offers: with those
// that it always has, as many as one page of tiles holds at a desk.
const offeredMax = 10

// answers are what a question can be answered with by one tap each: what the
// record has for it, then what can always be said.
func answers(w words.Words, s Snapshot, q mesh.ID, zone *time.Location) (out []string) {
	all := []words.ID{"nothing", "talked"}
	switch q {
	case askFetched, askUnused:
		out = s.Course.taken()
	case askNotHeard:
		out = s.Course.slowest(w, zone, func(a Asked) mesh.Wall { return a.Acknowledged.Wall })
	case askWaited:
		out = s.Course.slowest(w, zone, func(a Asked) mesh.Wall { return a.Taken.Wall })
	case askWrong:
		out = s.Course.wrong(w, zone)
	case askOpenings:
		for _, o := range s.Course.Openings {
			out = append(out, joined(clock(o.From, zone), crossed(w, o)))
		}
	case askEquipment, askLeaving:
		for _, h := range s.Course.Harms {
			out = append(out, h.Words) // what, and not whose
		}
	default:
		all = []words.ID{"yes", "in-part", "no", "talked"}
	}
	out = distinct(out)
	out = out[:min(len(out), offeredMax)]
	for _, id := range all {
		out = append(out, w.Say("debrief.answer."+id))
	}
	return out
}

// distinct leaves out what is there already, and keeps the order.
func distinct(all []string) (out []string) {
	for _, x := range all {
		if !slices.Contains(out, x) {
			out = append(out, x)
		}
	}
	return out
}

// reasons are why no debrief was held, as can be said by one tap.
func reasons(w words.Words) (out []string) {
	for _, id := range []words.ID{"no-time", "next-patient", "apart", "later", "not-wanted"} {
		out = append(out, w.Say("debrief.why."+id))
	}
	return out
}

// taken are the things that went in.
func (c Course) taken() (out []string) {
	for _, a := range c.Asked {
		if a.Taken.Wall != 0 {
			out = append(out, strings.TrimSpace(a.Name+" "+strength(a)))
		}
	}
	return out
}

// slowest are the requests by how long they took to get somewhere, the longest
// first; those that never did before all others.
func (c Course) slowest(w words.Words, zone *time.Location, reached func(Asked) mesh.Wall) (out []string) {
	took := func(a Asked) mesh.Wall {
		if at := reached(a); at != 0 {
			return at - a.From.Wall
		}
		return mesh.WallMax
	}
	all := slices.Clone(c.Asked)
	slices.SortStableFunc(all, func(a, b Asked) int { return cmp.Compare(took(b), took(a)) })
	for _, a := range all {
		out = append(out, askedAt(w, a, zone))
	}
	return out
}

// wrong are the requests for which something else was read back, and caught.
func (c Course) wrong(w words.Words, zone *time.Location) (out []string) {
	for _, a := range c.Asked {
		if a.Wrong {
			out = append(out, askedAt(w, a, zone))
		}
	}
	return out
}

// askedAt is a request with the time of its asking.
func askedAt(w words.Words, a Asked, zone *time.Location) string {
	return w.Say("debrief.asked-at", thing(w, a), clock(a.From, zone))
}

// clock is a time of day.
func clock(p requests.Placed, zone *time.Location) string {
	return time.UnixMilli(int64(p.Wall)).In(zone).Format(clockShort)
}

// lists are the requests of the case that is looked at that a figure counts, in
// words.
type lists struct{ unanswered, undelivered, wrong string }

func (c Course) lists(w words.Words, zone *time.Location) lists {
	those := func(is func(Asked) bool) string {
		var all []string
		for _, a := range c.Asked {
			if is(a) {
				all = append(all, askedAt(w, a, zone))
			}
		}
		return joined(all...)
	}
	return lists{
		those(func(a Asked) bool { return a.Unanswered }), those(func(a Asked) bool { return a.Undelivered }),
		those(func(a Asked) bool { return a.Wrong }),
	}
}
