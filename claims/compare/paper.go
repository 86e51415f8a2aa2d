package compare

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// Schema names the form of Paper as JSON, and its version.
const Schema = "probity.compare/2"

// A Paper is what a comparison needs of one paper. It is plain data: arms and
// figures are named by their position.
type Paper struct {
	Schema   string    `json:"schema"`
	ID       string    `json:"id"`
	File     string    `json:"file"`
	Title    string    `json:"title,omitempty"`
	Authors  []string  `json:"authors,omitempty"`
	Year     int       `json:"year,omitempty"`
	Journal  string    `json:"journal,omitempty"`
	DOI      string    `json:"doi,omitempty"`
	Arms     []Arm     `json:"arms,omitempty"`
	Figures  []Figure  `json:"figures,omitempty"`
	Facts    []Fact    `json:"facts,omitempty"`
	Claims   []Claim   `json:"claims,omitempty"`
	Findings []Finding `json:"findings,omitempty"`
}

// An Arm is a group of a paper.
type Arm struct {
	Name    string   `json:"name"`
	Also    []string `json:"also,omitempty"` // short name, aliases
	Class   []string `json:"class,omitempty"`
	Control bool     `json:"control,omitempty"`
	Tip     int      `json:"tip,omitempty"`
	Taper   float64  `json:"taper,omitempty"` // mm per mm
	Size    string   `json:"size,omitempty"`  // as printed
}

// A Figure is one mean or median of an arm as printed.
type Figure struct {
	ID        string  `json:"id"`
	Arm       int     `json:"arm"` // position in Arms, -1: none
	ArmText   string  `json:"arm_text,omitempty"`
	Outcome   string  `json:"outcome,omitempty"`
	OutcomeID string  `json:"outcome_id,omitempty"`
	Condition string  `json:"condition,omitempty"`
	Unit      string  `json:"unit,omitempty"`
	UnitID    string  `json:"unit_id,omitempty"`
	Median    bool    `json:"median,omitempty"`
	Text      string  `json:"text"` // the mean as printed
	Value     float64 `json:"value"`
	Decimals  int     `json:"decimals,omitempty"`
	Kind      string  `json:"kind,omitempty"` // of the spread; "": none printed
	Spread    float64 `json:"spread,omitempty"`
	Low       float64 `json:"low,omitempty"` // of a pair
	High      float64 `json:"high,omitempty"`
	Printed   string  `json:"printed,omitempty"` // the spread as printed
	N         int     `json:"n,omitempty"`
	Adjusted  bool    `json:"adjusted,omitempty"`
	Change    bool    `json:"change,omitempty"`
	Doubt     string  `json:"doubt,omitempty"` // what may make its figures others than read
	Place     string  `json:"place"`           // as extract.Place prints it, without the file
}

// A Fact is a condition of the tests as the paper states it: a figure, or
// words that a rule knows.
type Fact struct {
	Field string  `json:"field"`
	Class string  `json:"class,omitempty"` // of words
	Value float64 `json:"value,omitempty"`
	Unit  string  `json:"unit,omitempty"`
	Text  string  `json:"text,omitempty"` // the figure, or the words found
	Arms  []int   `json:"arms,omitempty"` // said of these alone
	Place string  `json:"place,omitempty"`
}

// A Claim is a statement of the paper with its verdict and the figures it
// compares.
type Claim struct {
	Text    string   `json:"text"`
	Printed string   `json:"printed,omitempty"`
	Kind    string   `json:"kind"`
	Verdict string   `json:"verdict"`
	Base    string   `json:"base,omitempty"`
	Figures []string `json:"figures,omitempty"` // ids
	Place   string   `json:"place,omitempty"`
}

// A Finding is a finding on figures of the paper.
type Finding struct {
	Check   string   `json:"check"`
	Grade   string   `json:"grade"`
	Figures []string `json:"figures,omitempty"`
}

