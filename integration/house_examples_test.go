package integration

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// rules are the rules for every Go file, each with an example that trips it and
// its nearest neighbour that does not.
func rules() []rule {
	return append(shapeRules(), wordRules()...)
}

func shapeRules() []rule {
	return []rule{{
		title: "a file is not too long", check: fileLength, name: "mesh/a.go",
		bad:  "package mesh\n" + strings.Repeat("\n", fileLinesMax),
		good: "package mesh\n" + strings.Repeat("\n", fileLinesMax-1),
	}, {
		title: "a function is not too long", check: functionLength, name: "mesh/a_test.go",
		bad:  "package mesh\n\nfunc f() {" + strings.Repeat("\n", functionLinesMax) + "}\n",
		good: "package mesh\n\nfunc f() {" + strings.Repeat("\n", functionLinesMax-1) + "}\n",
	}, {
		title: "nothing runs before it is asked", check: noInit, name: "mesh/a.go",
		bad:  "package mesh\n\nfunc init() {}\n",
		good: "package mesh\n\ntype t int\n\nfunc (t) init() {}\n",
	}, {
		title: "a pure package does not know the time", check: onlyPlainTime, name: "kits/calc/a.go",
		bad:  "package calc\n\nimport clock \"time\"\n\nvar n = clock.Now\n",
		good: "package calc\n\nimport \"time\"\n\nfunc f(time.Time) time.Duration { return 2 * time.Minute }\n",
	}, {
		title: "time keeps its name", check: onlyPlainTime, name: "mesh/a.go",
		bad:  "package mesh\n\nimport . \"time\"\n\nvar n = Now\n",
		good: "package mesh\n",
	}, {
		title: "somebody joins what runs beside", check: goSaysWhoJoins, name: "mesh/lan/a.go",
		bad:  "package lan\n\n// f is commented.\nfunc f() {\n\tgo f()\n}\n",
		good: "package lan\n\nfunc f() {\n\t// Close joins both.\n\tgo f()\n\tgo f()\n\tx()\n\tgo f() // joined by Close\n}\n",
	}, {
		title: "a screen has one goroutine", check: screensStartNothing, name: "app/inside/a.go",
		bad:  "package inside\n\nfunc f() {\n\tgo f() // joined by nobody\n}\n",
		good: "package inside\n\nfunc f() { f() }\n",
	}, {
		title: "a test does not wait for real time", check: noSleepInTests, name: "app/station/a_test.go",
		bad: "package station\n\nimport (\n\t\"testing\"\n\t\"testing/synctest\"\n\t\"time\"\n)\n\n" +
			"func TestA(t *testing.T) {\n\tsynctest.Test(t, func(t *testing.T) {})\n\ttime.Sleep(1)\n}\n",
		good: "package station\n\nimport (\n\t\"testing\"\n\t\"testing/synctest\"\n\t\"time\"\n)\n\n" +
			"func TestA(t *testing.T) {\n\tsynctest.Test(t, func(t *testing.T) { time.Sleep(1) })\n}\n",
	}, {
		title: "a test that is left out says why", check: skipsSayWhy, name: "mesh/disk/a_test.go",
		bad:  "package disk\n\nfunc TestA(t *testing.T) { t.SkipNow() }\n",
		good: "package disk\n\nfunc TestA(t *testing.T) { t.Skip(\"only root can mount\") }\n",
	}, {
		title: "a reason is not empty", check: skipsSayWhy, name: "mesh/disk/a_test.go",
		bad:  "package disk\n\nfunc TestA(t *testing.T) {\n\tt.Skip()\n\tt.Skip(\"\")\n}\n",
		good: "package disk\n\nfunc TestA(t *testing.T) { t.Skipf(\"uid %d\", 5) }\n",
	}}
}

