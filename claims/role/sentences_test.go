package role_test

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"probity/claims/catalog"
	"probity/claims/role"
)

// What testdata/sentences.tsv must reach; the figures reached, rounded down.
const (
	rightFloor     = 0.92 // share of the numbers with a right role
	precisionFloor = 0.94 // of the numbers called pairable, those that are
	recallFloor    = 0.96 // of the pairable numbers, those called so
)

// labelled is a number of the table with the roles that are right for it.
type labelled struct {
	text  string
	at    int // characters from 0
	roles []string
}

func readSentences(t *testing.T) (sentences []string, numbers [][]labelled) {
	data, err := os.ReadFile("testdata/sentences.tsv")
	if err != nil {
		t.Fatal(err)
	}
	for i, line := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
		cells := strings.Split(line, "\t")
		if i == 0 || len(cells) != 3 {
			continue
		}
		var row []labelled
		for _, f := range strings.Fields(cells[2]) {
			text, rest, _ := strings.Cut(f, "@")
			at, roles, ok := strings.Cut(rest, "=")
			place, err := strconv.Atoi(at)
			if !ok || err != nil {
				t.Fatalf("sentences.tsv line %d: %q is no number@place=role", i+1, f)
			}
			row = append(row, labelled{strings.ReplaceAll(text, "_", " "), place, strings.Split(roles, "/")})
		}
		sentences, numbers = append(sentences, cells[1]), append(numbers, row)
	}
	return sentences, numbers
}

// pairable holds the words of the roles that may be paired.
func pairable(roles ...string) (all, some bool) {
	all = true
	for _, r := range roles {
		is := slices.Contains([]string{"level", "share", "change", "percent-claim", "ratio-claim"}, r)
		all, some = all && is, some || is
	}
	return all, some
}

// tally counts what became of the numbers of the table.
type tally struct {
	numbers, right          int
	given, good, meant, hit int // pairable: called so, rightly so; so by all labels, and called so
	of, rightOf             map[string]int
}

func (c *tally) count(want labelled, got string) {
	all, some := pairable(want.roles...)
	called, _ := pairable(got)
	first := want.roles[0]
	c.numbers++
	c.of[first]++
	if slices.Contains(want.roles, got) {
		c.right++
		c.rightOf[first]++
	}
	if all {
		c.meant++
	}
	if called {
		c.given++
		if some {
			c.good++
		}
		if all {
			c.hit++
		}
	}
}

// TestSentences holds the roles against invented sentences labelled by hand.
// Every number has to be found where it stands; the roles have to be right as
// often as the floors say. Run with -v for the shares of each role.
func TestSentences(t *testing.T) {
	cat := catalog.Default()
	sentences, wanted := readSentences(t)
	c := tally{of: map[string]int{}, rightOf: map[string]int{}}
	for i, s := range sentences {
		got := map[int]role.Number{}
		for _, n := range role.Numbers(s, cat) {
			got[utf8.RuneCountInString(s[:n.Start])] = n
		}
		for _, w := range wanted[i] {
			n, ok := got[w.at]
			if !ok || s[n.Start:n.End] != w.text {
				t.Errorf("Numbers(%q): no %q at %d", s, w.text, w.at)
				continue
			}
			c.count(w, n.Role.Best.Value.String())
		}
	}
	floor(t, "right roles", c.right, c.numbers, rightFloor)
	floor(t, "precision of the pairable", c.good, c.given, precisionFloor)
	floor(t, "recall of the pairable", c.hit, c.meant, recallFloor)
	for r := role.Level; r <= role.Other; r++ {
		if n := c.of[r.String()]; n > 0 {
			t.Logf("%-20s %3d of %3d right", r, c.rightOf[r.String()], n)
		}
	}
}

func floor(t *testing.T, what string, part, whole int, least float64) {
	t.Helper()
	share := float64(part) / float64(max(whole, 1))
	t.Logf("%s: %d of %d, %.3f", what, part, whole, share)
	if share < least {
		t.Errorf("%s: %.3f, want at least %.2f", what, share, least)
	}
}

// roles prints the numbers of a sentence with their roles, in order.
func roles(s string) string {
	var out []string
	for _, n := range role.Numbers(s, catalog.Default()) {
		out = append(out, fmt.Sprintf("%s=%s", s[n.Start:n.End], n.Role.Best.Value))
	}
	return strings.Join(out, " ")
}
