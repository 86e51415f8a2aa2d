package index

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/blevesearch/bleve/v2/search"
	"github.com/blevesearch/bleve/v2/search/query"
)

// QueryHelp says how a query is written.
const QueryHelp = `  words                    papers with all of them, by any name of an outcome
  "a phrase"               the words in this order
  word~  word~2            up to one (two) letters differ
  word*                    words that begin so
  -word  -field:value      without it
  one OR other             either
  field:value  field:"…"   in a field
  n:10..20  n>=12  ratio>1.5  year:2018..  numbers and ranges`

// A parsed query, and the terms of running text whose places are shown.
type asked struct {
	query  query.Query
	inText bool
	fields map[string][]string // whole values asked for, by field
}

type piece struct {
	field  string
	op     string // ":", ">", ">=", "<", "<=", "="
	text   string
	quoted bool
	not    bool
	or     bool // an OR stands before it
}

// parse reads a query. The error says what could not be read.
func parse(text string, w words) (*asked, error) {
	pieces, err := cutQuery(text)
	if err != nil {
		return nil, err
	}
	a := &asked{fields: map[string][]string{}}
	var must, not []query.Query
	var open []query.Query // alternatives joined by OR so far
	closeOpen := func() {
		switch len(open) {
		case 0:
		case 1:
			must = append(must, open[0])
		default:
			must = append(must, query.NewDisjunctionQuery(open))
		}
		open = nil
	}
	for _, p := range pieces {
		q, err := a.piece(p, w)
		if err != nil {
			return nil, err
		}
		if q == nil {
			continue // function words alone
		}
		if p.not {
			not = append(not, q)
			continue
		}
		if !p.or {
			closeOpen()
		}
		open = append(open, q)
	}
	closeOpen()
	if len(must) == 0 && len(not) == 0 {
		return nil, fmt.Errorf("the query %q holds no word that can be searched; write words, a \"phrase\" or field:value", text)
	}
	if len(must) == 0 {
		must = append(must, query.NewMatchAllQuery())
	}
	switch {
	case len(not) > 0:
		a.query = query.NewBooleanQuery(must, nil, not)
	case len(must) == 1:
		a.query = must[0]
	default:
		a.query = query.NewConjunctionQuery(must)
	}
	return a, nil
}

// cutQuery parts a query into its pieces.
func cutQuery(text string) ([]piece, error) {
	var out []piece
	or := false
	rest := strings.TrimSpace(text)
	for rest != "" {
		p := piece{or: or}
		if strings.HasPrefix(rest, "-") && len(rest) > 1 && rest[1] != ' ' {
			p.not, rest = true, rest[1:]
		}
		if name, op, after, ok := fieldAhead(rest); ok {
			p.field, p.op, rest = name, op, after
		} else if err := noField(rest); err != nil {
			return nil, err
		}
		if strings.HasPrefix(rest, `"`) {
			end := strings.IndexByte(rest[1:], '"')
			if end < 0 {
				return nil, fmt.Errorf("the query %q has a quotation mark that is not closed", text)
			}
			p.text, p.quoted, rest = rest[1:1+end], true, rest[end+2:]
		} else {
			end := strings.IndexFunc(rest, unicode.IsSpace)
			if end < 0 {
				end = len(rest)
			}
			p.text, rest = rest[:end], rest[end:]
		}
		rest = strings.TrimLeftFunc(rest, unicode.IsSpace)
		if p.text == "OR" && !p.quoted && p.field == "" && len(out) > 0 && rest != "" {
			or = true
			continue
		}
		or = false
		if p.field != "" && p.text == "" {
			return nil, fmt.Errorf("the query asks for the field %s without a value; write %s%svalue", p.field, p.field, p.op)
		}
		if p.text != "" {
			out = append(out, p)
		}
	}
	return out, nil
}

