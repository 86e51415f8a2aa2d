package reading_test

import (
	"math/rand"
	"testing"

	"probity/claims/reading"
)

func TestChoose(t *testing.T) {
	type vote struct {
		value  string
		weight float64
	}
	tests := []struct {
		name         string
		votes        []vote
		best, second string
		gap          float64
		sure         bool
	}{
		{"nothing was read", nil, "", "", 0, false},
		{"one reading: its rival is 0", []vote{{"level", 3}}, "level", "", 3, true},
		{"reasons add up: 2 + 2 - 3 = 1", []vote{{"level", 2}, {"dose", 3}, {"level", 2}}, "level", "dose", 1, false},
		{"a gap of Wide is sure: 5 - 3 = 2", []vote{{"dose", 3}, {"level", 5}}, "level", "dose", 2, true},
		{"of equals the first named", []vote{{"dose", 1}, {"level", 1}}, "dose", "level", 0, false},
		{"a weight of 0 names nothing", []vote{{"dose", 0}, {"level", 1}}, "level", "", 1, false},
		{"what speaks against: 4 - 3 = 1 < 2", []vote{{"level", 4}, {"level", -3}, {"dose", 2}}, "dose", "level", 1, false},
		{"only reasons against: nothing is believed", []vote{{"level", -3}, {"dose", -6}}, "level", "dose", 3, false},
	}
	for _, tt := range tests {
		var b reading.Ballot[string]
		for _, v := range tt.votes {
			b.For(v.value, v.weight, "a reason")
		}
		c := b.Choose()
		if c.Best.Value != tt.best || c.Second.Value != tt.second || c.Gap() != tt.gap || c.Sure() != tt.sure {
			t.Errorf("%s: Choose() = %q before %q by %v, sure %v; want %q before %q by %v, sure %v", tt.name,
				c.Best.Value, c.Second.Value, c.Gap(), c.Sure(), tt.best, tt.second, tt.gap, tt.sure)
		}
	}
}

// TestOrderOfReasons is a law: without ties the choice does not hang on the
// order in which the reasons were given.
func TestOrderOfReasons(t *testing.T) {
	type vote struct {
		value  int
		weight float64
	}
	votes := []vote{{1, 2}, {2, 3}, {1, 1.5}, {3, 1}, {3, 2.25}, {2, -1}}
	rng := rand.New(rand.NewSource(1))
	for range 50 {
		rng.Shuffle(len(votes), func(i, j int) { votes[i], votes[j] = votes[j], votes[i] })
		var b reading.Ballot[int]
		for _, v := range votes {
			b.For(v.value, v.weight, "")
		}
		// by hand: 1 has 2 + 1.5 = 3.5, 3 has 1 + 2.25 = 3.25, 2 has 3 - 1 = 2
		if c := b.Choose(); c.Best.Value != 1 || c.Second.Value != 3 || c.Gap() != .25 {
			t.Fatalf("Choose() after %v = %d before %d by %v, want 1 before 3 by 0.25", votes, c.Best.Value, c.Second.Value, c.Gap())
		}
	}
}

func TestChooseLeavesBallot(t *testing.T) {
	var b reading.Ballot[string]
	b.For("level", 1, "light")
	b.For("level", 2, "heavy")
	c := b.Choose()
	if got := c.Best.Reasons; got[0].Text != "heavy" || got[1].Text != "light" {
		t.Errorf("Choose().Best.Reasons = %v, want the heaviest first", got)
	}
	if got := b.Candidates[0].Reasons; got[0].Text != "light" {
		t.Errorf("after Choose the reasons of the ballot are %v, want them as given", got)
	}
	if got := b.Score("level"); got != 3 {
		t.Errorf("Score(level) = %v, want 1 + 2 = 3", got)
	}
	if got := b.Score("dose"); got != 0 {
		t.Errorf("Score(dose) = %v, want 0: never named", got)
	}
}

func TestDoubt(t *testing.T) {
	var d reading.Doubt
	if !d.Sure() || d.String() != "" {
		t.Errorf("the zero Doubt: Sure() = %v, String() = %q, want true and none", d.Sure(), d.String())
	}
	d.Add("", 9)
	d.Add("figures of the sentence before", 1)
	d.Add("another outcome stands nearer", 3)
	d.Add("figures of the sentence before", 7) // said already
	d.Join(reading.Doubt{{"a dose may be meant", 2}})
	const want = "another outcome stands nearer; a dose may be meant; figures of the sentence before"
	if d.Sure() || d.String() != want {
		t.Errorf("Sure() = %v, String() = %q, want false, %q", d.Sure(), d.String(), want)
	}
}

// A slight doubt leaves a question; one as wide as a sure choice leaves
// nothing. Copies of a doubt do not grow into each other.
func TestDoubtOutweighs(t *testing.T) {
	var d reading.Doubt
	if d.Outweighs() {
		t.Error("the zero Doubt outweighs a reading")
	}
	d.Add("the page is scanned", reading.Slight)
	if d.Outweighs() || d.Sure() {
		t.Errorf("a slight doubt: Outweighs() = %v, Sure() = %v, want false and false", d.Outweighs(), d.Sure())
	}
	a, b := d, d
	a.Add("no word sets one against the other", reading.Wide)
	b.Add("another figure may be meant", reading.Wide)
	if !a.Outweighs() || !b.Outweighs() || d.Outweighs() {
		t.Errorf("after adding to two copies: %v, %v and the first %v, want true, true, false", a.Outweighs(), b.Outweighs(), d.Outweighs())
	}
	if a.String() != "no word sets one against the other; the page is scanned" || d.String() != "the page is scanned" {
		t.Errorf("the copies read %q and %q", a.String(), d.String())
	}
}
