package cite

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Invented references.
var refs = []Ref{
	{Title: "Fatigue of Kestrine & Halyard: 50% more?", Authors: []Name{{"Oakhollow", "P R"}, {"van der Tamsin", "Ruth"}}, Journal: "Annals of Imaginary Endodontics",
		Year: 2031, Volume: "4", Issue: "2", Pages: "77–81", DOI: "10.5555/a_b"},
	{Title: "Überlegung zu β", Authors: []Name{{"No Society", ""}}, Year: 2029},
}

func TestThereAndBack(t *testing.T) {
	for _, f := range Formats {
		var b bytes.Buffer
		if err := f.Write(&b, refs); err != nil {
			t.Fatal(err)
		}
		got, err := Read(b.Bytes())
		if err != nil {
			t.Fatalf("%s: %v\n%s", f.Name, err, b.String())
		}
		for i := range got {
			got[i].Key = ""
		}
		if diff := cmp.Diff(refs, got); diff != "" {
			t.Errorf("%s there and back (-want +got):\n%s\n%s", f.Name, diff, b.String())
		}
	}
}

func TestReadBibTeX(t *testing.T) {
	got, err := Read([]byte(`% a note
@comment{not this}
@string{ann = "Annals of "}
@Article{o1, title = "The {NCF} of {\"u}ber-files", author={Oakhollow, P. and M{\'\i}n, J and others},
  journal = ann # {Nowhere}, year = 2031, pages={1--9}, doi = {https://doi.org/10.5555/X1}, file={:papers/o1.pdf:PDF}}
@misc{broken, title = {open
`))
	if err != nil {
		t.Fatal(err)
	}
	want := Ref{Key: "o1", Title: "The NCF of über-files", Authors: []Name{{"Oakhollow", "P."}, {"Mín", "J"}}, Journal: "Annals of Nowhere", Year: 2031,
		Pages: "1–9", DOI: "10.5555/x1", File: "o1.pdf"}
	if diff := cmp.Diff(want, got[0]); diff != "" {
		t.Error(diff)
	}
}

func TestParseName(t *testing.T) {
	for in, want := range map[string]Name{
		"Oakhollow, Paul": {"Oakhollow", "Paul"}, "Paul Oakhollow": {"Oakhollow", "Paul"}, "Oakhollow PR": {"Oakhollow", "PR"},
		"P Oakhollow": {"Oakhollow", "P"}, "Jan van der Tamsin": {"van der Tamsin", "Jan"}, "Society": {"Society", ""},
	} {
		if got := ParseName(in); got != want {
			t.Errorf("ParseName(%q) = %+v, want %+v", in, got, want)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for _, s := range []string{"", "plain words", "[]", "@comment{x}", "TY  - JOUR\nER  - \n", "{"} {
		if got, err := Read([]byte(s)); err == nil {
			t.Errorf("Read(%q) = %v, want an error", s, got)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, fm := range Formats {
		var b bytes.Buffer
		fm.Write(&b, refs)
		f.Add(b.Bytes())
	}
	f.Add([]byte(`@a{b,title={\"`))
	f.Add([]byte("@string{a=\\"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := Read(data)
		if err != nil {
			return
		}
		for _, fm := range Formats {
			var b bytes.Buffer
			if err := fm.Write(&b, got); err != nil {
				t.Errorf("%s: %v", fm.Name, err)
			}
			if strings.ContainsRune(b.String(), 0x1b) {
				t.Errorf("%s lets an escape through", fm.Name)
			}
		}
	})
}
