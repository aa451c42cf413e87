package integration

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// row says what one package may import of ours and what it must never import.
type row struct {
	pkg   string
	later bool     // no file of it exists yet
	may   []string // our packages
	all   bool     // every package of ours but those in mayNot
	not   []string
	never []string // import paths and all below them; one with a host in it is not even reached through others
	pure  bool     // never also holds for the packages of others that it imports
	why   string
}

// Import paths that a row must never hold, with the paths below them.
var (
	impure    = []string{"os", "net", "syscall", "log", "math/rand", "crypto/rand", fyne}
	noSockets = []string{"net", fyne}
)

const (
	fyne = "fyne.io"
	nats = "github.com/nats-io"
)

// screens are the packages that draw. None imports another.
func screens() []string {
	return []string{"app/show", "app/join", "app/brief", "app/inside", "app/runner", "app/door", "app/scribe", "app/charge", "app/debrief"}
}

// laterScreens are those of which no file exists yet.
func laterScreens() []string {
	return nil
}

// lattice is the one place that says which way imports go: cmd → app →
// requests, kits → mesh. Only a package's own imports count, not its tests'.
func lattice() []row {
	rows := []row{
		{pkg: "mesh", pure: true, never: impure, why: "the log is a state machine: time and chance come in as events, so that a schedule can be played again"},
		{pkg: "mesh/disk", may: []string{"mesh"}, never: []string{fyne}, why: "carries out writes, decides nothing, knows no request"},
		{pkg: "mesh/lan", may: []string{"mesh"}, never: []string{fyne}, why: "moves frames, decides nothing, knows no request"},
		{pkg: "mesh/lan/lossy", never: []string{fyne}, why: "a network that loses packets, for benchmarks"},
		{pkg: "mesh/meshtest", may: []string{"mesh"}, never: []string{fyne}, why: "drives the same Peer from one seed; the folds are handed in"},
		{pkg: "mesh/uplink", later: true, may: []string{"mesh"}, never: []string{fyne}, why: "forwards bytes it need not understand"},
		{pkg: "requests", may: []string{"mesh"}, pure: true, never: impure, why: "a fold is a function of the entries and of nothing else"},
		{pkg: "kits", may: []string{"mesh"}, pure: true, never: impure, why: "a fold is a function of the entries and of nothing else"},
		{pkg: "kits/barcode", may: []string{"mesh", "kits"}, pure: true, never: impure, why: "reads labels, wherever they were scanned"},
		{pkg: "kits/calc", may: []string{"mesh", "kits"}, pure: true, never: impure, why: "counts containers; tested against tables"},
		{pkg: "kits/review", later: true, may: []string{"mesh", "kits"}, pure: true, never: impure, why: "compares cases given as plain structs"},
		{pkg: "assets", never: []string{"net", "os", fyne}, why: "raw bytes only"},
		{pkg: "app/words", may: []string{"mesh", "requests", "kits"}, never: []string{"net", "os", fyne}, why: "sentences; every side shows the same ones"},
		{pkg: "app/station", may: []string{"mesh", "requests", "kits", "kits/calc", "kits/barcode", "assets"}, never: noSockets, why: "one device at work, also with what was scanned; network and disk are seams"},
		{pkg: "app/device", may: []string{"mesh", "mesh/lan", "mesh/disk", "app/station", "app/words", "app/picture"}, never: []string{fyne}, why: "joins network, disk and station, for programs with and without a window"},
		{pkg: "app/report", may: []string{"mesh", "requests", "kits", "assets", "app/station", "app/words"}, never: noSockets, why: "papers from a snapshot, also without a window"},
		{pkg: "app/report/table", may: []string{"mesh", "kits", "kits/barcode", "app/station", "app/words"}, never: noSockets, why: "lists as files and back; whoever is at work writes what differs"},
		{pkg: "app/look", may: []string{"app/words", "assets"}, never: []string{"github.com/ebitengine/oto"}, why: "sizes and colours know nothing of requests; the program with the window plays sounds"},
		{pkg: "app/look/sheet", may: []string{"app/look"}, why: "a page of one question is drawn alike on every screen; what an answer means is the screen's"},
		{pkg: "app/optic", never: []string{"net", fyne}, why: "reads the barcode in a picture; it asks a program for the clipboard's"},
		{pkg: "app/wedge", never: []string{"net", "os", fyne}, why: "tells a scanner from a person by times that come with the keys"},
		{pkg: "app/picture", may: []string{"mesh"}, never: []string{"net", "os", fyne}, why: "says which bytes are a picture, for programs with and without a window"},
		{pkg: "app/look/picture", may: []string{"mesh", "app/look", "app/picture"}, why: "draws bytes that somebody hands it; it knows no item and no place"},
		{pkg: "app/stage", may: []string{"mesh", "requests", "assets", "app/station", "app/look", "app/look/proof"}, why: "plays screens for their tests; no program imports it"},
		{pkg: "app/look/proof", may: []string{"app/look"}, why: "looks at screens for tests and for the gallery; it brings along the toolkit's test application"},
		{pkg: "cmd/lintelctl", all: true, not: append(screens(), "app/look", "app/look/sheet", "app/look/picture", "app/look/proof", "app/stage", "mesh/uplink", "cmd/lintel", "cmd/lintelsite", "integration"), never: []string{fyne, nats}, why: "the device without a window builds without a C compiler"},
		{pkg: "cmd/lintelsite", later: true, may: []string{"mesh", "mesh/uplink", "app/device", "requests", "kits", "app/report", "app/words"}, never: []string{fyne}, why: "hospital scale without a window"},
		{pkg: "cmd/lintel", all: true, not: []string{"app/stage", "cmd/lintelctl", "cmd/lintelsite", "integration"}, why: "the program with a window may use everything"},
		{pkg: "cmd/lintel/tongue", never: []string{"net", fyne}, why: "it must be initialized before the toolkit, so it needs nothing but os"},
		{pkg: "integration", all: true, why: "looks at the whole from outside"},
	}
	for _, screen := range screens() {
		rows = append(rows, row{
			pkg: screen, later: slices.Contains(laterScreens(), screen),
			may: []string{"mesh", "app/station", "requests", "kits", "kits/calc", "kits/barcode", "app/words", "assets", "app/look", "app/look/sheet", "app/look/picture"},
			why: "a screen copies a snapshot and reads scanned labels: it reaches no disk, no network and no other screen",
		})
	}
	return rows
}

