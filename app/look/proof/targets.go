package proof

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"lintel/app/look"
)

// hit is something that can be tapped.
type hit struct {
	seen
	use  look.Use
	name string
}

// sink is a part that takes every touch and does nothing with it; what it
// covers cannot be reached.
type sink interface{ Sinks() bool }

func sinks(o fyne.CanvasObject) bool {
	s, is := o.(sink)
	return is && s.Sinks()
}

// hits picks the targets. What does not say its use counts as one that gloved
// hands or clean ones tap, by the distance the screen is read from.
func (a *audit) hits(all []seen) (hits []hit) {
	for _, s := range all {
		if sinks(s.object) {
			hits = slices.DeleteFunc(hits, func(h hit) bool { return h.at.overlaps(s.at) })
		} else if t, is := s.object.(target); is {
			hits = append(hits, hit{s, t.Use(), nameOf(all, s)})
		} else if _, is := s.object.(fyne.Tappable); is {
			use := look.UseOutside
			if a.look.Reads() == look.InsideTile {
				use = look.UseInside
			}
			hits = append(hits, hit{s, use, nameOf(all, s)})
		}
	}
	return hits
}

// nameOf joins the words that stand on a target.
func nameOf(all []seen, on seen) (name string) {
	for _, s := range all {
		text, is := s.object.(*canvas.Text)
		if !is || text.Text == "" || !on.at.holds(s.at, text.TextSize) {
			continue
		}
		if name != "" {
			name += " "
		}
		name += text.Text
	}
	return name
}

func (a *audit) targets(all []seen) {
	hits := a.hits(all)
	for i, h := range hits {
		side := min(h.at.right-h.at.left, h.at.bottom-h.at.top)
		if mm, short := a.short(side, h.use.Side()); short {
			a.complain(RuleTarget, h.name, h.at, mm, float64(h.use.Side()))
		}
		if !h.scrolled && !a.window.holds(h.at, 1) {
			a.complain(RuleOutside, h.name, h.at, 0, 0)
		}
		a.corner(h)
		for _, other := range hits[:i] {
			if mm, short := a.short(apart(h.at, other.at), h.use.Gap(other.use)); short {
				a.complain(RuleGap, other.name+" | "+h.name, h.at, mm, float64(h.use.Gap(other.use)))
			}
		}
	}
}

// apart is the distance of two areas, 0 if they touch or overlap.
func apart(a, b area) float32 {
	dx := max(0, a.left-b.right, b.left-a.right)
	dy := max(0, a.top-b.bottom, b.top-a.bottom)
	return float32(math.Hypot(float64(dx), float64(dy)))
}

// corner looks how far a rescue set is from the screen's corners.
func (a *audit) corner(h hit) {
	if h.use != look.UseRescue {
		return
	}
	for _, x := range []float32{a.window.left, a.window.right} {
		for _, y := range []float32{a.window.top, a.window.bottom} {
			if mm, short := a.short(apart(h.at, area{x, y, x, y}), look.CornerRescue); short {
				a.complain(RuleCorner, h.name, h.at, mm, look.CornerRescue)
			}
		}
	}
}
