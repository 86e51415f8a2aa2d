package pdf_test

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"probity/extract/pdf"
)

// A setting is one way to make a PDF of the invented paper anew.
type setting struct {
	name   string
	source string   // below testdata/papers
	change []string // pairs of old and new text, for strings.NewReplacer
	run    func(in, out, dir string) []string
	tables map[string][][]string
}

// The tables as typed in formats-invented/paper.xml.
var (
	bending = [][]string{
		{"Instrument", "Time to fracture (s)", "NCF", "Bending load (N·cm)"},
		{"Halyard", "412.6 (61.3)ᵃ", "2063.0 (306.5)ᵃ", "0.86 (0.06)ᵃ"},
		{"Corvane", "538.4 (77.2)ᵇ", "2692.0 (386.0)ᵇ", "0.69 (0.05)ᵇ"},
		{"Kestrine", "655.8 (84.9)ᶜ", "3279.0 (424.5)ᶜ", "0.52 (0.05)ᶜ"},
	}
	fracture = [][]string{
		{"Instrument", "n", "Torque at fracture (N·cm)", "[Torque at fracture (N·cm)]"},
		{"[Instrument]", "[n]", "Size 20", "Size 25"},
		{"Halyard", "12", "1.21 ± 0.14ᵃ", "1.94 ± 0.20ᵃ"},
		{"Corvane", "11", "1.05 ± 0.11ᵇ", "1.70 ± 0.18ᵇ"},
		{"Kestrine", "12", "0.93 ± 0.10ᶜ", "1.44 ± 0.15ᶜ"},
	}
)

// settings typeset the invented paper in one column and in two.
func settings() []setting {
	tex := map[string][][]string{"1": fatigue("°C"), "2": torque, "3": roughness, "4": sideways}
	other := map[string][][]string{"1": fatigue(" °C"), "2": torque, "3": roughness, "4": spanned}
	wrapped := map[string][][]string{"1": bending, "2": fracture}
	oneColumn := []string{"twocolumn,", "", `\twocolumn[\maketitle`, `\maketitle`, `\end{center}]`, `\end{center}`}
	return []setting{
		{"TeX, two columns", "pdf-invented/paper.tex", nil, pdflatex, tex},
		{"TeX, one column", "pdf-invented/paper.tex", oneColumn, pdflatex, tex},
		{"TeX, one column, letter paper, 12 pt", "pdf-invented/paper.tex", []string{"twocolumn,10pt,a4paper", "12pt,letterpaper", `\twocolumn[\maketitle`, `\maketitle`, `\end{center}]`, `\end{center}`}, pdflatex, tex},
		{"browser, two columns", "pdf-invented/paper.html", nil, chromium, other},
		{"browser, one column", "pdf-invented/paper.html", []string{"column-count: 2", "column-count: 1"}, chromium, other},
		{"browser, two columns, letter paper", "pdf-invented/paper.html", []string{"size: A4; margin: 18mm", "size: letter; margin: 14mm", "column-gap: 7mm", "column-gap: 5mm"}, chromium, other},
		{"word processor, one column", "pdf-invented/paper.fodt", nil, soffice, other},
		{"word processor, one column, unnumbered lines", "pdf-invented/paper.fodt", []string{`text:number-lines="true"`, `text:number-lines="false"`}, soffice, other},
		{"word processor, two columns", "pdf-invented/paper.fodt", []string{`text:number-lines="true"`, `text:number-lines="false"`, `fo:margin="2.5cm"/>`, `fo:margin="1.5cm"><style:columns fo:column-count="2" fo:column-gap="0.7cm"/></style:page-layout-properties>`,
			`fo:font-size="11pt"`, `fo:font-size="9pt"`, `fo:font-size="9pt"`, `fo:font-size="6pt"`}, soffice, other},
		{"TeX, two columns, second paper", "formats-invented/paper.tex", nil, pdflatex, wrapped},
		{"TeX, one column, second paper", "formats-invented/paper.tex", oneColumn, pdflatex, wrapped},
		{"browser, two columns, cells wrap", "formats-invented/paper.html", nil, chromium, wrapped},
		{"browser, three columns, cells wrap", "formats-invented/paper.html", []string{"column-count: 2", "column-count: 3", "size: A4;", "size: A4 landscape;"}, chromium, wrapped},
		{"browser, one column, cells wrap", "formats-invented/paper.html", []string{"column-count: 2", "column-count: 1", "width: 100%", "width: 55%"}, chromium, wrapped},
		{"word processor, one column, cells wrap", "formats-invented/paper.docx", nil, soffice, wrapped},
	}
}

