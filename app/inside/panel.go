package inside

import (
	"slices"
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Panel is one request, or where a rescue set lies, over the lower half of the
// board.
type Panel struct {
	Head     look.BannerFace
	Word     string // in the largest letters
	Tell     look.BannerFace
	Buttons  []Button // from the left, without what withdraws
	Others   []Button // alternatives, in larger tiles
	Withdraw *Button
	Code     string              // joining code, apart: "1 2 3 4 5"
	Label    *look.DrugLabelFace // of a drug, instead of Word; nil: none
}

// Button is one thing that the panel offers.
type Button struct {
	Face  look.TileFace
	Act   requests.Act
	Does  does
	Nr    uint8    // the alternative
	Mark  mesh.Ref // the read-back or offer that it answers, or the other of two requests
	Count requests.Count
}

// does is what a button does beside acts.
type does int

const (
	doesAct does = iota
	doesClose
	doesNext
	doesSign
	doesCount   // so many
	doesCountOn // shows higher counts
	doesFewer   // asks how many were taken in
)

// panel is what is open; nil: nothing.
func panel(w words.Words, s Snapshot, h hand) *Panel {
	if h.count != (counting{}) {
		return countPanel(w, s, h.count)
	}
	if h.lies != "" {
		for _, set := range s.Sets {
			if set.Letter == h.lies {
				return liesPanel(w, s, set)
			}
		}
	}
	if r, there := s.request(h.open); there {
		return requestPanel(w, s, r)
	}
	return nil
}

// requestPanel is one request with what can be done for it.
func requestPanel(w words.Words, s Snapshot, r Request) *Panel {
	p := &Panel{Code: spaced(r.Code), Buttons: []Button{closing(w)}}
	p.Word = w.Thing(int64(r.Thing.Count), r.Thing.Name, words.Measured(string(r.Thing.Strength)))
	p.Tell = look.BannerFace{Sentence: tellState(w, s, r)}
	head := w.Say("inside.head.asked", w.Say("urgency."+words.UrgencyID(r.Urgency)))
	if r.Out {
		head = w.Say("inside.head.out", w.Say("urgency."+words.UrgencyID(r.Urgency)))
	}
	named, count := r.Thing.Item, r.Thing.Count
	switch {
	case r.can(requests.ActAgree) && r.Held != nil && !r.Held.Closed:
		held := r.Held.Thing
		named, count = held.Item, held.Count
		head = w.Say("inside.head.holds", held.who(w, r.Held.By))
		p.Word = w.Thing(int64(held.Count), held.Name, words.Measured(string(held.Strength)))
		p.answer(w, r.Held.Ref)
		if !r.Held.Matches {
			asked := w.Thing(int64(r.Thing.Count), r.Thing.Name, words.Measured(string(r.Thing.Strength)))
			p.Tell = look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("inside.differs", asked), Tone: look.ToneFault}
		}
	case r.can(requests.ActAgree) && len(r.Offer) > 0:
		head = w.Say("inside.head.offers")
		p.offers(w, r)
	}
	p.Head = look.BannerFace{Sentence: head, Icon: look.IconHand}
	if i, known := s.item(named); known {
		p.drug(w, i, count)
	}
	p.doing(w, s, r)
	if r.can(requests.ActWithdraw) {
		p.Withdraw = &Button{Face: look.TileFace{Word: w.Say("act.withdraw")}, Act: requests.ActWithdraw}
	}
	return p
}

// doing adds what can be done beside answers, as far as there is room.
func (p *Panel) doing(w words.Words, s Snapshot, r Request) {
	if r.can(requests.ActTakeIn) {
		p.add(w, requests.ActTakeIn, look.IconDoor)
		if r.AtDoor > 1 {
			p.Buttons = append(p.Buttons, Button{Face: look.TileFace{Word: w.Say("inside.fewer")}, Does: doesFewer})
		}
	}
	if r.Out && !r.can(requests.ActTakeIn) && (r.Shown == requests.ShownAsked || r.Shown == requests.ShownAcknowledged || r.Shown == requests.ShownInHand) {
		face := look.TileFace{Word: w.Say("inside.put-out"), Icon: look.IconDoor}
		p.Buttons = append(p.Buttons, Button{Face: face, Act: requests.ActPutAtDoor})
	}
	if twin, there := s.twin(r); there {
		face := look.TileFace{Word: w.Say("inside.same"), Detail: w.Say("inside.same.tapped")}
		if twin.Origin == requests.AskedByVoice {
			face.Detail = w.Say("inside.same.voice")
		}
		p.Buttons = append(p.Buttons, Button{Face: face, Act: requests.ActJoin, Mark: twin.Ref})
	}
	if r.can(requests.ActChange) && len(p.Others) == 0 && r.Held == nil {
		p.Buttons = append(p.Buttons, Button{Face: look.TileFace{Word: w.Say("inside.one-more")}, Act: requests.ActChange})
	}
	if !s.inReach() || r.Unreached {
		p.Buttons = append(p.Buttons, Button{Face: look.TileFace{Word: w.Say("inside.sign"), Icon: look.IconGlassSign}, Does: doesSign})
	}
	if len(s.Requests) > 1 {
		p.Buttons = append(p.Buttons, Button{Face: look.TileFace{Word: w.Say("inside.next")}, Does: doesNext})
	}
	p.Buttons = p.Buttons[:min(len(p.Buttons), buttonsMax)]
}

