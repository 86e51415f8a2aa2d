package infer

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"probity/claims/interval"
)

// A Couple is two groups of a display by their places in the list, I < J.
type Couple struct{ I, J int }

// SignificantPairs returns the pairs whose p lies below alpha.
func SignificantPairs(pairs []Pair, alpha float64) []Couple {
	var out []Couple
	for _, p := range pairs {
		if p.P.Value < alpha {
			out = append(out, Couple{p.I, p.J})
		}
	}
	return out
}

// Letters builds a compact letter display of k groups from the pairs that
// differ significantly: two groups share a letter exactly when they do not
// differ. Each group's letters come back in order, "a" first.
//
// One letter stands for each maximal set of groups without a significant pair,
// sets ordered by their first groups. The display is complete but may hold a
// letter more than the shortest one. It is refused when there would be more
// than 52 letters.
//
// Source: Piepho (2004), J Comput Graph Stat 13:456-466.
func Letters(k int, significant []Couple) ([]string, error) {
	sets, err := LetterSets(k, significant)
	if err != nil {
		return nil, err
	}
	const alphabet = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
	if len(sets) > len(alphabet) {
		return nil, fmt.Errorf("%d letters are needed, more than the alphabet has", len(sets))
	}
	display := make([]string, k)
	for i, set := range sets {
		for _, g := range set {
			display[g] += alphabet[i : i+1]
		}
	}
	return display, nil
}

// LetterSets returns the maximal sets of groups in which no pair differs
// significantly, each in order and the sets in the order of their members. It
// refuses k above 64 and displays of more than 10,000 sets.
func LetterSets(k int, significant []Couple) ([][]int, error) {
	if k < 1 || k > 64 {
		return nil, fmt.Errorf("%d groups: 1 to 64", k)
	}
	apart := make([]uint64, k) // of each group, those it differs from
	for _, c := range significant {
		if c.I < 0 || c.J < 0 || c.I >= k || c.J >= k || c.I == c.J {
			return nil, fmt.Errorf("pair %d-%d is not among %d groups", c.I+1, c.J+1, k)
		}
		apart[c.I] |= 1 << c.J
		apart[c.J] |= 1 << c.I
	}
	// Insert and absorb: start from one set of all; a significant pair splits
	// every set that holds both; a set inside another goes.
	all := ^uint64(0) >> (64 - k)
	sets := []uint64{all}
	for i := range k {
		for j := i + 1; j < k; j++ {
			if apart[i]>>j&1 == 0 {
				continue
			}
			var next []uint64
			for _, s := range sets {
				if s>>i&1 == 1 && s>>j&1 == 1 {
					next = append(next, s&^(1<<i), s&^(1<<j))
				} else {
					next = append(next, s)
				}
			}
			if sets = absorb(next); len(sets) > 10000 {
				return nil, errors.New("the display has too many sets")
			}
		}
	}
	lists := make([][]int, len(sets))
	for i, s := range sets {
		for g := range k {
			if s>>g&1 == 1 {
				lists[i] = append(lists[i], g)
			}
		}
	}
	slices.SortFunc(lists, slices.Compare)
	return lists, nil
}

// absorb drops sets that lie inside another.
func absorb(sets []uint64) []uint64 {
	var keep []uint64
	for i, s := range sets {
		inside := slices.ContainsFunc(keep, func(o uint64) bool { return s&o == s }) ||
			slices.ContainsFunc(sets[i+1:], func(o uint64) bool { return s&o == s && s != o })
		if !inside {
			keep = append(keep, s)
		}
	}
	return keep
}

// A Convention says what the same letter means. The zero Convention is not
// known.
type Convention int

// The conventions of legends.
const (
	SameIsNotDifferent Convention = iota + 1 // the same letter: not significantly different
	SameIsDifferent                          // the same letter or mark: significantly different
)

// A DisplayCheck holds a printed letter display against significant pairs.
type DisplayCheck struct {
	Consistent bool
	// Shared lists pairs that the letters call not different though they are
	// significant; Unshared those they call different though they are not.
	Shared, Unshared []Couple
}

