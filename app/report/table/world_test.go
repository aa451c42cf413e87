package table

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/assets"
	"lintel/kits"
	"lintel/kits/barcode"
	"lintel/mesh"
)

// unit is a view of a unit in which nothing was recorded.
func unit(t testing.TB) station.View {
	t.Helper()
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	return station.Read(mesh.GroupID{}, nil, nil, starter).View
}

// bare is a view without starter lists.
func bare() station.View { return station.Read(mesh.GroupID{}, nil, nil, station.Starter{}).View }

// carryOut writes a plan as a device's entries from n on, and tells how many
// they were.
func carryOut(t testing.TB, v station.View, n int, c station.Catalogue) int {
	t.Helper()
	entries := c.Entries()
	for i, act := range entries {
		self, tap := mesh.Key{1}, mesh.Tap{byte(n), byte(i), byte(i >> 8), 1}
		parts, err := station.Compose(v, self, tap, mesh.By{Role: "charge", Tag: "C1"}, act)
		require.NoError(t, err)
		require.LessOrEqual(t, len(parts), mesh.PartsMax)
		_, err = mesh.EncodeEntry(&mesh.Entry{Version: mesh.Version, Group: mesh.GroupID{1}, Author: self, Tap: tap, Seq: 1, Turn: 1, Parts: parts})
		require.NoError(t, err, "an entry that fits")
		for j, p := range parts {
			f := mesh.Fact{Ref: mesh.MakeRef(self, tap, j), At: mesh.Order{Turn: mesh.Turn(n*1000 + i)}, Kind: p.Kind, Body: p.Body}
			v.Ledger.Add(f)
		}
	}
	return len(entries)
}

// said are the problems of a plan as people read them.
func said(p Plan) (out []string) {
	w := words.English()
	for _, x := range p.Problems {
		out = append(out, x.Say(w))
	}
	return out
}

// changed is the starter catalogue as CSV after some cells were put in: row,
// column, text.
func changed(t testing.TB, file []byte, cells ...any) []byte {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(file)).ReadAll()
	require.NoError(t, err)
	for i := 0; i < len(cells); i += 3 {
		row := rows[cells[i].(int)-1]
		for j, h := range rows[0] {
			if h == cells[i+1].(string) {
				row[j] = cells[i+2].(string)
			}
		}
	}
	var out bytes.Buffer
	require.NoError(t, csv.NewWriter(&out).WriteAll(rows))
	return out.Bytes()
}

// starterFiles are the starter lists as the program embeds them.
func starterFiles() map[string][]byte {
	return map[string][]byte{"catalogue.csv": assets.Catalogue(), "bundles.csv": assets.Bundles(), "places.csv": assets.Places()}
}

// random is a made-up catalogue with everything that lines can say.
func random(rnd *rand.Rand) (c station.Catalogue) {
	numbers := spokenNumbers(rnd, 3+rnd.IntN(20))
	for i, n := range numbers {
		c.Items = append(c.Items, randomItem(rnd, n, i, numbers))
	}
	for i := range rnd.IntN(4) {
		n := spokenNumbers(rnd, 40)[i+30]
		if _, taken := find(c.Items, n); taken || i > 0 && c.Bundles[len(c.Bundles)-1].Number == n {
			continue
		}
		b := kits.BundleLine{Number: n, Name: label(rnd, true), LiesAt: place(rnd), Words: label(rnd, true), Lines: held(rnd, numbers), Source: label(rnd, false)}
		if rnd.IntN(2) == 0 {
			b.Rescue = "b"
		}
		c.Bundles = append(c.Bundles, b)
	}
	for i := range rnd.IntN(4) {
		c.Templates = append(c.Templates, kits.Template{ID: mesh.ID(fmt.Sprintf("tray-%d", i)), Name: label(rnd, true), Lines: held(rnd, numbers), Source: label(rnd, false)})
	}
	places := map[kits.Place]bool{}
	for range rnd.IntN(5) {
		p := place(rnd)
		if p.Sort == 0 || places[p] {
			continue
		}
		places[p] = true
		c.Places = append(c.Places, kits.PlaceLine{Place: p, Name: label(rnd, true), Shelf: label(rnd, false), Map: mesh.Hash{byte(rnd.Uint32())}})
		for _, n := range numbers {
			if rnd.IntN(3) == 0 {
				c.Pars = append(c.Pars, kits.ParLine{Place: p, Item: n, Par: rnd.Int64N(30)})
			}
		}
	}
	return c
}