// fieldAhead reads "field:", "field>=" and the like. Comparisons are for
// fields of figures only: "p<0.05" is text, and so is "N = 20".
func fieldAhead(s string) (name, op, rest string, ok bool) {
	name, op, rest = signAhead(s)
	if op == ":" {
		name = strings.ToLower(name)
	}
	f := FieldNamed(name)
	if op == "" || f == nil || op != ":" && f.Kind != Figure {
		return "", "", "", false
	}
	return name, op, rest, true
}

// signAhead reads a word up to a sign that may follow a field.
func signAhead(s string) (name, op, rest string) {
	end := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && r != '-' && r != '_' })
	if end <= 0 {
		return "", "", ""
	}
	for _, op := range []string{":", ">=", "<=", "≥", "≤", ">", "<", "="} {
		if strings.HasPrefix(s[end:], op) {
			return s[:end], op, s[end+len(op):]
		}
	}
	return "", "", ""
}

// noField refuses what is meant as a field and is none: searched as text it
// would find nothing. A colon before a space, or that of an address, is text;
// so are comparisons, unless they all but name a field.
func noField(s string) error {
	name, op, rest := signAhead(s)
	if op == "" || rest == "" || strings.HasPrefix(rest, "//") || unicode.IsSpace(rune(rest[0])) {
		return nil
	}
	word := strings.FieldsFunc(s, unicode.IsSpace)[0]
	quoted := fmt.Sprintf("a text with such a sign goes in quotation marks: \"%s\"", strings.Trim(word, `"`))
	near := nearest(name)
	switch f := FieldNamed(name); {
	case f != nil:
		return fmt.Errorf("the query compares the field %s, which holds no figures; write %s:value; %s", name, name, quoted)
	case op == ":", near[0].Kind == Figure && len(name) > 3 && search.LevenshteinDistance(name, near[0].Name) == 1:
		var names []string
		for _, f := range near {
			names = append(names, f.Name)
		}
		return fmt.Errorf("the query asks for a field %s, which there is not; there are, nearest first, %s; %s", name, strings.Join(names, ", "), quoted)
	}
	return nil
}

// nearest gives the fields, those with names most like this one first.
func nearest(name string) []*Field {
	var out []*Field
	for i := range Fields {
		out = append(out, &Fields[i])
	}
	slices.SortStableFunc(out, func(a, b *Field) int {
		return search.LevenshteinDistance(strings.ToLower(name), a.Name) - search.LevenshteinDistance(strings.ToLower(name), b.Name)
	})
	return out
}

func (a *asked) piece(p piece, w words) (query.Query, error) {
	if p.field == "" {
		a.inText = a.inText || !p.not
		return textQuery(textField, p, w), nil
	}
	f := FieldNamed(p.field)
	switch f.Kind {
	case Figure:
		return figureQuery(f.Name, p)
	case Whole:
		v := fold(p.text)
		a.fields[f.Name] = append(a.fields[f.Name], v)
		if strings.HasSuffix(v, "*") {
			q := query.NewPrefixQuery(strings.TrimSuffix(v, "*"))
			q.SetField(f.Name)
			return q, nil
		}
		return term(f.Name, v), nil
	}
	return textQuery(f.Name, p, w), nil
}

func term(field, t string) query.Query {
	q := query.NewTermQuery(t)
	q.SetField(field)
	return q
}

// textQuery searches words in a field. A word that is cut into several
// ("p<0.05", "heat-treated") is a phrase.
func textQuery(field string, p piece, w words) query.Query {
	text := p.text
	if !p.quoted {
		if stem, ok := strings.CutSuffix(text, "*"); ok && stem != "" {
			if t := lastTerm(stem); t != "" {
				q := query.NewPrefixQuery(t)
				q.SetField(field)
				return q
			}
		}
		if i := strings.LastIndexByte(text, '~'); i > 0 && len(text)-i <= 2 {
			return fuzzyQuery(field, text[:i], text[i+1:], w)
		}
	}
	phrase, wholly := phraseOf(text, w)
	if len(phrase) == 0 {
		return nil
	}
	var q query.Query
	if len(phrase) == 1 {
		q = term(field, phrase[0])
	} else {
		q = &phraseQuery{field: field, terms: phrase}
	}
	switch {
	case wholly == "":
		return q
	case len(phrase) > 1:
		return term(field, wholly) // every text with the phrase has the name
	}
	return query.NewDisjunctionQuery([]query.Query{q, term(field, wholly)})
}

