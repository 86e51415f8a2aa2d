package report

import (
	"encoding/json"
	"io"
	"math"

	"probity/claims"
	"probity/extract"
)

// Schema names the audit format and its version.
const Schema = "probity.audit/2"

// An Audit is all that is known of one paper after it was read and judged.
type Audit struct {
	SHA256     string // of the input's bytes
	Tool       string // the version that read and judged it
	Study      *claims.Study
	Judgements []claims.Judgement
	Findings   []claims.Finding
}

// The shapes below are the lines of the audit format: a field that is not
// known is left out; a true 0 is printed.
type (
	auditJSON struct {
		Schema     string          `json:"schema"`
		Tool       string          `json:"tool,omitempty"`
		Paper      paperJSON       `json:"paper"`
		Measures   []measureJSON   `json:"measures"`
		Counts     []countJSON     `json:"counts,omitempty"`
		Apart      []apartJSON     `json:"apart,omitempty"`
		Statements []statementJSON `json:"statements"`
		Findings   []findingJSON   `json:"findings"`
		Problems   []problemJSON   `json:"problems"`
	}
	paperJSON struct {
		File    string `json:"file"`
		Format  string `json:"format,omitempty"`
		SHA256  string `json:"sha256,omitempty"`
		Title   string `json:"title,omitempty"`
		DOI     string `json:"doi,omitempty"`
		Year    int    `json:"year,omitempty"`
		Journal string `json:"journal,omitempty"`
		Pages   int    `json:"pages,omitempty"`
	}
	numberJSON struct {
		Text     string   `json:"text"`
		Value    *float64 `json:"value,omitempty"`
		Low      *float64 `json:"low,omitempty"`
		High     *float64 `json:"high,omitempty"`
		Decimals *int     `json:"decimals,omitempty"`
		Kind     string   `json:"kind,omitempty"`
	}
	placeJSON struct {
		Section string `json:"section,omitempty"`
		Page    int    `json:"page,omitempty"`
		Table   string `json:"table,omitempty"`
		Row     int    `json:"row,omitempty"`
		Col     int    `json:"col,omitempty"`
		Par     int    `json:"par,omitempty"`
	}
	measureJSON struct {
		ID        string      `json:"id"`
		Arm       string      `json:"arm,omitempty"`
		ArmName   string      `json:"arm_name,omitempty"`
		Outcome   string      `json:"outcome,omitempty"`
		OutcomeID string      `json:"outcome_id,omitempty"`
		Condition string      `json:"condition,omitempty"`
		Unit      string      `json:"unit,omitempty"`
		UnitID    string      `json:"unit_id,omitempty"`
		Centre    string      `json:"centre"`
		Mean      numberJSON  `json:"mean"`
		Spread    *numberJSON `json:"spread,omitempty"`
		N         int         `json:"n,omitempty"`
		Letters   string      `json:"letters,omitempty"`
		Adjusted  bool        `json:"adjusted,omitempty"`
		Text      string      `json:"text,omitempty"`
		Note      string      `json:"note,omitempty"`
		Place     placeJSON   `json:"place"`
	}
	countJSON struct {
		ID        string      `json:"id"`
		Arm       string      `json:"arm,omitempty"`
		ArmName   string      `json:"arm_name,omitempty"`
		Outcome   string      `json:"outcome,omitempty"`
		Condition string      `json:"condition,omitempty"`
		K         float64     `json:"k"`
		Of        float64     `json:"of,omitempty"`
		Share     *numberJSON `json:"share,omitempty"`
		Text      string      `json:"text"`
		Note      string      `json:"note,omitempty"`
		Place     placeJSON   `json:"place"`
	}
	apartJSON struct {
		What  string    `json:"what"`
		Text  string    `json:"text"`
		Place placeJSON `json:"place"`
		Why   string    `json:"why"`
	}
	recomputedJSON struct {
		Base   string   `json:"base,omitempty"`
		Method string   `json:"method,omitempty"`
		Value  *float64 `json:"value,omitempty"`
		Low    *float64 `json:"low,omitempty"`
		High   *float64 `json:"high,omitempty"`
		Fits   bool     `json:"fits"`
	}
	statementJSON struct {
		ID         string           `json:"id"`
		Text       string           `json:"text"`
		Kind       string           `json:"kind"`
		Own        bool             `json:"own"`
		WhyNotOwn  string           `json:"why_not_own,omitempty"`
		Subject    string           `json:"subject,omitempty"`
		Reference  string           `json:"reference,omitempty"`
		Outcome    string           `json:"outcome,omitempty"`
		OutcomeID  string           `json:"outcome_id,omitempty"`
		Condition  string           `json:"condition,omitempty"`
		Direction  string           `json:"direction,omitempty"`
		Printed    string           `json:"printed,omitempty"`
		Value      *float64         `json:"value,omitempty"`
		Unit       string           `json:"unit,omitempty"`
		Measures   []string         `json:"measures,omitempty"`
		Place      placeJSON        `json:"place"`
		Verdict    string           `json:"verdict"`
		Base       string           `json:"base,omitempty"`
		Recomputed []recomputedJSON `json:"recomputed,omitempty"`
		Why        string           `json:"why,omitempty"`
		May        string           `json:"may_say,omitempty"`
	}
	findingJSON struct {
		ID         string    `json:"id"`
		Check      string    `json:"check"`
		Grade      string    `json:"grade"`
		Statement  string    `json:"statement,omitempty"`
		Measures   []string  `json:"measures,omitempty"`
		Place      placeJSON `json:"place"`
		Printed    string    `json:"printed,omitempty"`
		Recomputed string    `json:"recomputed,omitempty"`
		Message    string    `json:"message"`
		Caution    string    `json:"caution,omitempty"`
		Ask        string    `json:"ask,omitempty"`
		Source     string    `json:"source,omitempty"`
	}
	problemJSON struct {
		Place placeJSON `json:"place"`
		What  string    `json:"what"`
		Try   string    `json:"try,omitempty"`
	}
)

