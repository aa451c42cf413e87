package main

import (
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/brief"
	"lintel/app/debrief"
	"lintel/app/door"
	"lintel/app/inside"
	"lintel/app/join"
	"lintel/app/look"
	"lintel/app/runner"
	"lintel/app/scribe"
	"lintel/mesh"
	"lintel/requests"
)

// stillUnits shows one code and does nothing else.
type stillUnits struct{}

// Found is part of join.Unit.
func (stillUnits) Found(mesh.Label, func(error)) {}

// Join is part of join.Unit.
func (stillUnits) Join(string, string, func(error)) {}

// Invite is part of join.Unit.
func (stillUnits) Invite(done func(join.Invitation, error)) {
	done(join.Invitation{Code: "572 043 4", Until: cannedAt + 120_000}, nil)
}

// Cancel is part of join.Unit.
func (stillUnits) Cancel() {}

func (g gallery) explain(err error) (string, string) { return explainHere(g.words, err) }

// stage is a canned unit with what a screen of it needs.
func (g gallery) stage(play func(*canned)) (*canned, *cannedTaps, error) {
	c, err := newCanned()
	if err != nil {
		return nil, nil, err
	}
	play(c)
	return c, &cannedTaps{c: c, shown: func() {}, noted: g.noted}, c.err
}

func (g gallery) inside(l *look.Look, chapter string) (fyne.CanvasObject, error) {
	c, taps, err := g.stage(func(c *canned) { c.insideStory(chapter) })
	if err != nil {
		return nil, err
	}
	s := inside.New(inside.Options{
		Look: l, Words: g.words, Taps: taps, Board: g.starter.Board, Explain: g.explain, Now: c.clock, Pages: func() {},
	})
	taps.shown = func() { s.Set(c.insideLook(chapter)) }
	taps.shown()
	return s.Object(), nil
}

func (g gallery) runner(l *look.Look, chapter string) (fyne.CanvasObject, error) {
	c, taps, err := g.stage(func(c *canned) { c.runnerStory(chapter) })
	if err != nil {
		return nil, err
	}
	var quiet silence
	s := runner.New(runner.Options{Look: l, Words: g.words, Taps: taps, Explain: g.explain, Now: c.clock, Silence: quiet.set})
	taps.shown = func() { s.Set(c.runnerLook()) }
	taps.shown()
	if chapter == "unread" {
		s.Scanned(cannedLabel)
	}
	return s.Object(), nil
}

func (g gallery) brief(l *look.Look, chapter string) (fyne.CanvasObject, error) {
	c, taps, err := g.stage(func(c *canned) { c.briefStory(chapter) })
	if err != nil {
		return nil, err
	}
	s := brief.New(brief.Options{
		Look: l, Words: g.words, Taps: taps, Explain: g.explain, Layout: g.starter.Board,
		Health: func() brief.Health { return brief.Health{Battery: 81, DiskMB: 3200} },
	})
	taps.shown = func() {
		x := brief.Look(c.view)
		x.InMemory = false
		for i := range x.Rooms {
			for j := range x.Rooms[i].Devices {
				d := &x.Rooms[i].Devices[j]
				d.Name, d.Health, d.RoundTrip, d.OffsetMS, d.WithinMS = "inside tablet", mesh.Connected, 4*time.Millisecond, 180, 12
			}
		}
		s.Set(x)
	}
	taps.shown()
	switch chapter {
	case "comms":
		s.AskComms("A1")
	case "rooms", "unit", "second":
	default:
		s.AskCase("A1")
	}
	return s.Object(), nil
}

func (g gallery) door(l *look.Look, chapter string) (fyne.CanvasObject, error) {
	c, taps, err := g.stage(func(c *canned) { c.doorStory(chapter) })
	if err != nil {
		return nil, err
	}
	s := door.New(door.Options{Look: l, Words: g.words, Taps: taps, Explain: g.explain, Now: c.clock, Zone: time.UTC, Paper: func(mesh.Ref, func(string, error)) {}})
	taps.shown = func() {
		x := door.Look(c.view)
		x.InMemory = false
		s.Set(x)
	}
	taps.shown()
	return s.Object(), nil
}

