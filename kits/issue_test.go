package kits

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// controlledCase is one row of testdata/controlled.json.
type controlledCase struct {
	ID       string           `json:"id"`
	Events   [][]any          `json:"events"`
	Residual *int64           `json:"residual"`
	Pending  *int64           `json:"pending"`
	Posted   *int64           `json:"posted"`
	Back     *int64           `json:"back_to_store"`
	State    string           `json:"state"`
	Length   int              `json:"log_length"`
	Register map[string]int64 `json:"register_balance"`
}

// Goal: the controlled-drug record adds up as people expect. Method: play every
// row of controlled.json (own composition, microgram; after the
// Misuse of Drugs Regulations 2001, regs 19-20: nothing altered, corrections beside the entry)
// with ampoules of 100 microgram and one syringe, and compare residual and state.
func TestControlledDrugCasesAddUpAsStated(t *testing.T) {
	b, err := os.ReadFile("testdata/controlled.json")
	require.NoError(t, err)
	var file struct {
		Cases []controlledCase `json:"cases"`
	}
	require.NoError(t, json.Unmarshal(b, &file))
	require.GreaterOrEqual(t, len(file.Cases), 10)
	for _, c := range file.Cases {
		if c.ID == "CD09" {
			continue // one name with two bodies: the log keeps that from every fold and lists it; Recon plays it
		}
		t.Run(c.ID, func(t *testing.T) { playControlled(t, c) })
	}
}

func playControlled(t *testing.T, c controlledCase) {
	d := newDose(t)
	for i, e := range c.Events {
		d.play(e, c.Events[i:])
	}
	l := fold(t, d.facts...)
	v, ok := l.Issue(d.issue)
	require.True(t, ok)
	require.Equal(t, c.State, v.State.Word(), "%+v", v)
	if c.Residual != nil {
		require.Equal(t, *c.Residual, v.Residual)
	}
	if c.Pending != nil {
		require.Equal(t, *c.Pending, v.Pending)
	}
	if c.Posted != nil {
		require.Equal(t, *c.Posted, 100*l.Held(insideA1, ampoule))
	}
	if c.Back != nil {
		require.Equal(t, *c.Back, v.Returned)
	}
	if after, ok := c.Register["after"]; ok {
		require.Equal(t, after, 100*l.Held(store, ampoule))
	}
}

// dose turns the events of one row into facts.
type dose struct {
	t       *testing.T
	pens    map[string]*pen
	facts   []mesh.Fact
	events  []mesh.Fact // one for each event, for reverse_of
	ids     map[string]mesh.Fact
	issue   mesh.Ref
	put     mesh.Ref
	syringe mesh.Ref
}

// newDose begins with ten ampoules in the store and five people.
func newDose(t *testing.T) *dose {
	d := &dose{t: t, pens: map[string]*pen{}, ids: map[string]mesh.Fact{}}
	for i, p := range pens(t, 5) {
		name := [...]string{"runner", "insideA", "insideB", "receiver", "charge"}[i]
		p.tag = mesh.Tag(name)
		d.pens[name] = p
	}
	d.add(d.pens["charge"].write(stock(store, ampoule, 10)))
	return d
}

func (d *dose) add(f mesh.Fact) { d.facts = append(d.facts, f) }

// play records one event; rest are this one and those that follow.
func (d *dose) play(e []any, rest [][]any) {
	word, id, _ := strings.Cut(e[0].(string), "#")
	amount, _ := e[1].(float64)
	n := int64(amount)
	var f mesh.Fact
	switch word {
	case "issue":
		f = d.issued(n)
		d.add(d.pens["runner"].write(&Moved{From: store, To: insideA1, Lines: []Line{Containers(ampoule, n/100)}, Issue: d.issue}))
		d.drawUp(n, rest)
	case "issue_pending":
		f = d.issued(n)
		m := PutAtDoor(store, "A1", []Line{Containers(ampoule, n/100)}, mesh.Ref{}, mesh.Ref{})
		m.Issue = d.issue
		put := d.pens["runner"].write(&m)
		d.put = put.Ref
		d.add(put)
	case "post":
		f = d.pens["insideA"].write(body(TakenIn(d.put, []int64{n / 100})))
	case "void":
		f = d.pens["runner"].write(body(TakenBack(d.put, 1)))
	case "reverse_of":
		f = reverse(d.t, d.pens[e[2].(string)], d.events[n])
	case "close":
		f = d.pens["charge"].write(&IssueShut{Issue: d.issue})
	default:
		f = d.carry(word, id, n, e)
	}
	d.events = append(d.events, f)
	d.add(f)
}

