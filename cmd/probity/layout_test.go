package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// plan lists each package and the packages of ours that it may import: the
// arrows of DEVELOPERS.md. cmd, and tests anywhere, may import them all.
var plan = map[string][]string{
	"extract":                   {},
	"extract/internal/archive":  {},
	"extract/internal/harm":     {"extract"},
	"extract/internal/parts":    {"extract", "extract/internal/archive", "extract/internal/xmltree"},
	"extract/internal/xmltree":  {},
	"extract/internal/flow":     {"extract"},
	"extract/internal/outline":  {"extract"},
	"extract/internal/grid":     {"extract"},
	"extract/internal/formula":  {"extract", "extract/internal/flow", "extract/internal/xmltree"},
	"extract/jats":              markup,
	"extract/html":              markup,
	"extract/docx":              append(slices.Clone(markup), "extract/internal/archive", "extract/internal/parts"),
	"extract/odt":               append(slices.Clone(markup), "extract/internal/archive", "extract/internal/parts"),
	"extract/text":              {"extract", "extract/internal/flow", "extract/internal/grid"},
	"extract/pdf/glyph":         {},
	"extract/pdf/engine":        {"extract/pdf/glyph"},
	"extract/pdf/layout":        {"extract", "extract/pdf/glyph"},
	"extract/pdf/ocr":           {"extract/pdf/glyph"},
	"extract/pdf/whole":         {},
	"extract/pdf/witness":       {},
	"extract/pdf":               {"extract", "extract/internal/flow", "extract/pdf/engine", "extract/pdf/glyph", "extract/pdf/layout", "extract/pdf/ocr", "extract/pdf/whole", "extract/pdf/witness"},
	"extract/open":              {"extract", "extract/internal/archive", "extract/internal/xmltree", "extract/docx", "extract/html", "extract/jats", "extract/odt", "extract/pdf", "extract/text"},
	"extract/numeral":           {"extract"},
	"claims":                    {"extract", "claims/reading"},
	"claims/catalog":            {},
	"claims/internal/published": {},
	"claims/interval":           {},
	"claims/reading":            {},
	"claims/role":               {"extract", "claims/catalog", "claims/reading"},
	"claims/effect":             {"claims/interval"},
	"claims/infer":              {"claims/interval"},
	"claims/pool":               {"claims/interval"},
	"claims/physics":            {"claims/interval"},
	"claims/assemble":           {"extract", "extract/numeral", "claims", "claims/catalog", "claims/reading", "claims/role", "claims/tabular"},
	"claims/statement":          {"extract", "claims", "claims/catalog", "claims/reading", "claims/role"},
	"claims/check":              {"extract", "claims", "claims/catalog", "claims/interval", "claims/effect", "claims/infer", "claims/physics", "claims/reading"},
	"claims/tabular":            {"claims/catalog", "claims/reading"},
	"claims/typed":              {"extract", "extract/numeral", "claims", "claims/catalog", "claims/role", "claims/statement"},
	"claims/report":             {"extract", "claims"},
	"claims/compare":            {"extract", "claims", "claims/catalog", "claims/effect", "claims/interval", "claims/pool"},
	"index":                     {"extract", "claims"},
	"index/cite":                {},
}

// markup is what the readers of marked-up formats share.
var markup = []string{"extract", "extract/internal/flow", "extract/internal/formula", "extract/internal/grid", "extract/internal/xmltree"}

func TestLayout(t *testing.T) {
	const root, module = "../..", "probity/"
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && strings.HasPrefix(d.Name(), ".") && path != root {
			return filepath.SkipDir
		}
		if d.IsDir() || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		pkg, err := filepath.Rel(root, filepath.Dir(path))
		if pkg = filepath.ToSlash(pkg); err != nil || strings.HasPrefix(pkg, "cmd/") {
			return err
		}
		may, ok := plan[pkg]
		if !ok {
			t.Errorf("%s is not in the plan; add it here and to the map in DEVELOPERS.md", pkg)
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range f.Imports {
			name, _ := strconv.Unquote(spec.Path.Value)
			if dep, ours := strings.CutPrefix(name, module); ours && dep != pkg && !slices.Contains(may, dep) {
				t.Errorf("%s imports %s, which the plan does not allow", path, dep)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
