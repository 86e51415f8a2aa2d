package assemble_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/catalog"
)

const plainTable = `
	NCF of the groups (mean ± SD)
	# Group | NCF
	%s | 1204 ± 130
	%s | 811 ± 98`

// Every way a paper names a group leads to one arm.
func TestGroupsAreOne(t *testing.T) {
	for _, c := range []struct{ name, methods, first, second, want, alias string }{
		{"number and name in brackets", "The groups were Group 1 (Orlin) and Group 2 (Brex).", "Group 1", "Group 2", "Orlin", "Group 1"},
		{"colon", "Group A: Orlin 25/.06 (n = 12); Group B: Brex 25/.06 (n = 12).", "A", "B", "Orlin 25/.06", "Group A"},
		{"dash", "Group 1 – saline irrigation; Group 2 – chelating solution.", "1", "2", "saline irrigation", "Group 1"},
		{"name with its group in brackets", "Canals were shaped with Orlin (group A) or with Brex (group B).", "Group A", "Group B", "Orlin", "Group A"},
		{"G and a number", "Four groups were formed: G1: Orlin; G2: Brex.", "G1", "G2", "Orlin", "G1"},
		{"letters in brackets before names", "The instruments were divided into groups: (A) Orlin, (B) Brex.", "A", "B", "Orlin", "A"},
		{"abbreviation", "Laser-assisted debridement (LAD) was compared with hand scaling (HS).", "LAD", "HS", "Laser-assisted debridement", "LAD"},
		{"list with traits", "Two groups were formed: Orlin (25/.06; heat-treated; n = 15) and Brex (25/.06; conventional; n = 15).", "Orlin 25/.06", "Brex 25/.06", "Orlin", "Orlin 25/.06"},
	} {
		t.Run(c.name, func(t *testing.T) {
			study := assemble.Study(paperOf(t, c.methods, fmt.Sprintf(plainTable, c.first, c.second)), nil, catalog.Default())
			if len(study.Measures) != 2 || study.Measures[0].Arm == nil || study.Measures[0].Arm == study.Measures[1].Arm {
				t.Fatalf("measures %v, want two in two arms", study.Measures)
			}
			a := study.Measures[0].Arm
			names := append([]string{a.Name, a.Short}, a.Aliases...)
			if !slices.Contains(names, c.want) || !slices.Contains(names, c.alias) {
				t.Errorf("the first arm is %q, also %q; want %q and %q among them", a.Name, names, c.want, c.alias)
			}
			for _, b := range study.Arms {
				if b != a && b != study.Measures[1].Arm {
					t.Errorf("there is a third arm %q", b.Name)
				}
			}
		})
	}
}

func TestArmTraits(t *testing.T) {
	study := assemble.Study(paperOf(t,
		"They were allocated to two groups (n = 12 per group): Orlin (25/.06; heat-treated) and Brex (30/.04; conventional).",
		fmt.Sprintf(plainTable, "Orlin", "Brex")), nil, catalog.Default())
	a := study.Measures[0].Arm
	if a.Size.Tip != 25 || a.Size.Taper != 0.06 || !slices.Equal(a.Class, []string{"heat-treated"}) || a.N.Value != 12 {
		t.Errorf("Orlin: size %+v, class %q, n %s; want 25, .06, heat-treated, 12", a.Size, a.Class, a.N.Text)
	}
}

func TestLegends(t *testing.T) {
	for _, c := range []struct {
		note   string
		same   claims.Sameness
		within claims.Scope
		upper  claims.Scope
		lower  claims.Scope
	}{
		{"Values sharing the same letter within a column are not significantly different (P > 0.05).", claims.SameNotDifferent, claims.WithinColumn, 0, 0},
		{"Different superscript letters indicate significant differences within the same row (P < 0.05).", claims.SameNotDifferent, claims.WithinRow, 0, 0},
		{"Values with the same superscript (a, b) within columns revealed a statistically significant difference.", claims.SameDifferent, claims.WithinColumn, 0, 0},
		{"Similar letters represent no significant difference.", claims.SameNotDifferent, 0, 0, 0},
		{"Different uppercase letters in columns and lowercase letters in rows indicate significant differences.", claims.SameNotDifferent, 0, claims.WithinColumn, claims.WithinRow},
		{"Means followed by the same letter do not differ statistically by Tukey's test.", claims.SameNotDifferent, 0, 0, 0},
		{"The same lowercase letter in the same row indicates statistical similarity; SD, standard deviation. Groups were statistically similar.", claims.SameNotDifferent, claims.WithinRow, 0, claims.WithinRow},
	} {
		table := fmt.Sprintf(plainTable, "Orlin", "Brex")
		table = strings.Replace(strings.Replace(table, "± 130", "± 130{a}", 1), "± 98", "± 98{b}", 1) + "\nNOTE: " + c.note
		study := assemble.Study(paperOf(t, "", table), nil, catalog.Default())
		m := study.Measures[0]
		if m.Letters != "a" || m.Legend == nil {
			t.Errorf("%s: letters %q, legend %v", c.note, m.Letters, m.Legend)
			continue
		}
		l := m.Legend
		if l.SameMeans != c.same || l.Within != c.within && c.within != 0 || l.Upper != c.upper || l.Lower != c.lower {
			t.Errorf("%s: same %d within %d upper %d lower %d; want %d %d %d %d", c.note, l.SameMeans, l.Within, l.Upper, l.Lower, c.same, c.within, c.upper, c.lower)
		}
	}
}

