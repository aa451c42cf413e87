package requests

import (
	"slices"

	"lintel/mesh"
)

// Request returns the request of an Asked. False: there is none by that name.
func (b *Board) Request(asked mesh.Ref) (Request, bool) {
	n := b.facts[asked]
	if n == nil || n.root != n {
		return Request{}, false
	}
	return b.placed(n), true
}

// Requests returns every request, also those that are over, in the order in
// which they were asked.
func (b *Board) Requests() []Request {
	if !b.sorted {
		slices.SortFunc(b.asked, compareFacts)
		b.sorted = true
	}
	out := make([]Request, len(b.asked))
	for i, n := range b.asked {
		out[i] = b.placed(n)
	}
	return out
}

// placed gives the view of a request together with its case and its joins,
// which other facts decide.
func (b *Board) placed(asked *fact) Request {
	r := *b.view(asked)
	r.JoinedWith = b.joinedWith(asked.Ref)
	if open := b.caseFact(asked); open != nil {
		r.Case = open.Ref
	}
	return r
}

// view gives what follows from the marks of one request, without its joins.
func (b *Board) view(asked *fact) *Request {
	if r, known := b.views[asked.Ref]; known {
		return r
	}
	v := &viewer{b: b, asked: asked, body: asked.body.(*Asked)}
	v.gather()
	r := v.build()
	b.views[asked.Ref] = r
	return r
}

// viewer derives one Request from the marks under its Asked.
type viewer struct {
	b     *Board
	asked *fact
	body  *Asked
	all   []*fact // every mark, in order
	r     Request
}

// gather collects the marks and finds for each the want it lies under and
// whether it is in turn.
func (v *viewer) gather() {
	v.asked.want = v.asked
	v.all = []*fact{v.asked}
	for i := 0; i < len(v.all); i++ {
		n := v.all[i]
		for _, child := range v.b.answers[n.Ref] {
			child.want = n.want
			if v.isWant(child) {
				child.want = child
			}
			v.all = append(v.all, child)
		}
	}
	slices.SortFunc(v.all, compareFacts)
	before := make([]Step, 0, StepWithdrawn)
	if v.body.Origin == PassedIn {
		before = append(before, StepAcknowledged) // nobody asked: whoever passes it in holds it
	}
	for _, n := range v.all {
		s := stepOf(n.Kind)
		if n != v.asked {
			target := v.b.facts[n.names]
			n.outOfTurn = s != StepNone && !inTurn(s, before) || !answersRightly(n, target, target.want == target)
		}
		if s != StepNone && !slices.Contains(before, s) {
			before = append(before, s)
		}
	}
}

// under lists, in order, the marks that name n and count.
func (v *viewer) under(n *fact) []*fact {
	var out []*fact
	for _, a := range v.b.answers[n.Ref] {
		if !v.b.undone(a) {
			out = append(out, a)
		}
	}
	slices.SortFunc(out, compareFacts)
	return out
}

// isWant tells whether a mark says what is wanted from then on.
func (v *viewer) isWant(n *fact) bool {
	switch body := n.body.(type) {
	case *Asked, *Changed:
		return true
	case *Agreed:
		return chosenOf(body, v.b.facts[n.names]) != nil
	}
	return false
}

// mark gives a fact as it is listed.
func (b *Board) mark(n *fact) Mark {
	m := Mark{
		Ref: n.Ref, Names: n.names, At: n.At, Wall: n.Wall, By: n.By, Kind: n.Kind,
		Undone: b.undone(n), OutOfTurn: n.outOfTurn,
	}
	if late := b.correction(n); late != nil {
		m.Corrected, m.WithinMS = late.Happened, late.WithinMS
	}
	return m
}

// correction is the newest word on when a fact happened that gives a time; nil: none.
func (b *Board) correction(n *fact) *LateTime {
	if len(b.cases.beside[n.Ref]) == 0 {
		return nil
	}
	for _, late := range slices.Backward(b.aboutOf(n, KindLateTime)) {
		if body := late.body.(*LateTime); body.Happened != 0 {
			return body
		}
	}
	return nil
}

func (v *viewer) build() *Request {
	asked := v.body
	v.r = Request{
		Ref: v.asked.Ref, Case: asked.Case, Room: asked.Room, Direction: asked.Direction,
		Origin: asked.Origin, Bundle: asked.Bundle,
		Asked: v.b.mark(v.asked), Undone: v.b.undone(v.asked),
		Asker: Asker{Device: v.asked.Ref.Author(), Role: v.asked.By.Role, Tag: v.asked.By.Tag},
	}
	if asked.Tag != "" {
		v.r.Asker.Tag = asked.Tag
	}
	v.r.Marks = make([]Mark, len(v.all))
	for i, n := range v.all {
		v.r.Marks[i] = v.b.mark(n)
		v.flag(FlagOutOfTurn, n.outOfTurn)
	}
	v.wants()
	v.deliveries()
	v.readBacks()
	v.lists()
	v.goings()
	v.steps()
	return &v.r
}

func (v *viewer) flag(f Flags, set bool) {
	if set {
		v.r.Flags |= f
	}
}