// toleratedImport is an import of somebody else's package that a pure package
// of ours rests on all the same.
type toleratedImport struct{ pkg, imports, why string }

func toleratedImports() []toleratedImport {
	return []toleratedImport{
		{"github.com/vmihailenco/msgpack/v5", "log", "one warning about an extension registered twice; we register none"},
	}
}

// reach are the imports of every package that is not the standard library's.
type reach map[string][]string

// judge holds a lattice against what is imported. own has the imports of our
// packages by folder, graph those of every package by import path.
func judge(rows []row, own map[string][]string, graph reach, tolerated []toleratedImport) (findings []string) {
	findings = append(staleRows(rows, own), unlistedPackages(rows, own)...)
	used := map[toleratedImport]bool{}
	for _, r := range rows {
		for _, imported := range own[r.pkg] {
			if ours, ok := strings.CutPrefix(imported, module+"/"); ok && !r.allows(ours) {
				findings = append(findings, fmt.Sprintf("%s imports %s, but %s", r.pkg, ours, r.why))
			}
			if r.forbids(imported) {
				findings = append(findings, fmt.Sprintf("%s imports %s, but %s", r.pkg, imported, r.why))
			}
		}
		if _, exists := own[r.pkg]; exists {
			findings = append(findings, judgeBelow(r, graph, tolerated, used)...)
		}
	}
	for _, t := range tolerated {
		if !used[t] {
			findings = append(findings, fmt.Sprintf("stale: nothing needs %s to import %s any more", t.pkg, t.imports))
		}
	}
	return findings
}

func (r row) allows(ours string) bool {
	if r.all {
		return !slices.Contains(r.not, ours)
	}
	return slices.Contains(r.may, ours)
}

func (r row) forbids(imported string) bool {
	return slices.ContainsFunc(r.never, func(never string) bool { return isBelow(imported, never) })
}

func isBelow(imported, prefix string) bool {
	return imported == prefix || strings.HasPrefix(imported, prefix+"/")
}

// judgeBelow follows the imports of r through the packages of others, and
// through ours to find those with a host in their path.
func judgeBelow(r row, graph reach, tolerated []toleratedImport, used map[toleratedImport]bool) (findings []string) {
	for _, pkg := range graph.from(module+"/"+r.pkg, false) {
		for _, imported := range graph[pkg] {
			i := slices.IndexFunc(tolerated, func(t toleratedImport) bool { return t.pkg == pkg && isBelow(imported, t.imports) })
			switch {
			case !r.pure || !r.forbids(imported):
			case i >= 0:
				used[tolerated[i]] = true
			default:
				findings = append(findings, fmt.Sprintf("%s rests on %s, which imports %s, but %s", r.pkg, pkg, imported, r.why))
			}
		}
	}
	for _, pkg := range graph.from(module+"/"+r.pkg, true) {
		if strings.Contains(pkg, ".") && r.forbids(pkg) {
			findings = append(findings, fmt.Sprintf("%s reaches %s, but %s", r.pkg, pkg, r.why))
		}
	}
	return findings
}

// from lists what is reached from a package, itself left out: through every
// package, or only through those of others.
func (g reach) from(start string, throughOurs bool) []string {
	seen := map[string]bool{}
	queue := []string{start}
	for len(queue) > 0 {
		pkg := queue[0]
		queue = queue[1:]
		for _, next := range g[pkg] {
			ours := isBelow(next, module)
			if _, listed := g[next]; !listed || seen[next] || ours && !throughOurs {
				continue
			}
			seen[next] = true
			queue = append(queue, next)
		}
	}
	return slices.Sorted(maps.Keys(seen))
}

// staleRows finds rows that no longer say what is there.
func staleRows(rows []row, own map[string][]string) (findings []string) {
	listed := map[string]bool{}
	for _, r := range rows {
		if listed[r.pkg] {
			findings = append(findings, fmt.Sprintf("stale: %s has two rows", r.pkg))
		}
		listed[r.pkg] = true
		if r.why == "" {
			findings = append(findings, fmt.Sprintf("%s has a row without a reason", r.pkg))
		}
		switch _, exists := own[r.pkg]; {
		case exists && r.later:
			findings = append(findings, fmt.Sprintf("stale: %s exists now, its row still says later", r.pkg))
		case !exists && !r.later:
			findings = append(findings, fmt.Sprintf("stale: %s has a row but no file", r.pkg))
		}
	}
	for _, r := range rows {
		for _, name := range slices.Concat(r.may, r.not) {
			if !listed[name] {
				findings = append(findings, fmt.Sprintf("stale: the row of %s names %s, which has none", r.pkg, name))
			}
		}
	}
	return findings
}

func unlistedPackages(rows []row, own map[string][]string) (findings []string) {
	for pkg := range own {
		if !slices.ContainsFunc(rows, func(r row) bool { return r.pkg == pkg }) {
			findings = append(findings, fmt.Sprintf("%s has no row in the lattice", pkg))
		}
	}
	return findings
}
