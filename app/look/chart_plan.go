package look

import (
	"cmp"
	"slices"
	"time"
)

// ChartFace is a picture of a course of time: lanes below each other, with bars
// and points on one axis. It takes plain times, counted from wherever the
// caller likes, and words that stand for them.
type ChartFace struct {
	From, To time.Duration // the ends of the axis
	Ticks    []ChartTick   // along the axis
	Lanes    []ChartLane
	None     string // said where there is no lane
}

// ChartTick is a place on the axis with its word: "14:05".
type ChartTick struct {
	At   time.Duration
	Word string
}

// ChartLane is one row of the picture, as high as its words need.
type ChartLane struct {
	Word   string
	Bars   []ChartBar
	Points []ChartPoint
}

// ChartBar is something that lasted.
type ChartBar struct {
	From, To time.Duration
	Steps    []time.Duration // lines across it: acknowledged, at the door
	Word     string
	Tone     Tone
	Open     bool // nobody ended it: drawn as an outline
}

// ChartPoint is something that happened.
type ChartPoint struct {
	At     time.Duration
	Within time.Duration // how far the clocks may be off, either way: a line through it
	Word   string
	Tone   Tone
	Late   bool // entered afterwards: drawn as an outline
}

// chartMark is a bar or a point with its place, in dp.
type chartMark struct {
	bar         bool
	from, to    float32 // of the bar or of the point's sign
	word        string
	wordX, wide float32
	level       int
	tone        Tone
	hollow      bool
	inside      bool // the word stands on the bar
	below       bool // the word stands on the next level
	steps       []float32
	low, high   float32 // of what the clocks leave open
}

// chartLane is a lane with the places of all its marks.
type chartLane struct {
	word   string
	marks  []chartMark
	levels int
}

// chartAxis turns times into places between two edges, in dp.
type chartAxis struct {
	from, to    time.Duration
	left, right float32
}

// at is the place of a time; what lies outside of the axis stands at its end.
func (a chartAxis) at(d time.Duration) float32 {
	if a.to <= a.from {
		return a.left
	}
	d = min(max(d, a.from), a.to)
	return a.left + (a.right-a.left)*float32(float64(d-a.from)/float64(a.to-a.from))
}

// chartRuler measures the words of a chart, and what stands between them, in dp.
type chartRuler struct {
	measure func(string) float32
	gap     float32 // between marks on one level
	sign    float32 // width of a point
	pad     float32 // between a mark and its word
}

// plan places the marks of a lane: in the order they begin, each on the first
// level where it has room.
func (r chartRuler) plan(lane ChartLane, axis chartAxis) chartLane {
	out := chartLane{word: lane.Word, levels: 1}
	for _, b := range lane.Bars {
		out.marks = append(out.marks, r.bar(b, axis))
	}
	for _, p := range lane.Points {
		out.marks = append(out.marks, r.point(p, axis))
	}
	slices.SortStableFunc(out.marks, func(a, b chartMark) int { return cmp.Compare(a.start(), b.start()) })
	taken := map[int][]span{}
	free := func(level int, s span) bool {
		return !slices.ContainsFunc(taken[level], func(o span) bool { return s.from < o.to+r.gap && o.from < s.to+r.gap })
	}
	for i := range out.marks {
		m := &out.marks[i]
		sign, word := m.spans()
		for !free(m.level, sign) || m.below && !free(m.level+1, word) {
			m.level++
		}
		taken[m.level] = append(taken[m.level], sign)
		out.levels = max(out.levels, m.level+1)
		if m.below {
			taken[m.level+1] = append(taken[m.level+1], word)
			out.levels = max(out.levels, m.level+2)
		}
	}
	return out
}

// span is a piece of a level, in dp.
type span struct{ from, to float32 }

// spans are what a mark takes of its level, and its word of the next one where
// it stands below.
func (m chartMark) spans() (sign, word span) {
	sign, word = span{min(m.from, m.low), max(m.to, m.high)}, span{m.wordX, m.wordX + m.wide}
	if m.word != "" && !m.below {
		sign = span{min(sign.from, word.from), max(sign.to, word.to)}
	}
	return sign, word
}

func (m chartMark) start() float32 { sign, _ := m.spans(); return sign.from }

func (r chartRuler) bar(b ChartBar, axis chartAxis) chartMark {
	m := chartMark{bar: true, from: axis.at(b.From), to: axis.at(b.To), word: b.Word, tone: b.Tone, hollow: b.Open}
	m.to = max(m.to, m.from+r.sign)
	m.keep(axis)
	m.low, m.high = m.from, m.to
	for _, s := range b.Steps {
		m.steps = append(m.steps, axis.at(s))
	}
	m.wide = r.measure(b.Word) + 1
	if m.inside = m.wide+2*r.pad <= m.to-m.from && len(m.steps) == 0; m.inside {
		m.wordX = m.from + r.pad
		return m
	}
	r.beside(&m, axis)
	return m
}

// keep moves a mark that reaches over an end of the axis.
func (m *chartMark) keep(axis chartAxis) {
	over := max(0, m.to-axis.right) - max(0, axis.left-m.from)
	m.from, m.to = m.from-over, m.to-over
}

func (r chartRuler) point(p ChartPoint, axis chartAxis) chartMark {
	x := axis.at(p.At)
	m := chartMark{from: x - r.sign/2, to: x + r.sign/2, word: p.Word, tone: p.Tone, hollow: p.Late}
	m.keep(axis)
	m.low, m.high = m.from, m.to
	if p.Within > 0 {
		m.low, m.high = min(m.low, axis.at(p.At-p.Within)), max(m.high, axis.at(p.At+p.Within))
	}
	m.wide = r.measure(p.Word) + 1
	r.beside(&m, axis)
	return m
}

// beside puts a word behind its mark, before it where it would leave the
// picture, and below it where there is no room on either side. A word that is
// longer than the axis is cut.
func (r chartRuler) beside(m *chartMark, axis chartAxis) {
	m.wordX = m.high + r.pad
	if m.word == "" || m.wordX+m.wide <= axis.right {
		return
	}
	if left := m.low - r.pad - m.wide; left >= axis.left {
		m.wordX = left
		return
	}
	m.below = true
	m.wide = min(m.wide, axis.right-axis.left)
	m.wordX = min(max(axis.left, m.from), axis.right-m.wide)
}
