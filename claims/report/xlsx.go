package report

import (
	"archive/zip"
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// writeXLSX writes a workbook (ECMA-376): what is read as text on the first
// sheet, each table on a sheet of its own. Text is stored as text, never as a
// formula; figures are stored in full. There are no dates in it: the same
// report gives the same bytes.
func writeXLSX(w io.Writer, r Report, _ Layout) error {
	sheets := []Table{proseOf(r)}
	names := []string{"Report"}
	for _, p := range r.Parts {
		if t, ok := p.(Table); ok {
			sheets = append(sheets, t)
			names = append(names, fmt.Sprintf("Table %d", len(sheets)-1))
		}
	}
	z := zip.NewWriter(w)
	files := []struct{ name, text string }{
		{"[Content_Types].xml", contentTypes(len(sheets))},
		{"_rels/.rels", xmlHead + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", workbook(names)},
		{"xl/_rels/workbook.xml.rels", workbookRels(len(sheets))},
		{"xl/styles.xml", xlsxStyles},
	}
	for _, f := range files {
		if err := zipFile(z, f.name, func(b *bufio.Writer) { b.WriteString(f.text) }); err != nil {
			return err
		}
	}
	for i, t := range sheets {
		if err := zipFile(z, fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), func(b *bufio.Writer) { sheet(b, t) }); err != nil {
			return err
		}
	}
	return z.Close()
}

const (
	xmlHead    = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	mainNS     = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
	xlsxStyles = xmlHead + `<styleSheet ` + mainNS + `><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders>` +
		`<cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="2"><xf xfId="0"/><xf xfId="0" fontId="1" applyFont="1"/></cellXfs></styleSheet>`
)

func zipFile(z *zip.Writer, name string, fill func(*bufio.Writer)) error {
	f, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate})
	if err != nil {
		return err
	}
	b := bufio.NewWriter(f)
	fill(b)
	return b.Flush()
}

func contentTypes(sheets int) string {
	var b strings.Builder
	b.WriteString(xmlHead + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>`)
	for i := range sheets {
		fmt.Fprintf(&b, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`, i+1)
	}
	return b.String() + `</Types>`
}

func workbook(names []string) string {
	var b strings.Builder
	b.WriteString(xmlHead + `<workbook ` + mainNS + ` xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets>`)
	for i, n := range names {
		fmt.Fprintf(&b, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, n, i+1, i+1)
	}
	return b.String() + `</sheets></workbook>`
}

func workbookRels(sheets int) string {
	var b strings.Builder
	b.WriteString(xmlHead + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`)
	for i := range sheets {
		fmt.Fprintf(&b, `<Relationship Id="rId%d" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, i+1)
	}
	fmt.Fprintf(&b, `<Relationship Id="rId%d" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/>`, sheets+1)
	return b.String() + `</Relationships>`
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

func sheet(b *bufio.Writer, t Table) {
	b.WriteString(xmlHead + `<worksheet ` + mainNS + `><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><sheetData>`)
	b.WriteString(`<row r="1">`)
	for i, h := range t.Head {
		textCell(b, i, 1, h, ` s="1"`)
	}
	b.WriteString("</row>")
	for k, row := range t.Rows {
		fmt.Fprintf(b, `<row r="%d">`, k+2)
		for i, c := range row {
			if c.Value != nil && finite(*c.Value) != nil {
				fmt.Fprintf(b, `<c r="%s%d"><v>%s</v></c>`, column(i), k+2, strconv.FormatFloat(*c.Value, 'g', -1, 64))
				continue
			}
			textCell(b, i, k+2, c.Text, "")
		}
		b.WriteString("</row>")
	}
	b.WriteString(`</sheetData></worksheet>`)
}

// longestCell is the most a cell may hold (ECMA-376; Excel refuses more).
const longestCell = 32767

func textCell(b *bufio.Writer, col, row int, text, style string) {
	text = xmlText(text)
	if text == "" {
		return
	}
	fmt.Fprintf(b, `<c r="%s%d" t="inlineStr"%s><is><t xml:space="preserve">%s</t></is></c>`, column(col), row, style, text)
}

// xmlText escapes text, leaving out what XML cannot hold.
func xmlText(s string) string {
	var b strings.Builder
	n := 0
	for _, r := range Clean(s) {
		if n++; n > longestCell {
			break
		}
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r < 0x20 || r == 0xFFFE || r == 0xFFFF || r == 0xFFFD:
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// column names a column: A … Z, AA …
func column(i int) string {
	s := ""
	for i++; i > 0; i = (i - 1) / 26 {
		s = string(rune('A'+(i-1)%26)) + s
	}
	return s
}