func pdflatex(in, out, dir string) []string {
	return []string{"pdflatex", "-interaction=nonstopmode", "-no-shell-escape", in}
}

func chromium(in, out, dir string) []string {
	program := "chromium"
	for _, name := range []string{"chromium", "chromium-browser"} {
		if _, err := exec.LookPath(name); err == nil {
			program = name
			break
		}
	}
	return []string{program, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--user-data-dir=" + filepath.Join(dir, "profile"),
		"--no-pdf-header-footer", "--print-to-pdf=" + out, "file://" + filepath.Join(dir, in)}
}

func soffice(in, out, dir string) []string {
	return []string{"soffice", "-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless", "--convert-to", "pdf", "--outdir", dir, in}
}

// TestTypeset has the invented paper typeset by the programs that are
// installed here, and holds the tables against the source.
func TestTypeset(t *testing.T) {
	if testing.Short() {
		t.Skip("typesetting takes some seconds")
	}
	for _, s := range settings() {
		t.Run(s.name, func(t *testing.T) {
			data := s.make(t)
			doc, err := pdf.Read(data, "typeset.pdf", pdf.Options{})
			if err != nil {
				t.Fatal(err)
			}
			got := map[string][][]string{}
			for _, tb := range doc.Tables() {
				got[tb.Label] = rows(tb)
				if tb.Doubt != "" {
					t.Errorf("table %s: Doubt = %q, want none", tb.Label, tb.Doubt)
				}
			}
			if diff := cmp.Diff(s.tables, got); diff != "" {
				t.Errorf("tables differ (-source +read):\n%s", diff)
			}
			if t.Failed() {
				keep(t, s.name, data)
			}
		})
	}
}

// make typesets the source; it skips the test where the program is missing or
// does not work, and says so.
func (s setting) make(t *testing.T) []byte {
	t.Helper()
	dir := t.TempDir()
	out := filepath.Join(dir, "paper.pdf")
	name := filepath.Base(s.source)
	args := s.run(name, out, dir)
	if _, err := exec.LookPath(args[0]); err != nil {
		t.Skipf("%s is not installed: nothing is typeset with it", args[0])
	}
	source := string(sample(t, "../"+s.source))
	for i := 0; i+1 < len(s.change); i += 2 {
		if !strings.Contains(source, s.change[i]) {
			t.Fatalf("%s holds no %q to change", s.source, s.change[i])
		}
	}
	source = strings.NewReplacer(s.change...).Replace(source)
	if err := os.WriteFile(filepath.Join(dir, name), []byte(source), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	cmd.Dir, cmd.WaitDelay = dir, 2*time.Second
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &said
	err := cmd.Run()
	data, missing := os.ReadFile(out)
	if missing != nil {
		text := said.String()
		t.Skipf("%s makes no PDF here (%v): …%s", args[0], err, text[max(0, len(text)-600):])
	}
	return data
}

// keep leaves a PDF that is not read well for a person to look at.
func keep(t *testing.T, name string, data []byte) {
	file, err := os.CreateTemp("", "typeset-*.pdf")
	if err != nil {
		return
	}
	defer file.Close()
	file.Write(data)
	t.Logf("%s: the PDF is kept as %s", name, file.Name())
}