// Of extracts from a paper what comparisons need.
func Of(doc *extract.Document, s *claims.Study, judgements []claims.Judgement, findings []claims.Finding, cat *catalog.Catalog) Paper {
	p := Paper{Schema: Schema, ID: s.Document, File: s.File, Title: s.Meta.Title, Authors: s.Meta.Authors, Year: s.Meta.Year,
		Journal: s.Meta.Journal, DOI: s.Meta.DOI}
	at := map[*claims.Arm]int{}
	for i, a := range s.Arms {
		at[a] = i
		p.Arms = append(p.Arms, armOf(a))
	}
	for _, m := range s.Measures {
		if f, ok := figureOf(m); ok {
			f.Arm = -1
			if i, known := at[m.Arm]; known {
				f.Arm = i
			}
			p.Figures = append(p.Figures, f)
		}
	}
	for _, f := range s.Design.Facts {
		p.Facts = append(p.Facts, factOf(f, at))
	}
	for _, f := range s.Design.Tests {
		if strings.Contains(f.ID, "normality") || strings.Contains(f.ID, "shapiro") {
			p.Facts = append(p.Facts, Fact{Field: "normality", Class: "tested", Text: f.Text, Place: place(f.Place)})
		}
	}
	p.Facts = append(p.Facts, wordFacts(doc, cat)...)
	for _, j := range judgements {
		if j.Statement.Own {
			p.Claims = append(p.Claims, Claim{Text: j.Statement.Text, Printed: j.Statement.Printed, Kind: string(j.Statement.Kind),
				Verdict: j.Verdict.String(), Base: string(j.Base), Figures: ids(j.Measures), Place: place(j.Statement.Place)})
		}
	}
	for _, f := range findings {
		p.Findings = append(p.Findings, Finding{Check: f.Check, Grade: string(f.Grade), Figures: ids(f.Measures)})
	}
	return p
}

func place(p extract.Place) string {
	p.File, p.Start, p.End = "", 0, 0
	return p.String()
}

func ids(measures []*claims.Measure) []string {
	var out []string
	for _, m := range measures {
		if m != nil {
			out = append(out, m.ID)
		}
	}
	return out
}

func armOf(a *claims.Arm) Arm {
	out := Arm{Name: a.Name, Class: a.Class, Control: a.Control, Tip: a.Size.Tip, Taper: finite(a.Size.Taper), Size: a.Size.Text}
	for _, n := range append([]string{a.Short}, a.Aliases...) {
		if n != "" && n != a.Name && !slices.Contains(out.Also, n) {
			out.Also = append(out.Also, n)
		}
	}
	return out
}

// finite keeps JSON writable whatever was read.
func finite(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return x
}

func figureOf(m *claims.Measure) (Figure, bool) {
	if m.Mean.Text == "" || math.IsNaN(m.Mean.Value) || math.IsInf(m.Mean.Value, 0) {
		return Figure{}, false
	}
	f := Figure{ID: m.ID, ArmText: m.ArmText, Outcome: m.Outcome, OutcomeID: m.OutcomeID, Condition: m.Condition, Unit: m.Unit, UnitID: m.UnitID,
		Median: m.Centre == claims.Median, Text: m.Mean.Text, Value: m.Mean.Value, Decimals: m.Mean.Decimals, Adjusted: m.Adjusted, Change: m.Change,
		Doubt: m.Doubt.String(), Place: place(m.Place)}
	if s := m.Spread; s.Known() {
		f.Kind = s.Kind.String()
		f.Spread, f.Low, f.High = finite(s.Value.Value), finite(s.Low.Value), finite(s.High.Value)
		f.Printed = s.Value.Text
		if s.Low.Known() {
			f.Printed = s.Low.Text + " to " + s.High.Text
		}
	}
	if m.N.Known() && m.N.Value < 1e9 {
		f.N = int(math.Round(m.N.Value))
	}
	return f, true
}

func factOf(f claims.Fact, at map[*claims.Arm]int) Fact {
	out := Fact{Field: f.ID, Value: finite(f.Value.Value), Unit: f.Unit, Text: strings.TrimSpace(f.Value.Text + " " + f.Unit), Place: place(f.Place)}
	for _, a := range f.Arms {
		if i, ok := at[a]; ok {
			out.Arms = append(out.Arms, i)
		}
	}
	return out
}