// WriteAudit writes one line of the audit format (JSON Lines, jsonlines.org).
func WriteAudit(w io.Writer, a Audit) error {
	s := a.Study
	out := auditJSON{
		Schema: Schema,
		Tool:   a.Tool,
		Paper: paperJSON{File: s.File, Format: s.Format, SHA256: a.SHA256, Title: s.Meta.Title, DOI: s.Meta.DOI,
			Year: s.Meta.Year, Journal: s.Meta.Journal, Pages: s.Pages},
		Measures:   make([]measureJSON, 0, len(s.Measures)),
		Statements: make([]statementJSON, 0, len(a.Judgements)),
		Findings:   make([]findingJSON, 0, len(a.Findings)),
		Problems:   make([]problemJSON, 0, len(s.Problems)),
	}
	for _, m := range s.Measures {
		out.Measures = append(out.Measures, measureOf(m))
	}
	for _, k := range s.Counts {
		out.Counts = append(out.Counts, countOf(k))
	}
	for _, x := range s.Apart {
		out.Apart = append(out.Apart, apartJSON{What: x.What, Text: x.Text, Place: placeOf(x.Place), Why: x.Why})
	}
	for _, j := range a.Judgements {
		out.Statements = append(out.Statements, statementOf(j))
	}
	for _, f := range a.Findings {
		out.Findings = append(out.Findings, findingOf(f))
	}
	for _, p := range s.Problems {
		out.Problems = append(out.Problems, problemJSON{Place: placeOf(p.Place), What: p.What, Try: p.Try})
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(out)
}

func placeOf(p extract.Place) placeJSON {
	out := placeJSON{Section: string(p.Section), Page: p.Page, Table: p.Table, Row: p.Row, Col: p.Col, Par: p.Par}
	if p.Table != "" {
		out.Section = string(extract.InTable)
	}
	switch p.Section { // the audit format knows no introduction and no back matter
	case extract.Introduction, extract.Back:
		out.Section = string(extract.Body)
	}
	return out
}

// finite gives a pointer to x, nil where x cannot stand in JSON.
func finite(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

func numberOf(n extract.Number) numberJSON {
	return numberJSON{Text: n.Text, Value: finite(n.Value), Decimals: &n.Decimals}
}

func spreadOf(s claims.Spread) *numberJSON {
	if !s.Known() {
		return nil
	}
	out := numberJSON{Kind: s.Kind.String()}
	if s.Low.Known() {
		out.Text, out.Low, out.High = s.Text, finite(s.Low.Value), finite(s.High.Value)
		if out.Text == "" {
			out.Text = s.Low.Text + "–" + s.High.Text
		}
		return &out
	}
	out.Text, out.Value, out.Decimals = s.Value.Text, finite(s.Value.Value), &s.Value.Decimals
	return &out
}

func measureOf(m *claims.Measure) measureJSON {
	out := measureJSON{ID: m.ID, Arm: m.ArmText, Outcome: m.Outcome, OutcomeID: m.OutcomeID, Condition: m.Condition,
		Unit: m.Unit, UnitID: m.UnitID, Centre: m.Centre.String(), Mean: numberOf(m.Mean.Number), Spread: spreadOf(m.Spread),
		Letters: m.Letters, Adjusted: m.Adjusted, Text: m.Text, Note: m.Doubt.String(), Place: placeOf(m.Place)}
	if m.Arm != nil {
		out.ArmName = m.Arm.Name
	}
	if m.N.Known() {
		out.N = int(math.Round(m.N.Value))
	}
	return out
}

func countOf(k *claims.Count) countJSON {
	out := countJSON{ID: k.ID, Arm: k.ArmText, Outcome: k.Outcome, Condition: k.Condition, K: k.K.Value, Of: k.Of.Value,
		Text: k.Text, Note: k.Doubt.String(), Place: placeOf(k.Place)}
	if k.Arm != nil {
		out.ArmName = k.Arm.Name
	}
	if k.Share.Known() {
		n := numberOf(k.Share)
		out.Share = &n
	}
	return out
}

func ids(measures []*claims.Measure) []string {
	var out []string
	for _, m := range measures {
		if m != nil && m.ID != "" {
			out = append(out, m.ID)
		}
	}
	return out
}

func partyText(p claims.Party) string {
	if p.Text == "" && len(p.Arms) == 1 {
		return p.Arms[0].Name
	}
	if p.Text == "" {
		return p.Level
	}
	return p.Text
}

func statementOf(j claims.Judgement) statementJSON {
	s := j.Statement
	out := statementJSON{ID: s.ID, Text: s.Text, Kind: string(s.Kind), Own: s.Own, WhyNotOwn: s.WhyNotOwn,
		Subject: partyText(s.Subject), Reference: partyText(s.Reference), Outcome: s.Outcome, OutcomeID: s.OutcomeID,
		Condition: s.Condition, Direction: s.Direction.String(), Printed: s.Printed, Unit: s.Unit,
		Measures: ids(j.Measures), Place: placeOf(s.Place), Verdict: j.Verdict.String(), Base: string(j.Base), Why: j.Why, May: j.May}
	if s.Value.Known() {
		out.Value = finite(s.Value.Value)
	}
	for _, r := range j.Recomputed {
		out.Recomputed = append(out.Recomputed, recomputedJSON{Base: string(r.Base), Method: r.Method,
			Value: finite(round(r.Value)), Low: finite(round(r.Low)), High: finite(round(r.High)), Fits: r.Fits})
	}
	return out
}

// round keeps six significant digits: more would claim what printed figures
// cannot carry.
func round(x float64) float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	unit := math.Pow10(5 - int(math.Floor(math.Log10(math.Abs(x)))))
	if math.IsInf(unit, 0) || unit == 0 {
		return x
	}
	return math.Round(x*unit) / unit
}

func findingOf(f claims.Finding) findingJSON {
	out := findingJSON{ID: f.ID, Check: f.Check, Grade: string(f.Grade), Measures: ids(f.Measures), Place: placeOf(f.Place),
		Printed: f.Printed, Recomputed: f.Recomputed, Message: f.Message, Caution: f.Caution, Ask: f.Ask, Source: f.Source}
	if f.Statement != nil {
		out.Statement = f.Statement.ID
	}
	return out
}
