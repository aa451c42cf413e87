package main

import (
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// slotOf is one part of an issue's equation.
type slotOf struct {
	Slot string `json:"slot"` // issued, given, wasted, broken, returned, destroyed, left, residual
	amountOf
}

// issueEvent is one issue of a controlled drug: issued equals the sum of the rest.
type issueEvent struct {
	Event      string      `json:"event"` // issue
	Issue      string      `json:"issue"` // its code
	Ref        string      `json:"ref"`
	Case       string      `json:"case,omitempty"`
	Item       string      `json:"item"`
	Number     uint32      `json:"number"`
	Lot        string      `json:"lot,omitempty"`
	State      words.ID    `json:"state"` // open, balanced, short, over, unwitnessed, conflict
	Taken      mesh.Tag    `json:"taken_by,omitempty"`
	Checked    mesh.Tag    `json:"checked_by,omitempty"`
	Authorised mesh.ID     `json:"authorised_by,omitempty"`
	Register   string      `json:"register,omitempty"`
	Slots      []slotOf    `json:"slots"`
	Entries    []drugEntry `json:"entries"`
	Closings   []closingOf `json:"closings"`
}

// drugEntry is one record that belongs to an issue.
type drugEntry struct {
	Code      string      `json:"code"`
	Ref       string      `json:"ref"`
	Happened  int64       `json:"happened"`
	By        string      `json:"by"`
	From      string      `json:"from"`
	To        string      `json:"to"`
	Amount    amountOf    `json:"amount"`
	Why       string      `json:"why,omitempty"`
	Reversed  bool        `json:"reversed,omitempty"`
	Needs     bool        `json:"needs_witness"`
	Seen      bool        `json:"witnessed"`
	Witnesses []witnessOf `json:"witnesses"`
}

type witnessOf struct {
	Tag   mesh.Tag `json:"tag"`
	Grade words.ID `json:"grade"`
	Holds bool     `json:"suffices"`
}

type closingOf struct {
	By  string `json:"by"`
	Why string `json:"why,omitempty"`
}

func (e issueEvent) say(w words.Words) string {
	var parts []string
	for _, s := range e.Slots[1:] {
		if s.Base != 0 || s.Containers != 0 {
			parts = append(parts, w.Say("slot."+words.ID(s.Slot), s.say(w)))
		}
	}
	if len(parts) == 0 {
		parts = append(parts, w.Say("slot.nothing"))
	}
	said := w.Say("list.issue", e.Issue, e.Item, w.Say("issue."+e.State), e.Slots[0].say(w), strings.Join(parts, w.Say("slot.plus")))
	said += "\n  " + w.Say("list.issue-people", orNobody(w, string(e.Taken)), orNobody(w, string(e.Checked)), orNobody(w, string(e.Authorised)), orNobody(w, e.Register))
	for _, x := range e.Entries {
		line := w.Say("list.issue-entry", x.Code, clockTime(mesh.Wall(x.Happened)), x.Amount.say(w), x.From, x.To, x.By)
		for _, s := range x.Witnesses {
			line += w.Say("device.and") + w.Say("list.witness", s.Tag, w.Say("grade."+s.Grade))
		}
		if x.Needs && !x.Seen && !x.Reversed {
			line += w.Say("device.and") + w.Say("list.unwitnessed")
		}
		if x.Reversed {
			line = w.Say("fact.undone", line)
		}
		said += "\n  " + line
	}
	for _, c := range e.Closings {
		said += "\n  " + w.Say("list.issue-closed", c.By, orNobody(w, c.Why))
	}
	return said
}

// orNobody is a text, or that nobody said.
func orNobody(w words.Words, text string) string {
	if text == "" {
		return w.Say("list.nobody-said")
	}
	return text
}

// noteLine is a sentence that belongs to a list.
type noteLine struct {
	Event string   `json:"event"` // note
	Note  words.ID `json:"note"`
	Text  string   `json:"text"`
}

func (e noteLine) say(words.Words) string { return e.Text }

// controlledEvents are the controlled-drug record of cases, the sheet for the
// paper register, or the auditor's list.
func controlledEvents(w words.Words, v station.View, a *arguments) (all []event, err error) {
	which, _ := a.keyword("sheet", "list")
	if which == "" {
		if all, err = issueEvents(v, a); err != nil {
			return nil, err
		}
	} else if err = a.done(); err != nil {
		return nil, err
	}
	switch which {
	case "sheet":
		all = sheetEvents(v)
	case "list":
		all = auditorEvents(v)
	}
	return append(all, noteLine{"note", "no-register", w.Say("list.no-register")}), nil
}

func issueEvents(v station.View, a *arguments) (all []event, err error) {
	fits, err := lookedAt(v, a)
	if err != nil {
		return nil, err
	}
	for _, i := range v.Ledger.Issues() {
		c, _ := v.Board.Case(i.Case)
		if r, known := v.Ledger.IssueRecord(i.Ref); known && fits(i.Case, c.Room) {
			all = append(all, describeIssue(r))
		}
	}
	return all, nil
}

func describeIssue(r kits.IssueRecord) issueEvent {
	e := issueEvent{
		Event: "issue", Issue: requests.Code(r.Ref), Ref: r.Ref.Hex(), Item: itemName(r.Item), Number: uint32(r.Item.Number), Lot: string(r.Line.Lot),
		State: words.ID(r.State.Word()), Taken: r.TakenBy, Checked: r.CheckedBy, Authorised: r.AuthorisedBy, Register: string(r.Register),
		Entries: []drugEntry{}, Closings: []closingOf{},
	}
	if !r.Case.IsZero() {
		e.Case = requests.Code(r.Case)
	}
	for _, s := range r.Slots {
		e.Slots = append(e.Slots, slotOf{string(s.ID), amountFrom(s.Amount)})
	}
	for _, x := range r.Entries {
		d := drugEntry{
			Code: requests.Code(x.Ref), Ref: x.Ref.Hex(), Happened: int64(x.Wall), By: whoBy(x.By), From: x.From.Words(), To: x.To.Words(),
			Amount: amountFrom(x.Amount), Why: string(x.Why), Reversed: len(x.Reversed) > 0, Needs: x.Needs, Seen: x.Seen, Witnesses: witnessesOf(x.Witnesses),
		}
		if x.ReceivedBy != "" {
			d.Why = strings.TrimSpace(string(x.Unit) + " " + string(x.ReceivedBy))
		}
		e.Entries = append(e.Entries, d)
	}
	for _, c := range r.Closings {
		e.Closings = append(e.Closings, closingOf{whoBy(c.By), string(c.Why)})
	}
	return e
}

func witnessesOf(all []kits.Witness) []witnessOf {
	out := []witnessOf{}
	for _, x := range all {
		out = append(out, witnessOf{x.Tag, words.GradeID(x.Grade), x.Suffices})
	}
	return out
}

// whoBy is who recorded something: tag and role.
func whoBy(by mesh.By) string { return strings.TrimSpace(string(by.Tag) + " " + string(by.Role)) }

// registerEvent is one line to copy into the paper register.
type registerEvent struct {
	Event     string      `json:"event"` // register
	Item      string      `json:"item"`
	Number    uint32      `json:"number"`
	Page      string      `json:"page,omitempty"`
	Code      string      `json:"code"`
	Ref       string      `json:"ref"`
	Happened  int64       `json:"happened,omitempty"`
	From      string      `json:"from"`
	To        string      `json:"to"`
	Amount    amountOf    `json:"amount"`
	In        int64       `json:"in"`
	Out       int64       `json:"out"`
	Balance   int64       `json:"balance"`
	Taken     mesh.Tag    `json:"taken_by,omitempty"`
	Checked   mesh.Tag    `json:"checked_by,omitempty"`
	Witnesses []witnessOf `json:"witnesses"`
	Reversed  bool        `json:"reversed,omitempty"`
	Why       string      `json:"why,omitempty"`
}

func (e registerEvent) say(w words.Words) string {
	when := w.Say("demo.none")
	if e.Happened > 0 {
		when = dateTime(mesh.Wall(e.Happened))
	}
	said := w.Say("list.register", e.Item, when, e.From, e.To, e.Amount.say(w), e.In, e.Out, e.Balance)
	add := func(on bool, id words.ID, blanks ...any) {
		if on {
			said += w.Say("device.and") + w.Say(id, blanks...)
		}
	}
	add(e.Page != "", "list.register-page", e.Page)
	add(true, "list.register-people", orNobody(w, string(e.Taken)), orNobody(w, string(e.Checked)))
	for _, x := range e.Witnesses {
		add(true, "list.witness", x.Tag, w.Say("grade."+x.Grade))
	}
	why := e.Why
	if id := words.ID("reason." + why); w.Has(id) {
		why = w.Say(id)
	}
	add(why != "", "list.register-why", why)
	if e.Reversed {
		return w.Say("fact.undone", said)
	}
	return said
}

func sheetEvents(v station.View) (all []event) {
	for _, s := range v.Ledger.RegisterSheets(v.Training()) {
		for _, r := range s.Rows {
			all = append(all, registerEvent{
				Event: "register", Item: itemName(s.Item), Number: uint32(s.Item.Number), Page: string(r.Page), Code: requests.Code(r.Ref), Ref: r.Ref.Hex(),
				Happened: int64(r.Wall), From: r.From.Words(), To: r.To.Words(), Amount: amountFrom(r.Amount), In: r.In, Out: r.Out, Balance: r.Balance,
				Taken: r.TakenBy, Checked: r.CheckedBy, Witnesses: witnessesOf(r.Witnesses), Reversed: len(r.Reversed) > 0, Why: string(r.Why),
			})
		}
	}
	return all
}

// listedEvent is one line of the auditor's list.
type listedEvent struct {
	Event  string   `json:"event"` // listed
	Why    words.ID `json:"why"`
	Item   string   `json:"item"`
	Number uint32   `json:"number"`
	Issue  string   `json:"issue,omitempty"`
	Code   string   `json:"code"`
	Ref    string   `json:"ref"`
	Amount amountOf `json:"amount"`
}

func (e listedEvent) say(w words.Words) string {
	return w.Say("list.listed", e.Code, e.Item, w.Say("listed."+e.Why), e.Amount.say(w))
}

func auditorEvents(v station.View) (all []event) {
	for _, x := range v.Ledger.ControlledList(v.Training()) {
		e := listedEvent{
			Event: "listed", Why: words.ID(x.ID), Item: nameOf(v.Ledger, x.Item), Number: uint32(x.Item), Code: requests.Code(x.Ref), Ref: x.Ref.Hex(),
			Amount: amountFrom(x.Amount),
		}
		if !x.Issue.IsZero() {
			e.Issue = requests.Code(x.Issue)
		}
		all = append(all, e)
	}
	return all
}
