// Package outline writes a document as lines, for the tests of the readers:
// what every one of them read can be compared with text typed by hand.
package outline

import (
	"fmt"

	"probity/extract"
)

// Of writes what was read, a line a block.
func Of(d *extract.Document) []string {
	var out []string
	for _, b := range d.Blocks {
		switch b := b.(type) {
		case *extract.Prose:
			kind := []string{"", "# ", "caption: ", "note: ", "ref: "}[b.Role]
			out = append(out, string(b.Place.Section)+" "+kind+b.Text())
		case *extract.Table:
			line := fmt.Sprintf("table %s %q", b.Label, b.Caption)
			for i, row := range b.Rows {
				line += " / "
				if i < b.Head {
					line += "#"
				}
				for j, c := range row {
					if j > 0 {
						line += "|"
					}
					line += c.Text()
				}
			}
			for _, n := range b.Notes {
				line += " [" + n + "]"
			}
			out = append(out, line)
		}
	}
	return out
}
