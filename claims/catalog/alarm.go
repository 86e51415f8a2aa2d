package catalog

import (
	"fmt"
	"strings"
)

// An Alarm is a set of words that together go further than a bench test can
// carry. A word ending in * stands for every word that begins so.
type Alarm struct {
	Words  []string // lower case; all must stand in one sentence
	Kind   string   // "clinical", "absolute", "superlative"
	Source string
}

func (c *Catalog) addAlarm(r row) error {
	a := Alarm{Words: strings.Split(strings.ToLower(r["words"]), "+"), Kind: r["kind"], Source: r["source"]}
	for _, w := range a.Words {
		if strings.Trim(w, "*") == "" {
			return fmt.Errorf("column words: an empty word in %q", r["words"])
		}
	}
	c.Alarms = append(c.Alarms, a)
	return nil
}

// In gives the words of a sentence, as printed there, that raise the alarm;
// nil where one is missing. Words are those of the sentence in order.
func (a Alarm) In(words []string) []string {
	var out []string
	for _, want := range a.Words {
		stem, open := strings.CutSuffix(want, "*")
		found := ""
		for _, w := range words {
			if low := strings.ToLower(w); low == stem || open && strings.HasPrefix(low, stem) {
				found = w
				break
			}
		}
		if found == "" {
			return nil
		}
		out = append(out, found)
	}
	return out
}