func find(items []kits.ItemLine, n mesh.Number) (i int, ok bool) {
	for i := range items {
		if items[i].Number == n {
			return i, true
		}
	}
	return 0, false
}

// spokenNumbers are different numbers whose check digits fit.
func spokenNumbers(rnd *rand.Rand, count int) (out []mesh.Number) {
	seen := map[mesh.Number]bool{}
	for len(out) < count {
		n, ok := kits.ParseNumber(fmt.Sprint(100 + rnd.IntN(999_900)))
		if ok && !seen[n] {
			seen[n] = true
			out = append(out, n)
		}
	}
	return out
}

func randomItem(rnd *rand.Rand, n mesh.Number, i int, all []mesh.Number) kits.ItemLine {
	v := kits.ItemLine{
		Number: n, Name: label(rnd, true), Group: pick(rnd, "airway", "drug", "fluid", "people", "out"), Detail: label(rnd, true),
		Stocked: mesh.Measure(1 + rnd.IntN(5)), Content: kits.Quantity{N: 1 + rnd.Int64N(1<<40), Measure: mesh.Measure(1 + rnd.IntN(5))},
		VolumeUL: rnd.Int64N(100_000), Flags: kits.Flags(rnd.IntN(1<<9)) &^ kits.IsBundle, Exit: kits.ExitPolicy(1 + rnd.IntN(4)),
		ExitDays: uint32(rnd.IntN(30)), LabelClass: pick(rnd, "", "opioid", "induction"), Waste: pick(rnd, "", "sharps"),
		KeptAt: place(rnd), KeptWords: label(rnd, false), TallMan: label(rnd, false), MassMG: rnd.Int64N(5000), Picture: mesh.Hash{byte(i)}, Source: label(rnd, false),
	}
	if rnd.IntN(2) == 0 {
		v.CostMinor, v.Currency = rnd.Int64N(100_000), pick(rnd, "eur", "gbp")
	}
	for k := range rnd.IntN(4) {
		body := fmt.Sprintf("0%07d%03d%02d", rnd.IntN(9_999_999), i, k)
		v.Codes = append(v.Codes, mesh.Label(body+string(barcode.CheckDigitOf(body))), mesh.Label(fmt.Sprintf(`+A%d|\%d$ `, i, k)), mesh.Label(fmt.Sprintf("00%d%d", i, k)))
	}
	for _, a := range all {
		if a != n && rnd.IntN(8) == 0 {
			v.Alternatives = append(v.Alternatives, a)
		}
	}
	return v
}

func held(rnd *rand.Rand, numbers []mesh.Number) (out []kits.TemplateLine) {
	for range rnd.IntN(5) {
		out = append(out, kits.TemplateLine{Item: numbers[rnd.IntN(len(numbers))], Count: 1 + rnd.Int64N(20), Where: pick(rnd, kits.WhereInside, kits.WhereAtDoor, kits.WhereOutside)})
	}
	return out
}

func pick(rnd *rand.Rand, of ...mesh.ID) mesh.ID { return of[rnd.IntN(len(of))] }

func place(rnd *rand.Rand) kits.Place {
	if rnd.IntN(5) == 0 {
		return kits.Place{}
	}
	return kits.Place{Sort: kits.PlaceSort(1 + rnd.IntN(7)), ID: pick(rnd, "", "main", "A1", "airway.left")}
}

// label is a text with what is hard to carry: quotes, commas, formulas,
// apostrophes, zeros, other alphabets.
func label(rnd *rand.Rand, must bool) mesh.Label {
	if !must && rnd.IntN(4) == 0 {
		return ""
	}
	pieces := []string{"Tube", "7.5", `"`, ",", ";", "=SUM(A1)", "+1", "-20 °C", "@x", "'", "''=", "007", " ", "é", "ß", "µg", "–", "\u00a0", "|", `\`, "<&>", "日"}
	var b strings.Builder
	for range 1 + rnd.IntN(4) {
		b.WriteString(pieces[rnd.IntN(len(pieces))])
	}
	text := b.String()
	if strings.TrimSpace(text) == "" || strings.ToUpper(text) == text {
		text += "x"
	}
	return mesh.Label(text)
}
