package extract

import (
	"math"
	"testing"
)

func TestPlacePrintsAndParsesBack(t *testing.T) {
	tests := []struct {
		place Place
		text  string
	}{
		{Place{File: "lee2020.pdf", Page: 6, Section: InTable, Table: "2", Row: 4, Col: 3}, "lee2020.pdf page=6 table=2 row=4 col=3"},
		{Place{File: "a.xml", Section: Abstract, Par: 6, Start: 161, End: 212}, "a.xml section=abstract par=6 chars=161-212"},
		{Place{Section: InTable, Table: "unlabelled 1", Row: 1, Col: 1}, `table="unlabelled 1" row=1 col=1`},
		{Place{File: "two words.xml", Section: Results}, `"two words.xml" section=results`},
		{Place{Section: InTable, Table: "0", Row: 2, Col: 1}, "table=0 row=2 col=1"},
		{Place{}, ""},
	}
	for _, test := range tests {
		if got := test.place.String(); got != test.text {
			t.Errorf("%#v prints as %q, want %q", test.place, got, test.text)
		}
		back, err := ParsePlace(test.text)
		if err != nil || back != test.place {
			t.Errorf("ParsePlace(%q) = %#v, %v, want %#v", test.text, back, err, test.place)
		}
	}
	for _, bad := range []string{"row=0", "row=x", "page=-1", "chars=9", "chars=9-2", "lee.pdf column=2", `table="2`} {
		if p, err := ParsePlace(bad); err == nil {
			t.Errorf("ParsePlace(%q) = %#v, want an error", bad, p)
		}
	}
}

func FuzzParsePlace(f *testing.F) {
	f.Add("lee2020.pdf page=6 table=2 row=4 col=3")
	f.Add(`"a b" chars=1-2`)
	f.Add("table=0")
	f.Fuzz(func(t *testing.T, s string) {
		p, err := ParsePlace(s)
		if err != nil {
			return
		}
		if again, err := ParsePlace(p.String()); err != nil || again.Table != p.Table || again.Row != p.Row || again.Page != p.Page {
			t.Errorf("%q reads as %#v, printed and read again as %#v, %v", s, p, again, err)
		}
	})
}

func TestFlatten(t *testing.T) {
	tests := []struct {
		runs []Run
		want string
	}{
		{[]Run{{Text: "10"}, {Text: "2", Raised: true}}, "10²"},
		{[]Run{{Text: "702.3 ± 106.8"}, {Text: "a,b", Raised: true}}, "702.3 ± 106.8ᵃ,ᵇ"},
		{[]Run{{Text: "H"}, {Text: "2", Lowered: true}, {Text: "O"}}, "H₂O"},
		{[]Run{{Text: " 12.3\u2009±\u00a01.1\n"}}, "12.3 ± 1.1"},
		{[]Run{{Text: "mean"}, {Text: "\n"}, {Text: "(SD)"}}, "mean (SD)"},
		{nil, ""},
	}
	for _, test := range tests {
		if got := Flatten(test.runs); got != test.want {
			t.Errorf("Flatten(%v) = %q, want %q", test.runs, got, test.want)
		}
	}
}

// An index into the lower case is one into the text, whatever the letters.
func TestLowerKeepsEveryByteInItsPlace(t *testing.T) {
	tests := []struct{ text, want string }{
		{"Group B, ÄÖ 25 °C", "group b, äö 25 °c"},
		{"ȺBC \u212aG \u212bM İN", "Ⱥbc \u212ag \u212bm İn"}, // 2 to 3 bytes, 3 to 1, 3 to 2, 2 to 1
		{"A\xffB\xc3", "a\xffb\xc3"},                         // no UTF-8
		{"", ""},
	}
	for _, test := range tests {
		if got := Lower(test.text); got != test.want {
			t.Errorf("Lower(%q) = %q, want %q", test.text, got, test.want)
		}
	}
}

func TestUnraiseUndoesFlatten(t *testing.T) {
	for _, r := range "0123456789abcdefghijklmnoprstuvwxyzABDEG" {
		up := []rune(Flatten([]Run{{Text: string(r), Raised: true}}))[0]
		if back, ok := Unraise(up); !ok || back != r {
			t.Errorf("%q raised is %q, which stands for %q, %v", r, up, back, ok)
		}
	}
}

func TestNumberBounds(t *testing.T) {
	inf := math.Inf(1)
	tests := []struct {
		number    Number
		low, high float64
	}{
		{Number{Text: "2.20", Value: 2.20, Decimals: 2}, 2.195, 2.205},
		{Number{Text: "12", Value: 12}, 11.5, 12.5},
		{Number{Text: ".001", Value: .001, Decimals: 3, Relation: Less}, -inf, .001},
		{Number{Text: "5", Value: 5, Relation: GreaterEqual}, 5, inf},
	}
	for _, test := range tests {
		low, high := test.number.Bounds()
		if math.Abs(low-test.low) > 1e-12 && !math.IsInf(low, -1) || math.IsInf(low, -1) != math.IsInf(test.low, -1) ||
			math.Abs(high-test.high) > 1e-12 && !math.IsInf(high, 1) || math.IsInf(high, 1) != math.IsInf(test.high, 1) {
			t.Errorf("%q stands for %v to %v, want %v to %v", test.number.Text, low, high, test.low, test.high)
		}
	}
}

func TestProblemSaysWhatWhereAndWhatToDo(t *testing.T) {
	p := &Problem{Place: Place{File: "lee.html", Section: InTable, Table: "2", Row: 4, Col: 3}, What: `"12,8±1.1" has both a comma and a point`, Try: "say which is meant"}
	if got, want := p.Error(), `lee.html table=2 row=4 col=3: "12,8±1.1" has both a comma and a point; say which is meant`; got != want {
		t.Errorf("Error() = %q, want %q", got, want)
	}
}