// phraseOf gives the terms of a text with "" where a function word stood, and
// the term of the thing that the whole text names, if it names one.
func phraseOf(text string, w words) (terms []string, wholly string) {
	c := cutter{in: []byte(text)}
	c.run()
	last, first := 0, 0
	for _, t := range c.tokens {
		if t.KeyWord {
			continue
		}
		if len(terms) == 0 {
			first = t.Start
		} else {
			for range min(t.Position-last-1, passageGap) {
				terms = append(terms, "")
			}
		}
		terms, last = append(terms, string(t.Term)), t.Position
	}
	if w.names == nil || len(terms) == 0 {
		return terms, ""
	}
	end := c.tokens[len(c.tokens)-1].End
	for _, n := range w.names.in(c.tokens) {
		if n.Start == first && n.End == end {
			wholly = string(n.Term)
		}
	}
	return terms, wholly
}

func lastTerm(text string) string {
	c := cutter{in: []byte(text)}
	c.run()
	if len(c.tokens) == 0 {
		return ""
	}
	// Not reduced: "cycles*" must not become "cycle*" by accident of its end.
	t := c.tokens[len(c.tokens)-1]
	return fold(text[t.Start:t.End])
}

func fuzzyQuery(field, text, digits string, w words) query.Query {
	distance := 1
	if digits == "2" {
		distance = 2
	}
	var all []query.Query
	terms, _ := phraseOf(text, w)
	for _, t := range terms {
		if t == "" {
			continue
		}
		q := query.NewFuzzyQuery(t)
		q.SetField(field)
		q.SetFuzziness(distance)
		q.SetPrefix(1)
		all = append(all, q)
	}
	switch len(all) {
	case 0:
		return nil
	case 1:
		return all[0]
	}
	return query.NewConjunctionQuery(all)
}

// figureQuery reads a number or a range: "12", "10..20", "2018..", with an
// operator before.
func figureQuery(field string, p piece) (query.Query, error) {
	bad := func() error {
		return fmt.Errorf("%s%s%s: not a number or a range such as %s:10..20, %s>=12", field, p.op, p.text, field, field)
	}
	low, high, isRange := strings.Cut(p.text, "..")
	if isRange && p.op != ":" && p.op != "=" {
		return nil, bad()
	}
	if !isRange {
		high = low
	}
	lo, err1 := bound(low, math.Inf(-1))
	hi, err2 := bound(high, math.Inf(1))
	if err1 != nil || err2 != nil || low == "" && high == "" {
		return nil, bad()
	}
	yes, no := true, false
	lowIn, highIn := &yes, &yes
	var from, to *float64
	switch p.op {
	case ":", "=":
		from, to = &lo, &hi
	case ">":
		from, lowIn = &lo, &no
	case ">=", "≥":
		from = &lo
	case "<":
		to, highIn = &hi, &no
	case "<=", "≤":
		to = &hi
	}
	for _, b := range []**float64{&from, &to} {
		if *b != nil && math.IsInf(**b, 0) {
			*b = nil
		}
	}
	q := query.NewNumericRangeInclusiveQuery(from, to, lowIn, highIn)
	q.SetField(field)
	return q, nil
}

func bound(s string, open float64) (float64, error) {
	if s == "" {
		return open, nil
	}
	x, err := strconv.ParseFloat(s, 64)
	if err == nil && math.IsNaN(x) {
		err = strconv.ErrSyntax
	}
	return x, err
}
