package cite

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
)

// readRIS reads RIS records: two capitals or a capital and a digit, two
// spaces, a hyphen, a space, the value.
func readRIS(data []byte) ([]Ref, error) {
	var out []Ref
	var r Ref
	var start, end string
	open := false
	in := bufio.NewScanner(bytes.NewReader(data))
	in.Buffer(nil, 16<<20)
	for in.Scan() {
		text := strings.TrimRight(in.Text(), "\r ")
		if len(text) < 5 || text[2:5] != "  -" {
			continue
		}
		value := line(strings.TrimPrefix(text[5:], " "))
		switch text[:2] {
		case "TY":
			r, open, start, end = Ref{}, true, "", ""
		case "ER":
			if open && (r.Title != "" || r.DOI != "") {
				r.Pages = start
				if end != "" && end != start {
					r.Pages = start + "–" + end
				}
				out = append(out, r)
			}
			open = false
		case "TI", "T1":
			r.Title = value
		case "AU", "A1":
			if value != "" {
				r.Authors = append(r.Authors, ParseName(value))
			}
		case "JO", "JF", "T2", "JA":
			if r.Journal == "" || text[:2] == "JF" || text[:2] == "T2" {
				r.Journal = value
			}
		case "PY", "Y1", "DA":
			if r.Year == 0 {
				r.Year = year(value)
			}
		case "VL":
			r.Volume = value
		case "IS":
			r.Issue = value
		case "SP":
			start = value
		case "EP":
			end = value
		case "DO":
			r.DOI = bareDOI(value)
		case "ID":
			r.Key = value
		case "L1":
			r.File = fileOf(value)
		}
	}
	if err := in.Err(); err != nil {
		return nil, err
	}
	if len(out) == 0 {
		return nil, errors.New("no RIS record could be read")
	}
	return out, nil
}

func writeRIS(w io.Writer, refs []Ref) error {
	b := bufio.NewWriter(w)
	for _, r := range refs {
		field := func(tag, value string) {
			if value = line(value); value != "" {
				fmt.Fprintf(b, "%s  - %s\r\n", tag, value)
			}
		}
		b.WriteString("TY  - JOUR\r\n")
		for _, a := range r.Authors {
			if a.Given == "" {
				field("AU", a.Family+",") // the comma keeps a body's name whole
			} else {
				field("AU", a.Family+", "+a.Given)
			}
		}
		field("TI", r.Title)
		field("JO", r.Journal)
		if r.Year > 0 {
			field("PY", fmt.Sprint(r.Year))
		}
		field("VL", r.Volume)
		field("IS", r.Issue)
		start, end, _ := strings.Cut(r.Pages, "–")
		field("SP", start)
		field("EP", end)
		field("DO", r.DOI)
		b.WriteString("ER  - \r\n\r\n")
	}
	return b.Flush()
}
