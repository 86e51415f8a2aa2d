package catalog_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"probity/claims/catalog"
)

func TestRules(t *testing.T) {
	c := catalog.Default()
	if len(c.Rules) == 0 {
		t.Fatal("no rules of comparability")
	}
	for _, r := range c.Rules {
		if r.Source == "" || r.Reason == "" || r.Name == "" {
			t.Errorf("rule %s: name, reason or source is missing", r.Field)
		}
		if !slices.Contains([]string{"no", "caution", "note"}, r.Grade) {
			t.Errorf("rule %s: grade %q is not known", r.Field, r.Grade)
		}
		if len(r.Outcomes) == 0 {
			t.Errorf("rule %s applies to no outcome", r.Field)
		}
		for _, o := range r.Outcomes {
			if o != "*" && c.Outcome(o) == nil {
				t.Errorf("rule %s: outcome %q is not in outcomes.csv", r.Field, o)
			}
		}
		for _, class := range r.Classes {
			if r.Kind == "bands" && !(class.Low < class.High) {
				t.Errorf("rule %s: band %s is empty", r.Field, class.Name)
			}
		}
	}
	fields := func(outcome string) (out []string) {
		for _, r := range c.RulesFor(outcome) {
			out = append(out, r.Field)
		}
		return out
	}
	if got := fields("time-to-fracture"); !slices.Contains(got, "temperature") || slices.Contains(got, "ageing") {
		t.Errorf("rules for time to fracture: %v", got)
	}
	if got := fields("shear-bond-strength"); slices.Contains(got, "temperature") || !slices.Contains(got, "ageing") {
		t.Errorf("rules for shear bond strength: %v", got)
	}
}

func TestRulesSayWhatIsWrong(t *testing.T) {
	head := "field,name,kind,values,outcomes,grade,missing,reason,source\n"
	for line, want := range map[string]string{
		"t,t,bands,room,*,no,,r,s\n":     "has no name",
		"t,t,bands,room=hot,*,no,,r,s\n": "is not a band",
		"t,t,within,some,*,no,,r,s\n":    "invalid syntax",
		"t,t,guess,,*,no,,r,s\n":         "is not known",
		"t,t,within,1,@none,no,,r,s\n":   "stands in no line above",
	} {
		_, err := catalog.Load(fstest.MapFS{"comparability.csv": {Data: []byte(head + line)}})
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "line 2") {
			t.Errorf("Load(%q) = %v, want an error with %q and the line", line, err, want)
		}
	}
}
