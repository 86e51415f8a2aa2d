// Package parts reads the XML parts of the archive that a word processor
// writes, and says what their damage means for the paper.
//
//	archive → parts.New → Part, Part … → Damage → problems and doubts of the Document
package parts

import (
	"fmt"
	"maps"
	"slices"

	"probity/extract"
	"probity/extract/internal/archive"
	"probity/extract/internal/xmltree"
)

// A Reader reads parts, and remembers which of them are damaged.
type Reader struct {
	zip    *archive.Archive
	broken map[string]error
}

// New reads the parts of an archive.
func New(zip *archive.Archive) *Reader { return &Reader{zip, map[string]error{}} }

// Part parses one part; it is nil without an error where there is none. What
// can be read of a damaged part comes together with the error.
func (p *Reader) Part(name string) (*xmltree.Node, error) {
	data, err := p.zip.Part(name)
	var top *xmltree.Node
	if data != nil {
		var broken error
		if top, broken = xmltree.ParseWritten(data); err == nil {
			err = broken
		}
	}
	if err != nil {
		p.broken[name] = err
	}
	return top, err
}

// Damage says what the damage of the parts that were read means: where the
// text, which stands in the part named, breaks off or has a gap, that figures
// may have changed, or that something beside it is missing. It comes last.
func (p *Reader) Damage(d *extract.Document, text string) {
	say := func(what string) {
		d.Problems = append(d.Problems, &extract.Problem{
			Place: extract.Place{File: d.File}, What: what, Err: p.broken[text],
			Try: "open it in a word processor, look whether it is whole, and save it again",
		})
	}
	switch err := p.broken[text]; {
	case err == nil:
	case archive.Damaged(err):
		say(err.Error() + "; text may be missing, and figures may have changed")
		d.Doubt("the file is damaged, and any figure may have changed", func(extract.Block) bool { return true })
	case xmltree.Torn(err):
		say(err.Error() + "; text around there may be missing")
	default:
		say(err.Error() + "; what stands after that is not read")
	}
	for _, name := range slices.Sorted(maps.Keys(p.broken)) {
		if name != text {
			say(fmt.Sprintf("%v; what hangs on that part may be missing: notes, formulas, raised and lowered figures", p.broken[name]))
		}
	}
}
