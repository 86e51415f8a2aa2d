package main

import (
	"bytes"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// anyOrder stands in the line of every range over a map in claims and extract,
// with the reason why its order cannot reach the output. Where it could, the
// keys are sorted, or a list is kept beside the map.
const anyOrder = "// any order: "

func TestEveryRangeOverAMapSaysWhyItsOrderDoesNotMatter(t *testing.T) {
	exports := map[string]string{}
	list := exec.Command("go", "list", "-deps", "-export", "-f", `{{.ImportPath}}|{{.Export}}|{{range .GoFiles}}{{$.Dir}}/{{.}}|{{end}}`, "./claims/...", "./extract/...")
	list.Dir = "../.."
	out, err := list.Output()
	if err != nil {
		t.Skipf("the go command that lists the packages is not at hand: %v", err)
	}
	ours := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		f := strings.Split(strings.TrimSpace(line), "|")
		exports[f[0]] = f[1]
		if strings.HasPrefix(f[0], "probity/") {
			ours[f[0]] = f[2 : len(f)-1]
		}
	}
	fset := token.NewFileSet()
	imports := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	ranges := 0
	for path, files := range ours {
		ranges += mapRanges(t, fset, imports, path, files)
	}
	if ranges == 0 {
		t.Error("no range over a map was found: this test has gone blind")
	}
}

// mapRanges counts the ranges over maps of one package, and names those whose
// line gives no reason.
func mapRanges(t *testing.T, fset *token.FileSet, imports types.Importer, path string, names []string) int {
	var files []*ast.File
	lines := map[string][]string{}
	for _, name := range names {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := parser.ParseFile(fset, name, src, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
		lines[name] = strings.Split(string(bytes.ReplaceAll(src, []byte("\r"), nil)), "\n")
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	if _, err := (&types.Config{Importer: imports}).Check(path, fset, files, info); err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			r, ok := n.(*ast.RangeStmt)
			if !ok {
				return true
			}
			if _, ok := info.Types[r.X].Type.Underlying().(*types.Map); !ok {
				return true
			}
			found++
			if at := fset.Position(r.Pos()); !strings.Contains(lines[at.Filename][at.Line-1], anyOrder) {
				t.Errorf("%s:%d ranges over a map; sort its keys, or say %qand why", at.Filename, at.Line, anyOrder)
			}
			return true
		})
	}
	return found
}