// wordFacts looks for the words of the rules in the parts of a paper that say
// what was done: title, abstract, methods, captions of tables.
func wordFacts(doc *extract.Document, cat *catalog.Catalog) []Fact {
	if doc == nil {
		return nil
	}
	var out []Fact
	seen := map[string]bool{}
	look := func(text, where string) {
		low := strings.ToLower(text)
		for _, m := range sizeAndTaper.FindAllStringSubmatch(low, -1) {
			if f, ok := sizeFact(m, where); ok && !seen[f.Text] {
				seen[f.Text] = true
				out = append(out, f)
			}
		}
		for i := range cat.Rules {
			r := &cat.Rules[i]
			if r.Kind != "words" {
				continue
			}
			for _, c := range r.Classes {
				if seen[r.Field+"="+c.Name] {
					continue
				}
				if w, ok := wordsIn(low, c.Words); ok {
					seen[r.Field+"="+c.Name] = true
					out = append(out, Fact{Field: r.Field, Class: c.Name, Text: w, Place: where})
				}
			}
		}
	}
	look(doc.Meta.Title, "title")
	for _, b := range doc.Blocks {
		switch b := b.(type) {
		case *extract.Prose:
			if (b.Place.Section == extract.Methods || b.Place.Section == extract.Abstract) && b.Role == extract.Paragraph {
				look(b.Text(), place(b.Place))
			}
		case *extract.Table:
			look(b.Caption, place(b.Place))
		}
	}
	return out
}

// sizeAndTaper finds a nominal size that a paper states for its instruments:
// "size 25 and taper .06", "#25/.06", "25/0.06", "size 25, 6% taper".
var sizeAndTaper = regexp.MustCompile(`(?:size|#|no\.|iso)\s*#?(\d{2,3})\s*(?:,|/|and|with)?\s*(?:an?\s+)?(?:taper\s*(?:of\s*)?)?(?:0?(\.\d{2})|(\d{1,2})\s*%)(?:\s*taper)?`)

// sizeFact is the diameter 5 mm from the tip that follows from such a size.
func sizeFact(m []string, where string) (Fact, bool) {
	tip, err := strconv.Atoi(m[1])
	if err != nil || tip < 6 || tip > 140 { // the sizes of ISO 3630-1
		return Fact{}, false
	}
	taper, err := strconv.ParseFloat("0"+m[2], 64)
	if m[2] == "" {
		taper, err = strconv.ParseFloat(m[3], 64)
		taper /= 100
	}
	a := Arm{Tip: tip, Taper: taper}
	if err != nil || taper > 0.2 || diameter5(&a) == 0 {
		return Fact{}, false
	}
	return Fact{Field: "size", Value: diameter5(&a), Unit: "mm", Text: fmt.Sprintf("%.2f mm (%d/%s)", diameter5(&a), tip, strings.TrimPrefix(fmt.Sprintf("%.2f", taper), "0")), Place: where}, true
}

// wordsIn reports whether one of the words begins at the start of a word.
func wordsIn(low string, list []string) (string, bool) {
	for _, w := range list {
		for from := 0; w != ""; {
			i := strings.Index(low[from:], w)
			if i < 0 {
				break
			}
			i += from
			if i == 0 || !isLetter(low[i-1]) {
				return w, true
			}
			from = i + len(w)
		}
	}
	return "", false
}

func isLetter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 0x80 }

// Name is how the paper is called in a table: first author and year, or the
// file.
func (p *Paper) Name() string {
	if len(p.Authors) == 0 {
		name := p.File
		if i := strings.LastIndexAny(name, `/\`); i >= 0 {
			name = name[i+1:]
		}
		if p.Year > 0 {
			return fmt.Sprintf("%s (%d)", name, p.Year)
		}
		return name
	}
	name := family(p.Authors[0])
	if len(p.Authors) > 1 {
		name += " et al."
	}
	if p.Year > 0 {
		name += fmt.Sprintf(" %d", p.Year)
	}
	return name
}

// ArmName is the name of the arm a figure belongs to.
func (p *Paper) ArmName(f *Figure) string {
	if f.Arm >= 0 && f.Arm < len(p.Arms) && p.Arms[f.Arm].Name != "" {
		return p.Arms[f.Arm].Name
	}
	return f.ArmText
}

// family is the family name of an author printed as "Given Family",
// "Family, Given" or "Family GI".
func family(name string) string {
	if f, _, ok := strings.Cut(name, ","); ok {
		return f
	}
	words := strings.Fields(name)
	if len(words) < 2 {
		return name
	}
	if last := words[len(words)-1]; len(last) <= 3 && strings.ToUpper(last) == last {
		return strings.Join(words[:len(words)-1], " ")
	}
	at := len(words) - 1
	for at > 1 && strings.ToLower(words[at-1]) == words[at-1] { // "van der", "de"
		at--
	}
	return strings.Join(words[at:], " ")
}
