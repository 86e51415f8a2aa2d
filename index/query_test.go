package index

import (
	"strings"
	"testing"
)

// TestUnknownField holds that what is meant as a field is one, or is refused
// with the known ones, the nearest first; and that text stays text.
func TestUnknownField(t *testing.T) {
	w := words{names: newNames(testNames)}
	refused := []struct{ query, want string }{
		{"autor:oakhollow", "a field autor, which there is not; there are, nearest first, author, "},
		{"instruments:kestrine", "nearest first, instrument, "},
		{"Jurnal:imaginary", "nearest first, journal, "},
		{"outcomes:NCF year:2018..", "nearest first, outcome, "},
		{"-verdicts:reversed", "nearest first, verdict, "},
		{"NCF OR titel:fatigue", "nearest first, title, "},
		{`autor:"P Oakhollow"`, "nearest first, author, "},
		{"año:2018", "a field año, which there is not"},
		{"year-of-print:2018", "year-of-print"},
		{"yeer>=2018", "nearest first, year, "},
		{"ratios<1", "nearest first, ratio, "},
		{"title=fatigue", "the field title, which holds no figures; write title:value"},
		{"author>b", "the field author"},
		{"foo:bar", `in quotation marks: "foo:bar"`},
	}
	for _, tt := range refused {
		_, err := parse(tt.query, w)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("parse(%s): %v, want %q", tt.query, err, tt.want)
		}
		for _, f := range Fields {
			if err != nil && strings.Contains(err.Error(), "there is not") && !strings.Contains(err.Error(), f.Name) {
				t.Errorf("parse(%s) does not name the field %s: %v", tt.query, f.Name, err)
			}
		}
	}
	for _, q := range []string{"p<0.05", "n=20", "N = 20", "N=20", "alpha=0.05", "SD=3", "10:1", "Fatigue of files: a review", `"foo:bar"`, "https://example.org/x", "°C>37", ": x",
		"Author:oakhollow", "DOI:10.5555/one", "k:"} {
		if _, err := parse(q, w); err != nil {
			t.Errorf("parse(%s): %v, want no error", q, err)
		}
	}
	a, err := parse("Verdict:Reversed", w)
	if err != nil || len(a.fields["verdict"]) != 1 {
		t.Errorf("Verdict:Reversed asks for %v, %v; want the field verdict", a.fields, err)
	}
}
