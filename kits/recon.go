package kits

import (
	"errors"
	"fmt"
	"slices"

	"lintel/mesh"
)

// ErrRecon says that a written case cannot be worked out; the text names the
// case and the event, the first one is 0.
var ErrRecon = errors.New("the case cannot be worked out")

// Bounds of what ReadRecon takes.
const (
	ReconLenMax    = 1 << 20 // bytes
	ReconCasesMax  = 10_000
	ReconEventsMax = 1000 // of one case
)

// ReconEvent is one event of a written case. Word is issue, issue_pending,
// post (taken in), void (taken back), give, waste, broken, return,
// destroy_unopened, left_with_patient, reverse_of or close.
type ReconEvent struct {
	Word    string
	Name    string // two events of one name are one record; empty: its own
	Amount  int64  // in the base measure; of reverse_of: the event it takes out
	Who     string
	Witness string // who saw or received it; of reverse_of: why
}

// ReconCase is one issue of a controlled drug as a list of events.
type ReconCase struct {
	ID      string
	Events  []ReconEvent
	Measure string // of all amounts, a word that ParseMeasure knows; empty: not said
	Start   *int64 // what the register held before, in the base measure; nil: not said
}

// ReconResult is what a case adds up to, in its base measure.
type ReconResult struct {
	ID          string     `json:"id"`
	State       IssueState `json:"-"`
	Word        string     `json:"state"`
	Measure     string     `json:"measure,omitempty"` // as the case says it
	Issued      int64      `json:"issued"`
	Given       int64      `json:"given"`
	Wasted      int64      `json:"wasted"`
	Broken      int64      `json:"broken"`
	Returned    int64      `json:"returned"`
	Destroyed   int64      `json:"destroyed_unopened"`
	Left        int64      `json:"left_with_patient"`
	Residual    int64      `json:"residual"`
	Pending     int64      `json:"pending"`
	Posted      int64      `json:"posted"`
	Back        int64      `json:"back_to_store"`
	Length      int        `json:"log_length"` // records, each once
	After       *int64     `json:"register_after,omitempty"`
	Unwitnessed []int      `json:"unwitnessed,omitempty"` // the events
	Listed      []ListedID `json:"listed,omitempty"`
}

// Word is a state as written cases and commands say it.
func (s IssueState) Word() string {
	switch s {
	case IssueOpen:
		return "open"
	case IssueBalanced:
		return "balanced"
	case IssueShort:
		return "short"
	case IssueOver:
		return "over"
	case IssueUnwitnessed:
		return "unwitnessed"
	case IssueConflict:
		return "conflict"
	}
	return ""
}

// recon works one case out. It is arithmetic alone, apart from the Ledger.
type recon struct {
	in       ReconCase
	out      ReconResult
	reversed map[int]bool
	names    map[string]int
	disputed bool
	closed   bool
	said     bool // who closed it said why
	asked    []int64
	ends     []int64 // what was taken in, as each end says
}

// Recon works a case out. Nothing recorded is refused; what makes no sense at all
// (an unknown word or measure, an amount out of bounds) is an error that wraps ErrRecon.
func Recon(c ReconCase) (ReconResult, error) {
	r := &recon{in: c, reversed: map[int]bool{}, names: map[string]int{}}
	r.out.ID, r.out.Measure = c.ID, c.Measure
	if _, known := ParseMeasure(c.Measure); !known && c.Measure != "" {
		return ReconResult{}, fmt.Errorf("%w: case %s: %q is no measure", ErrRecon, c.ID, c.Measure)
	}
	if c.Start != nil && (*c.Start < -QuantityMax || *c.Start > QuantityMax) {
		return ReconResult{}, fmt.Errorf("%w: case %s: the register cannot start with %d", ErrRecon, c.ID, *c.Start)
	}
	for i, e := range c.Events {
		if e.Amount < 0 || e.Amount > QuantityMax {
			return ReconResult{}, fmt.Errorf("%w: case %s, event %d: amount %d", ErrRecon, c.ID, i, e.Amount)
		}
		if e.Word == "reverse_of" && e.Amount < int64(len(c.Events)) && slices.Contains(reconEnds(), c.Events[e.Amount].Word) {
			r.reversed[int(e.Amount)] = true
		}
	}
	for i, e := range c.Events {
		if r.again(i, e) {
			continue
		}
		r.out.Length++
		if !r.reversed[i] && !r.play(i, e) {
			return ReconResult{}, fmt.Errorf("%w: case %s, event %d: %q is no event", ErrRecon, c.ID, i, e.Word)
		}
	}
	r.finish()
	return r.out, nil
}

