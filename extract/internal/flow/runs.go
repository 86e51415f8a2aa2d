package flow

import (
	"slices"
	"strings"

	"probity/extract"
)

// longest is how long a run grows before another is begun, so that text in a
// million small pieces does not take a million copies.
const longest = 4096

// Append adds a run of text, to the last run where it stands the same way.
func Append(runs []extract.Run, run extract.Run) []extract.Run {
	if run.Text == "" {
		return runs
	}
	if n := len(runs); n > 0 && runs[n-1].Text != "\n" && run.Text != "\n" && len(runs[n-1].Text) < longest {
		last := runs[n-1]
		last.Text = run.Text
		if last == run {
			runs[n-1].Text += run.Text
			return runs
		}
	}
	return append(runs, run)
}

// Feed ends a line, once, where something stands before. Line ends are runs
// of their own: "\n".
func Feed(runs []extract.Run) []extract.Run {
	n := len(runs)
	if n == 0 || runs[n-1].Text == "\n" || n == 1 && len(runs[0].Text) < 64 && (extract.Cell{Runs: runs}).Empty() {
		return runs
	}
	return append(runs, extract.Run{Text: "\n"})
}

// Plain makes the line ends of a file white space: only the elements that end
// a line do so.
func Plain(s string) string {
	if strings.ContainsAny(s, "\n\r") {
		s = lineEnds.Replace(s)
	}
	return s
}

var lineEnds = strings.NewReplacer("\n", " ", "\r", " ")

// Ended reports that a sentence, or the words that announce a list, end where
// the runs end; also where nothing stands yet.
func Ended(runs []extract.Run) bool {
	for _, r := range slices.Backward(runs) {
		if s := strings.TrimSpace(r.Text); s != "" {
			return strings.ContainsAny(s[len(s)-1:], ".:;!?)")
		}
	}
	return true
}

// Trim takes white space off both ends of runs and drops runs that hold
// nothing; none left means that nothing is printed.
func Trim(runs []extract.Run) []extract.Run {
	if (extract.Cell{Runs: runs}).Empty() {
		return nil
	}
	out := slices.DeleteFunc(slices.Clone(runs), func(r extract.Run) bool { return r.Text == "" })
	for len(out) > 0 {
		if out[0].Text = strings.TrimLeft(out[0].Text, " \t\r\n"); out[0].Text != "" {
			break
		}
		out = out[1:]
	}
	for n := len(out); n > 0; n = len(out) {
		if out[n-1].Text = strings.TrimRight(out[n-1].Text, " \t\r\n"); out[n-1].Text != "" {
			break
		}
		out = out[:n-1]
	}
	return out
}

// Lines parts a text at its line ends, each flattened; empty lines are left
// out.
func Lines(text []extract.Run) []string {
	var out []string
	start := 0
	for i := 0; i <= len(text); i++ {
		if i == len(text) || text[i].Text == "\n" {
			if s := extract.Flatten(text[start:i]); s != "" {
				out = append(out, s)
			}
			start = i + 1
		}
	}
	return out
}