func wordRules() []rule {
	return []rule{{
		title: "an exported function has a comment", check: exportedCommented, name: "mesh/a.go",
		bad:  "package mesh\n\nfunc F() {}\n",
		good: "package mesh\n\n// F does.\nfunc F() {}\n\ntype t int\n\nfunc (*t) F() {}\n",
	}, {
		title: "an exported method has a comment", check: exportedCommented, name: "mesh/a.go",
		bad:  "package mesh\n\n// T is.\ntype T[X any] int\n\nfunc (t *T[X]) F() {}\n",
		good: "package mesh\n\n// T is.\ntype T[X any] int\n\n// F does.\nfunc (t *T[X]) F() {}\n",
	}, {
		title: "every type of a group has a comment", check: exportedCommented, name: "mesh/a.go",
		bad:  "package mesh\n\n// Types.\ntype (\n\tT int\n)\n",
		good: "package mesh\n\n// Types.\ntype (\n\t// T is.\n\tT int\n)\n",
	}, {
		title: "constants have a comment", check: exportedCommented, name: "mesh/a.go",
		bad:  "package mesh\n\nconst (\n\tA = 1 // the first\n\tB = 2\n)\n",
		good: "package mesh\n\n// Letters.\nconst (\n\tA = 1\n\tB = 2\n)\n",
	}, {
		title: "a directive is no comment", check: exportedCommented, name: "assets/a.go",
		bad:  "package assets\n\n//go:embed a.csv\nvar A []byte\n",
		good: "package assets\n\n// A is raw.\n//\n//go:embed a.csv\nvar A []byte\n",
	}, {
		title: "a test says its goal and method", check: testsSayWhat, name: "mesh/a_test.go",
		bad:  "package mesh\n\nfunc TestA(t *testing.T) {}\n",
		good: "package mesh\n\n// TestA tries.\nfunc TestA(t *testing.T) {}\n\nfunc tryA() {}\n",
	}, {
		title: "a file's name says something", check: namesSaySomething, name: "mesh/feed_util.go",
		bad: "package mesh\n", good: "package mesh\n\ntype feed int\n",
	}, {
		title: "a package's name says something", check: namesSaySomething, name: "mesh/a.go",
		bad: "package common\n", good: "package mesh\n",
	}, {
		title: "an exported name says something", check: namesSaySomething, name: "mesh/a.go",
		bad:  "package mesh\n\ntype LinkManager struct{}\n",
		good: "package mesh\n\ntype Informed struct{}\n",
	}, {
		title: "nothing is put off", check: nothingPutOff, name: "mesh/a.go",
		bad:  "package mesh\n\n// TO" + "DO: sort\n",
		good: "package mesh\n\n// sorted, and so to do it again changes nothing\n",
	}, {
		title: "the monitors' word is not ours", check: noMonitorsWord, name: "app/words/a.go",
		bad:  "package words\n\nconst s = \"No Al" + "arm\"\n",
		good: "package words\n\n// never an al" + "arm\nconst s = \"call\"\n",
	}}
}

// TestEveryRuleHasAnExampleThatTripsIt runs each rule over its two examples: a
// rule that finds nothing in its bad one has lost its teeth.
func TestEveryRuleHasAnExampleThatTripsIt(t *testing.T) {
	for _, r := range rules() {
		t.Run(r.title, func(t *testing.T) {
			bad, err := parse(r.name, r.bad)
			require.NoError(t, err)
			require.NotEmpty(t, r.check(bad))
			name := r.name
			if strings.Contains(name, "_util") {
				name = "mesh/feed.go"
			}
			good, err := parse(name, r.good)
			require.NoError(t, err)
			require.Empty(t, r.check(good))
		})
	}
}

// TestEveryFindingOfAFileIsReported gives a rule a file with several: none hides another.
func TestEveryFindingOfAFileIsReported(t *testing.T) {
	s, err := parse("mesh/a_test.go", "package mesh\n\nfunc TestA(t *testing.T) {\n\tt.Skip()\n\tt.SkipNow()\n\tt.Skip(``)\n}\n")
	require.NoError(t, err)
	require.Len(t, skipsSayWhy(s), 3)
}

// latticeCase is one wrong state of a small lattice and what must be said.
type latticeCase struct {
	title     string
	rows      []row
	own       map[string][]string
	graph     reach
	tolerated []toleratedImport
	want      string
}

