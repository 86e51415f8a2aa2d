// Package catalog holds the knowledge of the trade as tables with sources:
// outcomes and which way is better, units, the marks of spread, tests,
// standards, and the words authors use to compare.
//
// Code asks the catalogue; code holds no list of units, outcomes or phrases.
// Adding one is a CSV row.
package catalog

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"sync"
)

//go:embed *.csv
var embedded embed.FS

// A Catalog is all tables, with their look-ups.
type Catalog struct {
	Outcomes []Outcome
	Units    []Unit
	Spreads  []Spread
	Tests    []Test
	Phrases  []Phrase
	Alarms   []Alarm
	Labels   []Label
	Signs    []Sign
	Figures  []Figure
	Rules    []Rule // of comparability
	Evidence []Evidence
	// UnitParts are what units are put together from.
	UnitParts []UnitPart

	outcomes map[string]*Outcome
	units    map[string]*Unit
	groups   map[string][]string // of outcomes, for Rules

	outcomeNames index[Outcome]
	testNames    index[Test]
	markNames    index[Spread]
	labelNames   index[Label]
	figureNames  map[string]*index[Figure] // by where they stand
	unitNames    map[string]*Unit          // as printed, folded
	unitLoose    map[string]*Unit          // the same in lower case
	atoms        map[string]atom           // symbols of units with their prefixes
	atomsLoose   map[string]atom           // the same in lower case
	quantityOf   map[string]string         // the quantity that a word names
	mostOf       int                       // words of the longest that an amount is one of
}

// An Outcome is something measured on specimens.
type Outcome struct {
	ID      string
	Name    string
	Aliases []string // as authors write it, lower case
	// Quantity names the kind of unit it is reported in, as in Unit.Quantity.
	Quantity string
	Unit     string // the unit id it is usually reported in
	Better   string // "higher", "lower", "target", "depends", "none"
	Stepped  bool   // single values are whole numbers: counts, scores
	Source   string
}

// A Unit is a unit of measurement; Factor and Offset lead to the base unit of
// its quantity: base = value*Factor + Offset.
type Unit struct {
	ID       string
	Quantity string
	Factor   float64
	Offset   float64
	Aliases  []string // as printed; matched without regard to spaces
	Source   string
}

// A Spread row says what a mark such as "SD" or "95% CI" stands for.
type Spread struct {
	Mark   string // lower case, folded
	Kind   string // "sd", "se", "ci95", "range", "iqr", "mean", "median", "n", "min", "max", "cv"
	Source string
}

// A Test row names a statistical test.
type Test struct {
	ID       string // "anova", "welch", "mann-whitney"
	Name     string
	Aliases  []string
	Family   string // "two-arm", "omnibus", "post-hoc", "correction", "normality", "variance", "rank", "paired", "adjusted", "survival"
	Rank     bool   // works on ranks: means and SDs cannot bring it back
	Paired   bool   // repeated or paired data: likewise
	Adjusted bool   // with covariates: likewise
	Source   string
}

// A Phrase row gives a word or phrase of comparison, its kind and value; the
// kinds are those of package statement.
type Phrase struct {
	Text   string
	Kind   string
	Value  string
	Source string
}

// A Label is a word of table headings: what a column or row lists that is
// headed so, or what a row so called is.
type Label struct {
	Words  string
	Kind   string // "arm-head", "outcome-head", "condition-head", "result-head", "condition", "time", "arm", "trait", "whole", "apart", "counts"
	Source string
}

var (
	once sync.Once
	std  *Catalog
)

// Default is the embedded catalogue. A mistake in it is a mistake of ours and
// panics; a test walks every row.
func Default() *Catalog {
	once.Do(func() {
		c, err := Load(embedded)
		if err != nil {
			panic(err)
		}
		std = c
	})
	return std
}

// Load reads the tables of a folder: outcomes.csv, units.csv, unitparts.csv,
// spreads.csv, tests.csv, phrases.csv, labels.csv, comparability.csv,
// signs.csv, evidence.csv, figures.csv. A missing table is empty. The error
// names file and line.
func Load(files fs.FS) (*Catalog, error) {
	c := &Catalog{outcomes: map[string]*Outcome{}, units: map[string]*Unit{}}
	tables := []struct {
		name string
		add  func(row) error
	}{
		{"outcomes.csv", c.addOutcome},
		{"units.csv", c.addUnit},
		{"unitparts.csv", c.addUnitPart},
		{"spreads.csv", c.addSpread},
		{"tests.csv", c.addTest},
		{"phrases.csv", c.addPhrase},
		{"labels.csv", c.addLabel},
		{"alarms.csv", c.addAlarm},
		{"comparability.csv", c.addRule},
		{"signs.csv", c.addSign},
		{"evidence.csv", c.addEvidence},
		{"figures.csv", c.addFigure},
	}
	for _, t := range tables {
		if err := readTable(files, t.name, t.add); err != nil {
			return nil, err
		}
	}
	for i := range c.Outcomes {
		c.outcomes[c.Outcomes[i].ID] = &c.Outcomes[i]
	}
	for i := range c.Units {
		c.units[c.Units[i].ID] = &c.Units[i]
	}
	c.build()
	return c, nil
}