// wants finds what is wanted now: the wants that count and that no other want
// that counts lies under.
func (v *viewer) wants() {
	replaced := map[*fact]bool{}
	for _, n := range v.all {
		if n.want != n || v.b.undone(n) || n == v.asked {
			continue
		}
		for w := v.b.facts[n.names].want; !replaced[w]; w = v.b.facts[w.names].want {
			replaced[w] = true
			if w == v.asked {
				break
			}
		}
	}
	for _, n := range slices.Backward(v.all) {
		if n.want == n && !v.b.undone(n) && !replaced[n] {
			thing, urgency := v.says(n)
			v.r.Wants = append(v.r.Wants, Want{v.b.mark(n), thing, urgency})
		}
	}
	if len(v.r.Wants) == 0 { // all of it was taken back: what was asked first is still shown
		v.r.Wants = []Want{{v.r.Asked, v.body.Thing, v.body.Urgency}}
	}
	first := v.r.Wants[0]
	v.r.Thing, v.r.Urgency = first.Thing, first.Urgency
	for _, w := range v.r.Wants[1:] {
		v.flag(FlagTwoValues, w.Thing != first.Thing || w.Urgency != first.Urgency)
	}
}

// says is what a want wants, and how soon. An agreed alternative keeps the
// urgency of what it stands for.
func (v *viewer) says(w *fact) (Thing, Urgency) {
	switch body := w.body.(type) {
	case *Changed:
		return body.Thing, body.Urgency
	case *Agreed:
		return *chosenOf(body, v.b.facts[w.names]), v.urgency(v.b.facts[w.names].want)
	}
	return v.body.Thing, v.body.Urgency
}

// urgency walks up over agreed alternatives to the want that states one.
func (v *viewer) urgency(w *fact) Urgency {
	for {
		switch body := w.body.(type) {
		case *Changed:
			return body.Urgency
		case *Asked:
			return body.Urgency
		}
		w = v.b.facts[w.names].want
	}
}

// lists fills the lists whose marks need no more than to be listed.
func (v *viewer) lists() {
	for _, n := range v.all {
		if v.b.undone(n) {
			continue
		}
		m := v.b.mark(n)
		switch body := n.body.(type) {
		case *CouldNot:
			v.r.CouldNot = append(v.r.CouldNot, Ending{m, body.Why})
		case *Withdrawn:
			v.r.Withdrawn = append(v.r.Withdrawn, Ending{m, body.Why})
		case *Reminded:
			v.r.Reminded = append(v.r.Reminded, Reminder{m, body.Level})
		case *Offered:
			o := Offer{Mark: m, Meets: v.b.facts[n.names].want.Ref, Things: body.Things}
			o.Agreed, o.Refused = v.choices(n)
			v.flag(FlagSplitAnswer, split(o.Agreed, o.Refused))
			v.flag(FlagAgreedAway, away(slices.DeleteFunc(slices.Clone(o.Agreed), v.replaced)))
			v.r.Offers = append(v.r.Offers, o)
		}
	}
}

// replaced tells whether something else is wanted than what was agreed here.
func (v *viewer) replaced(c Choice) bool {
	return !slices.ContainsFunc(v.r.Wants, func(w Want) bool { return w.Ref == c.Ref })
}

// goings fills who is going and who passed it on to whom.
func (v *viewer) goings() {
	last := map[mesh.Key]*fact{} // per device: the last thing it said about going
	for _, n := range v.all {
		if v.b.undone(n) {
			continue
		}
		switch body := n.body.(type) {
		case *PassedOn:
			p := Passing{Mark: v.b.mark(n), To: body.To, Device: body.Key}
			p.Counts = v.counts(body)
			v.r.PassedOn = append(v.r.PassedOn, p)
			if p.Counts {
				last[n.Ref.Author()] = n
			}
		case *Acknowledged:
			v.r.Acknowledged = append(v.r.Acknowledged, Going{Mark: v.b.mark(n)})
			last[n.Ref.Author()] = n
		case *InHand, *CouldNot:
			last[n.Ref.Author()] = n
		}
	}
	// The marks of one device have one order; those of several are never set
	// against each other, so that nobody's "could not" ends another's going.
	for i := range v.r.Acknowledged {
		g := &v.r.Acknowledged[i]
		end := last[g.Ref.Author()].Kind
		g.Still = end != KindCouldNot && end != KindPassedOn
	}
}

// counts tells whether the runner to whom p gives has acknowledged.
func (v *viewer) counts(p *PassedOn) bool {
	return slices.ContainsFunc(v.all, func(a *fact) bool { return v.takesOver(a, p) })
}

// takesOver tells whether a is the acknowledgement of the runner to whom p gives.
func (v *viewer) takesOver(a *fact, p *PassedOn) bool {
	if a.Kind != KindAcknowledged || v.b.undone(a) {
		return false
	}
	return p.To != "" && a.By.Tag == p.To || p.Key != mesh.Key{} && a.Ref.Author() == p.Key
}

// steps finds the furthest step, how far the loop got, and what is shown.
func (v *viewer) steps() {
	r := &v.r
	r.Step = StepAsked
	if len(r.Acknowledged) > 0 || len(r.InHand) > 0 || len(r.Deliveries) > 0 {
		r.Step = StepAcknowledged
	}
	for _, h := range r.InHand {
		if h.Live {
			r.Step = max(r.Step, StepInHand)
		}
	}
	for _, d := range r.Deliveries {
		switch {
		case d.Open:
			r.Step = max(r.Step, StepAtDoor)
		case slices.ContainsFunc(d.Ends, func(t Taking) bool { return t.Count > 0 }):
			r.Step = StepTakenIn
		}
		r.Taken += d.Taken
	}
	r.Loop = v.loop()
	r.Shown = r.shown()
	v.flag(FlagTakeBack, r.Shown == ShownTakeBack)
	v.flag(FlagFewer, r.TakenIn() && !r.WaitsAtDoor() && !r.Flags.Has(FlagTakenTwice) && r.Taken < r.Thing.Count)
	v.flag(FlagMore, r.Taken > r.Thing.Count && !slices.ContainsFunc(r.Deliveries, func(d Delivery) bool {
		return d.Thing.Measure != r.Thing.Measure
	}))
}
