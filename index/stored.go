package index

import (
	"errors"
	"fmt"
)

// Entry gives a paper back as it was added.
func (l *Library) Entry(id string) (Entry, error) {
	r, text, err := l.read(id)
	if err != nil {
		return Entry{}, err
	}
	e := Entry{ID: r.ID, Name: r.Name, Collection: r.Collection, Nth: r.Nth, Total: r.Total, Card: r.Card, Text: text, Tool: r.Tool, Added: r.Added}
	var bad []error
	keep := func(data []byte, err error) []byte {
		bad = append(bad, err)
		return data
	}
	e.Original = keep(l.Original(r))
	e.Audit = keep(l.File(id, "audit.json"))
	e.Compare = keep(l.File(id, "compare.json"))
	if r.Corrections != "" {
		e.Corrections = keep(l.File(id, "corrections.csv"))
	}
	if err := errors.Join(bad...); err != nil {
		return Entry{}, fmt.Errorf("%s: %w", r.Name, err)
	}
	return e, nil
}
