package proof

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
)

// rulesOf lists the rules that a screen breaks, each once.
func rulesOf(found []Finding) (rules []Rule) {
	seen := map[Rule]bool{}
	for _, f := range found {
		if !seen[f.Rule] {
			rules = append(rules, f.Rule)
		}
		seen[f.Rule] = true
	}
	return rules
}

func tile(l *look.Look, u look.Use, word string) *look.Tile {
	t := look.NewTile(l, u, nil)
	t.Set(look.TileFace{Word: word})
	return t
}

// text is a line of the toolkit's own kind, in the shipped font.
func text(l *look.Look, said string, size float32) *canvas.Text {
	t := canvas.NewText(said, l.Palette().Ink)
	t.TextSize = size
	return t
}

// spot is a target that says nothing of its use, and takes any size.
type spot struct{ widget.BaseWidget }

func newSpot() *spot {
	s := &spot{}
	s.ExtendBaseWidget(s)
	return s
}

// Tapped is part of fyne.Tappable.
func (s *spot) Tapped(*fyne.PointEvent) {}

// CreateRenderer is part of fyne.Widget.
func (s *spot) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}

// broken is a screen that breaks one rule, and the same screen mended.
type broken struct {
	rule  Rule
	bad   func(placed)
	good  func(placed)
	reads look.Role
}

// pairOf puts two tiles of these uses so many millimetres apart.
func pairOf(a, b look.Use, mm float32) func(placed) {
	return func(p placed) {
		p.put(tile(p.look, a, "one"), 40, 40, 30, 30)
		p.put(tile(p.look, b, "two"), 70+mm, 40, 30, 30)
	}
}

// one puts a tile somewhere.
func one(u look.Use, left, top, width, height float32) func(placed) {
	return func(p placed) { p.put(tile(p.look, u, "one"), left, top, width, height) }
}

func targetsBroken() []broken {
	return []broken{
		{rule: RuleTarget, bad: func(p placed) { p.put(newSpot(), 40, 40, 19.8, 30) }, good: func(p placed) { p.put(newSpot(), 40, 40, 20, 30) }},
		{rule: RuleTarget, bad: func(p placed) { p.put(newSpot(), 40, 40, 30, 11.8) }, good: func(p placed) { p.put(newSpot(), 40, 40, 30, 20) }, reads: look.RunnerLine},
		{rule: RuleGap, bad: pairOf(look.UseInside, look.UseInside, 2.8), good: pairOf(look.UseInside, look.UseInside, 3)},
		{rule: RuleGap, bad: pairOf(look.UseInside, look.UseInside, -5), good: pairOf(look.UseRescue, look.UseInside, 3)},
		{rule: RuleGap, bad: pairOf(look.UseInside, look.UseWithdraw, 12.8), good: pairOf(look.UseInside, look.UseWithdraw, 13)},
		{rule: RuleGap, bad: pairOf(look.UseOutsideWithdraw, look.UseOutside, 12.8), good: pairOf(look.UseOutsideWithdraw, look.UseOutside, 13)},
		{rule: RuleCorner, bad: one(look.UseRescue, 5, 5, 30, 30), good: one(look.UseRescue, 11, 11, 30, 30)},
		{rule: RuleSquashed, bad: func(p placed) { p.put(look.NewStrip(p.look, 2), 4, 4, 200, 20) }, good: func(p placed) { p.put(look.NewStrip(p.look, 2), 4, 4, 200, 32) }},
		{rule: RuleOutside, bad: one(look.UseInside, 240, 40, 30, 30), good: one(look.UseInside, 226, 40, 30, 30)},
	}
}

