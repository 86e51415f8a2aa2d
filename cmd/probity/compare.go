package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"probity/claims/compare"
	"probity/claims/report"
	"probity/index"
)

// compareFlags are what a comparison is asked for; a question keeps them.
type compareFlags struct {
	Outcome   string   `json:"outcome,omitempty"`
	Arms      []string `json:"arms,omitempty"`
	Where     []string `json:"where,omitempty"`
	Unit      string   `json:"unit,omitempty"`
	Unstated  string   `json:"unstated,omitempty"`
	Medians   bool     `json:"medians,omitempty"`
	Unopposed bool     `json:"unopposed,omitempty"`
	Caution   bool     `json:"with_caution,omitempty"`
}

func (f *compareFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.Outcome, "outcome", "", "what was measured, by any of its names")
	cmd.Flags().StringSliceVar(&f.Arms, "arms", nil, "the arm the ratio is about, and the one it is compared with: Kestrine,Halyard (names, or words a paper groups arms by)")
	cmd.Flags().StringArrayVar(&f.Where, "where", nil, "a condition that must hold, such as temperature=body, radius=5, condition=\"3 months\", year=2015..; may be repeated")
	cmd.Flags().StringVar(&f.Unit, "unit", "", "unit to show means in (default: the one most papers print)")
	cmd.Flags().StringVar(&f.Unstated, "unstated", "", "take an unlabelled ± as sd or se")
	cmd.Flags().BoolVar(&f.Medians, "medians", false, "estimate means and SDs from medians with quartiles or range")
	cmd.Flags().BoolVar(&f.Unopposed, "unopposed", false, "leave out papers in which something is at odds")
	cmd.Flags().BoolVar(&f.Caution, "with-caution", false, "combine comparisons with caution too")
}

// query checks the flags against the catalogue.
func (f *compareFlags) query(c *console) (compare.Query, error) {
	q := compare.Query{Options: compare.Options{Unstated: f.Unstated, Medians: f.Medians, Unopposed: f.Unopposed, Caution: f.Caution}}
	var err error
	if q.Outcome, err = compare.OutcomeID(f.Outcome, c.catalog); err != nil {
		return q, err
	}
	switch f.Unstated {
	case "", "sd", "se":
	default:
		return q, fmt.Errorf("--unstated %s: an unlabelled ± is taken as sd or se", f.Unstated)
	}
	switch len(f.Arms) {
	case 0:
	case 1:
		q.Subject = f.Arms[0]
	case 2:
		q.Subject, q.Against = f.Arms[0], f.Arms[1]
	default:
		return q, errors.New("--arms names two arms: the one the ratio is about, and the one it is compared with")
	}
	if f.Unit != "" {
		u := c.catalog.FindUnit(f.Unit)
		if u == nil {
			return q, fmt.Errorf("--unit %s is not in the catalogue", f.Unit)
		}
		q.Unit = u.ID
	}
	for _, text := range f.Where {
		w, err := compare.ParseWhere(text, c.catalog)
		if err != nil {
			return q, fmt.Errorf("--where: %w", err)
		}
		q.Where = append(q.Where, w)
	}
	return q, nil
}

func compareCommand(c *console) *cobra.Command {
	var s *shelf
	var out *outFlags
	var f compareFlags
	cmd := &cobra.Command{
		Use:   "compare --outcome OUTCOME",
		Short: "Compare arms across the library's papers, in strata of like conditions",
		Long: `compare lays the papers of the library side by side: a line for each comparison of
two arms, with conditions, n, mean (SD) in a common unit and as printed, the
ratio of means with its 95 % interval, the paper's own claim and its verdict.

Raw values of different papers are not compared, only ratios within one paper.
Lines stand together where the conditions of the tests are alike; what sets
others apart is said. Ratios are combined (random effects on the log ratio,
REML, Hartung–Knapp) only among comparable lines, from three papers on, and for
the same two arms; else it is said why not.`,
		Example: `  probity compare --outcome NCF --arms Kestrine,Halyard --where temperature=body
  probity compare --outcome "time to fracture" --unstated sd -o table.xlsx`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return c.compare(s, out, &f) },
	}
	s, out = libraryFlags(cmd), formatFlags(cmd)
	f.add(cmd)
	return cmd
}

func (c *console) compare(s *shelf, out *outFlags, f *compareFlags) error {
	w, err := out.writer()
	if err != nil {
		return err
	}
	q, err := f.query(c)
	if err != nil {
		return err
	}
	lib, err := s.open(c)
	if err != nil {
		return err
	}
	papers, err := c.comparable(lib, q.Outcome, nil)
	if err != nil {
		return err
	}
	res, err := compare.Table(papers, q, c.catalog)
	if err != nil {
		return err
	}
	return c.show(out, w, c.tableReport(res, flat(w)))
}

// comparable reads what the library keeps for comparisons: of all papers, or
// of those that measured an outcome. Papers for which skip says so are left out.
func (c *console) comparable(lib *index.Library, outcome string, skip func(id string) bool) ([]compare.Paper, error) {
	c.beside(lib)
	ids, err := lib.IDs()
	if err != nil {
		return nil, err
	}
	var wanted []byte
	if outcome != "" {
		wanted = []byte(`"outcome_id":"` + outcome + `"`)
	}
	papers := make([]*compare.Paper, len(ids))
	problems := make([]error, len(ids))
	next := make(chan int, 256)
	var wg sync.WaitGroup
	for range 2 * runtime.GOMAXPROCS(0) { // reading waits, too
		wg.Go(func() {
			for i := range next {
				problems[i] = spared("papers/"+short(ids[i]), func() (err error) {
					papers[i], err = comparableOf(lib, ids[i], wanted)
					return err
				})
			}
		})
	}
	for i, id := range ids {
		if skip == nil || !skip(id) {
			next <- i
		}
	}
	close(next)
	wg.Wait()
	var out []compare.Paper
	for i, p := range papers {
		if problems[i] != nil {
			fmt.Fprintf(c.stderr, "probity: %s\n", report.Clean(problems[i].Error()))
			c.note(exitUnusable)
		}
		if p != nil {
			out = append(out, *p)
		}
	}
	return out, nil
}

// comparableOf reads what is kept of one paper; nil where it does not hold what
// is wanted.
func comparableOf(lib *index.Library, id string, wanted []byte) (*compare.Paper, error) {
	data, err := lib.Compare(id)
	if errors.Is(err, index.ErrGone) {
		return nil, nil // taken out meanwhile
	}
	if err != nil || !bytes.Contains(data, wanted) {
		return nil, err
	}
	p := &compare.Paper{}
	if err := json.Unmarshal(data, p); err != nil || p.Schema != compare.Schema {
		return nil, fmt.Errorf("papers/%s/kept.txt cannot be read; run probity refresh %s", short(id), short(id))
	}
	return p, nil
}

// unitText is how a unit is printed.
func (c *console) unitText(id string) string {
	if u := c.catalog.Unit(id); u != nil && len(u.Aliases) > 0 {
		return u.Aliases[0]
	}
	return id
}

func joined(list []string) string { return strings.Join(list, "; ") }
