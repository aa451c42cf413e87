package integration

import (
	"fmt"
	"go/ast"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// readOnlyVariable is a package variable that nobody writes after it was made.
type readOnlyVariable struct{ name, why string }

// readOnlyVariables are the tables that may stand as package variables. Errors,
// embedded files and the blank name need no line here.
func readOnlyVariables() []readOnlyVariable {
	return []readOnlyVariable{
		{"app/look.fontPlain", "the font, made once: the toolkit reads the file again for every other resource"},
		{"app/look.fontStrong", "the same for what must be seen first"},
		{"mesh.frameBodies", "a fresh body for each kind of frame, read by the decoder only"},
		{"mesh/disk.errNoSpace", "the system's own error, as the simulated disk gives it"},
		{"requests.abilityNamed", "the words for abilities in the list of roles"},
		{"requests.sideNamed", "the words for sides in the lists"},
		{"requests.buttons", "the table of what a device offers at each step"},
		{"requests.fetching", "the part of that table for whoever fetches"},
		{"requests.follows", "the table of expected steps"},
	}
}

// changeableVariables lists the package variables outside tests that are not
// known to stay as they are, and the lines of the list that nothing needs.
func changeableVariables(sources []source, known []readOnlyVariable) (findings []string) {
	needed := map[string]bool{}
	for _, s := range sources {
		if s.isTest() {
			continue
		}
		for _, name := range variables(s.file) {
			full := s.folder() + "." + name.Name
			needed[full] = true
			if !slices.ContainsFunc(known, func(k readOnlyVariable) bool { return k.name == full }) {
				findings = append(findings, s.at(name.Pos(), "%s can be changed by anybody in the package", full))
			}
		}
	}
	for _, k := range known {
		if !needed[k.name] || k.why == "" {
			findings = append(findings, fmt.Sprintf("stale, or without a reason: the variable %s", k.name))
		}
	}
	return findings
}

// variables are a file's package variables but errors, embedded files and blanks.
func variables(file *ast.File) (names []*ast.Ident) {
	for _, d := range file.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.VAR {
			continue
		}
		for _, spec := range g.Specs {
			v := spec.(*ast.ValueSpec)
			for i, name := range v.Names {
				fixed := name.Name == "_" || isEmbedded(g.Doc) || isEmbedded(v.Doc) || i < len(v.Values) && isSentinel(v.Values[i])
				if !fixed {
					names = append(names, name)
				}
			}
		}
	}
	return names
}

func isEmbedded(doc *ast.CommentGroup) bool {
	return doc != nil && slices.ContainsFunc(doc.List, func(c *ast.Comment) bool { return strings.HasPrefix(c.Text, "//go:embed ") })
}

// isSentinel tells whether a value is errors.New(…) or fmt.Errorf(…).
func isSentinel(e ast.Expr) bool {
	call, ok := e.(*ast.CallExpr)
	if !ok {
		return false
	}
	sel, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	x, ok := sel.X.(*ast.Ident)
	return ok && (x.Name == "errors" && sel.Sel.Name == "New" || x.Name == "fmt" && sel.Sel.Name == "Errorf")
}

// uncommentedPackages lists the packages of which no file says what they are
// for. Where there are files that are no tests, one of them must say it.
func uncommentedPackages(sources []source) (findings []string) {
	hasCode, said := map[string]bool{}, map[string]bool{}
	for _, s := range sources {
		hasCode[s.folder()] = hasCode[s.folder()] || !s.isTest()
	}
	for _, s := range sources {
		if s.file.Doc.Text() != "" && s.isTest() != hasCode[s.folder()] {
			said[s.folder()] = true
		}
	}
	for folder := range hasCode {
		if !said[folder] {
			findings = append(findings, fmt.Sprintf("%s does not say what the package is for", folder))
		}
	}
	return findings
}

// strayTexts looks for the checkout's own folder and, outside Go files, for work
// that was put off and, in what people read on a screen, for the monitors' word.
func strayTexts(root string, texts map[string]string) (findings []string) {
	here := regexp.MustCompile(`(^|[^\w/.-])` + regexp.QuoteMeta(root) + `($|[^\w.-])`)
	for name, text := range texts {
		ours := path.Ext(name) != ".go" && path.Ext(name) != ".sum"
		onScreen := isBelow(name, "app/words") || isBelow(name, "assets")
		for i, line := range strings.Split(text, "\n") {
			at := fmt.Sprintf("%s:%d: ", name, i+1)
			if here.MatchString(line) {
				findings = append(findings, at+"the folder of this checkout belongs to one machine")
			}
			if ours && unfinished.MatchString(line) {
				findings = append(findings, at+"work that was put off")
			}
			if ours && onScreen && strings.Contains(strings.ToLower(line), monitorsWord) {
				findings = append(findings, at+"the word "+monitorsWord+" belongs to monitors")
			}
		}
	}
	return findings
}

// emptyTestdata lists testdata folders without a file, and patterns in tests
// that no file matches: such a test would pass for ever.
func emptyTestdata(sources []source, files, folders []string) (findings []string) {
	for _, folder := range folders {
		if !slices.ContainsFunc(files, func(f string) bool { return isBelow(f, folder) }) {
			findings = append(findings, folder+" is empty")
		}
	}
	for _, s := range sources {
		for pattern, pos := range testdataPatterns(s) {
			full := path.Join(s.folder(), pattern)
			matches := func(f string) bool { ok, err := path.Match(full, f); return ok && err == nil }
			if !slices.ContainsFunc(files, matches) {
				findings = append(findings, s.at(pos, "no file matches %s", pattern))
			}
		}
	}
	return findings
}

