// Package integration looks at the whole from outside: the rules of the house,
// real processes, and checks by programs that are not ours.
package integration

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestImportsFollowTheLattice holds the imports of every package, read from its
// files for every system, and of the packages below it against the lattice.
func TestImportsFollowTheLattice(t *testing.T) {
	c := readCheckout(t)
	report(t, judge(lattice(), ownImports(c.sources), importGraph(t, c.root), toleratedImports()))
}

// TestEveryFileKeepsTheRules runs the rules over every Go file.
func TestEveryFileKeepsTheRules(t *testing.T) {
	c := readCheckout(t)
	for _, r := range rules() {
		var findings []string
		for _, s := range c.sources {
			findings = append(findings, r.check(s)...)
		}
		report(t, findings)
	}
}

// TestEveryPackageHasAComment looks for one in any file of each package.
func TestEveryPackageHasAComment(t *testing.T) {
	report(t, uncommentedPackages(readCheckout(t).sources))
}

// TestPackageVariablesAreKnown wants no variable that can change but those on
// the list, and nothing on the list that is not there.
func TestPackageVariablesAreKnown(t *testing.T) {
	report(t, changeableVariables(readCheckout(t).sources, readOnlyVariables()))
}

// TestTextsBelongEverywhere looks through every file, Go or not, for what
// belongs to one machine, to another day or to a monitor.
func TestTextsBelongEverywhere(t *testing.T) {
	c := readCheckout(t)
	report(t, strayTexts(c.root, c.texts))
}

// TestTestdataIsThere wants something behind every pattern that a test names and
// in every testdata folder.
func TestTestdataIsThere(t *testing.T) {
	c := readCheckout(t)
	report(t, emptyTestdata(c.sources, c.files, testdataFolders(t, c.root)))
}

// report fails with every finding, not only the first.
func report(t *testing.T, findings []string) {
	t.Helper()
	slices.Sort(findings)
	for _, f := range slices.Compact(findings) {
		t.Error(f)
	}
}

// importGraph asks the go command what every package that is not the standard
// library's imports, ours and others'.
func importGraph(t *testing.T, root string) reach {
	t.Helper()
	cmd := exec.Command("go", "list", "-deps", "-tags", "ci", "-json=ImportPath,Imports,Standard", "./...")
	cmd.Dir = root
	var complaint strings.Builder
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	require.NoError(t, err, complaint.String())
	graph := reach{}
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p struct {
			ImportPath string
			Imports    []string
			Standard   bool
		}
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		if !p.Standard {
			graph[p.ImportPath] = p.Imports
		}
	}
	require.NotEmpty(t, graph)
	return graph
}
