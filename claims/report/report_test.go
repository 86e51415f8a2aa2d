package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"probity/claims"
	"probity/extract"
)

// sample is an invented audit: one statement that reproduces, one finding.
func sample() Audit {
	a := &claims.Arm{Name: "Halyard (25/.06)", Short: "H"}
	m := &claims.Measure{ID: "m1", Arm: a, ArmText: "H", Outcome: "Time to fracture", OutcomeID: "time-to-fracture", Unit: "s", UnitID: "s",
		Mean:   claims.Quantity{Number: extract.Number{Text: "702.3", Value: 702.3, Decimals: 1}},
		Spread: claims.Spread{Kind: claims.SD, Value: extract.Number{Text: "106.8", Value: 106.8, Decimals: 1}},
		N:      claims.Quantity{Number: extract.Number{Text: "12", Value: 12}}, Letters: "a", Text: "702.3 ± 106.8ᵃ",
		Place: extract.Place{File: "a.xml", Section: extract.InTable, Page: 6, Table: "2", Row: 4, Col: 3}}
	s := &claims.Statement{ID: "s1", Text: "H lasted 19% longer than K.", Kind: claims.Percent, Own: true, Direction: claims.Higher, Printed: "19%",
		Value: extract.Number{Text: "19", Value: 19}, Unit: "%", Subject: claims.Party{Text: "H"}, Reference: claims.Party{Text: "K"},
		Place: extract.Place{File: "a.xml", Section: extract.Abstract, Page: 1}}
	return Audit{
		SHA256: "00", Study: &claims.Study{File: "a.xml", Format: "jats", Meta: extract.Meta{Title: "Invented", Year: 2031}, Measures: []*claims.Measure{m}},
		Judgements: []claims.Judgement{{Statement: s, Verdict: claims.Reproduces, Base: claims.OnReference, Measures: []*claims.Measure{m}, Why: "(702.3 − 588.0) / 588.0 = 19.4 %",
			Recomputed: []claims.Recalculation{{Base: claims.OnReference, Value: 19.4387755, Low: 19.42, High: 19.46, Fits: true}}}},
		Findings: []claims.Finding{{ID: "f1", Check: "interval-wide", Grade: claims.Caution, Statement: s, Place: s.Place, Message: "room from 1 % to 42 %"}},
	}
}

// The fields and words below are those of the audit format, typed by hand.
func TestWriteAudit(t *testing.T) {
	var b bytes.Buffer
	if err := WriteAudit(&b, sample()); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), "\n"); n != 1 {
		t.Fatalf("an audit takes %d lines, want 1", n)
	}
	var got map[string]any
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	at := func(path ...any) any {
		var v any = got
		for _, p := range path {
			switch p := p.(type) {
			case string:
				v = v.(map[string]any)[p]
			case int:
				v = v.([]any)[p]
			}
		}
		return v
	}
	tests := []struct {
		path []any
		want any
	}{
		{[]any{"schema"}, "probity.audit/2"},
		{[]any{"paper", "file"}, "a.xml"},
		{[]any{"paper", "year"}, 2031.0},
		{[]any{"measures", 0, "arm"}, "H"},
		{[]any{"measures", 0, "arm_name"}, "Halyard (25/.06)"},
		{[]any{"measures", 0, "centre"}, "mean"},
		{[]any{"measures", 0, "mean", "decimals"}, 1.0},
		{[]any{"measures", 0, "spread", "kind"}, "sd"},
		{[]any{"measures", 0, "n"}, 12.0},
		{[]any{"measures", 0, "place", "section"}, "table"},
		{[]any{"measures", 0, "place", "table"}, "2"},
		{[]any{"statements", 0, "verdict"}, "reproduces"},
		{[]any{"statements", 0, "base"}, "reference"},
		{[]any{"statements", 0, "direction"}, "higher"},
		{[]any{"statements", 0, "recomputed", 0, "value"}, 19.4388},
		{[]any{"findings", 0, "grade"}, "caution"},
		{[]any{"findings", 0, "statement"}, "s1"},
	}
	for _, test := range tests {
		if v := at(test.path...); v != test.want {
			t.Errorf("%v = %v, want %v", test.path, v, test.want)
		}
	}
	if _, ok := at("paper").(map[string]any)["doi"]; ok {
		t.Error("an unknown DOI is printed, want it left out")
	}
	if problems, ok := at("problems").([]any); !ok || len(problems) != 0 {
		t.Errorf("problems = %v, want an empty list", at("problems"))
	}
}

func TestTextPutsTheVerdictFirst(t *testing.T) {
	var b bytes.Buffer
	if err := WriteText(&b, Of(sample()), Layout{Width: 80}); err != nil {
		t.Fatal(err)
	}
	out := b.String()
	for _, want := range []string{"REPRODUCES  19%, H against K", "“H lasted 19% longer than K.”", "19.4 %", "table=2 row=4 col=3", "A bench result is not a clinical outcome"} {
		if !strings.Contains(out, want) {
			t.Errorf("the report lacks %q:\n%s", want, out)
		}
	}
	if strings.Contains(out, "\x1b") {
		t.Error("the report is coloured though colour is off")
	}
}

// Text of a paper must not reach a terminal's controls or reorder its lines.
func TestHostileTextIsDisarmed(t *testing.T) {
	a := sample()
	a.Judgements[0].Statement.Text = "H \x1b[2J\x1b]0;owned\a lasted \u202e19%\u2066 longer.\r\x00"
	a.Study.Meta.Title = "\x9b31m title"
	var b bytes.Buffer
	if err := WriteText(&b, Of(a), Layout{Width: 60}); err != nil {
		t.Fatal(err)
	}
	for _, r := range b.String() {
		if r < ' ' && r != '\n' || r == 0x9b || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x7f {
			t.Fatalf("control character %U reaches the terminal", r)
		}
	}
}

func TestLinesKeepTheirWidth(t *testing.T) {
	for _, width := range []int{40, 80, 100} {
		var b bytes.Buffer
		if err := WriteText(&b, Of(sample()), Layout{Width: width}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if n := cells(strings.TrimRight(line, "\n")); n > width && strings.Contains(strings.TrimSpace(line), " ") {
				t.Errorf("width %d: a line takes %d columns: %q", width, n, line)
			}
		}
	}
}