// CheckLetters holds printed letters, one text for each group ("a", "ab", ""
// for none), against the pairs that differ significantly. Letters are single
// characters and case counts; spaces and commas between them do not. A group
// without a letter shares with nobody.
func CheckLetters(letters []string, significant []Couple, meaning Convention) (DisplayCheck, error) {
	k := len(letters)
	if k < 2 {
		return DisplayCheck{}, fmt.Errorf("%d groups: a display needs at least two", k)
	}
	if meaning != SameIsNotDifferent && meaning != SameIsDifferent {
		return DisplayCheck{}, errors.New("what the same letter means is not known")
	}
	differ := map[Couple]bool{}
	for _, c := range significant {
		if c.I > c.J {
			c.I, c.J = c.J, c.I
		}
		if c.I < 0 || c.J >= k || c.I == c.J {
			return DisplayCheck{}, fmt.Errorf("pair %d-%d is not among %d groups", c.I+1, c.J+1, k)
		}
		differ[c] = true
	}
	var d DisplayCheck
	for i := range k {
		for j := i + 1; j < k; j++ {
			c := Couple{i, j}
			same := share(letters[i], letters[j]) == (meaning == SameIsNotDifferent)
			switch {
			case same && differ[c]:
				d.Shared = append(d.Shared, c)
			case !same && !differ[c]:
				d.Unshared = append(d.Unshared, c)
			}
		}
	}
	d.Consistent = len(d.Shared)+len(d.Unshared) == 0
	return d, nil
}

// share reports whether two groups have a letter in common.
func share(a, b string) bool {
	return strings.ContainsFunc(a, func(r rune) bool {
		return (unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsSymbol(r) || strings.ContainsRune("*†‡§", r)) && strings.ContainsRune(b, r)
	})
}

// Claimed returns the pairs that printed letters call different.
func Claimed(letters []string, meaning Convention) ([]Couple, error) {
	d, err := CheckLetters(letters, nil, meaning)
	return d.Unshared, err
}

// A Run is one letter of a display beside the means.
type Run struct {
	Letter  rune
	Members []int  // the groups that carry it, by their places
	Ends    Couple // its members with the least and the greatest mean
	Skipped []int  // groups without it whose mean surely lies between those of Ends
}

// Runs looks at printed letters of the convention SameIsNotDifferent beside the
// means alone, each with its rounding, and returns the letters in the order in
// which they appear. Two things follow for each of them:
//
//   - Ends must not differ significantly, as the two furthest apart that the
//     letter calls not different. (The caller tests them.)
//   - With equal n and one pooled SD, Skipped must be empty: whoever lies
//     between two groups that do not differ cannot differ from both. It says
//     nothing when n or SD differ much between groups.
func Runs(letters []string, means []interval.Interval) ([]Run, error) {
	if err := checkDisplay(letters, means); err != nil {
		return nil, err
	}
	var runs []Run
	seen := map[rune]bool{}
	for _, text := range letters {
		for _, r := range text {
			if !seen[r] && share(string(r), string(r)) {
				seen[r] = true
				runs = append(runs, runOf(r, letters, means))
			}
		}
	}
	return runs, nil
}

func runOf(r rune, letters []string, means []interval.Interval) Run {
	run := Run{Letter: r, Ends: Couple{-1, -1}}
	for i, text := range letters {
		if !strings.ContainsRune(text, r) {
			continue
		}
		run.Members = append(run.Members, i)
		if run.Ends.I < 0 || means[i].High < means[run.Ends.I].High {
			run.Ends.I = i
		}
		if run.Ends.J < 0 || means[i].Low > means[run.Ends.J].Low {
			run.Ends.J = i
		}
	}
	for i, text := range letters {
		if !strings.ContainsRune(text, r) && means[i].Low > means[run.Ends.I].High && means[i].High < means[run.Ends.J].Low {
			run.Skipped = append(run.Skipped, i)
		}
	}
	return run
}

// MissingSeparation returns the pairs that printed letters call not different
// though another pair, whose means surely lie closer together, is called
// different. With equal n and one pooled SD every pair must pass the same
// distance, so that is impossible there; it says nothing when n or SD differ
// much.
func MissingSeparation(letters []string, means []interval.Interval, meaning Convention) ([]Couple, error) {
	if err := checkDisplay(letters, means); err != nil {
		return nil, err
	}
	claimed, err := Claimed(letters, meaning)
	if err != nil {
		return nil, err
	}
	least := math.Inf(1)
	for _, c := range claimed {
		least = math.Min(least, distance(means[c.I], means[c.J]).High)
	}
	var out []Couple
	for i := range means {
		for j := i + 1; j < len(means); j++ {
			c := Couple{i, j}
			if !slices.Contains(claimed, c) && distance(means[i], means[j]).Low > least {
				out = append(out, c)
			}
		}
	}
	return out, nil
}

func checkDisplay(letters []string, means []interval.Interval) error {
	if len(letters) != len(means) || len(means) < 2 {
		return fmt.Errorf("%d letter groups and %d means: one of each for at least two groups", len(letters), len(means))
	}
	for i, m := range means {
		if !(m.Low <= m.High) || math.IsInf(m.Low, 0) || math.IsInf(m.High, 0) {
			return fmt.Errorf("mean %d: %v is not a finite range", i+1, m)
		}
	}
	return nil
}
