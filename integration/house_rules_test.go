package integration

import (
	"go/ast"
	"go/token"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Bounds of the house.
const (
	functionLinesMax = 70
	fileLinesMax     = 500
)

// rule is one thing that holds for every Go file, with an example that trips it
// and one that does not. name is the file name of both examples.
type rule struct {
	title string
	check func(source) []string
	name  string
	bad   string
	good  string
}

func fileLength(s source) []string {
	if s.lines > fileLinesMax {
		return []string{s.at(s.file.Package, "%d lines, at most %d: a file is one idea", s.lines, fileLinesMax)}
	}
	return nil
}

func functionLength(s source) (findings []string) {
	for _, d := range s.file.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok {
			continue
		}
		if n := s.set.Position(f.End()).Line - s.set.Position(f.Pos()).Line + 1; n > functionLinesMax {
			findings = append(findings, s.at(f.Pos(), "%s has %d lines, at most %d: a function fits on a screen", f.Name.Name, n, functionLinesMax))
		}
	}
	return findings
}

func noInit(s source) (findings []string) {
	for _, d := range s.file.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.Name == "init" {
			findings = append(findings, s.at(f.Pos(), "init runs before anybody asked"))
		}
	}
	return findings
}

// screensStartNothing keeps screens on the goroutine that paints. The checks
// rest on it: they do not run the screens' tests with the race detector too.
func screensStartNothing(s source) (findings []string) {
	if s.isTest() || s.folder() == "app/show" || !slices.Contains(screens(), s.folder()) {
		return nil
	}
	ast.Inspect(s.file, func(n ast.Node) bool {
		if g, is := n.(*ast.GoStmt); is {
			findings = append(findings, s.at(g.Pos(), "a screen starts a goroutine: whoever hosts it does what takes long"))
		}
		return true
	})
	return findings
}

// exportedCommented wants a comment on every exported name. A group of
// constants or variables may share one, types may not.
func exportedCommented(s source) (findings []string) {
	if s.isTest() {
		return nil
	}
	complain := func(name *ast.Ident, comments ...*ast.CommentGroup) {
		said := slices.ContainsFunc(comments, func(c *ast.CommentGroup) bool { return c.Text() != "" })
		if name.IsExported() && !said {
			findings = append(findings, s.at(name.Pos(), "%s is exported and has no comment", name.Name))
		}
	}
	for _, d := range s.file.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil || ast.IsExported(receiverName(d)) {
				complain(d.Name, d.Doc)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch spec := spec.(type) {
				case *ast.TypeSpec:
					if d.Lparen.IsValid() {
						complain(spec.Name, spec.Doc, spec.Comment)
					} else {
						complain(spec.Name, d.Doc, spec.Doc, spec.Comment)
					}
				case *ast.ValueSpec:
					for _, name := range spec.Names {
						complain(name, d.Doc, spec.Doc, spec.Comment)
					}
				}
			}
		}
	}
	return findings
}

// receiverName is the type that a method belongs to, without pointer and type parameters.
func receiverName(f *ast.FuncDecl) (name string) {
	ast.Inspect(f.Recv.List[0].Type, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && name == "" {
			name = id.Name
		}
		return name == ""
	})
	return name
}

// testsSayWhat wants a comment with goal and method on every test, fuzz target and benchmark.
func testsSayWhat(s source) (findings []string) {
	for _, d := range s.file.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || !s.isTest() || f.Recv != nil {
			continue
		}
		isTest := slices.ContainsFunc([]string{"Test", "Fuzz", "Benchmark"}, func(p string) bool { return strings.HasPrefix(f.Name.Name, p) })
		if isTest && f.Doc.Text() == "" {
			findings = append(findings, s.at(f.Pos(), "%s does not say its goal and method", f.Name.Name))
		}
	}
	return findings
}

// noSleepInTests lets a test sleep only in a synctest bubble, where time is fake.
func noSleepInTests(s source) (findings []string) {
	if !s.isTest() {
		return nil
	}
	var bubbles []ast.Node
	ast.Inspect(s.file, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok && s.uses(call.Fun, "testing/synctest", "Test") {
			bubbles = append(bubbles, call)
		}
		return true
	})
	ast.Inspect(s.file, func(n ast.Node) bool {
		sel, ok := n.(*ast.SelectorExpr)
		if !ok || !s.uses(sel, "time", "Sleep") {
			return true
		}
		inBubble := func(b ast.Node) bool { return b.Pos() <= sel.Pos() && sel.End() <= b.End() }
		if !slices.ContainsFunc(bubbles, inBubble) {
			findings = append(findings, s.at(sel.Pos(), "a test waits for real time: use a channel or a bubble"))
		}
		return true
	})
	return findings
}

