package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"unicode/utf8"

	"probity/claims/role"
)

// numberLine is what --numbers prints of one sentence.
type numberLine struct {
	Text    string        `json:"text"`
	Numbers []numberEntry `json:"numbers"`
}

// numberEntry is one number; At counts characters from 0.
type numberEntry struct {
	Text string   `json:"text"`
	At   int      `json:"at"`
	Role string   `json:"role"`
	Or   string   `json:"or,omitempty"`
	Why  []string `json:"why,omitempty"`
}

// readNumbers tells what each number of a file of sentences is.
func (c *console) readNumbers(path string) error {
	data, err := c.readFile(path)
	if err != nil {
		return err
	}
	out := json.NewEncoder(c.stdout)
	out.SetEscapeHTML(false)
	for _, line := range bytes.Split(bytes.TrimSuffix(data, []byte("\n")), []byte("\n")) {
		text := strings.ToValidUTF8(strings.TrimSuffix(string(line), "\r"), "\uFFFD")
		l := numberLine{Text: text, Numbers: []numberEntry{}}
		for _, n := range role.Numbers(text, c.catalog) {
			e := numberEntry{Text: text[n.Start:n.End], At: utf8.RuneCountInString(text[:n.Start]), Role: n.Role.Best.Value.String()}
			if !n.Role.Sure() {
				e.Or = n.Role.Second.Value.String()
			}
			for _, r := range n.Role.Best.Reasons {
				e.Why = append(e.Why, r.Text)
			}
			l.Numbers = append(l.Numbers, e)
		}
		if err := out.Encode(l); err != nil {
			return err
		}
	}
	return nil
}
