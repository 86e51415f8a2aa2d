// Package whole looks at the bytes of a PDF from outside and says what of the
// file is cut off, moved or left over.
//
//	bytes, number of pages read → []string, one a fault
//
// It unfolds nothing and reads no page: that is the readers' work, who mend
// what they can without a word.
package whole

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
)

// Faults says what is wrong with a file of which so many pages are listed; 0
// when that is not known. None: as far as one can see from outside, the file
// is whole.
func Faults(data []byte, pages int) []string {
	start := max(0, bytes.Index(data[:min(1024, len(data))], []byte("%PDF-")))
	var out []string
	if end := bytes.LastIndex(data, []byte("%%EOF")); end < 0 || end < bytes.LastIndex(data, []byte("endobj")) {
		out = append(out, "the file is cut short: its end mark is missing")
	} else if !indexed(data, start) {
		out = append(out, "the list of the file's parts is not where the file says: bytes were lost, added or changed")
	}
	if pages > 0 && !revised(data) {
		if n := pageObjects(data); n > pages {
			out = append(out, fmt.Sprintf("the file holds %d pages, but only %d of them are listed and can be read", n, pages))
		}
	}
	return out
}

var (
	pointer = regexp.MustCompile(`^startxref\s+(\d{1,12})\s`)
	listing = regexp.MustCompile(`^\s*(?:xref\s|\d+\s+\d+\s+obj\b)`)
)

// indexed reports that the last startxref points to a table or a stream of
// cross-references (ISO 32000-1, 7.5.5). Offsets count from the header.
func indexed(data []byte, start int) bool {
	at := bytes.LastIndex(data, []byte("startxref"))
	if at < 0 {
		return false
	}
	m := pointer.FindSubmatch(data[at:min(len(data), at+64)])
	if m == nil {
		return false
	}
	n, err := strconv.Atoi(string(m[1]))
	if err != nil {
		return false
	}
	for _, to := range []int{n, n + start} {
		if to < len(data) && listing.Match(data[to:min(len(data), to+64)]) {
			return true
		}
	}
	return false
}

// revised reports a file that was changed by writing after its end: pages that
// were taken out are then still in it.
func revised(data []byte) bool {
	if bytes.Contains(data[:min(2048, len(data))], []byte("/Linearized")) {
		return bytes.Count(data, []byte("startxref")) > 2
	}
	return bytes.Count(data, []byte("startxref")) > 1
}

var (
	isPage = regexp.MustCompile(`^/Page[\s/<>\[(]`)
	isType = regexp.MustCompile(`/Type\s*$`)
	opens  = regexp.MustCompile(`(\d+)\s+\d+\s+obj\b`)
)

// pageObjects counts the objects that say of themselves that they are a page.
// Those kept in compressed streams are not seen.
func pageObjects(data []byte) int {
	seen := map[string]bool{}
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte("/Page"))
		if i < 0 {
			return len(seen)
		}
		i += at
		at = i + len("/Page")
		if !isPage.Match(data[i:min(len(data), i+8)]) || !isType.Match(data[max(0, i-12):i]) {
			continue
		}
		before := data[max(0, i-4096):i]
		if all := opens.FindAllSubmatch(before, -1); len(all) > 0 {
			seen[string(all[len(all)-1][1])] = true
		}
	}
}
