package pdf

import (
	"cmp"
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"probity/extract"
	"probity/extract/internal/flow"
	"probity/extract/pdf/layout"
)

// style is what a paper's typography says about the rank of its text.
type style struct {
	body      float64 // size of running text
	title     *layout.Block
	titleSize float64
	ranks     map[look]int // depth of headings that look so
	named     bool         // some heading has a name or number we know
}

// A look is what tells headings apart.
type look struct {
	size   int // half points
	bold   bool
	italic bool
	caps   bool
}

func lookOf(b *layout.Block, text string) look {
	return look{int(math.Round(b.Size * 2)), b.Bold, b.Italic, allCaps(text)}
}

func allCaps(s string) bool {
	letters := 0
	for _, r := range s {
		if unicode.IsLower(r) {
			return false
		}
		if unicode.IsUpper(r) {
			letters++
		}
	}
	return letters >= 3
}

func plainText(b *layout.Block) string {
	var words []string
	for i := range b.Lines {
		for k := range b.Lines[i].Words {
			words = append(words, b.Lines[i].Words[k].Text())
		}
	}
	return strings.Join(words, " ")
}

// learn looks through the paper once: how running text is set, what is the
// title, and how headings of each rank look.
func learn(sheets []*layout.Sheet) style {
	st := style{ranks: map[look]int{}}
	chars := map[int]int{}
	for _, s := range sheets {
		for _, it := range s.Items {
			if it.Block != nil {
				chars[int(math.Round(it.Block.Size*2))] += len(plainText(it.Block))
			}
		}
	}
	most := 0
	for k, n := range chars { // any order: of equals the largest
		if n > most || n == most && float64(k)/2 > st.body {
			st.body, most = float64(k)/2, n
		}
	}
	st.findTitle(sheets)
	st.rank(sheets)
	return st
}

func (st *style) findTitle(sheets []*layout.Sheet) {
	if len(sheets) == 0 {
		return
	}
	first := sheets[0]
	for _, it := range first.Items {
		b := it.Block
		if b == nil || b.Size < st.body*1.12 || b.Y0 > 0.6*first.Page.Height {
			continue
		}
		text := plainText(b)
		if words := len(strings.Fields(text)); words < 3 || words > 60 {
			continue
		}
		if named, _ := flow.Named(text); named != "" {
			continue
		}
		if st.title == nil || b.Size > st.title.Size+0.4 {
			st.title, st.titleSize = b, b.Size
		}
	}
}

func (st *style) isTitle(b *layout.Block) bool {
	return st.title != nil && (b == st.title || b.Page == st.title.Page && math.Abs(b.Size-st.titleSize) < 0.3 && b.Bold == st.title.Bold && math.Abs(b.Y0-st.title.Y1) < 2.5*b.Size)
}

// rank orders the looks of headings, the biggest and boldest first. Where
// headings are numbered, their numbers say the depth of the look.
func (st *style) rank(sheets []*layout.Sheet) {
	found := map[look]int{} // look → depth by number, 0 if never numbered
	for _, s := range sheets {
		for _, it := range s.Items {
			if it.Block == nil {
				continue
			}
			text := plainText(it.Block)
			if st.isTitle(it.Block) || !st.headingLike(it.Block, text) {
				continue
			}
			if named, _ := flow.Named(text); named != "" || chapter.MatchString(text) {
				st.named = true
			}
			l := lookOf(it.Block, text)
			if m := chapter.FindStringSubmatch(text); m != nil {
				if d := 1 + strings.Count(m[1], "."); found[l] == 0 || d < found[l] {
					found[l] = d
				}
			} else if found[l] == 0 {
				found[l] = 0
			}
		}
	}
	looks := slices.SortedFunc(maps.Keys(found), compareLooks)
	depth := 0
	for _, l := range looks {
		if d := found[l]; d > 0 {
			depth = d
		} else {
			depth++
		}
		st.ranks[l] = depth
	}
}

// compareLooks puts what ranks higher first.
func compareLooks(a, b look) int {
	up := func(x, y bool) int {
		switch {
		case x == y:
			return 0
		case x:
			return -1
		}
		return 1
	}
	return cmp.Or(cmp.Compare(b.size, a.size), up(a.bold, b.bold), up(a.caps, b.caps), up(!a.italic, !b.italic))
}

var chapter = regexp.MustCompile(`^(\d{1,2}(?:\.\d{1,2}){0,3})\.?\s+\p{Lu}`)

