package requests

import (
	"slices"
	"time"

	"lintel/mesh"
)

// Names of the settings that decide when something takes long.
const (
	settingUsualFrom  = "usual-from"
	settingStill      = "still-on-it"
	settingStillNow   = "still-on-it-now"
	settingCall       = "call-again"
	settingCallNow    = "call-again-now"
	settingHold       = "hold-ring"
	settingWindow     = "opening-window"
	settingWaitNext   = "next-opening-wait"
	settingWaitBefore = "before-leave-wait"
)

// usualPercent is the percentile that is called usual: nine of ten are no slower.
const usualPercent = 90

// Usual is how long it usually takes a runner from the first "going" until an
// item is at the door: the 90th percentile (NearestRank) of the unit's own deliveries of
// that item, and of how many. Until there are as many as the setting usual-from
// says, it is the setting for that urgency. Neither exercises count nor times
// that were entered afterwards.
func (b *Board) Usual(item mesh.Number, u Urgency) (time.Duration, int) {
	b.usual.update(b)
	took := b.usual.byItem[item]
	if n := len(took); n > 0 && int64(n) >= b.Number(settingUsualFrom) {
		return Percentile(took, usualPercent, NearestRank), n
	}
	if u == RightNow {
		return b.Seconds(settingStillNow), len(took)
	}
	return b.Seconds(settingStill), len(took)
}

// usualBook keeps how long deliveries took. It belongs to the Board, and is
// brought up to date when it is read.
type usualBook struct {
	all     bool           // everything is to be looked at again
	stale   map[*fact]bool // the Asked whose delivery is to be looked at again
	samples map[*fact]sample
	byItem  map[mesh.Number][]time.Duration // sorted upwards
	dropped map[*fact]bool                  // not wanted any more, while somebody goes for it or holds it
}

// sample is one delivery: how long from "going" to the door.
type sample struct {
	item mesh.Number
	took time.Duration
}

// forget notes that a request changed.
func (u *usualBook) forget(asked *fact) {
	if u.stale == nil {
		u.stale = map[*fact]bool{}
	}
	u.stale[asked] = true
}

// forgetAll notes that something changed on which all of them depend.
func (u *usualBook) forgetAll() { u.all = true }

// learn notes a fact on which it depends whether requests count: exercises, and
// which case a request belongs to.
func (u *usualBook) learn(b *Board, n *fact) {
	if n.Kind == KindUndone && b.facts[n.names] != nil {
		n = b.facts[n.names]
	}
	switch n.Kind {
	case KindDrill, KindThisIsReal, KindCaseOpen, KindCaseShut:
		u.forgetAll()
	}
}

func (u *usualBook) update(b *Board) {
	if u.samples == nil {
		u.samples, u.byItem = map[*fact]sample{}, map[mesh.Number][]time.Duration{}
		u.dropped = map[*fact]bool{}
	}
	if u.all {
		for _, n := range b.asked {
			u.forget(n)
		}
		u.all = false
	}
	for n := range u.stale {
		u.look(b, n)
	}
	clear(u.stale)
}

// look takes in what became of one request.
func (u *usualBook) look(b *Board, n *fact) {
	delete(u.dropped, n)
	if r := b.view(n); (r.Shown == ShownWithdrawn || r.Shown == ShownUndone) && len(r.goers()) > 0 {
		u.dropped[n] = true
	}
	if old, known := u.samples[n]; known {
		list := u.byItem[old.item]
		i, _ := slices.BinarySearch(list, old.took)
		u.byItem[old.item] = slices.Delete(list, i, i+1)
		delete(u.samples, n)
	}
	if s, counts := b.delivery(n); counts {
		list := u.byItem[s.item]
		i, _ := slices.BinarySearch(list, s.took)
		u.byItem[s.item] = slices.Insert(list, i, s.took)
		u.samples[n] = s
	}
}

// delivery is how long a request took from "going" to the door, where one device
// noted both: its own clock needs no other. False: it says nothing about what
// is usual.
func (b *Board) delivery(asked *fact) (sample, bool) {
	r := b.view(asked)
	door := slices.IndexFunc(r.Deliveries, func(d Delivery) bool { return !d.Ref.IsZero() })
	if r.Undone || r.Direction != In || r.Origin == PassedIn || door < 0 {
		return sample{}, false
	}
	to := r.Deliveries[door].Mark
	going := slices.IndexFunc(r.Acknowledged, func(g Going) bool { return g.Device() == to.Device() })
	if going < 0 || b.inDrill(asked) {
		return sample{}, false
	}
	from := r.Acknowledged[going].Mark
	took, known := between(from.When(), to.When())
	return sample{r.Thing.Item, took}, known && took >= 0 && !from.late() && !to.late()
}

// late tells whether when it happened was stated or corrected afterwards.
func (m Mark) late() bool { return m.By.Happened != 0 || m.Corrected != 0 }

// inDrill tells whether a request was asked in an exercise, before anybody said
// that it is real.
func (b *Board) inDrill(asked *fact) bool {
	return slices.ContainsFunc(b.drillsOver(asked), func(d *fact) bool {
		return !slices.ContainsFunc(b.aboutOf(d, KindThisIsReal), func(r *fact) bool { return compareFacts(r, asked) < 0 })
	})
}

// IsDrill tells whether a case is an exercise to its end: it began in one, or one
// began in it, and nobody said that it is real. False for a case that is not known.
func (b *Board) IsDrill(of mesh.Ref) bool {
	c, known := b.Case(of)
	return known && b.isDrill(c)
}

// isDrill tells whether a case is an exercise to its end: it began in one, or
// one began in it, and nobody said that it is real.
func (b *Board) isDrill(c Case) bool {
	return slices.ContainsFunc(b.drillsOver(b.facts[c.Ref]), func(d *fact) bool {
		return len(b.aboutOf(d, KindThisIsReal)) == 0
	})
}

// drillsOver lists the exercises that a fact of a case belongs to: those of its
// case, and those that had begun in its room and whose own case was not shut
// yet. An exercise of a case holds for all of a CaseOpen's case, else only for
// what comes after it.
func (b *Board) drillsOver(n *fact) (out []*fact) {
	open := b.caseFact(n)
	_, room, _ := caseNamed(n.body)
	if body, is := n.body.(*CaseOpen); is {
		room = body.Room
	}
	for _, name := range slices.Compact([]mesh.ID{room, ""}) {
		for _, d := range b.cases.drills[name].all() {
			of, before := b.caseFact(d), compareFacts(d, n) < 0
			switch {
			case b.undone(d):
			case of != nil && of == open && (before || n == open):
				out = append(out, d)
			case before && b.drillRoom(d) == room && (of == nil || !b.shutBefore(of, n)):
				out = append(out, d)
			}
		}
	}
	return out
}

// shutBefore tells whether a case was shut before n in the order of entries.
func (b *Board) shutBefore(open, n *fact) bool {
	return slices.ContainsFunc(b.caseView(open).Shut, func(e Ending) bool { return e.At.Compare(n.At) < 0 })
}
