package report

import (
	"bytes"
	"encoding/json"
	"testing"

	"probity/claims"
)

// A claim is one JSON object; of several verdicts the gravest stands first.
func TestWriteClaim(t *testing.T) {
	c := Claim{Text: "A lasted 19% longer than B and 90% longer than C",
		Sides: []claims.Understood{{Name: "A", Parts: []claims.Part{{What: "mean", Value: "650.5", Words: "650,5"}}, Left: []string{"in water"}}},
		Judgements: []claims.Judgement{
			{Statement: &claims.Statement{Kind: claims.Percent}, Verdict: claims.Reproduces, Base: claims.OnReference, Why: "one"},
			{Statement: &claims.Statement{Kind: claims.Percent}, Verdict: claims.DoesNotReproduce, Why: "two"},
		},
		Sums: []claims.Sum{{Name: "base reference", Text: "a sum"}}}
	var b bytes.Buffer
	if err := WriteClaim(&b, c); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Statement, Verdict, Why string
		Understood              []struct {
			Name    string
			Parts   []struct{ What, Value, Words string }
			NotUsed []string `json:"not_used"`
		}
		Judgements []struct{ Verdict string }
		Sums       []struct{ Name, Text string }
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Statement != c.Text || got.Verdict != "does-not-reproduce" || got.Why != "two" || len(got.Judgements) != 2 || len(got.Sums) != 1 ||
		len(got.Understood) != 1 || got.Understood[0].Parts[0].Words != "650,5" || got.Understood[0].NotUsed[0] != "in water" {
		t.Errorf("WriteClaim = %s", b.String())
	}
}
