package pdf

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"probity/extract"
)

var lookAt = flag.String("look", "", "print how this PDF is read")

// TestLook prints a paper as it is read, for people who work on the layout.
func TestLook(t *testing.T) {
	if *lookAt == "" {
		t.Skip("no -look FILE")
	}
	data, err := os.ReadFile(*lookAt)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := Read(data, *lookAt, Options{})
	if err != nil {
		t.Fatal(err)
	}
	fmt.Printf("%+v\n", doc.Meta)
	for _, b := range doc.Blocks {
		switch b := b.(type) {
		case *extract.Prose:
			fmt.Printf("[p%d %s %d %q] %s\n", b.Place.Page, b.Place.Section, b.Role, b.Heading, b.Text())
		case *extract.Table:
			fmt.Println(drawn(b))
		}
	}
	for _, p := range doc.Problems {
		fmt.Println("!", p)
	}
}

// drawn prints a table for people.
func drawn(t *extract.Table) string {
	var s strings.Builder
	fmt.Fprintf(&s, "[p%d] TABLE %q.%d %s (head %d)", t.Place.Page, t.Label, t.Part, t.Caption, t.Head)
	for i, r := range t.Rows {
		if i == t.Head {
			s.WriteString("\n  ----")
		}
		s.WriteString("\n  ")
		for j, c := range r {
			if j > 0 {
				s.WriteString(" | ")
			}
			if c.Copy {
				s.WriteString("^")
			}
			s.WriteString(strings.Repeat("> ", c.Indent) + c.Text())
		}
	}
	for _, n := range t.Notes {
		s.WriteString("\n  note: " + n)
	}
	if t.Doubt != "" {
		s.WriteString("\n  doubt: " + t.Doubt)
	}
	return s.String()
}