func textsBroken() []broken {
	at := func(build func(l *look.Look) *canvas.Text) func(placed) {
		return func(p placed) { t := build(p.look); p.put(t, 40, 40, 100, 20) }
	}
	coloured := func(c uint8) func(placed) {
		return at(func(l *look.Look) *canvas.Text {
			t := text(l, "grey", 40)
			t.Color = grey(c)
			return t
		})
	}
	two := func(mm float32) func(placed) {
		return func(p placed) {
			p.put(text(p.look, "one", 40), 40, 40, 50, 12)
			p.put(text(p.look, "two", 40), 40, 40+mm, 50, 12)
		}
	}
	return []broken{
		{rule: RuleLetters, bad: at(func(l *look.Look) *canvas.Text { return text(l, "small", 29) }), good: at(func(l *look.Look) *canvas.Text { return text(l, "small", 29.2) })},
		{rule: RuleLetters, bad: at(func(l *look.Look) *canvas.Text { return text(l, "small", 62) }), good: at(func(l *look.Look) *canvas.Text { return text(l, "small", 62.6) }), reads: look.StripLine},
		{rule: RuleCut, bad: at(func(l *look.Look) *canvas.Text { return text(l, "Bougie…", 40) }), good: at(func(l *look.Look) *canvas.Text { return text(l, "Bougie", 40) })},
		{rule: RuleCut, bad: func(p placed) { p.put(text(p.look, "Supraglottic airway", 40), 40, 40, 60, 12) }, good: func(p placed) { p.put(text(p.look, "Supraglottic airway", 40), 40, 40, 80, 12) }},
		{rule: RuleOutside, bad: func(p placed) { p.put(text(p.look, "one", 40), 40, 155, 50, 12) }, good: func(p placed) { p.put(text(p.look, "one", 40), 40, 148, 50, 12) }},
		{rule: RuleOverlap, bad: two(4), good: two(8)},
		{rule: RuleContrast, bad: coloured(0x90), good: coloured(0xA8)},
		{rule: RuleRune, bad: at(func(l *look.Look) *canvas.Text { return text(l, "☐", 40) }), good: at(func(l *look.Look) *canvas.Text { return text(l, "✓", 40) })},
	}
}

func edgesBroken() []broken {
	edged := func(c uint8) func(placed) {
		return func(p placed) {
			r := canvas.NewRectangle(p.look.Palette().Ground)
			r.StrokeColor, r.StrokeWidth = grey(c), 2
			p.put(r, 40, 40, 30, 30)
		}
	}
	drawn := func(c uint8) func(placed) {
		return func(p placed) {
			p.put(canvas.NewImageFromResource(p.look.IconInk(look.IconDoor, grey(c))), 40, 40, 10, 10)
		}
	}
	return []broken{
		{rule: RuleContrast, bad: edged(0x50), good: edged(0x80)},
		{rule: RuleContrast, bad: drawn(0x50), good: drawn(0x80)},
	}
}

// Goal: the audit finds what is below the design, and nothing else. Method:
// for each rule a screen that breaks it by a little, and the same one that
// just keeps it.
func TestAuditFindsWhatIsBelowTheDesignAndNothingElse(t *testing.T) {
	window := fyne.NewSize(1280, 800)
	rules := append(append(targetsBroken(), textsBroken()...), edgesBroken()...)
	for _, b := range rules {
		if b.reads == 0 {
			b.reads = look.InsideTile
		}
		l := newLook(t, look.Dark, b.reads)
		bad, good := newPlaced(l), newPlaced(l)
		b.bad(bad)
		b.good(good)
		found := Audit(l, bad.box, window)
		require.Equal(t, []Rule{b.rule}, rulesOf(found), "%v", found)
		require.Contains(t, found[0].String(), string(b.rule))
		require.Empty(t, Audit(l, good.box, window), "mended: %s", b.rule)
	}
}

// Goal: a screen that is larger than its window is found. Method: tiles that
// need more room than a small phone has.
func TestAuditFindsAScreenLargerThanItsWindow(t *testing.T) {
	l := newLook(t, look.Dark, look.InsideTile)
	grid := container.NewGridWithColumns(4)
	for range 4 {
		grid.Add(tile(l, look.UseInside, "one"))
	}
	require.Contains(t, rulesOf(Audit(l, grid, fyne.NewSize(320, 480))), RuleScreen)
}

// Goal: what can be brought into view is not outside. Method: a long list in a
// scroll, and what is hidden in it.
func TestAuditLetsAListReachOutOfTheScreen(t *testing.T) {
	l := newLook(t, look.Dark, look.DeskLine)
	list := container.NewVBox()
	for range 60 {
		list.Add(text(l, "one line", 40))
	}
	hidden := text(l, "too small, but hidden", 3)
	hidden.Hide()
	list.Add(hidden)
	require.Empty(t, Audit(l, container.NewVScroll(list), fyne.NewSize(800, 480)))
}

func grey(v uint8) color.NRGBA { return color.NRGBA{R: v, G: v, B: v, A: 0xFF} }

// Goal: the toolkit's own widgets are readable too. Method: audit a button, a
// label and a tick box that have the room they ask for, in both shades.
func TestTheToolkitsWidgetsTakeTheLook(t *testing.T) {
	for _, shade := range []look.Shade{look.Dark, look.Light} {
		l := newLook(t, shade, look.DeskLine)
		box := container.NewCenter(container.NewVBox(widget.NewLabel("Restock"), widget.NewButton("Count", nil), widget.NewLabel("Par 5")))
		require.Empty(t, Audit(l, box, fyne.NewSize(800, 480)))
	}
}
