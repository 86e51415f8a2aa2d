package catalog_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"probity/claims/catalog"
)

// TestRows walks every row of every table.
func TestRows(t *testing.T) {
	c := catalog.Default()
	better := map[string]bool{"higher": true, "lower": true, "target": true, "depends": true, "none": true}
	seen := map[string]string{}
	once := func(table, key, owner string) {
		k := table + " " + key
		if was, ok := seen[k]; ok && was != owner {
			t.Errorf("%s: %q stands for both %s and %s", table, key, was, owner)
		}
		seen[k] = owner
	}
	for _, o := range c.Outcomes {
		if o.ID == "" || o.Name == "" || o.Source == "" || !better[o.Better] {
			t.Errorf("outcome %+v lacks an id, a name, a source or a direction", o)
		}
		if o.Unit != "" && c.Unit(o.Unit) == nil {
			t.Errorf("outcome %s: unit %q is in no row of units.csv", o.ID, o.Unit)
		}
		once("outcome id", o.ID, o.ID+o.Name)
		for _, a := range o.Aliases {
			once("outcome alias", alias(a), o.ID)
			if m := c.FindOutcomes(a); len(m) != 1 || m[0].Row.ID != o.ID {
				t.Errorf("FindOutcomes(%q) does not give %s alone", a, o.ID)
			}
		}
	}
	for _, u := range c.Units {
		if u.ID == "" || u.Quantity == "" || u.Source == "" || u.Factor == 0 {
			t.Errorf("unit %+v lacks an id, a quantity, a factor or a source", u)
		}
		once("unit id", u.ID, u.ID+u.Source)
		for _, a := range u.Aliases {
			once("unit alias", strings.ReplaceAll(a, " ", ""), u.ID)
			if got := c.FindUnit(a); got == nil || got.ID != u.ID {
				t.Errorf("FindUnit(%q) = %v, want %s", a, got, u.ID)
			}
		}
	}
	for _, s := range c.Spreads {
		once("mark", s.Mark, s.Mark+s.Kind)
		if s.Kind == "" || s.Source == "" {
			t.Errorf("mark %+v lacks a kind or a source", s)
		}
		if got := c.Mark(s.Mark); got != s.Kind {
			t.Errorf("Mark(%q) = %q, want %q", s.Mark, got, s.Kind)
		}
	}
	for _, f := range c.Figures {
		once("figure words "+f.Where, f.Words, f.Words+f.Kind+fmt.Sprint(f.Weight))
		if f.Source == "" || f.Where != "label" && f.Where != "caption" {
			t.Errorf("figures %+v lack a source or the place where the words stand", f)
		}
		if m := c.FindFigures(f.Where, f.Words); len(m) != 1 || m[0].Row.Words != f.Words {
			t.Errorf("FindFigures(%q, %q) does not give its row alone", f.Where, f.Words)
		}
	}
	for _, l := range c.Labels {
		once("label", strings.ToLower(l.Words), l.Words+l.Kind)
		if got := c.Label(l.Words); l.Source == "" || got != l.Kind {
			t.Errorf("Label(%q) = %q, want %q and a source", l.Words, got, l.Kind)
		}
	}
	for _, x := range c.Tests {
		once("test id", x.ID, x.ID+x.Name)
		if x.ID == "" || x.Name == "" || x.Source == "" || x.Family == "" {
			t.Errorf("test %+v lacks an id, a name, a family or a source", x)
		}
		for _, a := range x.Aliases {
			once("test alias", alias(a), x.ID)
			if m := c.FindTests(a); len(m) != 1 || m[0].Row.ID != x.ID {
				t.Errorf("FindTests(%q) does not give %s alone", a, x.ID)
			}
		}
	}
}

// alias folds a name as a reader would: short ones with capitals stay as
// they are.
func alias(s string) string {
	if len(s) <= 5 {
		return s
	}
	return strings.ToLower(s)
}

func TestFindOutcome(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Torque at fracture (N·cm)", "torque-at-fracture"},
		{"Time to fracture (TTF), s", "time-to-fracture"},
		{"Mean number of cycles to fracture (NCF)", "cycles-to-fracture"},
		{"Maximum torque during preparation", "operating-torque"},
		{"Fracture loads of the restored teeth (N)", "fracture-resistance"},
		{"Bending load at 45° [gf]", "bending-load"},
		{"fl of the samples", ""},
		{"FL (mm)", "fragment-length"},
		{"Hair length", ""},
	} {
		got := ""
		if o := catalog.Default().FindOutcome(c.text); o != nil {
			got = o.ID
		}
		if got != c.want {
			t.Errorf("FindOutcome(%q) = %q, want %q", c.text, got, c.want)
		}
	}
}

func TestUnitIn(t *testing.T) {
	for _, c := range []struct{ text, printed, id string }{
		{"Torque (N·cm)", "N·cm", "N.cm"},
		{"Time to fracture (TTF), s", "s", "s"},
		{"TTF [s]", "s", "s"},
		{"Bond strength in MPa of the groups", "MPa", "MPa"},
		{"Mean (± SD, mm)", "mm", "mm"},
		{"Mineral loss (Vol. % × μm)", "Vol. % × μm", "vol%.µm"},
		{"Rate (mm²/h)", "mm²/h", ""},
		{"Group (n = 12)", "", ""},
		{"% of P. gingivalis", "%", "%"},
		{"Angular deflection (°)", "°", "deg"},
		{"Load, mN", "mN", "mN"},
	} {
		u, printed := catalog.Default().UnitIn(c.text)
		id := ""
		if u != nil {
			id = u.ID
		}
		if printed != c.printed || id != c.id {
			t.Errorf("UnitIn(%q) = %q %q, want %q %q", c.text, id, printed, c.id, c.printed)
		}
	}
}

