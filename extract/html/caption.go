package html

import (
	"strings"

	"probity/extract"
	"probity/extract/internal/flow"
)

// caption holds back a paragraph that looks like the caption of a table, and
// what stands between a bare label and its table. It reports whether the
// paragraph was taken.
func (r *reader) caption(line string, text []extract.Run, s scope) bool {
	label, rest := flow.Label(line)
	if label != "" && flow.CaptionLike(line) {
		if r.last != nil && r.last.Label == "" && len(r.held) == 0 {
			// A caption printed below its table. Captions that stand above
			// are met first and leave no table without a label.
			r.relabel(r.last, label, rest)
			return true
		}
		r.hold(held{runs: text, caption: s.caption})
		return true
	}
	if len(r.held) == 1 && len(line) < 600 {
		if _, after := flow.Label(extract.Flatten(r.held[0].runs)); after == "" {
			r.held = append(r.held, held{runs: text})
			return true
		}
	}
	return false
}

// relabel names a table that was given without a label.
func (r *reader) relabel(t *extract.Table, label, caption string) {
	t.Label = label
	t.Caption = strings.TrimSpace(caption + " " + t.Caption)
	t.Place.Table = label
	for i := range t.Rows {
		for j := range t.Rows[i] {
			t.Rows[i][j].Place.Table = label
		}
	}
}

// hold keeps a caption back until its table comes.
func (r *reader) hold(h held) {
	r.flush()
	r.last = nil
	r.held = []held{h}
}

// missing is said of a table whose caption stands on the page without it.
const missing = "the table of this caption is not on the page, or is only a picture; its figures are not read"

func (r *reader) heldLabel() string {
	label, _ := flow.Label(extract.Flatten(r.held[0].runs))
	return label
}

// takeHeld gives what was held back as label and caption.
func (r *reader) takeHeld() (label, caption string) {
	var parts []string
	for _, h := range r.held {
		parts = append(parts, extract.Flatten(h.runs))
	}
	r.held = nil
	return flow.Label(strings.Join(parts, " "))
}

// flush gives what was held back as what it was: no table came.
func (r *reader) flush() {
	pending := r.held
	r.held = nil
	for _, h := range pending {
		if h.caption {
			label, _ := flow.Label(extract.Flatten(h.runs))
			r.Problem(label, missing, "look for the paper in another format")
			r.Prose(extract.Caption, h.runs)
		} else if h.depth > 0 {
			r.Heading(h.depth, h.runs)
		} else {
			r.Prose(extract.Paragraph, h.runs)
		}
	}
}
