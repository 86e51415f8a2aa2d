package index

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
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

// Sketched computes the sketch of an entry once; call it where there is time.
func (e *Entry) Sketched() sketch {
	if !e.sketched {
		e.sketch, e.sketched = sketchOf(e.Text), true
	}
	return e.sketch
}

// FNV-1a, 64 bits (Fowler, Noll and Vo).
const (
	fnvOffset = 14695981039346656037
	fnvPrime  = 1099511628211
)

func sketchOf(text []Passage) sketch {
	s := smallest{seen: map[uint64]bool{}}
	for _, p := range text {
		if p.Place.Table == "" { // formats differ most in tables
			s.passage(p.Text)
		}
	}
	if s.runs < fewest {
		return nil
	}
	slices.Sort(s.hashes)
	return s.hashes[:min(sketchSize, len(s.hashes))]
}

// smallest keeps the smallest hashes it is shown.
type smallest struct {
	hashes []uint64
	seen   map[uint64]bool
	limit  uint64 // nothing above it can be among them; 0: not yet known
	runs   int
}

func (s *smallest) passage(text string) {
	var window [shingle]uint64
	words := 0
	for i := 0; i < len(text); {
		h, n := uint64(fnvOffset), 0
		for i < len(text) {
			r, size := rune(text[i]), 1
			if r >= utf8.RuneSelf {
				r, size = utf8.DecodeRuneInString(text[i:])
			}
			switch {
			case r >= 'a' && r <= 'z':
			case r >= 'A' && r <= 'Z':
				r += 'a' - 'A'
			case r >= utf8.RuneSelf && unicode.IsLetter(r):
				r = unicode.ToLower(r)
			default:
				size = 0
			}
			if size == 0 {
				break
			}
			h = (h ^ uint64(r)) * fnvPrime
			n++
			i += size
		}
		if n == 0 {
			_, size := utf8.DecodeRuneInString(text[i:])
			i += size
			continue
		}
		copy(window[:], window[1:])
		window[shingle-1] = h
		if words++; words >= shingle {
			all := uint64(fnvOffset)
			for _, x := range window {
				all = (all ^ x) * fnvPrime
				all ^= all >> 29
			}
			s.add(all)
		}
	}
}

func (s *smallest) add(h uint64) {
	s.runs++
	if s.limit > 0 && h >= s.limit || s.seen[h] {
		return
	}
	s.seen[h] = true
	if s.hashes = append(s.hashes, h); len(s.hashes) >= 8*sketchSize {
		slices.Sort(s.hashes)
		for _, gone := range s.hashes[sketchSize:] {
			delete(s.seen, gone)
		}
		s.hashes = s.hashes[:sketchSize]
		s.limit = s.hashes[sketchSize-1] + 1
	}
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

// MarshalText writes the hashes in hex, so that the record stays readable.
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