// twin is another request that may be the same need: one was tapped here, the
// other heard outside, and nobody joined them.
func (s Snapshot) twin(r Request) (Request, bool) {
	for _, x := range s.Requests {
		voices := (x.Origin == requests.AskedByVoice) != (r.Origin == requests.AskedByVoice)
		if x.Ref != r.Ref && x.Thing.Item == r.Thing.Item && x.Out == r.Out && voices && !slices.Contains(r.Joined, x.Ref) {
			return x, true
		}
	}
	return Request{}, false
}

// drug shows a drug by its label, so many of it; 0: that is not known yet.
func (p *Panel) drug(w words.Words, i Item, n requests.Count) {
	d := i.Drug
	if d == nil {
		return
	}
	p.Label = &look.DrugLabelFace{Name: d.Name, Strength: words.Measured(d.Strength), Volume: words.Measured(d.Volume), Band: band(w.DrugClass(string(d.Class)), i)}
	if n > 0 {
		p.Label.Count = strings.TrimSpace(w.Counted(int64(n), ""))
	}
	switch {
	case d.LookAlike:
		p.Label.Warning = w.Say("inside.look-alike")
	case d.HighAlert:
		p.Label.Warning = w.Say("inside.high-alert")
	}
}

func (t Thing) who(w words.Words, tag string) string {
	if tag == "" {
		return w.Say("going.tag")
	}
	return tag
}

func closing(w words.Words) Button {
	return Button{Face: look.TileFace{Word: w.Say("inside.back")}, Does: doesClose}
}

func (p *Panel) add(w words.Words, a requests.Act, i look.Icon) {
	p.Buttons = append(p.Buttons, Button{Face: look.TileFace{Word: w.Say("act." + words.ActID(a)), Icon: i}, Act: a})
}

func (p *Panel) answer(w words.Words, mark mesh.Ref) {
	p.add(w, requests.ActAgree, look.IconLoop)
	p.add(w, requests.ActRefuse, look.IconNone)
	for i := range p.Buttons {
		p.Buttons[i].Mark = mark
	}
}

func (p *Panel) offers(w words.Words, r Request) {
	for i, t := range r.Offer {
		p.Others = append(p.Others, Button{
			Face: look.TileFace{Word: w.Counted(int64(t.Count), t.Name), Detail: words.Measured(string(t.Strength))},
			Act:  requests.ActAgree, Nr: uint8(i + 1), Mark: r.Offered,
		})
	}
	p.add(w, requests.ActRefuse, look.IconNone)
	p.Buttons[len(p.Buttons)-1].Mark = r.Offered
}

// liesPanel says where a set lies, and how far the same tap's request for it got.
func liesPanel(w words.Words, s Snapshot, set Set) *Panel {
	p := &Panel{
		Head:    look.BannerFace{Sentence: w.Say("inside.head.lies", set.Name), Icon: look.IconKit},
		Word:    set.Lies,
		Buttons: []Button{closing(w)},
	}
	for _, r := range s.ordered() {
		if r.Thing.Item == set.Number && p.Tell.Sentence == "" {
			p.Tell = look.BannerFace{Sentence: w.Say("inside.lies-asked", tellState(w, s, r))}
		}
	}
	return p
}

// tellState says all that is known of how far a request got.
func tellState(w words.Words, s Snapshot, r Request) string {
	said, _, _ := state(w, r)
	parts := []string{said}
	if r.Own && r.Shown == requests.ShownAsked {
		parts = nil
		if r.Unreached {
			parts = append(parts, w.Say("strip.unreached"))
		}
		for _, id := range words.ReachIDs(requests.Request{}, r.Reach) {
			if id == "copies" {
				parts = append(parts, w.Count("step.copies", r.Reach.Copies))
				continue
			}
			parts = append(parts, w.Say("step."+id))
		}
	}
	if r.Shown == requests.ShownCouldNot && r.Why != "" {
		parts = append(parts, r.Why)
	}
	if r.Shown == requests.ShownAtDoor && !r.Out {
		parts = append(parts, w.Say("loop."+words.LoopWord(r.Loop, r.Unlike)))
	}
	return strings.Join(append(parts, age(w, s, r)), " · ")
}

// spaced puts a space between digits, so that they are read one by one.
func spaced(code string) string { return strings.Join(strings.Split(code, ""), " ") }

// next is the request after one, in the order of the strip.
func (s Snapshot) next(after mesh.Ref) mesh.Ref {
	all := s.ordered()
	for i, r := range all {
		if r.Ref == after {
			return all[(i+1)%len(all)].Ref
		}
	}
	if len(all) > 0 {
		return all[0].Ref
	}
	return mesh.Ref{}
}