func TestConvert(t *testing.T) {
	for _, c := range []struct {
		source   string
		value    float64
		from, to string
		want     float64
		within   float64
	}{
		{"NIST SP 811, App. B.8: 1 N·cm is 101.9716 gf·cm", 1, "N.cm", "gf.cm", 101.9716, 5e-5},
		{"by hand: 0.226 N·cm is 2.26 mN·m", 0.226, "N.cm", "mN.m", 2.26, 1e-9},
		{"by hand: 37 °C is 310.15 K", 37, "degC", "K", 310.15, 1e-9},
		{"by hand: 98.6 °F is 37 °C", 98.6, "degF", "degC", 37, 1e-9},
		{"by hand: 180 degrees are π radians", 180, "deg", "rad", math.Pi, 1e-12},
		{"by hand: 1 MPa is 145.038 psi", 1, "MPa", "psi", 145.038, 5e-4},
	} {
		got, _, err := catalog.Default().Convert(c.value, c.from, c.to)
		if err != nil || math.Abs(got-c.want) > c.within {
			t.Errorf("%s: Convert(%v, %s, %s) = %v, %v", c.source, c.value, c.from, c.to, got, err)
		}
	}
	if _, _, err := catalog.Default().Convert(1, "N", "N.cm"); err == nil {
		t.Error("a force converted to a torque")
	}
}

// Every unit converts there and back.
func TestConvertBack(t *testing.T) {
	c := catalog.Default()
	for _, a := range c.Units {
		for _, b := range c.Units {
			if a.Quantity != b.Quantity {
				continue
			}
			there, _, err := c.Convert(12.5, a.ID, b.ID)
			if err != nil {
				t.Fatal(err)
			}
			back, _, _ := c.Convert(there, b.ID, a.ID)
			if math.Abs(back-12.5) > 1e-9 {
				t.Errorf("12.5 %s to %s and back is %v", a.ID, b.ID, back)
			}
		}
	}
}

func TestUnitPartsHaveKindsAndSources(t *testing.T) {
	kinds := map[string]bool{"unit": true, "base": true, "letter": true, "part": true, "noun": true, "of": true}
	for _, p := range catalog.Default().UnitParts {
		if !kinds[p.Kind] && !strings.HasPrefix(p.Kind, "names ") || p.Source == "" || len(p.Symbols) == 0 {
			t.Errorf("part %v: kind %q, source %q; want a known kind and a source", p.Symbols, p.Kind, p.Source)
		}
	}
}

// What is a unit as a whole, and what only looks like one.
func TestIsUnit(t *testing.T) {
	c := catalog.Default()
	for text, want := range map[string]bool{ // any order: each text is asked by itself
		"kg": true, "mg/dL": true, "U L⁻¹": true, "kg m⁻²": true, "10^9/L": true, "×10⁶": true, "beats per minute": true, "/min": true,
		"h µg L⁻¹": true, "mg.dL⁻¹": true, "nmol × min/L": true, "mOsm/kg": true, "kDa": true, "cells/µL": true,
		"dL": false, "N/A": false, "n/N": false, "M/F": false, "NS": false, "0–10": false, "10": false, "A": false, "left/right": false, "log": false,
		"per": false, "/": false, "mg/": false, "": false,
	} {
		if got := c.IsUnit(text); got != want {
			t.Errorf("IsUnit(%q) = %v, want %v", text, got, want)
		}
	}
}

func TestLoadSaysWhere(t *testing.T) {
	bad := fstest.MapFS{"units.csv": {Data: []byte("id,quantity,factor,offset,aliases,source\ns,time,one,0,s,SI\n")}}
	_, err := catalog.Load(bad)
	if err == nil || !strings.Contains(err.Error(), "units.csv line 2") {
		t.Errorf("Load = %v, want an error that names units.csv line 2", err)
	}
}

func ExampleCatalog_FindTests() {
	for _, m := range catalog.Default().FindTests("Data were compared by one-way ANOVA and Tukey's post hoc test (α = 0.05).") {
		fmt.Println(m.Row.ID)
	}
	// Output:
	// anova
	// tukey
}

func BenchmarkFindOutcomes(b *testing.B) {
	c := catalog.Default()
	text := strings.Repeat("The mean number of cycles to fracture and the time to failure did not differ among groups. ", 10)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		c.FindOutcomes(text)
	}
}

func TestAlarmsHaveKindsAndSources(t *testing.T) {
	kinds := map[string]bool{"clinical": true, "absolute": true, "superlative": true}
	for _, a := range catalog.Default().Alarms {
		if !kinds[a.Kind] || a.Source == "" || len(a.Words) == 0 {
			t.Errorf("alarm %v: kind %q, source %q; want a known kind and a source", a.Words, a.Kind, a.Source)
		}
	}
}
