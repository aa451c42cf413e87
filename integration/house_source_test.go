package integration

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// module is the path that our own packages begin with.
const module = "lintel"

// source is one parsed Go file.
type source struct {
	path  string // from the checkout's root, with slashes
	lines int
	set   *token.FileSet
	file  *ast.File
}

// folder is the package's folder from the checkout's root, "." for the root.
func (s source) folder() string { return path.Dir(s.path) }

func (s source) isTest() bool { return strings.HasSuffix(s.path, "_test.go") }

// at words a finding: file, line, sentence.
func (s source) at(pos token.Pos, sentence string, args ...any) string {
	return fmt.Sprintf("%s:%d: %s", s.path, s.set.Position(pos).Line, fmt.Sprintf(sentence, args...))
}

// name is what the file calls the package that it imports from a path, "" if it does not.
func (s source) name(imported string) string {
	for _, spec := range s.file.Imports {
		if importPath(spec) != imported {
			continue
		}
		if spec.Name != nil {
			return spec.Name.Name
		}
		return path.Base(imported)
	}
	return ""
}

// uses tells whether an expression is the selector imported.name of a package.
func (s source) uses(e ast.Expr, imported, name string) bool {
	sel, ok := e.(*ast.SelectorExpr)
	if !ok || sel.Sel.Name != name {
		return false
	}
	x, ok := sel.X.(*ast.Ident)
	return ok && s.name(imported) != "" && x.Name == s.name(imported)
}

func importPath(spec *ast.ImportSpec) string {
	p, err := strconv.Unquote(spec.Path.Value)
	if err != nil {
		return ""
	}
	return p
}

// parse reads one Go file from memory.
func parse(name, text string) (source, error) {
	s := source{path: name, lines: strings.Count(text, "\n"), set: token.NewFileSet()}
	file, err := parser.ParseFile(s.set, name, text, parser.ParseComments|parser.SkipObjectResolution)
	s.file = file
	return s, err
}

// checkout is everything that stands in the folder of the module.
type checkout struct {
	root    string
	sources []source
	files   []string          // every file, from root, with slashes
	texts   map[string]string // those that are text, also the Go files
}

// notOurs are folders that hold nothing to be kept.
func notOurs(name string) bool { return name == ".git" || name == "bin" || name == "out" }

// readCheckout reads every file of the checkout that this test belongs to.
func readCheckout(t testing.TB) checkout {
	t.Helper()
	root, err := filepath.Abs("..")
	require.NoError(t, err)
	c := checkout{root: root, texts: map[string]string{}}
	err = filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && notOurs(d.Name()):
			return fs.SkipDir
		case !d.Type().IsRegular():
			return nil
		}
		return c.add(name)
	})
	require.NoError(t, err)
	require.NotEmpty(t, c.sources, "no Go file under %s", root)
	return c
}

// add reads one file; those that hold a zero byte are no text.
func (c *checkout) add(name string) error {
	rel, err := filepath.Rel(c.root, name)
	if err != nil {
		return err
	}
	rel = filepath.ToSlash(rel)
	c.files = append(c.files, rel)
	b, err := os.ReadFile(name)
	if err != nil || strings.ContainsRune(string(b), 0) {
		return err
	}
	c.texts[rel] = string(b)
	if path.Ext(rel) != ".go" || strings.Contains(rel, "testdata/") {
		return nil
	}
	s, err := parse(rel, string(b))
	if err != nil {
		return err
	}
	c.sources = append(c.sources, s)
	return nil
}

// ownImports gives, per package folder, what its files that are no tests import,
// for every system and every build tag.
func ownImports(sources []source) map[string][]string {
	imports := map[string][]string{}
	for _, s := range sources {
		list := imports[s.folder()]
		if !s.isTest() {
			for _, spec := range s.file.Imports {
				list = append(list, importPath(spec))
			}
		}
		imports[s.folder()] = list
	}
	return imports
}
