package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/check"
	"probity/claims/compare"
	"probity/claims/report"
	"probity/extract"
	"probity/index"
)

// entriesOf reads and judges all papers of one file for the library. made
// holds audits that were made elsewhere; nil: none.
func (c *console) entriesOf(name string, data, corrections []byte, made *elsewhere) ([]index.Entry, error) {
	docs, err := c.papersOf(data, name)
	if err != nil {
		return nil, err
	}
	sum := hash(data)
	fixes, problems := readCorrections(name+correctionsEnding, corrections)
	out := make([]index.Entry, 0, len(docs))
	for i, doc := range docs {
		a, printed := c.auditOf(doc, fixes, problems, data, made.line(sum, i))
		e, err := c.entryOf(doc, a, printed)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		e.Name, e.Original, e.Corrections = name, data, corrections
		if len(docs) > 1 {
			e.Collection, e.Nth, e.Total = sum, i, len(docs)
		}
		e.Sketched()
		out = append(out, e)
	}
	return out, nil
}

// auditOf judges a paper, or takes the judging from a line made elsewhere
// where that line is of this very reading.
func (c *console) auditOf(doc *extract.Document, fixes []assemble.Correction, problems []*extract.Problem, data, line []byte) (report.Audit, []byte) {
	study := c.studyOf(doc, fixes, problems)
	if line != nil {
		if a, ok := judgedElsewhere(study, line); ok {
			a.SHA256 = hash(data)
			return a, line
		}
	}
	judgements, findings := check.Audit(study, c.catalog)
	return report.Audit{SHA256: hash(data), Tool: version(), Study: study, Judgements: judgements, Findings: findings}, nil
}

func (c *console) entryOf(doc *extract.Document, a report.Audit, printed []byte) (index.Entry, error) {
	if printed == nil {
		var b bytes.Buffer
		if err := report.WriteAudit(&b, a); err != nil {
			return index.Entry{}, err
		}
		printed = b.Bytes()
	}
	rows, err := json.Marshal(compare.Of(doc, a.Study, a.Judgements, a.Findings, c.catalog))
	if err != nil {
		return index.Entry{}, err
	}
	return index.Entry{ID: doc.ID, Card: index.CardOf(a.Study, a.Judgements, a.Findings), Text: index.TextOf(doc), Audit: printed,
		Compare: append(rows, '\n'), Tool: version(), Added: time.Now().Truncate(time.Second)}, nil
}

// elsewhere holds audits made elsewhere by the sum of their input, in the
// order of its papers.
type elsewhere struct{ lines map[string][][]byte }

func (e *elsewhere) line(sum string, nth int) []byte {
	if e == nil || nth >= len(e.lines[sum]) {
		return nil
	}
	return e.lines[sum][nth]
}

// auditLine is what is needed of a line of the audit format to take the
// judging from it.
type auditLine struct {
	Schema string `json:"schema"`
	Tool   string `json:"tool"`
	Paper  struct {
		File   string `json:"file"`
		SHA256 string `json:"sha256"`
	} `json:"paper"`
	Measures []struct {
		ID string `json:"id"`
	} `json:"measures"`
	Statements []struct {
		ID       string   `json:"id"`
		Text     string   `json:"text"`
		Verdict  string   `json:"verdict"`
		Base     string   `json:"base"`
		Why      string   `json:"why"`
		May      string   `json:"may_say"`
		Measures []string `json:"measures"`
	} `json:"statements"`
	Findings []struct {
		ID        string   `json:"id"`
		Check     string   `json:"check"`
		Grade     string   `json:"grade"`
		Statement string   `json:"statement"`
		Message   string   `json:"message"`
		Measures  []string `json:"measures"`
	} `json:"findings"`
}

var errOtherVersion = errors.New("it was made by another version")

func readAuditLine(line []byte) (auditLine, error) {
	var a auditLine
	if err := json.Unmarshal(line, &a); err != nil {
		return a, fmt.Errorf("it is not a line of the audit format (%w)", err)
	}
	switch {
	case a.Schema != report.Schema:
		return a, fmt.Errorf("its schema is %q, not %s", a.Schema, report.Schema)
	case a.Tool != version():
		return a, errOtherVersion
	case a.Paper.SHA256 == "":
		return a, errors.New("it does not name the sum of its paper")
	}
	return a, nil
}

// judgedElsewhere puts the verdicts of a line on a study. The line must be of
// the same reading: the same figures and the same statements in the same order.
func judgedElsewhere(study *claims.Study, line []byte) (report.Audit, bool) {
	a, err := readAuditLine(line)
	if err != nil || len(a.Measures) != len(study.Measures) || len(a.Statements) != len(study.Statements) {
		return report.Audit{}, false
	}
	measures := map[string]*claims.Measure{}
	for i, m := range study.Measures {
		if a.Measures[i].ID != m.ID {
			return report.Audit{}, false
		}
		measures[m.ID] = m
	}
	pick := func(ids []string) (out []*claims.Measure) {
		for _, id := range ids {
			if measures[id] != nil {
				out = append(out, measures[id])
			}
		}
		return out
	}
	statements := map[string]*claims.Statement{}
	for _, s := range study.Statements {
		statements[s.ID] = s
	}
	out := report.Audit{Tool: a.Tool, Study: study}
	for _, j := range a.Statements {
		s := statements[j.ID]
		verdict, known := verdictOf(j.Verdict)
		if s == nil || s.Text != j.Text || !known {
			return report.Audit{}, false
		}
		out.Judgements = append(out.Judgements, claims.Judgement{Statement: s, Verdict: verdict, Base: claims.Base(j.Base), Why: j.Why, May: j.May,
			Measures: pick(j.Measures)})
	}
	for _, f := range a.Findings {
		out.Findings = append(out.Findings, claims.Finding{ID: f.ID, Check: f.Check, Grade: claims.Grade(f.Grade), Statement: statements[f.Statement],
			Message: f.Message, Measures: pick(f.Measures)})
	}
	return out, true
}

func verdictOf(word string) (claims.Verdict, bool) {
	for v := claims.NotCheckable; v <= claims.DoesNotReproduce; v++ {
		if v.String() == word {
			return v, true
		}
	}
	return claims.NotCheckable, false
}