// reconEnds are the events that a reversal can take out.
func reconEnds() []string {
	return []string{"give", "waste", "broken", "return", "returned", "destroy_unopened", "left_with_patient"}
}

// again tells whether an event has the name of an earlier one: the same record
// counts once, another one under the same name is a dispute.
func (r *recon) again(i int, e ReconEvent) bool {
	if e.Name == "" {
		return false
	}
	first, known := r.names[e.Word+"#"+e.Name]
	if !known {
		r.names[e.Word+"#"+e.Name] = i
		return false
	}
	if r.in.Events[first] != e {
		r.disputed = true
	}
	return true
}

// play adds one event. It reports false for a word that is none.
func (r *recon) play(i int, e ReconEvent) bool {
	o := &r.out
	switch e.Word {
	case "issue":
		o.Issued += e.Amount
		o.Posted += e.Amount
	case "issue_pending":
		o.Issued += e.Amount
		r.asked = append(r.asked, e.Amount)
	case "post":
		r.ends = append(r.ends, e.Amount)
	case "void":
		r.ends = append(r.ends, 0)
	case "give":
		o.Given += e.Amount
	case "waste":
		r.seen(&o.Wasted, i, e)
	case "broken":
		r.seen(&o.Broken, i, e)
		r.list(ListedBroken)
	case "return", "returned":
		o.Returned += e.Amount
	case "destroy_unopened":
		r.seen(&o.Destroyed, i, e)
	case "left_with_patient":
		r.seen(&o.Left, i, e)
		r.list(ListedLeft)
	case "reverse_of":
	case "close":
		r.closed, r.said = true, r.said || e.Witness != ""
	default:
		return false
	}
	return true
}

// seen adds what a second person must have seen.
func (r *recon) seen(sum *int64, i int, e ReconEvent) {
	*sum += e.Amount
	if e.Witness == "" || e.Witness == e.Who {
		r.out.Unwitnessed = append(r.out.Unwitnessed, i)
	}
}

func (r *recon) list(id ListedID) {
	if !slices.Contains(r.out.Listed, id) {
		r.out.Listed = append(r.out.Listed, id)
	}
}

// endPending ends what is pending: the first end is of the first hand-over, the
// second of the second, all others of the last one. Ends of one hand-over that
// differ leave it at the door.
func (r *recon) endPending() {
	o := &r.out
	for k, asked := range r.asked {
		var ends []int64
		for j, n := range r.ends {
			if min(j, len(r.asked)-1) == k {
				ends = append(ends, n)
			}
		}
		if len(ends) == 0 {
			o.Pending += asked
			continue
		}
		if slices.Min(ends) != slices.Max(ends) {
			r.disputed = true
			o.Pending += asked
			continue
		}
		o.Posted += ends[0]
		o.Back += max(0, asked-ends[0])
	}
	o.Returned += o.Back
}

// finish adds up.
func (r *recon) finish() {
	r.endPending()
	o := &r.out
	o.Residual = o.Issued - o.Given - o.Wasted - o.Broken - o.Returned - o.Destroyed - o.Left
	v := Issue{Residual: o.Residual, Pending: o.Pending}
	if r.closed {
		v.Shut = make([]mesh.Ref, 1)
	}
	v.Unwitnessed = make([]mesh.Ref, len(o.Unwitnessed))
	o.State = v.state(r.disputed)
	o.Word = o.State.Word()
	if o.State == IssueShort && !r.said {
		r.list(ListedUnsaid)
	}
	if r.in.Start != nil {
		after := *r.in.Start - o.Issued + o.Returned
		o.After = &after
	}
}