func (d *dose) issued(n int64) mesh.Fact {
	f := d.pens["runner"].write(&Issued{Line: Containers(ampoule, n/100), TakenBy: "runner", CheckedBy: "insideA"})
	d.issue = f.Ref
	return f
}

// drawUp makes one syringe of all ampoules that do not stay whole.
func (d *dose) drawUp(n int64, rest [][]any) {
	for _, e := range rest {
		if e[0] == "destroy_unopened" || e[0] == "broken" {
			n -= int64(e[1].(float64))
		}
	}
	f := d.pens["insideA"].write(&DrawnUp{
		At: insideA1, Lines: []Line{Containers(ampoule, n/100)}, Item: ampoule,
		Amount: Quantity{n, mesh.Microgram}, Issue: d.issue,
	})
	d.syringe = f.Ref
	d.add(f)
}

// carry records what came to an end, with its witness if the row names one.
func (d *dose) carry(word, id string, n int64, e []any) mesh.Fact {
	if f, again := d.ids[id]; again && id != "" {
		return f
	}
	who := d.pens[e[2].(string)]
	line := Line{Item: ampoule, Syringe: d.syringe, Quantity: Quantity{n, mesh.Microgram}}
	if word == "destroy_unopened" || word == "broken" {
		line = Containers(ampoule, n/100)
	}
	if word == "left_with_patient" {
		return who.write(&LeftWith{From: insideA1, Lines: []Line{line}, Unit: "ward", ReceivedBy: mesh.Tag(e[3].(string)), Issue: d.issue})
	}
	to, ok := map[string]PlaceSort{"give": Given, "waste": Wasted, "destroy_unopened": DestroyedUnopened, "broken": Broken}[word]
	require.True(d.t, ok, "event %s", word)
	f := who.write(&Moved{From: insideA1, To: Place{to, "A1"}, Lines: []Line{line}, Issue: d.issue})
	d.ids[id] = f
	if len(e) > 3 {
		w := d.pens[e[3].(string)]
		d.add(w.write(&Witnessed{Names: f.Ref, Lines: []Line{line}, Tag: w.tag, Grade: OwnDevice}))
	}
	return f
}

// Goal: more given than issued is over, in the audit too, with the figures.
// Method: one ampoule issued, 150 microgram given from a syringe.
func TestMoreThanIssuedIsOver(t *testing.T) {
	p := pens(t, 1)[0]
	i := p.write(&Issued{Line: Containers(ampoule, 1)})
	given := p.write(&Moved{From: insideA1, To: Place{Given, "A1"}, Issue: i.Ref,
		Lines: []Line{{Item: ampoule, Quantity: Quantity{150, mesh.Microgram}}}})
	l := fold(t, i, given)
	v, _ := l.Issue(i.Ref)
	require.Equal(t, IssueOver, v.State)
	require.EqualValues(t, -50, v.Residual)
	require.Equal(t, []FindingID{BelowZero, OverIssue}, ids(l.Audit()))
}

// Goal: a witness counts whenever it arrives, repeats the quantity and is a
// second person whose grade the site accepts. Method: each way of failing once.
func TestWitnessMustRepeatAndBeASecondPerson(t *testing.T) {
	p := pens(t, 2)
	stocked := p[0].write(stock(insideA1, ampoule, 1))
	waste := p[0].write(&Moved{From: insideA1, To: Place{Wasted, "A1"}, Lines: []Line{Containers(ampoule, 1)}})
	for _, c := range []struct {
		lines []Line
		tag   mesh.Tag
		want  []FindingID
	}{
		{[]Line{Containers(ampoule, 1)}, "T2", nil},
		{[]Line{Containers(ampoule, 1)}, "T1", []FindingID{Unwitnessed}},
		{[]Line{Containers(ampoule, 1)}, "", []FindingID{Unwitnessed}},
		{[]Line{Containers(ampoule, 2)}, "T2", []FindingID{Unwitnessed, WitnessDiffers}},
	} {
		seen := p[1].write(&Witnessed{Names: waste.Ref, Lines: c.lines, Tag: c.tag, Grade: SameDevice})
		l := fold(t, seen, stocked, waste)
		require.Equal(t, c.want, ids(l.Audit()), fmt.Sprint(c))
		require.Len(t, l.Witnesses(waste.Ref), 1)

		strict := testOptions()
		strict.Suffices = []Grade{OwnDevice}
		require.Contains(t, ids(foldWith(strict, []mesh.Fact{seen, stocked, waste}).Audit()), Unwitnessed)
	}
}
