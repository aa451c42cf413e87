package inside

import (
	"maps"
	"testing"
	"time"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// states are what the board is shown in, each with what was tapped to get there.
func states(t *testing.T) map[string]func(*scene) {
	with := func(make func(Snapshot) []Request, then ...func(*Screen)) func(*scene) {
		return func(s *scene) {
			snap := calm(t)
			snap.Requests = make(snap)
			s.screen.Set(snap)
			for _, f := range then {
				f(s.screen)
			}
		}
	}
	answer := func(s *Screen) { s.tapStrip(false) }
	all := map[string]func(*scene){
		"calm": func(*scene) {},
		"asked": with(func(s Snapshot) []Request {
			return []Request{open(s, 1, 3046, 2, requests.ShownAsked, asking()...), open(s, 2, 1108, 1, requests.ShownAtDoor, requests.ActTakeIn)}
		}),
		"held": with(func(s Snapshot) []Request {
			r := open(s, 1, 3046, 2, requests.ShownInHand, requests.ActAgree, requests.ActRefuse, requests.ActChange, requests.ActWithdraw)
			r.Loop, r.Held = requests.LoopMatches, &ReadBack{Ref: ref(9), Thing: r.Thing, By: "R1", Matches: true}
			return []Request{r, open(s, 2, 1108, 1, requests.ShownAtDoor, requests.ActTakeIn)}
		}, answer),
		"differs": with(func(s Snapshot) []Request {
			r := open(s, 1, 3046, 2, requests.ShownInHand, requests.ActAgree, requests.ActRefuse, requests.ActChange, requests.ActWithdraw)
			r.Loop, r.Held = requests.LoopReadBack, &ReadBack{Ref: ref(9), Thing: open(s, 3, 3038, 2, 1).Thing, By: "R1"}
			return []Request{r}
		}, answer),
		"offered": with(func(s Snapshot) []Request {
			r := open(s, 1, 3046, 2, requests.ShownAsked, requests.ActAgree, requests.ActRefuse, requests.ActChange, requests.ActWithdraw)
			r.Offered = ref(8)
			r.Offer = []Thing{open(s, 3, 3038, 2, 1).Thing, open(s, 3, 3051, 1, 1).Thing, open(s, 3, 3067, 1, 1).Thing}
			return []Request{r}
		}, answer),
		"other":  (func(s *scene) { s.screen.show(pageOther); s.screen.chooseGroup(0) }),
		"drugs":  (func(s *scene) { s.screen.show(pageOther); s.screen.chooseGroup(1) }),
		"groups": (func(s *scene) { s.screen.show(pageOther); s.screen.chooseGroup(-1) }),
		"lies": with(func(s Snapshot) []Request {
			return []Request{open(s, 1, 229, 1, requests.ShownAsked, asking()...)}
		}, func(s *Screen) { s.tapSet(0) }),
		"sign": func(s *scene) {
			snap := calm(t)
			snap.Runners = nil
			snap.Requests = []Request{open(snap, 1, 3046, 2, requests.ShownAsked, asking()...)}
			s.screen.Set(snap)
			s.screen.tapStrip(true)
		},
		"cut": func(s *scene) {
			snap := calm(t)
			snap.Runners = []Runner{{Tag: "R1", Health: mesh.NotConnected}}
			r := open(snap, 1, 3046, 2, requests.ShownAsked, asking()...)
			r.Reach.OnRunner, r.Reach.Copies = false, 0
			snap.Requests = []Request{r}
			s.screen.Set(snap)
		},
	}
	maps.Copy(all, waiting(t))
	maps.Copy(all, pages(t))
	return all
}

// glasses are the windows on which a state is looked at beside the tablet.
func glasses(state string) []string {
	switch state {
	case "calm", "asked", "cut":
		return []string{"desktop", "ten", "small", "tall", "phone"}
	case "drugs-inside", "drug-end":
		return []string{"ten", "tall"}
	case "other", "drugs", "groups":
		return []string{"tall"}
	case "say", "clock":
		return []string{"desktop", "ten", "tall", "broad"}
	case "held", "called", "drill-say", "differs", "offered", "lies", "one-more", "count":
		return []string{"ten", "tall"}
	case "late-open", "part", "said", "breach-what", "locked", "unreached":
		return []string{"tall"}
	case "low", "leaving", "elsewhere":
		return []string{"ten", "tall"}
	case "out-open", "called-open", "people", "out", "breach", "drill", "twin":
		return []string{"tall"}
	}
	return nil
}

// waiting are states of requests that take long, came in part, or came twice.
func waiting(t *testing.T) map[string]func(*scene) {
	set := func(make func(Snapshot) []Request) func(*scene) {
		return func(s *scene) {
			snap := calm(t)
			snap.Requests = make(snap)
			s.screen.Set(snap)
		}
	}
	late := set(func(s Snapshot) []Request {
		r := open(s, 1, 3009, 2, requests.ShownAcknowledged, asking()...)
		r.Going, r.Took, r.Usual, r.Late = []string{"R1"}, 130*time.Second, 100*time.Second, true
		return []Request{r}
	})
	unreached := set(func(s Snapshot) []Request {
		r := open(s, 1, 3009, 2, requests.ShownAsked, asking()...)
		r.Reach.OnRunner, r.Unreached = false, true
		return []Request{r}
	})
	atDoor := set(func(s Snapshot) []Request {
		r := open(s, 1, 3009, 3, requests.ShownAtDoor, requests.ActTakeIn, requests.ActWithdraw)
		r.AtDoor = 3
		return []Request{r}
	})
	twin := set(func(s Snapshot) []Request {
		voice := open(s, 2, 1108, 1, requests.ShownAsked)
		voice.Origin, voice.Own = requests.AskedByVoice, false
		return []Request{open(s, 1, 1108, 1, requests.ShownAsked, asking()...), voice}
	})
	out := set(func(s Snapshot) []Request {
		r := open(s, 1, 6507, 1, requests.ShownAcknowledged, asking()...)
		r.Out, r.Going = true, []string{"R1"}
		return []Request{r}
	})
	opened := func(first func(*scene)) func(*scene) {
		return func(s *scene) { first(s); s.screen.tapStrip(false) }
	}
	return map[string]func(*scene){
		"late": late, "late-open": opened(late), "unreached": unreached, "unreached-open": opened(unreached),
		"part": opened(atDoor), "twin": opened(twin), "out-open": opened(out),
		"fewer": func(s *scene) { opened(atDoor)(s); s.screen.press(Button{Does: doesFewer}) },
		"count": func(s *scene) { s.screen.tapTile(9) },
		"one-more": func(s *scene) {
			s.screen.tapTile(8)
			snap := calm(t)
			r := open(snap, 101, 3009, 1, requests.ShownAsked, asking()...)
			r.Ref, r.Since = ref(101), snap.Now-1000
			snap.Requests = []Request{r}
			s.screen.Set(snap)
		},
	}
}

// talk is what was said both ways, the newest first.
func talk(s Snapshot) []Said {
	at := func(seconds int) mesh.Wall { return s.Now - mesh.Wall(seconds)*1000 }
	return []Said{
		{Ref: ref(51), Words: "Bed ready", By: "R1", Since: at(4), order: mesh.Order{Turn: 9}},
		{Ref: ref(52), Words: "Glove torn", Out: true, Breach: true, By: "D1", Own: true, Reach: words.Reach{Saved: true}, Since: at(31)},
		{Ref: ref(53), Words: "Tube in", Out: true, By: "L1", Own: true, Reach: words.Reach{Saved: true, Copies: 2, OnRunner: true}, Since: at(70)},
		{Ref: ref(54), Words: "Help is gowning", By: "R1", Heard: []string{"L1"}, Since: at(95)},
		{Ref: ref(55), Words: "Door stays shut", Out: true, Own: true, Heard: []string{"R1", ""}, Since: at(140)},
	}
}

// pages are the pages behind the board, and what stands over every page.
func pages(t *testing.T) map[string]func(*scene) {
	with := func(alter func(*Snapshot), open page) func(*scene) {
		return func(s *scene) {
			snap := calm(t)
			snap.Requests = []Request{open1(snap)}
			alter(&snap)
			s.screen.Set(snap)
			s.now = s.now.Add(2 * time.Second)
			s.screen.show(open)
		}
	}
	plain := func(*Snapshot) {}
	said := func(s *Snapshot) { s.Said = talk(*s) }
	heard := func(s *Snapshot) { s.Said = talk(*s)[1:] }
	drill := func(s *Snapshot) { s.Drill = Drill{Ref: ref(60), Label: "can't intubate, link cut"} }
	leaving := func(s *Snapshot) { s.OnlyHere, s.Leaving = 4, true }
	stay := func(s *Snapshot) { s.MayStay = true }
	low := func(s *Snapshot) { s.Battery = 12 }
	elsewhere := func(s *Snapshot) { s.Elsewhere = []mesh.ID{"A2"} }
	clocks := func(s *Snapshot) { s.Times[0].Last, s.Times[1].Last = s.Now-204_000, s.Now-12_000 }
	locked := func(first func(*Snapshot)) func(*scene) {
		return func(s *scene) { with(first, pageBoard)(s); s.screen.lockFor(60 * time.Second) }
	}
	return map[string]func(*scene){
		"say": with(plain, pageSay), "said": with(heard, pageSay), "called": with(said, pageBoard), "called-page": with(said, pageTimes),
		"called-open": func(s *scene) { with(said, pageBoard)(s); s.screen.tapStrip(false) },
		"called-sign": func(s *scene) {
			with(said, pageBoard)(s)
			s.screen.tapStrip(false)
			s.screen.press(Button{Does: doesSign})
		},
		"drill": with(drill, pageBoard), "drill-say": with(drill, pageSay), "leaving": with(leaving, pageBoard), "leaving-say": with(leaving, pageSay),
		"stay": with(stay, pageSay), "low": with(low, pageBoard), "low-say": with(low, pageSay),
		"elsewhere": with(elsewhere, pageBoard), "elsewhere-say": with(elsewhere, pageSay),
		"people": with(plain, pagePeople), "out": with(plain, pageOut), "times": with(plain, pageTimes), "clock": with(clocks, pageTimes),
		"breach": with(plain, pageBreach), "breach-what": func(s *scene) {
			with(plain, pageBreach)(s)
			s.screen.pick(pick{does: picksWho, tag: "D1"})
		},
		"drugs-inside": with(drugsInside, pageDrugs), "drugs-none": with(plain, pageDrugs),
		"drug-end": func(s *scene) {
			with(drugsInside, pageDrugs)(s)
			s.screen.pick(pick{does: picksDrug, item: 3046, mark: ref(71)})
		},
		"drug-typed": func(s *scene) {
			with(drugsInside, pageDrugs)(s)
			s.screen.pick(pick{does: picksDrug, item: 3009})
			s.screen.typeAmount("2")
		},
		"drug-seen": func(s *scene) {
			with(drugsInside, pageDrugs)(s)
			s.screen.pick(pick{does: picksDrug, item: 3009})
			s.screen.pick(pick{does: picksPageKept, page: pageSeen})
		},
		"locked": locked(plain), "locked-called": locked(said),
	}
}

// drugsInside puts a syringe and containers into the room.
func drugsInside(s *Snapshot) {
	s.Drugs = []DrugIn{
		{Item: 3046, Syringe: ref(71), Name: "Ketamine", Detail: "50 mg/mL", UL: 7_500},
		{Item: 3009, Name: "Rocuronium", Detail: "10 mg/mL", Containers: 3},
	}
}

func open1(s Snapshot) Request { return open(s, 1, 3009, 2, requests.ShownAsked, asking()...) }