func (g gallery) times(l *look.Look, chapter string) (fyne.CanvasObject, error) {
	c, taps, err := g.stage(func(c *canned) { c.timesStory(chapter) })
	if err != nil {
		return nil, err
	}
	s := scribe.New(scribe.Options{Look: l, Words: g.words, Taps: taps, Explain: g.explain, Now: c.clock, Zone: time.UTC})
	taps.shown = func() {
		x := scribe.Look(c.view)
		x.InMemory = false
		s.Set(x)
	}
	taps.shown()
	return s.Object(), nil
}

func (g gallery) debrief(l *look.Look) (fyne.CanvasObject, error) {
	c, taps, err := g.stage((*canned).debriefStory)
	if err != nil {
		return nil, err
	}
	s := debrief.New(debrief.Options{
		Look: l, Words: g.words, Taps: taps, Explain: g.explain, Now: c.clock, Zone: time.UTC, Typing: true,
		Choose: func(of mesh.Ref) {
			if c.of != of {
				c.of = of
				taps.shown()
			}
		},
		Paper: func(string, mesh.Ref, func(string, error)) {},
	})
	taps.shown = func() {
		x := debrief.Look(c.view, c.of)
		x.InMemory = false
		s.Set(x)
	}
	taps.shown()
	return s.Object(), nil
}

func (g gallery) join(l *look.Look, unit bool) (fyne.CanvasObject, error) {
	c, taps, err := g.stage(func(*canned) {})
	if err != nil {
		return nil, err
	}
	snap := join.Snapshot{Now: cannedAt, Name: "runner phone", Address: "192.0.2.22:29460"}
	if unit {
		snap = c.unitStory()
	}
	s := join.New(join.Options{Look: l, Words: g.words, Unit: stillUnits{}, Taps: taps, Explain: g.explain})
	s.Set(snap)
	return s.Object(), c.err
}

// frame is the bar around the pages of a runner, or of somebody inside, with
// what calls.
func (g gallery) frame(l *look.Look, at page, s sight) (fyne.CanvasObject, error) {
	f := newFrame(l, g.words, frameActs{
		leaf: func(p page) *leaf { return g.leaf(l, p) }, opened: func(page) {}, shade: func() {}, scale: func(look.Scale) {}, noise: func() {},
	})
	f.set(s)
	f.open(at)
	return f.root, nil
}

// leaf is a page in the frame of a picture.
func (g gallery) leaf(l *look.Look, p page) *leaf {
	draw := func() (fyne.CanvasObject, error) { return g.inside(l, "calm") }
	switch p {
	case pageKeys:
		bound := map[string]int{"F8": 1, "Prior": 2}
		return newKeysPage(l, g.words, placesOf(g.words, g.starter.Board), func() map[string]int { return bound }, func(map[string]int) {}, func(string, string) {}).leaf()
	case pageDebrief:
		draw = func() (fyne.CanvasObject, error) { return g.debrief(l) }
	case pageRequests:
		draw = func() (fyne.CanvasObject, error) { return g.runner(l, "calm") }
	case pageDevice:
		draw = func() (fyne.CanvasObject, error) { return g.join(l, true) }
	}
	o, err := draw()
	if err != nil {
		o = look.NewFree(l, func(look.Put, float32, float32) {})
	}
	return &leaf{object: o, paint: func() {}, set: func(sight) bool { return true }}
}

// cannedLabel is of an item that the catalogue does not have.
const cannedLabel = "]d20109506000134352"

// mislabelled is the frame after a label that only another keyboard would have
// made.
func (g gallery) mislabelled(l *look.Look) (fyne.CanvasObject, error) {
	f := newFrame(l, g.words, frameActs{
		leaf: func(p page) *leaf { return g.leaf(l, p) }, opened: func(page) {}, shade: func() {}, scale: func(look.Scale) {}, noise: func() {},
	})
	f.set(sight{Unit: true, Side: requests.Outside, Can: requests.CanFetch, Sounds: true, SoundKnown: true, SoundWorks: true})
	f.open(pageRequests)
	f.fail(g.words.Fault("label-layout"))
	return f.root, nil
}
