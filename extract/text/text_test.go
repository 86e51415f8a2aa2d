package text_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/extract"
	"probity/extract/internal/outline"
	"probity/extract/text"
)

func read(t *testing.T, s, name string) *extract.Document {
	t.Helper()
	d, err := text.Read([]byte(s), name)
	if err != nil {
		t.Fatalf("Read(%.80q): %v", s, err)
	}
	return d
}

// All names in these samples are invented.
func TestRead(t *testing.T) {
	tests := []struct {
		name, file, text string
		want             []string
	}{
		{"one sentence", "a.txt", "Vexil lasted 24% longer than Corvo (P < .05).",
			[]string{"body Vexil lasted 24% longer than Corvo (P < .05)."}},
		{"an asterisk in plain text is printed", "a.txt", "Vexil 12.3* and Corvo 11.0* differed.\n",
			[]string{"body Vexil 12.3* and Corvo 11.0* differed."}},
		{"wrapped lines and blank lines", "a.txt", "Vexil lasted\n12.3 s and nickel-\ntitanium bent.\n\nCorvo did not.\n",
			[]string{"body Vexil lasted 12.3 s and nickel-titanium bent.", "body Corvo did not."}},
		{"one long line a paragraph", "a.txt", strings.Repeat("Vexil lasted longer. ", 12) + "\nCorvo did not.",
			[]string{"body " + strings.TrimSpace(strings.Repeat("Vexil lasted longer. ", 12)), "body Corvo did not."}},
		{"sections", "a.txt", "Time to fracture of invented files\n\nAbstract\nVexil lasted longer.\n\n1. Introduction\n\nFiles break.\n\nMATERIALS AND METHODS\n\nForty files.\n\n2.1 Statistical analysis\n\nWelch.\n\nResults\n\nVexil lasted longer.\n\nReferences\n\n1. Tarrant T. Files. 2001.\n",
			[]string{"abstract # Abstract", "abstract Vexil lasted longer.", "introduction # 1. Introduction", "introduction Files break.",
				"methods # MATERIALS AND METHODS", "methods Forty files.", "methods # 2.1 Statistical analysis", "methods Welch.",
				"results # Results", "results Vexil lasted longer.", "back # References", "back ref: 1. Tarrant T. Files. 2001."}},
		{"an abstract with its parts run in", "a.txt", "AIM: To test files.\nRESULTS: Vexil lasted longer.\n",
			[]string{"introduction # AIM", "introduction To test files. RESULTS: Vexil lasted longer."}},
		{"an abstract with its parts as paragraphs", "a.txt", "Aim: To test files.\n\nResults: Vexil lasted longer.\n",
			[]string{"introduction # Aim", "introduction To test files.", "results # Results", "results Vexil lasted longer."}},
		{"pipe table", "a.txt", "Table 1. Time (s)\n\n| File | Mean ± SD |\n|------|----------:|\n| Vexil | 12.3 ± 1.1 |\n| Corvo | 11.0 ± 0.9 |\n\nSD, standard deviation.\n\nVexil lasted longer.\n",
			[]string{`table 1 "Time (s)" / #File|Mean ± SD / Vexil|12.3 ± 1.1 / Corvo|11.0 ± 0.9 [SD, standard deviation.]`, "body Vexil lasted longer."}},
		{"caption below", "a.txt", "| File | Mean |\n|---|---|\n| Vexil | 12.3 |\n\nTable 1: Time (s)\n",
			[]string{`table 1 "Time (s)" / #File|Mean / Vexil|12.3`}},
		{"aligned columns with a spanning header", "a.txt", "Table 1. Time (s)\n               25 °C            37 °C\nFile       Mean    SD      Mean    SD\n--------------------------------------\nVexil      12.3    1.1     11.3    1.0\nCorvo      11.0    0.9      9.8    0.7\n",
			[]string{`table 1 "Time (s)" / #|25 °C|25 °C|37 °C|37 °C / #File|Mean|SD|Mean|SD / Vexil|12.3|1.1|11.3|1.0 / Corvo|11.0|0.9|9.8|0.7`}},
		{"aligned columns with an empty place", "a.txt", "File     Mean ± SD      p\nVexil    12.3 ± 1.1     .04\nCorvo    11.0 ± 0.9\n",
			[]string{`table  "" / #File|Mean ± SD|p / Vexil|12.3 ± 1.1|.04 / Corvo|11.0 ± 0.9|`}},
		{"tabs", "a.txt", "File\tMean\tSD\nVexil\t12.3\t1.1\n",
			[]string{`table  "" / #File|Mean|SD / Vexil|12.3|1.1`}},
		{"drawn table", "a.txt", "+-------+------+\n| File  | Mean |\n+=======+======+\n| Vexil | 12.3 |\n| new   |      |\n+-------+------+\n",
			[]string{`table  "" / #File|Mean / Vexil new|12.3`}},
		{"text in two columns is no table", "a.txt", "the instruments    were tested at\nfractured after    body temperature\n",
			[]string{"body the instruments were tested at fractured after body temperature"}},
		{"Markdown", "a.md", "# Time of invented files\n\n## Results\n\n**Vexil** lasted *longer* [1](#r) by 10^2^ s, H~2~O, 5 \\* 3, 2 * 3.\n\n- one\n- two\n\n<!-- no -->\n### Torque\n\nMore.\n",
			[]string{"results # Results", "results Vexil lasted longer 1 by 10² s, H₂O, 5 * 3, 2 * 3.", "results one", "results two", "results # Torque", "results More."}},
		{"underlined headings", "a.md", "Results\n=======\n\nVexil lasted longer.\n",
			[]string{"results # Results", "results Vexil lasted longer."}},
		{"a line end in a cell", "a.md", "| File | s |\n|---|---|\n| Vexil | 12.3<br>(1.1) |\n",
			[]string{`table  "" / #File|s / Vexil|12.3 (1.1)`}},
	}
	for _, tt := range tests {
		if diff := cmp.Diff(tt.want, outline.Of(read(t, tt.text, tt.file))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
}

func TestTitle(t *testing.T) {
	for s, want := range map[string]string{
		"Time to fracture of invented files\n\nAbstract\n\nx": "Time to fracture of invented files",
		"# Time of files\n\nx":                                "Time of files",
		"Vexil lasted 24% longer than Corvo\n\nResults\n\nx":  "",
		"Vexil lasted longer than Corvo\n\nMore text":         "",
	} {
		if got := read(t, s, "a.txt").Meta.Title; got != want {
			t.Errorf("title of %q: %q, want %q", s, got, want)
		}
	}
}

func TestEncodings(t *testing.T) {
	for name, data := range map[string]string{
		"UTF-8 with its mark": "\xef\xbb\xbf12.3 ± 1.1",
		"UTF-16":              "\xff\xfe1\x002\x00.\x003\x00 \x00\xb1\x00 \x001\x00.\x001\x00",
		"Windows-1252":        "12.3 \xb1 1.1",
	} {
		if got := read(t, data, "a.txt").Proses()[0].Text(); got != "12.3 ± 1.1" {
			t.Errorf("%s: %q", name, got)
		}
	}
}

func TestRefusals(t *testing.T) {
	for name, data := range map[string]string{"blank": " \n\n", "binary": "\x01\x02\x03\x04 some text"} {
		if _, err := text.Read([]byte(data), "a.txt"); err == nil || !strings.HasPrefix(err.Error(), "a.txt: ") {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("Table 1. x\n\na  b\n1  2.0\n3  4.0\n"), true)
	f.Add([]byte("| a | b |\n|---|\n| **x | ~1~ |\n+---+\n|x|\n+===+\n"), false)
	f.Fuzz(func(t *testing.T, data []byte, markdown bool) {
		name := "f.txt"
		if markdown {
			name = "f.md"
		}
		d, err := text.Read(data, name)
		if (d == nil) == (err == nil) {
			t.Fatalf("Read gives document %v and error %v", d, err)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var s strings.Builder
	s.WriteString("Time of invented files\n\nResults\n\n")
	for i := range 200 {
		fmt.Fprintf(&s, "In group %d the file lasted %d.%d ± 12.3 s (P < .05).\n%s\n\n", i, 600+i, i%10, strings.Repeat("The invented canal had a radius of 5 mm and an angle\nof 60°. ", 6))
	}
	data := []byte(s.String())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := text.Read(data, "a.txt"); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleRead() {
	d, err := text.Read([]byte("Table 1. Time (s)\n\nFile     Mean ± SD\nVexil    702.3 ± 106.8\nCorvo    588.0 ± 140.3\n"), "files.txt")
	if err != nil {
		fmt.Println(err)
		return
	}
	cell := d.Tables()[0].Rows[2][1]
	fmt.Println(cell.Place, "reads", cell.Text())
	// Output: files.txt table=1 row=3 col=2 reads 588.0 ± 140.3
}