// skipsSayWhy wants a reason for whoever reads the output.
func skipsSayWhy(s source) (findings []string) {
	if !s.isTest() {
		return nil
	}
	ast.Inspect(s.file, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		sel, ok := call.Fun.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		empty := len(call.Args) == 0 || literal(call.Args[0]) == `""` || literal(call.Args[0]) == "``"
		if sel.Sel.Name == "SkipNow" || (sel.Sel.Name == "Skip" || sel.Sel.Name == "Skipf") && empty {
			findings = append(findings, s.at(call.Pos(), "a test is left out without a reason"))
		}
		return true
	})
	return findings
}

func literal(e ast.Expr) string {
	if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
		return lit.Value
	}
	return ""
}

// goSaysWhoJoins wants a comment over, or beside, every go statement. Several
// in a row may share one.
func goSaysWhoJoins(s source) (findings []string) {
	commented := map[int]bool{}
	for _, group := range s.file.Comments {
		commented[s.set.Position(group.Pos()).Line] = true
		commented[s.set.Position(group.End()).Line+1] = true
	}
	ast.Inspect(s.file, func(n ast.Node) bool {
		if g, ok := n.(*ast.GoStmt); ok {
			if !commented[s.set.Position(g.Pos()).Line] {
				findings = append(findings, s.at(g.Pos(), "a go statement without a comment that says who joins it"))
			} else {
				commented[s.set.Position(g.End()).Line+1] = true
			}
		}
		return true
	})
	return findings
}

// pureFolder tells whether a package must not know the time.
func pureFolder(folder string) bool {
	return folder == "mesh" || isBelow(folder, "requests") || isBelow(folder, "kits")
}

// onlyPlainTime lets a pure package name durations and moments, never ask for one.
func onlyPlainTime(s source) (findings []string) {
	name := s.name("time")
	if s.isTest() || !pureFolder(s.folder()) || name == "" {
		return nil
	}
	if name == "." {
		return []string{s.at(s.file.Package, "time is imported without its name")}
	}
	plain := []string{"Duration", "Time", "Nanosecond", "Microsecond", "Millisecond", "Second", "Minute", "Hour"}
	ast.Inspect(s.file, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok && s.uses(sel, "time", sel.Sel.Name) && !slices.Contains(plain, sel.Sel.Name) {
			findings = append(findings, s.at(sel.Pos(), "time.%s in a package whose time is in the entries", sel.Sel.Name))
		}
		return true
	})
	return findings
}

// unsaying are names that say nothing.
func unsaying(word string) bool {
	return slices.Contains([]string{"util", "utils", "common", "helper", "helpers", "manager", "managers", "data", "info", "misc"}, strings.ToLower(word))
}

// namesSaySomething looks at folders, files, packages and exported names.
func namesSaySomething(s source) (findings []string) {
	file := strings.TrimSuffix(path.Base(s.path), ".go")
	words := slices.Concat(strings.Split(s.folder(), "/"), strings.Split(file, "_"), []string{s.file.Name.Name})
	for _, word := range words {
		if unsaying(word) {
			findings = append(findings, s.at(s.file.Package, "the name %q says nothing", word))
		}
	}
	lastWord := regexp.MustCompile(`[A-Z][a-z0-9]*$`)
	for _, name := range topLevelNames(s.file) {
		if name.IsExported() && unsaying(lastWord.FindString(name.Name)) {
			findings = append(findings, s.at(name.Pos(), "the name %s says nothing at its end", name.Name))
		}
	}
	return findings
}

// topLevelNames are the names that a file declares for its package, methods left out.
func topLevelNames(file *ast.File) (names []*ast.Ident) {
	for _, d := range file.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil {
				names = append(names, d.Name)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch spec := spec.(type) {
				case *ast.TypeSpec:
					names = append(names, spec.Name)
				case *ast.ValueSpec:
					names = append(names, spec.Names...)
				}
			}
		}
	}
	return names
}

// unfinished matches the marks of work that was put off.
var unfinished = regexp.MustCompile(`\b(TO` + `DO|FIX` + `ME|XX` + `X)\b`)

func nothingPutOff(s source) (findings []string) {
	for _, group := range s.file.Comments {
		for _, c := range group.List {
			if unfinished.MatchString(c.Text) {
				findings = append(findings, s.at(c.Pos(), "work that was put off: %s", c.Text))
			}
		}
	}
	return findings
}

// monitorsWord is the word that belongs to monitors, never to us.
const monitorsWord = "al" + "arm"

func noMonitorsWord(s source) (findings []string) {
	ast.Inspect(s.file, func(n ast.Node) bool {
		lit, ok := n.(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			return true
		}
		text, err := strconv.Unquote(lit.Value)
		if err == nil && strings.Contains(strings.ToLower(text), monitorsWord) {
			findings = append(findings, s.at(lit.Pos(), "the word %s belongs to monitors", monitorsWord))
		}
		return true
	})
	return findings
}