func latticeCases() []latticeCase {
	mesh := row{pkg: "mesh", pure: true, never: impure, why: "pure"}
	lan := row{pkg: "mesh/lan", may: []string{"mesh"}, never: []string{fyne}, why: "moves frames"}
	own := func(pkg string, imports ...string) map[string][]string {
		return map[string][]string{"mesh": nil, pkg: imports}
	}
	both := []row{mesh, lan}
	return []latticeCase{
		{title: "against the direction", rows: both, own: map[string][]string{"mesh": {"lintel/mesh/lan"}, "mesh/lan": nil}, want: "mesh imports mesh/lan"},
		{title: "a forbidden package", rows: []row{mesh}, own: own("mesh", "os"), want: "mesh imports os"},
		{title: "below a forbidden package", rows: []row{mesh}, own: own("mesh", "math/rand/v2"), want: "mesh imports math/rand/v2"},
		{title: "below, by way of others", rows: []row{mesh}, own: own("mesh", "x.org/a"),
			graph: reach{"lintel/mesh": {"x.org/a"}, "x.org/a": {"x.org/b"}, "x.org/b": {"net/http"}}, want: "mesh rests on x.org/b, which imports net/http"},
		{title: "a screen, by way of ours", rows: []row{{pkg: "mesh", why: "lax here"}, lan}, own: own("mesh/lan", "lintel/mesh"),
			graph: reach{"lintel/mesh/lan": {"lintel/mesh"}, "lintel/mesh": {"fyne.io/fyne/v2"}, "fyne.io/fyne/v2": nil}, want: "mesh/lan reaches fyne.io/fyne/v2"},
		{title: "all but some", rows: []row{mesh, lan, {pkg: "cmd/x", all: true, not: []string{"mesh/lan"}, why: "small"}},
			own: map[string][]string{"mesh": nil, "mesh/lan": nil, "cmd/x": {"lintel/mesh", "lintel/mesh/lan"}}, want: "cmd/x imports mesh/lan"},
		{title: "a package without a row", rows: []row{mesh}, own: own("kits"), want: "kits has no row"},
		{title: "a row without a package", rows: both, own: own("mesh"), want: "mesh/lan has a row but no file"},
		{title: "a row that says later", rows: []row{{pkg: "mesh", later: true, why: "pure"}}, own: own("mesh"), want: "its row still says later"},
		{title: "two rows", rows: []row{mesh, mesh}, own: own("mesh"), want: "mesh has two rows"},
		{title: "no reason", rows: []row{{pkg: "mesh"}}, own: own("mesh"), want: "without a reason"},
		{title: "a name without a row", rows: []row{mesh, {pkg: "mesh/lan", may: []string{"mesh", "mash"}, why: "moves"}}, own: own("mesh/lan"), want: "names mash"},
		{title: "tolerated for nothing", rows: []row{mesh}, own: own("mesh"),
			tolerated: []toleratedImport{{"x.org/a", "log", "once"}}, want: "nothing needs x.org/a to import log"},
	}
}

// TestLatticeFindsEveryWrongState gives judge one wrong state after another.
func TestLatticeFindsEveryWrongState(t *testing.T) {
	for _, c := range latticeCases() {
		t.Run(c.title, func(t *testing.T) {
			findings := judge(c.rows, c.own, c.graph, c.tolerated)
			require.Len(t, findings, 1)
			require.Contains(t, findings[0], c.want)
		})
	}
}

// TestLatticeAcceptsWhatItAllows gives judge a right state: nothing is found,
// and what is tolerated is needed.
func TestLatticeAcceptsWhatItAllows(t *testing.T) {
	rows := []row{
		{pkg: "mesh", pure: true, never: impure, why: "pure"},
		{pkg: "mesh/lan", may: []string{"mesh"}, never: []string{fyne}, why: "moves frames"},
		{pkg: "app/look", later: true, may: []string{"mesh"}, why: "draws"},
	}
	own := map[string][]string{"mesh": {"x.org/a", "fmt"}, "mesh/lan": {"lintel/mesh", "net"}}
	graph := reach{"lintel/mesh": {"x.org/a"}, "x.org/a": {"log", "strings"}, "lintel/mesh/lan": {"lintel/mesh", "net"}}
	require.Empty(t, judge(rows, own, graph, []toleratedImport{{"x.org/a", "log", "one warning"}}))
}
