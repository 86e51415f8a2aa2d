package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"probity/claims"
	"probity/claims/report"
	"probity/extract/open"
	"probity/extract/pdf"
	"probity/extract/pdf/witness"
)

// The figures of formats-invented/paper.xml as its two tables print them:
// table, arm, outcome of the catalogue, condition, unit, mean, spread, n, letters.
var formatsTables = []string{
	"1 Halyard/time-to-fracture/ s: 412.6 sd 61.3 n 12 a",
	"1 Halyard/cycles-to-fracture/ NCF: 2063.0 sd 306.5 n 12 a",
	"1 Halyard/bending-load/ N·cm: 0.86 sd 0.06 n 12 a",
	"1 Corvane/time-to-fracture/ s: 538.4 sd 77.2 n 12 b",
	"1 Corvane/cycles-to-fracture/ NCF: 2692.0 sd 386.0 n 12 b",
	"1 Corvane/bending-load/ N·cm: 0.69 sd 0.05 n 12 b",
	"1 Kestrine/time-to-fracture/ s: 655.8 sd 84.9 n 12 c",
	"1 Kestrine/cycles-to-fracture/ NCF: 3279.0 sd 424.5 n 12 c",
	"1 Kestrine/bending-load/ N·cm: 0.52 sd 0.05 n 12 c",
	"2 Halyard/torque-at-fracture/Size 20 N·cm: 1.21 sd 0.14 n 12 a",
	"2 Halyard/torque-at-fracture/Size 25 N·cm: 1.94 sd 0.20 n 12 a",
	"2 Corvane/torque-at-fracture/Size 20 N·cm: 1.05 sd 0.11 n 11 b",
	"2 Corvane/torque-at-fracture/Size 25 N·cm: 1.70 sd 0.18 n 11 b",
	"2 Kestrine/torque-at-fracture/Size 20 N·cm: 0.93 sd 0.10 n 12 c",
	"2 Kestrine/torque-at-fracture/Size 25 N·cm: 1.44 sd 0.15 n 12 c",
}

// Its statements on its own results and what the two tables say of each, by hand:
//
//	655.8/412.6 = 1.589, "58.9% longer" and "1.6 times"
//	0.52/0.86 = 0.605 is 39.5% less, 0.86/0.52 = 1.654: "65% less" is of the other base
//	0.69/0.86 = 0.802, "19.8% lower"; 538.4/412.6 = 1.305, "30.5% longer"
//	1.44/1.94 = 0.742, "25.8% less"; 1.70/1.94 = 0.876, "12.4% less"
//	a and b: "no significant difference (P = 0.41)" is not what the letters say
//	F: means about their own, 535.6: 12·(123.0² + 2.8² + 120.2²)/2 = 177,509,
//	over the mean variance (61.3² + 77.2² + 84.9²)/3 = 5,641.8: 31.46
var formatsVerdicts = []string{
	"58.9%: reproduces",
	"65%: other-base",
	"P < 0.001: reproduces",
	"F(2, 33) = 31.46: reproduces",
	"1.6 times: reproduces",
	"P = 0.41: does-not-reproduce",
	"19.8%: reproduces",
	"25.8%: reproduces",
	"12.4%: reproduces",
	"30.5%: reproduces",
}

// TestFormats reads one invented paper in every format and holds what comes
// out against the tables as typed, and each format against the XML.
func TestFormats(t *testing.T) {
	useWitness()
	const dir = "../../testdata/papers/formats-invented"
	var first auditLines
	for i, file := range []string{"paper.xml", "paper.html", "paper.docx", "paper.odt", "libreoffice.pdf", "chromium.pdf", "latex.pdf"} {
		t.Run(file, func(t *testing.T) {
			got := linesOf(auditOf(t, filepath.Join(dir, file)))
			if diff := cmp.Diff(formatsTables, got.tables); diff != "" {
				t.Errorf("figures of the tables (-printed +read):\n%s", diff)
			}
			if diff := cmp.Diff(formatsVerdicts, got.verdicts); diff != "" {
				t.Errorf("verdicts (-by hand +got):\n%s", diff)
			}
			if i == 0 {
				first = got
				return
			}
			if diff := cmp.Diff(first, got, cmp.AllowUnexported(auditLines{})); diff != "" {
				t.Errorf("differs from paper.xml (-xml +%s):\n%s", file, diff)
			}
		})
	}
}

