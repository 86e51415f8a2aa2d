package pdf

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"probity/extract"
	"probity/extract/pdf/layout"
)

// vocabulary holds the words that stand whole somewhere in the paper: it
// decides whether a hyphen at the end of a line belongs to the word.
type vocabulary map[string]int

func collect(sheets []*layout.Sheet) vocabulary {
	v := vocabulary{}
	for _, s := range sheets {
		for _, it := range s.Items {
			if it.Block == nil {
				continue
			}
			for i := range it.Block.Lines {
				ws := it.Block.Lines[i].Words
				for k := range ws {
					if k == 0 || k == len(ws)-1 {
						continue // may be half a word
					}
					v[bare(ws[k].Text())]++
				}
			}
		}
	}
	return v
}

func bare(s string) string {
	return strings.ToLower(strings.TrimFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }))
}

// runs gives a block's text as one stretch, its lines joined.
func (p *paper) runs(b *layout.Block) []extract.Run {
	var out []extract.Run
	for i := range b.Lines {
		var line []extract.Run
		for k := range b.Lines[i].Words {
			if k > 0 {
				line = append(line, extract.Run{Text: " "})
			}
			line = append(line, b.Lines[i].Words[k].Runs...)
		}
		out = glue(out, line, p.words)
	}
	return merge(out)
}

// glue joins the next line to what stands before it.
func glue(a, b []extract.Run, words vocabulary) []extract.Run {
	if len(a) == 0 {
		return b
	}
	if len(b) == 0 {
		return a
	}
	last := &a[len(a)-1]
	head, hyphen := strings.CutSuffix(last.Text, "\u00ad")
	if !hyphen {
		head, hyphen = strings.CutSuffix(last.Text, "-")
	}
	if !hyphen {
		head, hyphen = strings.CutSuffix(last.Text, "\u2010")
	}
	if !hyphen || last.Raised || last.Lowered {
		return append(append(a, extract.Run{Text: " "}), b...)
	}
	tail := extract.Flatten(a)
	tail = tail[strings.LastIndexByte(tail, ' ')+1:]
	tail = strings.TrimRight(tail, "-\u00ad\u2010")
	next := extract.Flatten(b)
	if i := strings.IndexByte(next, ' '); i >= 0 {
		next = next[:i]
	}
	last.Text = head
	if keepHyphen(tail, next, words) {
		last.Text += "-"
	}
	return append(a, b...)
}

// keepHyphen decides whether the hyphen between the end of one line and the
// start of the next is the word's own.
func keepHyphen(before, after string, words vocabulary) bool {
	if before == "" || after == "" {
		return true
	}
	r, _ := utf8.DecodeLastRuneInString(before)
	n, _ := utf8.DecodeRuneInString(after)
	if !unicode.IsLetter(r) || !unicode.IsLower(n) || utf8.RuneCountInString(before) < 2 {
		return true // 24-h, 5-10, X-ray, Ni-Ti
	}
	whole, parted := words[bare(before+after)], words[bare(before+"-"+after)]
	if whole != parted {
		return parted > whole
	}
	if i := strings.LastIndexAny(before, "-"); i >= 0 {
		return true // a chain of hyphens already
	}
	return ownHyphen[strings.ToLower(before)]
}

// ownHyphen are first parts that nearly always keep their hyphen in English
// scientific prose. Source: common practice.
var ownHyphen = map[string]bool{"self": true, "non": true, "cross": true, "well": true, "one": true, "two": true, "three": true, "four": true,
	"high": true, "low": true, "long": true, "short": true, "single": true, "double": true, "post": true, "pre": true, "follow": true, "load": true,
	"half": true, "full": true, "resin": true, "glass": true, "light": true, "dual": true, "heat": true, "water": true}

// merge puts neighbouring runs of one kind together.
func merge(runs []extract.Run) []extract.Run {
	var out []extract.Run
	for _, r := range runs {
		n := len(out)
		if n > 0 && (strings.TrimSpace(r.Text) == "" || same(out[n-1], r)) {
			out[n-1].Text += r.Text
			continue
		}
		out = append(out, r)
	}
	return out
}

func same(a, b extract.Run) bool {
	return a.Raised == b.Raised && a.Lowered == b.Lowered && a.Bold == b.Bold
}

var sentenceEnd = regexp.MustCompile(`[.:?!;][)\]”"’'⁰¹²³⁴⁵⁶⁷⁸⁹⁻,–\s*†‡\d\[\]-]*$`)

func endsSentence(s string) bool { return sentenceEnd.MatchString(tailOf(s, 40)) }

func tailOf(s string, n int) string {
	if len(s) <= n {
		return s
	}
	s = s[len(s)-n:]
	for len(s) > 0 && !utf8.RuneStart(s[0]) {
		s = s[1:]
	}
	return s
}

func startsLower(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLower(r)
}
