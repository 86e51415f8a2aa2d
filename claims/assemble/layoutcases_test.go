package assemble_test

// layouts are invented tables of the shapes that this literature prints; the
// names are invented too. Wanted lines are typed by hand: arm; outcome;
// condition; figures; n; unit; letters.
var layouts = []struct{ name, methods, table, want string }{
	{"groups in rows, mean ± SD", "", `
		Time to fracture of the instruments (mean ± SD, n = 12).
		# Instrument | Time to fracture (s)
		Orlin | 702.3 ± 106.8{a}
		Brex | 588.0 ± 140.3{b}
		NOTE: Different letters indicate significant differences (P < .05).`, `
		Orlin; Time to fracture; ; 702.3 sd 106.8; 12; s; a
		Brex; Time to fracture; ; 588.0 sd 140.3; 12; s; b`},
	{"mean (SD) in rows, n in a column", "", `
		Bending load, mean (SD).
		# File | n | Bending load (gf)
		Orlin | 10 | 55.1 (4.2)
		Brex | 9 | 61.7 (5.0)`, `
		Orlin; Bending load; ; 55.1 sd 4.2; 10; gf;
		Brex; Bending load; ; 61.7 sd 5.0; 9; gf;`},
	{"mean and SD in columns of their own, with minimum and maximum", "", `
		Torsional properties
		# Group | n | Mean | SD | Min | Max
		Maximum torque (N·cm) | < | < | < | < | <
		Orlin | 10 | 1.21 | 0.10 | 1.02 | 1.40
		Brex | 10 | 0.98 | 0.12 | 0.80 | 1.15
		Angular deflection (°) | < | < | < | < | <
		Orlin | 10 | 410 | 33 | 360 | 460
		Brex | 10 | 380 | 41 | 310 | 440`, `
		Orlin; Maximum torque; ; 1.21 sd 0.10 min 1.02 max 1.40; 10; N·cm;
		Brex; Maximum torque; ; 0.98 sd 0.12 min 0.80 max 1.15; 10; N·cm;
		Orlin; Angular deflection; ; 410 sd 33 min 360 max 460; 10; °;
		Brex; Angular deflection; ; 380 sd 41 min 310 max 440; 10; °;`},
	{"two levels of headings: outcome over mean and SD", "", `
		Results of the tests
		# Group | Torque (N·cm) | < | Angle of rotation (°) | <
		# ^ | Mean | SD | Mean | SD
		Orlin | 1.21{a} | 0.10 | 410{a} | 33
		Brex | 0.98{b} | 0.12 | 380{a} | 41`, `
		Orlin; Torque; ; 1.21 sd 0.10; ; N·cm; a
		Orlin; Angle of rotation; ; 410 sd 33; ; °; a
		Brex; Torque; ; 0.98 sd 0.12; ; N·cm; b
		Brex; Angle of rotation; ; 380 sd 41; ; °; a`},
	{"three levels of headings: outcome, temperature, mean and SD", "", `
		Bending load of the files
		# File | n | Bending load [gf] | < | < | <
		# ^ | ^ | 23 °C | < | 37 °C | <
		# ^ | ^ | Mean | SD | Mean | SD
		Orlin | 30 | 371.0 | 53.5 | 535.3 | 57.5
		Brex | 29 | 263.8 | 24.4 | 385.2 | 40.8`, `
		Orlin; Bending load; 23 °C; 371.0 sd 53.5; 30; gf;
		Orlin; Bending load; 37 °C; 535.3 sd 57.5; 30; gf;
		Brex; Bending load; 23 °C; 263.8 sd 24.4; 29; gf;
		Brex; Bending load; 37 °C; 385.2 sd 40.8; 29; gf;`},
	{"transposed: groups in columns, n in a row, p in a row", "", `
		Maximum torque (mean ± SD) in each group.
		# Parameter | Orlin 25/.08 | Brex 25/.08
		n | 15 | 13
		Torque at fracture (N cm) | 1.00 ± 0.10{b} | 1.58 ± 0.17{a}
		P value | 0.001 | <`, `
		Orlin 25/.08; Torque at fracture; ; 1.00 sd 0.10; 15; N cm; b
		Brex 25/.08; Torque at fracture; ; 1.58 sd 0.17; 13; N cm; a`},
	{"mean over SD in two rows", "", `
		Means and standard deviations of screw-in force.
		# | < | Orlin | Brex
		Screw-in force (N) | Mean | 3.68{A} | 1.38{B}
		^ | SD | 0.80 | 0.41`, `
		Orlin; Screw-in force; ; 3.68 sd 0.80; ; N; A
		Brex; Screw-in force; ; 1.38 sd 0.41; ; N; B`},
	{"temperatures as section headings", "", `
		Time to fracture (mean ± SD) (n = 10 per group).
		# Group | Time to fracture (TTF), s | Cycles to failure
		20 °C | < | <
		Orlin | 109.6 ± 13.2 | 548 ± 66
		Brex | 119.0 ± 16.1 | 595 ± 81
		37 °C | < | <
		Orlin | 71.4 ± 11.5 | 357 ± 57
		Brex | 74.1 ± 13.8 | 371 ± 69`, `
		Orlin; Time to fracture (TTF); 20 °C; 109.6 sd 13.2; 10; s;
		Orlin; Cycles to failure; 20 °C; 548 sd 66; 10; ;
		Brex; Time to fracture (TTF); 20 °C; 119.0 sd 16.1; 10; s;
		Brex; Cycles to failure; 20 °C; 595 sd 81; 10; ;
		Orlin; Time to fracture (TTF); 37 °C; 71.4 sd 11.5; 10; s;
		Orlin; Cycles to failure; 37 °C; 357 sd 57; 10; ;
		Brex; Time to fracture (TTF); 37 °C; 74.1 sd 13.8; 10; s;
		Brex; Cycles to failure; 37 °C; 371 sd 69; 10; ;`},
	{"medians with quartiles", "", `
		Weight of extruded debris (mg), median [Q1–Q3].
		# Group | Debris
		Orlin | 0.41 [0.30–0.62]
		Brex | 0.55 [0.38–0.90]
		NOTE: IQR, interquartile range.`, `
		Orlin; Weight of extruded debris; ; median 0.41 iqr 0.30..0.62; ; mg;
		Brex; Weight of extruded debris; ; median 0.55 iqr 0.38..0.90; ; mg;`},
	{"medians with least and greatest value", "", `
		Median (minimum-maximum) microleakage
		# Group | Microleakage (mm)
		Orlin | 1.2 (0.4 to 2.9)
		Brex | 2.0 (0.9 to 3.1)`, `
		Orlin; Microleakage; ; median 1.2 range 0.4..2.9; ; mm;
		Brex; Microleakage; ; median 2.0 range 0.9..3.1; ; mm;`},
	{"means with confidence intervals", "", `
		Mean shear bond strength with 95% confidence interval
		# Adhesive | SBS (MPa)
		Adfix | 21.4 (19.8–23.0)
		Bondal | 17.3 (15.9–18.7)`, `
		Adfix; SBS; ; 21.4 ci95 19.8..23.0; ; MPa;
		Bondal; SBS; ; 17.3 ci95 15.9..18.7; ; MPa;`},
	{"a ± that nothing explains", "", `
		Torque of the instruments
		# Instrument | Maximum torque (N·cm)
		Orlin | 1.21 ± 0.10
		Brex | 0.98 ± 0.12`, `
		Orlin; Maximum torque; ; 1.21 unstated 0.10; ; N·cm;
		Brex; Maximum torque; ; 0.98 unstated 0.12; ; N·cm;`},
	{"the convention stands in the methods", "Data are expressed as mean ± standard deviation. Each group had 15 specimens each.", `
		Torque of the instruments
		# Instrument | Maximum torque (N·cm)
		Orlin | 1.21 ± 0.10
		Brex | 0.98 ± 0.12`, `
		Orlin; Maximum torque; ; 1.21 sd 0.10; 15; N·cm;
		Brex; Maximum torque; ; 0.98 sd 0.12; 15; N·cm;`},
	{"standard errors", "", `
		Mean ± SE of the preparation time in seconds
		# System | Preparation time
		Orlin | 86.7 ± 3.5
		Brex | 103.0 ± 5.3`, `
		Orlin; Preparation time; ; 86.7 se 3.5; ; seconds;
		Brex; Preparation time; ; 103.0 se 5.3; ; seconds;`},
	{"letters in a column of their own", "", `
		Fracture resistance (N)
		# Group | Mean | SD | Tukey
		Orlin | 754.1 | 311.5 | a
		Brex | 803.7 | 248.2 | a
		Tovan | 1498.6 | 370.9 | b
		NOTE: Groups with the same letter do not differ significantly.`, `
		Orlin; Fracture resistance; ; 754.1 sd 311.5; ; N; a
		Brex; Fracture resistance; ; 803.7 sd 248.2; ; N; a
		Tovan; Fracture resistance; ; 1498.6 sd 370.9; ; N; b`},
	{"numbered groups with a description", "", `
		Fracture resistance in Newton, mean (SD)
		# Group | n | Description | Fracture resistance
		1 | 10 | Bulk fill | 754.1 (311.5)
		2 | 10 | Layered | 803.7 (248.2)
		3 | 10 | Fibre insert | 1498.6 (370.9)`, `
		1 Bulk fill; Fracture resistance; ; 754.1 sd 311.5; 10; N;
		2 Layered; Fracture resistance; ; 803.7 sd 248.2; 10; N;
		3 Fibre insert; Fracture resistance; ; 1498.6 sd 370.9; 10; N;`},
	{"times in columns", "", `
		Microhardness (VHN) of dentine, mean ± SD
		# Group | Baseline | After 7 days | After 14 days
		Saline | 62.1 ± 3.3 | 61.8 ± 3.0 | 61.5 ± 3.1
		Chelor | 63.0 ± 2.9 | 50.2 ± 4.4 | 44.0 ± 5.2`, `
		Saline; Microhardness; Baseline; 62.1 sd 3.3; ; VHN;
		Saline; Microhardness; After 7 days; 61.8 sd 3.0; ; VHN;
		Saline; Microhardness; After 14 days; 61.5 sd 3.1; ; VHN;
		Chelor; Microhardness; Baseline; 63.0 sd 2.9; ; VHN;
		Chelor; Microhardness; After 7 days; 50.2 sd 4.4; ; VHN;
		Chelor; Microhardness; After 14 days; 44.0 sd 5.2; ; VHN;`},
	{"thirds of the root in rows, groups in columns", "", `
		Mean (SD) of push-out bond strength in MPa
		# Root third | Group A (n = 20) | Group B (n = 19)
		Coronal | 5.1 (1.0) | 4.0 (0.9)
		Middle | 4.2 (0.8) | 3.6 (1.1)
		Apical | 3.0 (0.7) | 2.9 (0.6)`, `
		Group A; push-out bond strength; Coronal; 5.1 sd 1.0; 20; MPa;
		Group B; push-out bond strength; Coronal; 4.0 sd 0.9; 19; MPa;
		Group A; push-out bond strength; Middle; 4.2 sd 0.8; 20; MPa;
		Group B; push-out bond strength; Middle; 3.6 sd 1.1; 19; MPa;
		Group A; push-out bond strength; Apical; 3.0 sd 0.7; 20; MPa;
		Group B; push-out bond strength; Apical; 2.9 sd 0.6; 19; MPa;`},
	{"outcomes in rows, times under groups in columns", "", `
		Clinical parameters (mean ± SD)
		# | Test group (n = 16) | < | Control group (n = 15) | <
		# | Baseline | 3 months | Baseline | 3 months
		PPD (mm) | 3.8 ± 0.7 | 2.9 ± 0.5 | 3.7 ± 0.6 | 3.3 ± 0.6
		Plaque index | 1.9 ± 0.4 | 0.8 ± 0.3 | 1.8 ± 0.4 | 1.1 ± 0.4`, `
		Test group; PPD; Baseline; 3.8 sd 0.7; 16; mm;
		Test group; PPD; 3 months; 2.9 sd 0.5; 16; mm;
		Control group; PPD; Baseline; 3.7 sd 0.6; 15; mm;
		Control group; PPD; 3 months; 3.3 sd 0.6; 15; mm;
		Test group; Plaque index; Baseline; 1.9 sd 0.4; 16; ;
		Test group; Plaque index; 3 months; 0.8 sd 0.3; 16; ;
		Control group; Plaque index; Baseline; 1.8 sd 0.4; 15; ;
		Control group; Plaque index; 3 months; 1.1 sd 0.4; 15; ;`},
	{"outcome in a label column that covers several rows", "", `
		Indices at the visits, mean ± SD
		# Test | Visit | Experimental | Control | p
		Plaque index | Day 14 | 0.65 ± 0.58 | 1.24 ± 0.66 | 0.001
		^ | Day 21 | 0.97 ± 0.54 | 1.48 ± 0.60 | 0.001
		Gingival index | Day 14 | 0.91 ± 0.84 | 1.33 ± 0.75 | 0.005
		^ | Day 21 | 0.98 ± 0.67 | 1.61 ± 0.66 | 0.001`, `
		Experimental; Plaque index; Day 14; 0.65 sd 0.58; ; ;
		Control; Plaque index; Day 14; 1.24 sd 0.66; ; ;
		Experimental; Plaque index; Day 21; 0.97 sd 0.54; ; ;
		Control; Plaque index; Day 21; 1.48 sd 0.60; ; ;
		Experimental; Gingival index; Day 14; 0.91 sd 0.84; ; ;
		Control; Gingival index; Day 14; 1.33 sd 0.75; ; ;
		Experimental; Gingival index; Day 21; 0.98 sd 0.67; ; ;
		Control; Gingival index; Day 21; 1.61 sd 0.66; ; ;`},
	{"counts with percentages are no measures", "", `
		Failure modes, n (%)
		# Group | Adhesive | Cohesive | Mixed
		Orlin | 16 (53.3) | 2 (6.7) | 12 (40.0)
		Brex | 14 (46.7) | 1 (3.3) | 15 (50.0)`, ``},
	{"counts are known by their arithmetic", "", `
		Outcome of the treatments
		# Outcome | Group A (n = 30) | Group B (n = 32)
		Healed | 21 (70) | 24 (75)
		Age (years), mean ± SD | 41.2 ± 9.0 | 39.8 ± 8.1`, `
		Group A; Age; ; 41.2 sd 9.0; 30; years;
		Group B; Age; ; 39.8 sd 8.1; 32; years;`},
	{"a table of an analysis of variance", "", `
		Results of the two-way ANOVA of bond strength
		# Source | df | Mean square | F | Sig.
		Material | 1 | 3241.02 | 212.06 | .000
		Time | 1 | 69.49 | 4.54 | .034`, ``},
	{"a table of materials", "", `
		Materials used
		# Material | Manufacturer | Composition
		Adfix | Invented Works | HEMA (25), water (10)
		Bondal | Invented Works | Bis-GMA (30)`, ``},
	{"decimal commas and thousands", "", `
		Zeit und Zyklen: time to fracture (mean ± SD)
		# Instrument | Time to fracture (s) | NCF
		Orlin | 702,3 ± 106,8 | 1.083,5 ± 99,1
		Brex | 588,0 ± 140,3 | 1.204,2 ± 88,7`, `
		Orlin; Time to fracture; ; 702,3 sd 106,8; ; s;
		Orlin; NCF; ; 1.083,5 sd 99,1; ; ;
		Brex; Time to fracture; ; 588,0 sd 140,3; ; s;
		Brex; NCF; ; 1.204,2 sd 88,7; ; ;`},
	{"signs of spread that were lost", "", `
		Torque (N·cm), mean and SD
		# Instrument | Maximum torque
		Orlin | 12.3 6 1.1
		Brex | 12.9 + 1.4
		Tovan | 11.0 +/- 1.2`, `
		Orlin; Maximum torque; ; 12.3 sd 1.1; ; N·cm;
		Brex; Maximum torque; ; 12.9 sd 1.4; ; N·cm;
		Tovan; Maximum torque; ; 11.0 sd 1.2; ; N·cm;`},
	{"groups known only by letters are named in the methods",
		"Group A (n = 12): Orlin 25/.06. Group B (n = 11): Brex 25/.06.", `
		NCF of the groups (mean ± SD)
		# Group | NCF
		A | 1204 ± 130
		B | 1011 ± 98`, `
		A; NCF; ; 1204 sd 130; 12; ;
		B; NCF; ; 1011 sd 98; 11; ;`},
	{"a total divided by the number of groups", "A total of 60 instruments were divided into four groups.", `
		NCF of the instruments (mean ± SD)
		# Instrument | NCF
		Orlin | 1204 ± 130
		Brex | 1011 ± 98
		Tovan | 900 ± 110
		Kelm | 850 ± 95`, `
		Orlin; NCF; ; 1204 sd 130; 15; ;
		Brex; NCF; ; 1011 sd 98; 15; ;
		Tovan; NCF; ; 900 sd 110; 15; ;
		Kelm; NCF; ; 850 sd 95; 15; ;`},
	{"adjusted beside raw means, with standard errors", "", `
		Raw and adjusted means of time to fracture
		# Instrument | Raw mean (s) | Adjusted mean (s) | SE
		Orlin | 637.90 | 494.71 | 26.12
		Brex | 444.80 | 469.58 | 20.27`, `
		Orlin; time to fracture; Raw; 637.90; ; s;
		Orlin; time to fracture; Adjusted; 494.71 se 26.12; ; s;
		Brex; time to fracture; Raw; 444.80; ; s;
		Brex; time to fracture; Adjusted; 469.58 se 20.27; ; s;`},
	{"p values and differences beside means", "", `
		Change of the plaque index, mean (SD)
		# Visit | Rinse | Placebo | Mean difference (95% CI) | p-value
		Day 7 | 0.80 (0.21) | 1.10 (0.30) | 0.30 (0.12, 0.48) | 0.002
		Day 14 | 0.60 (0.20) | 1.05 (0.28) | 0.45 (0.20, 0.70) | <0.001`, `
		Rinse; plaque index; Day 7; 0.80 sd 0.21; ; ;
		Placebo; plaque index; Day 7; 1.10 sd 0.30; ; ;
		Rinse; plaque index; Day 14; 0.60 sd 0.20; ; ;
		Placebo; plaque index; Day 14; 1.05 sd 0.28; ; ;`},
	{"headings that the format does not mark", "", `
		Push-out bond strength (MPa)
		Group | Mean | Standard Deviation
		Orlin | 2.29{a} | 0.43
		Brex | 3.20{b} | 0.49`, `
		Orlin; Push-out bond strength; ; 2.29 sd 0.43; ; MPa; a
		Brex; Push-out bond strength; ; 3.20 sd 0.49; ; MPa; b`},
	{"every cell of the body marked as a heading", "", `
		Maximum axial load (mean ± SD)
		# Group | n | Maximum axial load (gf)
		# Orlin 15/.02 | 10 | 597 ± 56{b}
		# Brex 15/.02 | 10 | 685 ± 77{a}`, `
		Orlin 15/.02; Maximum axial load; ; 597 sd 56; 10; gf; b
		Brex 15/.02; Maximum axial load; ; 685 sd 77; 10; gf; a`},
	{"group names that are letters of statistics", "", `
		The microhardness values (VHN) in the groups
		# Groups | Mean±SD | Minimum | Maximum
		C | 37.39±4.97{a} | 31.20 | 45.10
		F | 48.28±2.68{b} | 43.40 | 50.90
		CP | 41.91±3.32{c} | 37.70 | 45.90`, `
		C; microhardness; ; 37.39 sd 4.97 min 31.20 max 45.10; ; VHN; a
		F; microhardness; ; 48.28 sd 2.68 min 43.40 max 50.90; ; VHN; b
		CP; microhardness; ; 41.91 sd 3.32 min 37.70 max 45.90; ; VHN; c`},
	{"mean, SD and n of groups in rows under a section of each group", "", `
		Resonance frequency, comparison of the groups
		# | Baseline | After 3 months
		Control | < | <
		Mean | 55.3 | 59.5
		SD | 1.9 | 4.5
		N | 11 | 11
		Intervention | < | <
		Mean | 53.2 | 65.9
		SD | 3.0 | 6.3
		N | 12 | 12`, `
		Control; Resonance frequency; Baseline; 55.3 sd 1.9; 11; ;
		Control; Resonance frequency; After 3 months; 59.5 sd 4.5; 11; ;
		Intervention; Resonance frequency; Baseline; 53.2 sd 3.0; 12; ;
		Intervention; Resonance frequency; After 3 months; 65.9 sd 6.3; 12; ;`},
	{"footnote letters are no grouping letters", "", `
		Working time (s) of the systems, mean ± SD
		# System | Working time
		Orlin | 86.7 ± 13.5{a}
		Brex | 103.0 ± 20.7
		NOTE: ᵃOne canal was left out.`, `
		Orlin; Working time; ; 86.7 sd 13.5; ; s;
		Brex; Working time; ; 103.0 sd 20.7; ; s;`},
}