// auditOf sends one file through the whole main job.
func auditOf(t *testing.T, path string) report.Audit {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	docs, err := open.ReadAll(data, filepath.Base(path))
	if err != nil || len(docs) != 1 {
		t.Fatalf("ReadAll(%s) = %d papers, %v; want one", path, len(docs), err)
	}
	c := newConsole(context.Background(), nil, io.Discard, io.Discard)
	return c.auditDocument(docs[0], nil, nil, data)
}

// auditLines is an audit without what formats rightly differ in: pages, rows,
// paragraphs and offsets.
type auditLines struct {
	tables, prose, design, verdicts, statements, findings []string
}

func linesOf(a report.Audit) auditLines {
	var out auditLines
	for _, m := range a.Study.Measures {
		line := measureLine(m)
		if m.Place.Table != "" {
			out.tables = append(out.tables, line)
		} else {
			out.prose = append(out.prose, string(m.Place.Section)+line)
		}
	}
	for _, list := range [][]claims.Fact{a.Study.Design.Total, a.Study.Design.PerGroup, a.Study.Design.Tests, a.Study.Design.Facts} {
		for _, f := range list {
			out.design = append(out.design, fmt.Sprintf("%s %s %s", f.ID, f.Value.Text, f.Unit))
		}
	}
	for _, j := range a.Judgements {
		s := j.Statement
		if j.Verdict != claims.NotCheckable && s.Printed != "" {
			out.verdicts = append(out.verdicts, fmt.Sprintf("%s: %v", s.Printed, j.Verdict))
		}
		out.statements = append(out.statements, fmt.Sprintf("%v %s: %s / %s (%s): %v, %s", s.Place.Section, s.Printed, s.Text, s.Subject.Text, s.Reference.Text, j.Verdict, j.Why))
	}
	for _, f := range a.Findings {
		out.findings = append(out.findings, fmt.Sprintf("%s %s: %s", f.Grade, f.Check, f.Message))
	}
	return out
}

func measureLine(m *claims.Measure) string {
	arm := m.ArmText
	if m.Arm != nil {
		arm = m.Arm.Name
	}
	line := fmt.Sprintf("%s %s/%s/%s %s: %s %s %s n %s %s", m.Place.Table, arm, m.OutcomeID, m.Condition, m.Unit, m.Mean.Text, m.Spread.Kind, m.Spread.Value.Text, m.N.Text, m.Letters)
	if !m.Doubt.Sure() {
		line += " doubted: " + m.Doubt.String()
	}
	return strings.TrimSpace(line)
}

// Without a program to recognise text with, --ocr says so and reads nothing.
func TestOCRMissing(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	for _, command := range []string{"audit", "read"} {
		var stdout, stderr bytes.Buffer
		code := run([]string{command, "--ocr", "../../testdata/papers/formats-invented/scan.pdf"}, nil, &stdout, &stderr)
		if want := "--ocr: no text recognition program: tesseract is not installed"; code != exitUnusable || !strings.Contains(stderr.String(), want) || stdout.Len() > 0 {
			t.Errorf("probity %s --ocr: exit %d, %q on stderr, %q on stdout; want exit %d and %q", command, code, stderr.String(), stdout.String(), exitUnusable, want)
		}
	}
}

// Where two PDF readers see different digits on every page, the same faults
// are asked about and none is asserted.
func TestDisagreementOnlyAsks(t *testing.T) {
	data, err := os.ReadFile("../../testdata/papers/formats-invented/latex.pdf")
	if err != nil {
		t.Fatal(err)
	}
	honest := witness.By(os.Args[0], witnessName)
	doc, err := pdf.Read(data, "latex.pdf", pdf.Options{Witness: func(data []byte) ([]witness.Page, error) {
		pages, err := honest(data)
		for i := range pages {
			pages[i].Digits[4]--
			pages[i].Digits[9]++
		}
		return pages, err
	}})
	if err != nil {
		t.Fatal(err)
	}
	c := newConsole(context.Background(), nil, io.Discard, io.Discard)
	a := c.auditDocument(doc, nil, nil, data)
	for _, m := range a.Study.Measures {
		if !strings.Contains(m.Doubt.String(), "two PDF readers") {
			t.Errorf("%v: Doubt = %q; want the doubt of its page", m.Place, m.Doubt)
		}
	}
	queries := 0
	for _, f := range a.Findings {
		switch f.Grade {
		case claims.AtOdds:
			t.Errorf("%s: %s is asserted, want it asked at most", f.Check, f.Message)
		case claims.Query:
			queries++
		}
	}
	if queries == 0 {
		t.Error("nothing is asked about, want the faults of the paper")
	}
}
