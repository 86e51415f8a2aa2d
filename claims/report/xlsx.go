package report

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// writeXLSX writes a workbook (ECMA-376): what is read as text on the first
// sheet, each table on a sheet of its own. Text is stored as text, never as a
// formula; figures are stored in full. There are no dates in it: the same
// report gives the same bytes.
func writeXLSX(w io.Writer, r Report, _ Layout) error {
	book := excelize.NewFile()
	defer book.Close()
	if err := book.SetSheetName(book.GetSheetName(0), "Report"); err != nil {
		return err
	}
	bold, err := book.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	if err != nil {
		return err
	}
	if err := fillSheet(book, "Report", proseOf(r), bold); err != nil {
		return err
	}
	tables := 0
	for _, p := range r.Parts {
		t, ok := p.(Table)
		if !ok {
			continue
		}
		tables++
		name := fmt.Sprintf("Table %d", tables)
		if _, err := book.NewSheet(name); err != nil {
			return err
		}
		if err := fillSheet(book, name, t, bold); err != nil {
			return err
		}
	}
	var b bytes.Buffer
	if err := book.Write(&b); err != nil {
		return err
	}
	return inOrder(w, b.Bytes())
}

// inOrder writes the files of a workbook in the order of their names, without
// times: the library writes them as a map gives them.
func inOrder(w io.Writer, data []byte) error {
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return err
	}
	files := slices.Clone(in.File)
	slices.SortFunc(files, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	out := zip.NewWriter(w)
	for _, f := range files {
		if err := copyMember(out, f); err != nil {
			return err
		}
	}
	return out.Close()
}

func copyMember(out *zip.Writer, f *zip.File) error {
	r, err := f.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	w, err := out.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate})
	if err != nil {
		return err
	}
	_, err = io.Copy(w, r)
	return err
}

// fillSheet writes a table row by row under a header that stays in view.
func fillSheet(book *excelize.File, name string, t Table, bold int) error {
	sheet, err := book.NewStreamWriter(name)
	if err != nil {
		return err
	}
	if err := sheet.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	head := make([]any, len(t.Head))
	for i, h := range t.Head {
		head[i] = excelize.Cell{StyleID: bold, Value: cellText(h)}
	}
	if err := sheet.SetRow("A1", head); err != nil {
		return err
	}
	for k, row := range t.Rows {
		values := make([]any, len(row))
		for i, c := range row {
			values[i] = cellText(c.Text)
			if c.Value != nil && finite(*c.Value) != nil {
				values[i] = *c.Value
			}
		}
		at, err := excelize.CoordinatesToCellName(1, k+2)
		if err != nil {
			return err
		}
		if err := sheet.SetRow(at, values); err != nil {
			return err
		}
	}
	return sheet.Flush()
}

// cellText leaves out what XML cannot hold and what is longer than a cell may
// be.
func cellText(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < 0x20 || r == 0xFFFE || r == 0xFFFF || r == 0xFFFD {
			return -1
		}
		return r
	}, Clean(s))
	if r := []rune(s); len(r) > excelize.TotalCellChars {
		return string(r[:excelize.TotalCellChars])
	}
	return s
}

// proseOf is all of a report that is not a table, a line a row.
func proseOf(r Report) Table {
	t := Table{Head: []string{r.Title}}
	line := func(texts ...string) {
		row := make([]Cell, len(texts))
		for i, s := range texts {
			row[i].Text = s
		}
		t.Rows = append(t.Rows, row)
	}
	for _, p := range r.Parts {
		switch p := p.(type) {
		case Heading:
			line()
			line(p.Text)
		case Para:
			line(p.Text)
		case Entry:
			line(p.Lead, p.Head, at(p.Place))
			for _, l := range p.Lines {
				line(l.Label, l.Text)
			}
		case Notes:
			line()
			for _, n := range p.Texts {
				line(n)
			}
		}
	}
	return t
}