// depth is the rank of a heading, 1 the highest.
func (st *style) depth(b *layout.Block, text string) int {
	if m := chapter.FindStringSubmatch(text); m != nil {
		return 1 + strings.Count(m[1], ".")
	}
	if d, ok := st.ranks[lookOf(b, text)]; ok {
		return d
	}
	return 4
}

// headingLike judges by form alone.
func (st *style) headingLike(b *layout.Block, text string) bool {
	if len(b.Lines) > 4 || len(text) > 160 || len(text) < 2 {
		return false
	}
	letters := 0
	for _, r := range text {
		if unicode.IsLetter(r) {
			letters++
		}
	}
	if letters*2 < len([]rune(text)) {
		return false
	}
	big := b.Size > st.body*1.08
	named, plain := flow.Named(strings.TrimRight(text, ":."))
	isName := named != "" && plain
	if !(b.Bold || b.Italic || big || allCaps(text) || isName || chapter.MatchString(text) && len(b.Lines) <= 2) {
		return false
	}
	if startsLower(text) {
		return false
	}
	if strings.HasSuffix(text, ".") && !chapter.MatchString(text) && !isName && len(strings.Fields(text)) > 6 {
		return false
	}
	if b.Size < st.body*0.88 && !isName {
		return false
	}
	if !b.Bold && !big && !isName && (b.Italic || !allCaps(text)) {
		// italic or plain: only a short line apart from running text
		return len(b.Lines) == 1 && len(strings.Fields(text)) <= 12 && !strings.ContainsAny(text, ";,@") || chapter.MatchString(text)
	}
	return true
}

var (
	figureCaption = regexp.MustCompile(`^(?i:supplement(?:ary|al)\s+)?(?:Fig(?:ure|s)?|FIG(?:URE|S)?|Scheme|SCHEME|Chart|CHART|Graph|GRAPH|Plate)\.?\s*S?\d{1,2}\s*[A-Za-z]?\s*([.:|–—-]?)\s*(.*)`)
	tableCaption  = regexp.MustCompile(`^(?:Table|TABLE|Tab\.)\s*(?:S?\d{1,2}|[IVX]{1,5})\s*([.:|–—]|$)`)
	noteMark      = regexp.MustCompile(`^([*†‡§¶#]|[⁰¹²³⁴⁵⁶⁷⁸⁹ᵃᵇᶜᵈᵉ])`)
)

// saying are words that follow "Figure 2" in a sentence, not in a caption.
var saying = map[string]bool{"shows": true, "show": true, "presents": true, "illustrates": true, "depicts": true, "displays": true, "demonstrates": true,
	"summarizes": true, "summarises": true, "and": true, "is": true, "are": true, "was": true, "were": true, "gives": true, "lists": true, "represents": true,
	"reveals": true, "indicates": true, "reports": true, "describes": true, "in": true, "contains": true, "compares": true, "provides": true}

// role says what a block is.
func (st *style) role(b *layout.Block, text string, refs bool) extract.Role {
	if m := figureCaption.FindStringSubmatch(text); m != nil {
		next, _, _ := strings.Cut(m[2], " ")
		if !saying[strings.ToLower(next)] && (m[1] != "" || b.Size < st.body*0.97 || b.Lines[0].Words[0].Bold || !startsLower(m[2]) && m[2] != "") {
			return extract.Caption
		}
	}
	if tableCaption.MatchString(text) && b.Size < st.body*1.05 {
		return extract.Caption
	}
	if st.headingLike(b, text) && !(refs && !b.Bold && b.Size <= st.body*1.08) {
		return extract.Heading
	}
	if refs {
		return extract.Reference
	}
	if b.Size < st.body*0.93 && (noteMark.MatchString(text) || st.atFoot(b) && len(b.Lines) <= 8) {
		return extract.Footnote
	}
	return extract.Paragraph
}

// atFoot reports small type in the lowest part of its column.
func (st *style) atFoot(b *layout.Block) bool {
	return b.Y0 > b.Column.Y0+0.7*b.Column.Height() && b.Column.Height() > 15*b.Size
}

func isReferences(text string) bool {
	s := strings.ToLower(strings.Trim(text, " .:0123456789"))
	return s == "references" || s == "reference" || s == "bibliography" || s == "literature cited" || s == "literature" || s == "reference list"
}