// testdataPatterns finds the patterns below testdata that a test names, written
// in one piece or joined from literals.
func testdataPatterns(s source) map[string]token.Pos {
	found := map[string]token.Pos{}
	if !s.isTest() {
		return found
	}
	note := func(pattern string, pos token.Pos) {
		if strings.HasPrefix(pattern, "testdata/") && strings.ContainsAny(pattern, "*?[") {
			found[pattern] = pos
		}
	}
	ast.Inspect(s.file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			note(unquoted(n), n.Pos())
		case *ast.CallExpr:
			if s.uses(n.Fun, "path/filepath", "Join") {
				pieces := make([]string, len(n.Args))
				for i, arg := range n.Args {
					pieces[i] = unquoted(arg)
				}
				note(path.Join(pieces...), n.Pos())
			}
		}
		return true
	})
	return found
}

func unquoted(e ast.Expr) string {
	text, err := strconv.Unquote(literal(e))
	if err != nil {
		return ""
	}
	return text
}

func testdataFolders(t *testing.T, root string) (folders []string) {
	t.Helper()
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if notOurs(d.Name()) {
			return fs.SkipDir
		}
		if d.Name() == "testdata" {
			rel, err := filepath.Rel(root, name)
			folders = append(folders, filepath.ToSlash(rel))
			return err
		}
		return nil
	})
	require.NoError(t, err)
	return folders
}

// sourcesOf parses small files, by name.
func sourcesOf(t *testing.T, texts map[string]string) (sources []source) {
	t.Helper()
	for name, text := range texts {
		s, err := parse(name, text)
		require.NoError(t, err)
		sources = append(sources, s)
	}
	return sources
}

// TestVariableRuleFindsWhatCanChange gives the rule variables of every sort and
// a list with a line too many.
func TestVariableRuleFindsWhatCanChange(t *testing.T) {
	sources := sourcesOf(t, map[string]string{"mesh/a.go": "package mesh\n\n" +
		"var (\n\tErrA = errors.New(\"a\")\n\tErrB = fmt.Errorf(\"%w\", ErrA)\n\t_ I = t{}\n\ttable = [2]int{}\n)\n\n" +
		"//go:embed a\nvar raw []byte\n\nvar last int\n", "mesh/a_test.go": "package mesh\n\nvar update = 1\n"})
	table := readOnlyVariable{"mesh.table", "made by the compiler"}
	findings := changeableVariables(sources, []readOnlyVariable{table, {"mesh.gone", "was a table"}})
	require.Len(t, findings, 2)
	require.Contains(t, findings[0], "mesh.last")
	require.Contains(t, findings[1], "mesh.gone")
	require.Len(t, changeableVariables(sources, []readOnlyVariable{{"mesh.table", ""}, {"mesh.last", "why"}}), 1)
}

// TestPackageCommentRuleWantsItInCode gives the rule a package that only its
// test explains, one without tests, and one that is nothing but tests.
func TestPackageCommentRuleWantsItInCode(t *testing.T) {
	findings := uncommentedPackages(sourcesOf(t, map[string]string{
		"a/a.go": "package a\n", "a/a_test.go": "// Package a is.\npackage a\n",
		"b/b.go": "// Package b is.\npackage b\n", "b/c.go": "package b\n",
		"c/c_test.go": "// Package c is.\npackage c\n",
	}))
	require.Equal(t, []string{"a does not say what the package is for"}, findings)
}

// TestTextRuleFindsStrayLines gives the rule one stray line of each sort and its
// nearest neighbour.
func TestTextRuleFindsStrayLines(t *testing.T) {
	findings := strayTexts("/src/here", map[string]string{
		"mesh/a.go": "dir := \"/src/here/mesh\"\n", "README.md": "see /src/hereafter or x/src/here/a\n",
		"Makefile": "# TO" + "DO\n", "app/words/de.toml": "x = \"Al" + "arm\"\n", "SECURITY.md": "not an al" + "arm system\n",
	})
	require.Len(t, findings, 3)
	require.Empty(t, slices.DeleteFunc(findings, func(f string) bool {
		return strings.HasPrefix(f, "mesh/a.go:1") || strings.HasPrefix(f, "Makefile:1") || strings.HasPrefix(f, "app/words/de.toml:1")
	}))
}

// TestTestdataRuleFindsEmptyPatterns gives the rule a pattern in one piece, a
// joined one, one that matches, and an empty folder.
func TestTestdataRuleFindsEmptyPatterns(t *testing.T) {
	sources := sourcesOf(t, map[string]string{"mesh/a_test.go": "package mesh\n\nimport \"path/filepath\"\n\nvar _ = []string{\n" +
		"\t\"testdata/old-" + "*.log\",\n\tfilepath.Join(\"testdata\", \"" + "*.txt\"),\n\t\"testdata/" + "*.hex\",\n}\n"})
	findings := emptyTestdata(sources, []string{"mesh/testdata/a.hex"}, []string{"mesh/testdata", "kits/testdata"})
	require.Len(t, findings, 3)
}
