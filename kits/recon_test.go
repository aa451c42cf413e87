package kits

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: every written case adds up as its row says. Method: controlled.json (own
// composition, microgram; the equation of the controlled-drug record), worked out
// from its bytes, each figure that a row states compared.
func TestWrittenCasesAddUpAsStated(t *testing.T) {
	b, err := os.ReadFile("testdata/controlled.json")
	require.NoError(t, err)
	cases, err := ReadRecon(b)
	require.NoError(t, err)
	var file struct {
		Cases []controlledCase `json:"cases"`
	}
	require.NoError(t, json.Unmarshal(b, &file))
	require.Len(t, cases, len(file.Cases))
	require.GreaterOrEqual(t, len(cases), 12)
	for i, want := range file.Cases {
		got, err := Recon(cases[i])
		require.NoError(t, err)
		require.Equal(t, want.State, got.Word, "%+v", got)
		for name, pair := range map[string]struct {
			want *int64
			got  int64
		}{"residual": {want.Residual, got.Residual}, "pending": {want.Pending, got.Pending}, "posted": {want.Posted, got.Posted}, "back": {want.Back, got.Back}} {
			if pair.want != nil {
				require.Equal(t, *pair.want, pair.got, "%s: %s", want.ID, name)
			}
		}
		if want.Length > 0 {
			require.Equal(t, want.Length, got.Length)
		}
		if after, ok := want.Register["after"]; ok {
			require.Equal(t, after, *got.After)
		}
	}
}

// Goal: what is listed is listed although it adds up, and a closing without a
// reason is said. Method: hand-made cases.
func TestWrittenCasesListWhatAnAuditorLooksAt(t *testing.T) {
	for text, want := range map[string][]ListedID{
		`{"id":"a","events":[["issue",200,"r","a"],["give",100,"a"],["broken",100,"a","b"]]}`:                      {ListedBroken},
		`{"id":"b","events":[["issue",200,"r","a"],["give",100,"a"],["left_with_patient",100,"a","b"]]}`:           {ListedLeft},
		`{"id":"c","events":[["issue",200,"r","a"],["give",100,"a"],["close",null,"c"]]}`:                          {ListedUnsaid},
		`{"id":"d","events":[["issue",200,"r","a"],["give",100,"a"],["close",null,"c","spilt, nobody saw it"]]}`:   nil,
		`[{"id":"e","events":[["issue",200,"r","a"],["give",100,"a"],["close",null,"c",""],["give",100,"a"]]}]`:    nil,
		`{"id":"f","events":[["issue",200,"r","a"],["broken",100,"a","b"],["reverse_of",1,"a"],["give",200,"a"]]}`: nil,
	} {
		cases, err := ReadRecon([]byte(text))
		require.NoError(t, err)
		got, err := Recon(cases[0])
		require.NoError(t, err)
		require.Equal(t, want, got.Listed, text)
	}
}

// Goal: two evaluators that share no arithmetic agree. Method: random events of
// one issue, worked out by Recon and played into the ledger.
func TestReconAndTheLedgerAgree(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	states := map[IssueState]int{}
	for range 300 {
		events := randomDose(rng)
		text, err := json.Marshal(map[string]any{"id": "random", "events": events})
		require.NoError(t, err)
		var back struct{ Events [][]any }
		require.NoError(t, json.Unmarshal(text, &back))
		cases, err := ReadRecon(text)
		require.NoError(t, err)
		want, err := Recon(cases[0])
		require.NoError(t, err)
		got := playedDose(t, back.Events)
		require.Equal(t, want.Word, got.State.Word(), "%s\n%+v\n%+v", text, want, got)
		require.Equal(t, want.Residual, got.Residual, "%s", text)
		require.Equal(t, []int64{want.Given, want.Wasted, want.Broken, want.Returned, want.Destroyed, want.Left, want.Pending},
			[]int64{got.Given, got.Wasted, got.Broken, got.Returned, got.Destroyed, got.Left, got.Pending}, "%s", text)
		states[want.State]++
	}
	require.GreaterOrEqual(t, len(states), 5, "%v", states)
}

// randomDose are the events of one issue of five ampoules of 100 microgram.
func randomDose(rng *rand.Rand) (out [][]any) {
	if rng.IntN(5) == 0 {
		out = append(out, []any{"issue_pending", 500, "runner", nil})
		for range rng.IntN(3) {
			out = append(out, pick(rng, [][]any{{"void", 500, "runner"}, {"post", 300, "insideA"}, {"post", 500, "insideA"}}))
		}
		return out
	}
	out = append(out, []any{"issue", 500, "runner", "insideA"})
	whole, left := 0, 500
	for range rng.IntN(7) {
		n := min(left, pick(rng, []int{50, 100, 100, 200}))
		left -= n
		witness := pick(rng, []string{"insideB", "insideB", "insideA"})
		switch word := pick(rng, []string{"give", "waste", "broken", "destroy_unopened", "left_with_patient"}); {
		case n == 0 || (word == "broken" || word == "destroy_unopened") && (n%100 != 0 || whole == 300):
			left += n
			if rng.IntN(4) == 0 {
				out = append(out, []any{"give", 150, "insideA"})
			}
		case word == "give":
			out = append(out, []any{word, n, "insideA"})
		case word == "broken" || word == "destroy_unopened":
			whole, left = whole+100, left+n-100
			out = append(out, []any{word, 100, "insideA", witness})
		default:
			out = append(out, []any{word, n, "insideA", witness})
		}
	}
	if rng.IntN(4) == 0 && len(out) > 1 {
		out = append(out, []any{"reverse_of", 1 + rng.IntN(len(out)-1), "insideA", "slip"})
	}
	if rng.IntN(2) == 0 {
		out = append(out, []any{"close", nil, "charge"})
	}
	return out
}

// playedDose plays events into the ledger and gives the issue.
func playedDose(t *testing.T, events [][]any) Issue {
	d := newDose(t)
	for i, e := range events {
		d.play(e, events[i:])
	}
	v, ok := foldWith(testOptions(), d.facts).Issue(d.issue)
	require.True(t, ok)
	return v
}

// malformedRecon are written cases that cannot be worked out.
func malformedRecon() []string {
	return []string{
		"", "{", "[]", "{}", `{"cases":[]}`, `{"events":[[]]}`, `{"events":[["give"],5]}`, `{"events":[["give","x"]]}`,
		`{"events":[["give",1,"a","b","c"]]}`, `{"events":[["give",0.5]]}`, `{"events":[[7,1]]}`,
	}
}

// Goal: what is no case is refused with its place, and nothing panics. Method:
// malformed texts; unknown words; amounts out of range.
func TestWhatIsNoCaseIsRefused(t *testing.T) {
	for _, text := range malformedRecon() {
		_, err := ReadRecon([]byte(text))
		require.ErrorIs(t, err, ErrRecon, text)
	}
	for _, e := range []ReconEvent{{Word: "inject"}, {Word: "give", Amount: -1}, {Word: "give", Amount: QuantityMax + 1}} {
		_, err := Recon(ReconCase{ID: "x", Events: []ReconEvent{e}})
		require.ErrorIs(t, err, ErrRecon)
		require.ErrorContains(t, err, "event 0")
	}
	_, err := ReadRecon(make([]byte, ReconLenMax+1))
	require.ErrorIs(t, err, ErrRecon)
}

// FuzzReadRecon: whatever bytes come, they are read or refused, and a case that
// is worked out keeps the equation.
func FuzzReadRecon(f *testing.F) {
	for _, text := range malformedRecon() {
		f.Add([]byte(text))
	}
	b, err := os.ReadFile("testdata/controlled.json")
	require.NoError(f, err)
	f.Add(b)
	f.Fuzz(func(t *testing.T, b []byte) {
		cases, err := ReadRecon(b)
		if err != nil {
			require.ErrorIs(t, err, ErrRecon)
			return
		}
		for _, c := range cases {
			r, err := Recon(c)
			if err == nil {
				require.Equal(t, r.Issued, r.Given+r.Wasted+r.Broken+r.Returned+r.Destroyed+r.Left+r.Residual)
				require.NotEmpty(t, r.Word)
			}
		}
	})
}

// Goal: amounts are read as containers and volume first. Method: ampoules of 100
// microgram in 2 mL and a syringe of 140 microgram in 7 mL, worked out by hand.
func TestAmountsAreReadAsContainersAndVolume(t *testing.T) {
	p := pens(t, 1)[0]
	drawn := p.write(&DrawnUp{At: insideA1, Lines: []Line{Containers(ampoule, 2)}, Item: ampoule, Amount: Quantity{140, mesh.Microgram}, VolumeUL: 7000})
	l := fold(t, p.write(stock(insideA1, ampoule, 2)), drawn)
	ug := func(n int64) Quantity { return Quantity{n, mesh.Microgram} }
	for _, c := range []struct {
		line Line
		want Measured
	}{
		{Containers(ampoule, 3), Measured{3, 0, true, ug(300)}},
		{Line{Item: ampoule, Quantity: ug(250)}, Measured{2, 1000, true, ug(250)}},
		{Line{Item: ampoule, Quantity: ug(100)}, Measured{1, 0, true, ug(100)}},
		{Line{Item: ampoule, Syringe: drawn.Ref, Quantity: ug(60)}, Measured{0, 3000, true, ug(60)}},
		{Line{Item: ampoule, Syringe: drawn.Ref, Quantity: Quantity{1, mesh.Unit}}, Measured{0, 0, false, Quantity{1, mesh.Unit}}},
		{Line{Item: tube, Quantity: Quantity{4, mesh.Each}}, Measured{4, 0, true, Quantity{4, mesh.Each}}},
	} {
		require.Equal(t, c.want, l.MeasuredLine(c.line), fmt.Sprintf("%+v", c.line))
	}
	thirds := testOptions()
	thirds.Defaults.Items[0].Content.N = 300
	got := foldWith(thirds, nil).Measured(ampoule, ug(100)) // a third of 2 mL
	require.Equal(t, Measured{0, 666, false, ug(100)}, got)
}