func TestDesign(t *testing.T) {
	study := assemble.Study(paperOf(t, `
		A total of 48 new instruments were used. They were allocated to four groups (n = 12 per group): Orlin (25/.06; heat-treated), Brex (25/.06; conventional), Tovan (25/.06; conventional) and Kelm (25/.06; conventional).
		The torsion test followed ISO 3630-1: the apical 4 mm were clamped and the shank was rotated clockwise at 2 rpm until fracture.
		Cyclic fatigue was tested in a steel canal (60° angle of curvature, 5 mm radius) at 300 rpm. The temperature was kept at 35 ± 1 °C in a water bath.
		The time was recorded to the nearest second and the test was stopped after 900 s. Three Orlin instruments did not fracture.
		Data were analysed with one-way ANOVA and Tukey's test at a significance level of 5%.
		A sample size calculation with a power of 80% indicated that 9 specimens per group were sufficient.`,
		fmt.Sprintf(plainTable, "Orlin", "Brex")), nil, catalog.Default())
	d := study.Design
	if d.Alpha.Value.Value != 0.05 || !d.WholeUnits {
		t.Errorf("alpha %v, whole units %v; want .05, true", d.Alpha.Value.Value, d.WholeUnits)
	}
	if len(d.Total) == 0 || d.Total[0].Value.Value != 48 || len(d.Groups) == 0 || d.Groups[0].Value.Value != 4 {
		t.Errorf("total %v, groups %v; want 48, 4", d.Total, d.Groups)
	}
	for _, f := range d.PerGroup {
		if f.Value.Value != 12 {
			t.Errorf("n of each group %v, want 12 alone", f.Value.Value)
		}
	}
	var tests []string
	for _, f := range d.Tests {
		tests = append(tests, f.ID)
	}
	if !slices.Contains(tests, "test:anova") || !slices.Contains(tests, "test:tukey") {
		t.Errorf("tests %q, want anova and tukey", tests)
	}
	facts := map[string]claims.Fact{}
	for _, f := range d.Facts {
		facts[f.ID] = f
	}
	for id, want := range map[string]float64{"grip": 4, "torsion-speed": 2, "speed": 300, "temperature": 35, "angle": 60, "radius": 5, "cap": 900} {
		if got := facts[id].Value.Value; got != want {
			t.Errorf("fact %s = %v, want %v", id, got, want)
		}
	}
	if got := facts["standard"].Text; got != "ISO 3630-1" {
		t.Errorf("standard %q, want ISO 3630-1", got)
	}
	if f := facts["run-outs"]; len(f.Arms) != 1 || f.Arms[0].Name != "Orlin" {
		t.Errorf("run-outs of %v, want Orlin", f.Arms)
	}
}

func TestResults(t *testing.T) {
	study := assemble.Study(paperOf(t, "", `
		Torque and angle (mean ± SD)
		# Group | Torque (N·cm) | Angle (°)
		Orlin | 1.21 ± 0.10 | 410 ± 33
		Brex | 0.98 ± 0.12 | 380 ± 41
		P value | 0.002 | <0.001`, `
		Two-way ANOVA
		# Source | df | F | p
		Alloy | 2 | 6.10 | 0.004
		Error | 27 | |`), nil, catalog.Default())
	if len(study.Results) != 3 {
		t.Fatalf("%d results, want 3", len(study.Results))
	}
	if r := study.Results[0]; r.P.Text != "0.002" || len(r.Between) != 2 || r.Between[0].Outcome != "Torque" {
		t.Errorf("first result %+v, want p 0.002 between two torques", r)
	}
	if r := study.Results[2]; r.Name != "F" || len(r.DF) != 2 || r.DF[1].Value != 27 || r.P.Value != 0.004 {
		t.Errorf("third result %+v, want F on 2 and 27", r)
	}
}

func TestApartSaysWhy(t *testing.T) {
	study := assemble.Study(paperOf(t, "", `
		Failure modes, n (%)
		# Group | Adhesive | Mixed
		Orlin | 16 (53.3) | 14 (46.7)`), nil, catalog.Default())
	if len(study.Apart) != 2 || study.Apart[0].Why != "a count with its percentage" {
		t.Errorf("apart %v, want two counts with their percentages", study.Apart)
	}
}

func TestOutcomeIsNeverEmpty(t *testing.T) {
	study := assemble.Study(paperOf(t, "", `
		Glimmer of the groups (mean ± SD)
		# Group | Mean ± SD
		Orlin | 1.21 ± 0.10
		Brex | 0.98 ± 0.12`), nil, catalog.Default())
	if len(study.Measures) != 2 || study.Measures[0].Outcome != "Glimmer" {
		t.Errorf("outcome %q, want Glimmer", study.Measures[0].Outcome)
	}
}

func TestDamagedSignIsNoted(t *testing.T) {
	study := assemble.Study(paperOf(t, "", `
		Torque (N·cm), mean and SD
		# Instrument | Maximum torque
		Orlin | 12.3 6 1.1`), nil, catalog.Default())
	if m := study.Measures[0]; m.Doubt.Sure() {
		t.Errorf("no doubt; want one")
	}
}

func ExampleStudy() {
	doc := paperOf(new(testing.T), "Group A (n = 12): Orlin 25/.06. Group B (n = 11): Brex 25/.06.", `
		Time to fracture, mean ± SD
		# Group | TTF (s)
		A | 702.3 ± 106.8
		B | 588.0 ± 140.3`)
	study := assemble.Study(doc, nil, catalog.Default())
	for _, m := range study.Measures {
		fmt.Println(m.Arm.Name, m.Outcome, m.Mean.Text, m.Spread.Kind, m.Spread.Text, m.Unit, m.N.Text)
	}
	// Output:
	// Orlin 25/.06 TTF 702.3 sd 106.8 s 12
	// Brex 25/.06 TTF 588.0 sd 140.3 s 11
}
