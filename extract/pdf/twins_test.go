package pdf_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/text/unicode/norm"

	"probity/extract"
	"probity/extract/jats"
	"probity/extract/pdf"
)

var (
	twins  = flag.String("twins", "", "folder of papers as NAME.pdf and NAME.xml: hold the tables of the one against the other")
	misses = flag.Bool("misses", false, "with -twins, list every figure that differs")
	all    = flag.Bool("all-figures", false, "with -twins, compare every cell that holds a digit, not only means with spreads")
)

// TestTwins holds the figures "mean ± SD" and "mean (SD)" of each paper's
// tables, as its XML gives them, against its PDF: a figure counts as found when
// the same figure stands in a table of the PDF under the same row and column
// words.
//
//	go test ./extract/pdf -run Twins -v -twins DIR [-misses] [-all-figures]
func TestTwins(t *testing.T) {
	if *twins == "" {
		t.Skip("no -twins DIR")
	}
	files, _ := filepath.Glob(filepath.Join(*twins, "*.pdf"))
	var want, found, got, extra int
	for _, f := range files {
		x := strings.TrimSuffix(f, ".pdf") + ".xml"
		if _, err := os.Stat(x); err != nil {
			continue
		}
		a, b := entries(t, x, jats.Read), entries(t, f, func(data []byte, name string) (*extract.Document, error) {
			return pdf.Read(data, name, pdf.Options{})
		})
		hit, lost, over := match(a, b)
		fmt.Printf("%-28s want %4d found %4d extra %3d\n", filepath.Base(f), len(a), hit, len(over))
		if *misses {
			for _, e := range lost {
				fmt.Printf("    - %s\n", e)
			}
			for _, e := range over {
				fmt.Printf("    + %s\n", e)
			}
		}
		want, found, got, extra = want+len(a), found+hit, got+len(b), extra+len(over)
	}
	if want == 0 {
		t.Fatalf("no twins with figures in %s", *twins)
	}
	fmt.Printf("found %.3f of %d, extra %.3f of %d\n", float64(found)/float64(want), want, float64(extra)/float64(max(got, 1)), got)
}

// An entry is one figure of a table with the words that say what it is.
type entry struct {
	table, text string
	row, col    map[string]bool
}

func (e entry) String() string {
	return fmt.Sprintf("table %s %q row %s col %s", e.table, e.text, keys(e.row), keys(e.col))
}

func keys(m map[string]bool) string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	return strings.Join(out, ",")
}

var (
	spread = regexp.MustCompile(`\d\s*(?:±|\(\s*±?)\s*\d`)
	digit  = regexp.MustCompile(`\d`)
	marks  = strings.NewReplacer("\u2009", "", " ", "", "−", "-", "–", "-", "·", ".", "*", "", "∗", "", "†", "", "‡", "", "§", "")
	word   = regexp.MustCompile(`[\p{L}]+|\d+(?:[.,]\d+)?`)
)

func entries(t *testing.T, name string, read func([]byte, string) (*extract.Document, error)) []entry {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := read(data, filepath.Base(name))
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return nil
	}
	var out []entry
	for _, tb := range doc.Tables() {
		for i := tb.Head; i < len(tb.Rows); i++ {
			row := words("")
			for j, c := range tb.Rows[i] {
				text := figure(c)
				if c.Copy || !digit.MatchString(text) {
					if !digit.MatchString(text) && (j == 0 || len(row) == 0) || j == 0 {
						add(row, plain(c))
					}
					continue
				}
				if j == 0 {
					add(row, plain(c))
					continue
				}
				if !*all && !spread.MatchString(text) {
					continue
				}
				col := words("")
				for h := 0; h < tb.Head; h++ {
					add(col, plain(tb.Rows[h][j]))
				}
				out = append(out, entry{tb.Label, marks.Replace(text), row, col})
			}
		}
	}
	return out
}

func plain(c extract.Cell) string {
	var b strings.Builder
	for _, r := range c.Runs {
		b.WriteString(r.Text)
	}
	return b.String()
}

// figure is a cell's text without raised and lowered parts.
func figure(c extract.Cell) string {
	var b strings.Builder
	for _, r := range c.Runs {
		if !r.Raised && !r.Lowered {
			b.WriteString(r.Text)
		}
	}
	return extract.Fold(b.String())
}

func words(s string) map[string]bool { return add(map[string]bool{}, s) }

func add(m map[string]bool, s string) map[string]bool {
	for _, w := range word.FindAllString(strings.ToLower(norm.NFKC.String(s)), -1) {
		m[w] = true
	}
	return m
}

// alike reports that the words of two places are the same, or nearly.
func alike(a, b map[string]bool) bool {
	if len(a) == 0 && len(b) == 0 {
		return true
	}
	both := 0
	for w := range a {
		if b[w] {
			both++
		}
	}
	return 2*both >= max(len(a), len(b)) || both > 0 && (both == len(a) || both == len(b))
}

func match(a, b []entry) (hit int, lost, over []entry) {
	used := make([]bool, len(b))
next:
	for _, e := range a {
		for i, f := range b {
			if !used[i] && e.text == f.text && alike(e.row, f.row) && alike(e.col, f.col) {
				used[i] = true
				hit++
				continue next
			}
		}
		lost = append(lost, e)
	}
	for i, f := range b {
		if !used[i] {
			over = append(over, f)
		}
	}
	return hit, lost, over
}
