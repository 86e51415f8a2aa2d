package assemble_test

import (
	"testing"

	"probity/claims/assemble"
	"probity/claims/catalog"
)

// pairLayouts are invented tables whose cells are two whole numbers, "a (b)":
// counts with percentages, means with spreads, or both.
var pairLayouts = []struct{ name, methods, table, want string }{
	{"whole means, an outcome a row, told in a note", "", `
		The operators of both groups
		# | Orlin (n = 30) | Brex (n = 30)
		Age (years) | 41 (8.1) | 43 (6.8)
		Height (cm) | 166 (6.4) | 167 (4.7)
		Experience (years) | 9.2 (3.1) | 8.8 (3.4)
		NOTE: Values are mean (SD).`, `
		Orlin; Age; ; 41 sd 8.1; 30; years;
		Brex; Age; ; 43 sd 6.8; 30; years;
		Orlin; Height; ; 166 sd 6.4; 30; cm;
		Brex; Height; ; 167 sd 4.7; 30; cm;
		Orlin; Experience; ; 9.2 sd 3.1; 30; years;
		Brex; Experience; ; 8.8 sd 3.4; 30; years;`},
	// 81 is 9 % of 853 to 952 and 128 is 15 % of 826 to 882: the first two rows of
	// Orlin have totals in common, by chance.
	{"whole means with whole spreads, some of which fit one total by chance", "", `
		Mean (SD) of what was measured in both groups
		# | Orlin (n = 20) | Brex (n = 19)
		Peak load (N) | 128 (15) | 127 (14)
		Load at yield (N) | 81 (9) | 80 (9)
		Energy (mJ) | 377 (69) | 351 (67)
		Deflection (µm) | 230 (101) | 247 (117)
		Preparation time (s) | 139 (66) | 143 (65)`, `
		Orlin; Peak load; ; 128 sd 15; 20; N;
		Brex; Peak load; ; 127 sd 14; 19; N;
		Orlin; Load at yield; ; 81 sd 9; 20; N;
		Brex; Load at yield; ; 80 sd 9; 19; N;
		Orlin; Energy; ; 377 sd 69; 20; mJ;
		Brex; Energy; ; 351 sd 67; 19; mJ;
		Orlin; Deflection; ; 230 sd 101; 20; µm;
		Brex; Deflection; ; 247 sd 117; 19; µm;
		Orlin; Preparation time; ; 139 sd 66; 20; s;
		Brex; Preparation time; ; 143 sd 65; 19; s;`},
	// Of 50 and 48 that were asked: 23/50 = 46 %, 26/48 = 54.2; one did not
	// answer: 11/49 = 22.4, 13/47 = 27.7; three did not: 19/47 = 40.4, 30/46 = 65.2.
	{"counts with their percentages, some of which have fewer to count from", "", `
		Habits of the dentists
		# Habit | Orlin (n = 50) | Brex (n = 48)
		Women | 23 (46) | 26 (54)
		Left-handed | 11 (22) | 13 (28)
		Work with loupes | 19 (40) | 30 (65)
		None of these | 0 (0) | 1 (2)`, ``},
	// 23/40 = 57.5, 24/40 = 60, 17/40 = 42.5, 16/40 = 40, 9/40 = 22.5, 11/40 = 27.5.
	{"ages among counts", "", `
		The patients
		# | Orlin (n = 40) | Brex (n = 40)
		Age (years) | 41 (8.1) | 40 (7.4)
		Women | 23 (58) | 24 (60)
		Men | 17 (42) | 16 (40)
		Smokers | 9 (23) | 11 (28)
		NOTE: Values are mean (SD) or n (%).`, `
		Orlin; Age; ; 41 sd 8.1; 40; years;
		Brex; Age; ; 40 sd 7.4; 40; years;`},
	// 23/40 = 57.5, 24/41 = 58.5, 17/40 = 42.5, 17/41 = 41.5: the classes of one
	// whole, though no heading says of how many.
	{"classes that come to 100 per cent, ages between them", "", `
		The patients: mean (SD) or number
		# | Orlin | Brex
		Women | 23 (57.5) | 24 (58.5)
		Men | 17 (42.5) | 17 (41.5)
		Age (years) | 41 (8.1) | 40 (7.4)
		BMI (kg/m²) | 24 (3) | 25 (4)`, `
		Orlin; Age; ; 41 sd 8.1; ; years;
		Brex; Age; ; 40 sd 7.4; ; years;
		Orlin; BMI; ; 24 sd 3; ; kg/m²;
		Brex; BMI; ; 25 sd 4; ; kg/m²;`},
	// 26/69 = 37.7, 27/69 = 39.1, 16/69 = 23.2; 7/19 = 36.8, 6/19 = 31.6.
	{"percentages of the row", "", `
		Debris left by how the dentists work
		# Habit | None | Some | Much
		Orlin | 26 (37.7) | 27 (39.1) | 16 (23.2)
		Brex | 7 (36.8) | 6 (31.6) | 6 (31.6)`, ``},
	{"a mean with its SD under a heading of counts", "", `
		The patients
		# | Orlin, n (%) | Brex, n (%)
		Women | 122 (52) | 131 (55)
		Age (years), mean (SD) | 46 (16.8) | 47 (15.3)`, `
		Orlin; Age; ; 46 sd 16.8; ; years;
		Brex; Age; ; 47 sd 15.3; ; years;`},
	{"two whole numbers that nothing explains", "", `
		What was found
		# | Orlin | Brex
		First round | 13 (1) | 15 (4)
		Second round | 9 (1) | 7 (2)
		Third round | 16 (5) | 18 (1)`, ``},
	{"a mean of percentages is no count", "", `
		Debris left on the wall
		# Group | Wall with debris, mean (SD)
		Orlin | 62% (33%)
		Brex | 75% (40%)`, `
		Orlin; Wall with debris; ; 62 sd 33; ; %;
		Brex; Wall with debris; ; 75 sd 40; ; %;`},
}

// What is no measure says why.
func TestPairsApart(t *testing.T) {
	for _, c := range []struct{ name, why string }{
		{"counts with their percentages, some of which have fewer to count from", "a count with its percentage"},
		{"percentages of the row", "a count with its percentage"},
		{"two whole numbers that nothing explains", "two figures whose meaning is not stated"},
	} {
		for _, l := range pairLayouts {
			if l.name != c.name {
				continue
			}
			study := assemble.Study(paperOf(t, "", l.table), nil, catalog.Default())
			if len(study.Apart) == 0 {
				t.Errorf("%s: nothing is set apart", c.name)
			}
			for _, a := range study.Apart {
				if a.Why != c.why {
					t.Errorf("%s: %q is set apart as %q, want %q", c.name, a.Text, a.Why, c.why)
				}
			}
		}
	}
}
