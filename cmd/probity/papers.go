package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/check"
	"probity/claims/report"
	"probity/claims/statement"
	"probity/extract"
)

// A result is what became of one input: papers, in their order, and whether
// the input could be used.
type result struct {
	audits []report.Audit
	err    error
}

// auditFile reads and judges all papers of one file.
func (c *console) auditFile(path string) result {
	data, err := c.readFile(path)
	if err != nil {
		return failed(path, nil, err)
	}
	docs, err := c.papersOf(data, path)
	if err != nil {
		return failed(path, data, err)
	}
	fix, err := correctionsBeside(path)
	if err != nil {
		return failed(path, data, err)
	}
	fixes, fixProblems := readCorrections(path+correctionsEnding, fix)
	var out result
	for _, doc := range docs {
		out.audits = append(out.audits, c.auditDocument(doc, fixes, fixProblems, data))
	}
	return out
}

// auditDocument is the main job: a document in, an audit out. It is a pure
// function of the paper, its corrections and the catalogue.
func (c *console) auditDocument(doc *extract.Document, fixes []assemble.Correction, problems []*extract.Problem, data []byte) report.Audit {
	study := c.studyOf(doc, fixes, problems)
	judgements, findings := check.Audit(study, c.catalog)
	return report.Audit{SHA256: hash(data), Tool: version(), Study: study, Judgements: judgements, Findings: findings}
}

// studyOf is the first half of the main job: what the paper measured and
// states, before anything is judged.
func (c *console) studyOf(doc *extract.Document, fixes []assemble.Correction, problems []*extract.Problem) *claims.Study {
	study := assemble.Study(doc, fixes, c.catalog)
	study.Problems = append(study.Problems, problems...)
	statements, measures := statement.Read(doc, study, c.catalog)
	study.Statements = statements
	study.Alarms = statement.Alarms(doc, c.catalog)
	study.Measures = append(study.Measures, measures...)
	assemble.Doubts(doc, study)
	study.Problems = append(study.Problems, assemble.Tie(statements, study.Measures, fixes)...)
	number(study)
	return study
}

// number gives measures and statements their ids, in reading order.
func number(study *claims.Study) {
	for i, m := range study.Measures {
		m.ID = fmt.Sprintf("m%d", i+1)
	}
	for i, s := range study.Statements {
		s.ID = fmt.Sprintf("s%d", i+1)
	}
}

func hash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// failed keeps a line for an input that could not be read.
func failed(path string, data []byte, err error) result {
	study := &claims.Study{File: path}
	var p *extract.Problem
	if !errors.As(err, &p) {
		p = &extract.Problem{Place: extract.Place{File: path}, What: strings.TrimPrefix(err.Error(), path+": ")}
	}
	study.Problems = []*extract.Problem{p}
	a := report.Audit{Study: study}
	if data != nil {
		a.SHA256 = hash(data)
	}
	return result{audits: []report.Audit{a}, err: err}
}

// auditAll audits files side by side on all cores and hands the results on in
// input order.
func (c *console) auditAll(files []string, each func(path string, r result) error) error {
	t := c.begin(len(files), "what is printed of them is complete")
	return batch(c.ctx, slices.Values(files), func(path string) (r result) {
		t.begun.Add(1)
		if err := spared(path, func() error { r = c.auditFile(path); return nil }); err != nil {
			return failed(path, nil, err)
		}
		return r
	}, func(path string, r result) error {
		if err := each(path, r); err != nil {
			return err
		}
		t.done.Add(1)
		return nil
	})
}
