package assemble_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/catalog"
)

const torqueTable = `
	Torque of the instruments
	# Instrument | Maximum torque (N·cm)
	Orlin | 1.21 ± 0.10
	Brex | 98 ± 0.12`

func corrections(t *testing.T, lines string) []assemble.Correction {
	t.Helper()
	list, problems, err := assemble.ReadCorrections(strings.NewReader("place,field,was,now,why\n"+lines), "x.corrections.csv")
	if err != nil || len(problems) > 0 {
		t.Fatalf("ReadCorrections: %v %v", problems, err)
	}
	return list
}

// A corrected cell is read anew, and its figure says so; the document stays
// as it was.
func TestTextCorrection(t *testing.T) {
	doc := paperOf(t, "", torqueTable)
	study := assemble.Study(doc, corrections(t, `table=1 row=3 col=2,text,98 ± 0.12,0.98 ± 0.12,the point is lost`), catalog.Default())
	m := study.Measures[1]
	if m.Mean.Text != "0.98" || m.Mean.Origin != claims.Corrected || m.Mean.Why != "the point is lost" {
		t.Errorf("mean %+v, want 0.98, corrected", m.Mean)
	}
	if got := doc.Tables()[0].Rows[2][1].Text(); got != "98 ± 0.12" {
		t.Errorf("the document was changed: %q", got)
	}
}

func TestCorrectionsOfMeaning(t *testing.T) {
	study := assemble.Study(paperOf(t, "", torqueTable), corrections(t, `
table=1,spread,Torque of the instruments,SD,table footnote
table=1,n,Torque of the instruments,12,"Methods, p. 3"
table=1 row=2,unit,Orlin,mN·m,text of the results
table=1 row=2 col=1,role,Orlin,control,"Methods, p. 3"`), catalog.Default())
	if len(study.Problems) > 0 {
		t.Fatalf("problems %v", study.Problems)
	}
	a, b := study.Measures[0], study.Measures[1]
	if a.Spread.Kind != claims.SD || b.Spread.Kind != claims.SD || a.N.Value != 12 || a.N.Origin != claims.Corrected {
		t.Errorf("spread %v %v, n %v; want sd, sd, 12 corrected", a.Spread.Kind, b.Spread.Kind, a.N)
	}
	if a.UnitID != "mN.m" || b.UnitID != "N.cm" || !a.Arm.Control {
		t.Errorf("units %s %s, control %v; want mN.m, N.cm, true", a.UnitID, b.UnitID, a.Arm.Control)
	}
}

func TestCorrectionsThatDoNotApply(t *testing.T) {
	for _, line := range []string{
		"table=1 row=3 col=2,text,9.8 ± 0.12,0.98 ± 0.12,a better reader has changed it",
		"table=7 row=3 col=2,text,98 ± 0.12,0.98 ± 0.12,no such table",
		"table=1,spread,Another caption,SD,not printed there",
		"table=1,n,Torque of the instruments,twelve,not a number",
	} {
		study := assemble.Study(paperOf(t, "", torqueTable), corrections(t, line), catalog.Default())
		if len(study.Problems) != 1 || !strings.Contains(study.Problems[0].What, "line 2") {
			t.Errorf("%s: problems %v, want one that names line 2", line, study.Problems)
		}
	}
}

func TestReadCorrectionsRefuses(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"table=1 row=2,size,x,y,z", "field"},
		{"page=3,text,x,y,z", "table"},
		{"table=1,n,,12,methods", "was is empty"},
		{"table=1,n,Torque,12,", "why is empty"},
		{"table=one row=x,n,Torque,12,why", "row=x"},
	} {
		list, problems, err := assemble.ReadCorrections(strings.NewReader("place,field,was,now,why\n"+c.line+"\n"), "x.csv")
		if err != nil || len(list) != 0 || len(problems) != 1 || !strings.Contains(problems[0].What, c.want) {
			t.Errorf("%s: %v %v %v, want one problem about %q", c.line, list, problems, err, c.want)
		}
	}
	if _, _, err := assemble.ReadCorrections(strings.NewReader("a,b\n"), "x.csv"); err == nil {
		t.Error("a file without the header line was read")
	}
	if list, problems, err := assemble.ReadCorrections(strings.NewReader(""), "x.csv"); list != nil || problems != nil || err != nil {
		t.Error("an empty file is no corrections")
	}
}

// A sheet that is not filled in changes nothing; one that is filled in
// applies.
func TestSheetReadsBack(t *testing.T) {
	doc := paperOf(t, "", torqueTable)
	rows := assemble.Sheet(doc, catalog.Default())
	var blank, filled bytes.Buffer
	w, f := csv.NewWriter(&blank), csv.NewWriter(&filled)
	spread := false
	for i, row := range rows {
		_ = w.Write(row)
		if i > 0 && row[1] == "spread" {
			row[3], row[4], spread = "SD", "asked the authors", true
		}
		_ = f.Write(row)
	}
	w.Flush()
	f.Flush()
	if !spread {
		t.Fatal("the sheet has no row for the spread that the paper does not name")
	}
	list, problems, err := assemble.ReadCorrections(&blank, "blank.csv")
	if len(list) != 0 || len(problems) != 0 || err != nil {
		t.Errorf("blank sheet: %v %v %v", list, problems, err)
	}
	list, _, _ = assemble.ReadCorrections(&filled, "filled.csv")
	study := assemble.Study(doc, list, catalog.Default())
	if len(study.Problems) != 0 || study.Measures[0].Spread.Kind != claims.SD {
		t.Errorf("filled sheet: problems %v, kind %v", study.Problems, study.Measures[0].Spread.Kind)
	}
}
