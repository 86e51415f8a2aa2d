package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/check"
	"probity/claims/report"
	"probity/claims/statement"
	"probity/extract"
)

// paperEndings are the files of a folder that are taken for papers. A file
// named on the command line is judged by its bytes instead.
var paperEndings = []string{".xml", ".nxml", ".html", ".htm", ".txt", ".md", ".pdf", ".docx", ".odt"}

// correctionsEnding marks what a person wrote beside a paper.
const correctionsEnding = ".corrections.csv"

// largestPaper is the most that is read of one file: the largest papers with
// figures are some 100 MB; more is a mistake in the path.
const largestPaper = 512 << 20

func isPaperName(name string) bool {
	name = strings.ToLower(name)
	if strings.HasSuffix(name, correctionsEnding) {
		return false
	}
	return slices.Contains(paperEndings, filepath.Ext(strings.TrimSuffix(name, ".gz")))
}

// find lists the papers of the paths given: files as named, folders searched
// in a stable order.
func find(paths []string) (files []string, problems []error) { return findWith(paths, isPaperName) }

// findWith is find for files whose names are wanted.
func findWith(paths []string, wanted func(name string) bool) (files []string, problems []error) {
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil {
			problems = append(problems, fmt.Errorf("%s: cannot be read (%v); check the path", path, reason(err)))
			files = append(files, path) // it keeps its line in the output
			continue
		}
		if !info.IsDir() {
			files = append(files, path)
			continue
		}
		before := len(files)
		err = filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
			if err != nil {
				problems = append(problems, fmt.Errorf("%s: cannot be read (%v)", p, reason(err)))
				return nil
			}
			if d.Type().IsRegular() && wanted(d.Name()) {
				files = append(files, p)
			}
			return nil
		})
		if err != nil {
			problems = append(problems, err)
		}
		if len(files) == before {
			problems = append(problems, fmt.Errorf("%s: no papers in this folder; papers end in %s (or these with .gz)", path, strings.Join(paperEndings, " ")))
		}
	}
	return files, problems
}

// reason gives the cause of a file error without the path it repeats.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// A result is what became of one input: papers, in their order, and whether
// the input could be used.
type result struct {
	audits []report.Audit
	err    error
}

// readFile reads one input, "-" being standard input.
func (c *console) readFile(path string) ([]byte, error) {
	var r io.Reader = c.stdin
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, fmt.Errorf("%s: cannot be read (%v); check the path", path, reason(err))
		}
		defer f.Close()
		r = f
	}
	data, err := io.ReadAll(io.LimitReader(r, largestPaper+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be read (%v)", path, reason(err))
	case len(data) > largestPaper:
		return nil, fmt.Errorf("%s: larger than %d MB; give the paper alone", path, largestPaper>>20)
	}
	return data, nil
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
	fixes, fixProblems := c.corrections(path)
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

// corrections reads what a person wrote beside the paper, if anything.
func (c *console) corrections(path string) ([]assemble.Correction, []*extract.Problem) {
	name := path + correctionsEnding
	data, err := os.ReadFile(name)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, nil
		}
		return nil, []*extract.Problem{{Place: extract.Place{File: name}, What: "the corrections cannot be read", Try: "check the file's permissions", Err: err}}
	}
	fixes, problems, err := assemble.ReadCorrections(bytes.NewReader(data), name)
	if err != nil {
		problems = append(problems, &extract.Problem{Place: extract.Place{File: name}, What: err.Error(), Try: "keep the header line place,field,was,now,why"})
	}
	return fixes, problems
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