// Outcome gives the outcome with that id, nil if there is none.
func (c *Catalog) Outcome(id string) *Outcome { return c.outcomes[id] }

// Unit gives the unit with that id, nil if there is none.
func (c *Catalog) Unit(id string) *Unit { return c.units[id] }

// row is one line of a table by column name.
type row map[string]string

func (r row) list(column string) []string {
	var out []string
	for _, s := range strings.Split(r[column], "|") {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

func (r row) number(column string, missing float64) (float64, error) {
	if r[column] == "" {
		return missing, nil
	}
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		return 0, fmt.Errorf("column %s: %q is not a number", column, r[column])
	}
	return x, nil
}

func readTable(files fs.FS, name string, add func(row) error) error {
	f, err := files.Open(name)
	if err != nil {
		return nil // a table that is not there adds nothing
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	head, err := r.Read()
	if err != nil {
		return fmt.Errorf("catalog %s: %w", name, err)
	}
	for {
		fields, err := r.Read()
		if fields == nil {
			return nil
		}
		line, _ := r.FieldPos(0)
		if err == nil {
			m := row{}
			for i, h := range head {
				m[h] = strings.TrimSpace(fields[i])
			}
			err = add(m)
		}
		if err != nil {
			return fmt.Errorf("catalog %s line %d: %w", name, line, err)
		}
	}
}

func (c *Catalog) addOutcome(r row) error {
	c.Outcomes = append(c.Outcomes, Outcome{ID: r["id"], Name: r["name"], Aliases: r.list("aliases"),
		Quantity: r["quantity"], Unit: r["unit"], Better: r["better"], Stepped: r["stepped"] == "yes", Source: r["source"]})
	return nil
}

func (c *Catalog) addUnit(r row) error {
	factor, err := r.number("factor", 1)
	if err != nil {
		return err
	}
	offset, err := r.number("offset", 0)
	if err != nil {
		return err
	}
	c.Units = append(c.Units, Unit{ID: r["id"], Quantity: r["quantity"], Factor: factor, Offset: offset,
		Aliases: r.list("aliases"), Source: r["source"]})
	return nil
}

func (c *Catalog) addSpread(r row) error {
	c.Spreads = append(c.Spreads, Spread{Mark: r["mark"], Kind: r["kind"], Source: r["source"]})
	return nil
}

func (c *Catalog) addTest(r row) error {
	c.Tests = append(c.Tests, Test{ID: r["id"], Name: r["name"], Aliases: r.list("aliases"), Family: r["family"],
		Rank: r["rank"] == "yes", Paired: r["paired"] == "yes", Adjusted: r["adjusted"] == "yes", Source: r["source"]})
	return nil
}

func (c *Catalog) addPhrase(r row) error {
	c.Phrases = append(c.Phrases, Phrase{Text: r["phrase"], Kind: r["kind"], Value: r["value"], Source: r["source"]})
	return nil
}

func (c *Catalog) addLabel(r row) error {
	c.Labels = append(c.Labels, Label{Words: r["words"], Kind: r["kind"], Source: r["source"]})
	return nil
}

// A Sign row gives the words that tell what a number beside them is; the
// classes are those of package role.
type Sign struct {
	Words  []string
	Class  string
	Exact  bool // read only as written: P, F, t
	Source string
}

func (c *Catalog) addSign(r row) error {
	s := Sign{Words: r.list("words"), Class: r["class"], Exact: r["exact"] == "yes", Source: r["source"]}
	if len(s.Words) == 0 || s.Class == "" {
		return fmt.Errorf("a row of signs needs words and a class")
	}
	c.Signs = append(c.Signs, s)
	return nil
}

// An Evidence row says what a sign of an axis of a table, or of a whole
// reading, weighs for a category, as a difference of log-odds; the signs and
// categories are those of package tabular.
type Evidence struct {
	Sign     string
	Category string
	Weight   float64
	Source   string
}

func (c *Catalog) addEvidence(r row) error {
	x, err := r.number("weight", 0)
	if err != nil {
		return err
	}
	c.Evidence = append(c.Evidence, Evidence{Sign: r["sign"], Category: r["category"], Weight: x, Source: r["source"]})
	return nil
}

// A Figure row gives words that tell what the figures below or beside them are.
type Figure struct {
	Words  string
	Kind   string  // "measure", "effect", "difference", "model", "p" ...
	Where  string  // "label": a heading or row label; "caption"
	Weight float64 // how much they tell, as a logarithm of a likelihood ratio
	Source string
}

func (c *Catalog) addFigure(r row) error {
	w, err := r.number("weight", 0)
	if err != nil || w <= 0 || r["words"] == "" || r["kind"] == "" {
		return fmt.Errorf("a row of figures needs words, a kind and a weight above nought")
	}
	c.Figures = append(c.Figures, Figure{Words: r["words"], Kind: r["kind"], Where: r["where"], Weight: w, Source: r["source"]})
	return nil
}
