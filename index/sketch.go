package index

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// A sketch is the smallest hashes of all runs of five words of a paper: two
// papers that share most of their sketch share most of their text, whatever
// formats they came in (Broder 1997, "On the resemblance and containment of
// documents").
type sketch []uint64

const (
	sketchSize = 32
	shingle    = 5
	// sameText is the share of common runs from which two papers are the same
	// text: one paper as XML and as PDF keeps well over half (page furniture,
	// hyphens and tables cost the rest), two papers of one group with the same
	// methods section share far less (common practice).
	sameText = 0.5
	// fewest runs below which a text is too short to be told from another.
	fewest = 64
)

func sketchOf(text []Passage) sketch {
	var hashes []uint64
	var window [shingle]uint64
	for _, p := range text {
		if p.Place.Table != "" {
			continue // formats differ most in tables
		}
		n := 0
		for w := range strings.FieldsFuncSeq(p.Text, func(r rune) bool { return !unicode.IsLetter(r) }) {
			h := fnv.New64a()
			h.Write([]byte(strings.ToLower(w)))
			copy(window[:], window[1:])
			window[shingle-1] = h.Sum64()
			if n++; n >= shingle {
				var all uint64 = 14695981039346656037
				for _, x := range window {
					all = (all ^ x) * 1099511628211
					all ^= all >> 29
				}
				hashes = append(hashes, all)
			}
		}
	}
	slices.Sort(hashes)
	hashes = slices.Compact(hashes)
	if len(hashes) < fewest {
		return nil
	}
	return hashes[:sketchSize:sketchSize]
}

// alike estimates the share of runs that two papers have in common, from the
// smallest hashes of both together.
func (s sketch) alike(o sketch) float64 {
	i, j, both, seen := 0, 0, 0, 0
	for i < len(s) && j < len(o) && seen < sketchSize {
		switch cmp.Compare(s[i], o[j]) {
		case 0:
			both++
			i++
			j++
		case -1:
			i++
		default:
			j++
		}
		seen++
	}
	if seen == 0 {
		return 0
	}
	return float64(both) / float64(seen)
}

// MarshalText writes the hashes in hex, so that paper.json stays readable.
func (s sketch) MarshalText() ([]byte, error) {
	var b []byte
	for i, h := range s {
		if i > 0 {
			b = append(b, ' ')
		}
		b = strconv.AppendUint(b, h, 16)
	}
	return b, nil
}

// UnmarshalText reads what MarshalText writes.
func (s *sketch) UnmarshalText(text []byte) error {
	*s = nil
	for f := range strings.FieldsSeq(string(text)) {
		h, err := strconv.ParseUint(f, 16, 64)
		if err != nil {
			return fmt.Errorf("sketch: %w", err)
		}
		*s = append(*s, h)
	}
	return nil
}
