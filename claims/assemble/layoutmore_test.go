package assemble_test

// moreLayouts are harder shapes.
var moreLayouts = []struct{ name, methods, table, want string }{
	{"the groups in a second row of headings that is not marked as one", "", `
		Scores (mean ± SD)
		# | Baseline | < | Study end (3 months) | <
		Score | Control (n = 23) | Lamp (n = 22) | Control (n = 23) | Lamp (n = 22)
		Sleepiness | 2.9 ± 0.9 | 2.8 ± 1.1 | 2.7 ± 1.1 | 2.1 ± 1.0
		Headache | 2.5 ± 1.1 | 2.6 ± 1.2 | 2.4 ± 0.9 | 1.8 ± 0.9`, `
		Control; Sleepiness; Baseline; 2.9 sd 0.9; 23; ;
		Lamp; Sleepiness; Baseline; 2.8 sd 1.1; 22; ;
		Control; Sleepiness; Study end (3 months); 2.7 sd 1.1; 23; ;
		Lamp; Sleepiness; Study end (3 months); 2.1 sd 1.0; 22; ;
		Control; Headache; Baseline; 2.5 sd 1.1; 23; ;
		Lamp; Headache; Baseline; 2.6 sd 1.2; 22; ;
		Control; Headache; Study end (3 months); 2.4 sd 0.9; 23; ;
		Lamp; Headache; Study end (3 months); 1.8 sd 0.9; 22; ;`},
	{"group and outcome in one label, with the word group between", "", `
		Mean ± SD before and after polishing
		# Surface | Pre-test | Post-test
		Lamp group roughness | 2.9 ± 0.9 | 2.8 ± 1.1
		Control group roughness | 2.7 ± 1.1 | 2.1 ± 1.0
		Lamp group surface hardness | 52 ± 6 | 55 ± 7
		Control group surface hardness | 50 ± 5 | 48 ± 6`, `
		Lamp group; roughness; Pre-test; 2.9 sd 0.9; ; ;
		Lamp group; roughness; Post-test; 2.8 sd 1.1; ; ;
		Control group; roughness; Pre-test; 2.7 sd 1.1; ; ;
		Control group; roughness; Post-test; 2.1 sd 1.0; ; ;
		Lamp group; surface hardness; Pre-test; 52 sd 6; ; ;
		Lamp group; surface hardness; Post-test; 55 sd 7; ; ;
		Control group; surface hardness; Pre-test; 50 sd 5; ; ;
		Control group; surface hardness; Post-test; 48 sd 6; ; ;`},
	{"rows of n of the patients and of their clinics", "", `
		Scores of the patients (mean ± SD)
		# Score | Control | Lamp
		Patients | n = 124 | n = 95
		Clinics | n = 9 | n = 8
		Sleepiness | 2.9 ± 0.9 | 2.8 ± 1.1
		Headache | 2.5 ± 1.1 | 2.6 ± 1.2`, `
		Control; Sleepiness; ; 2.9 sd 0.9; 124; ;
		Lamp; Sleepiness; ; 2.8 sd 1.1; 95; ;
		Control; Headache; ; 2.5 sd 1.1; 124; ;
		Lamp; Headache; ; 2.6 sd 1.2; 95; ;`},
	{"a column of units", "", `
		Torsional properties (mean ± SD)
		# Parameter | Unit | Orlin (n = 12) | Brex (n = 11)
		Maximum torque | N·cm | 1.21 ± 0.10 | 0.98 ± 0.12
		Angular deflection | ° | 410 ± 33 | 380 ± 41`, `
		Orlin; Maximum torque; ; 1.21 sd 0.10; 12; N·cm;
		Brex; Maximum torque; ; 0.98 sd 0.12; 11; N·cm;
		Orlin; Angular deflection; ; 410 sd 33; 12; °;
		Brex; Angular deflection; ; 380 sd 41; 11; °;`},
	{"traits of the groups beside them", "", `
		NCF (mean ± SD)
		# Instrument | Size | Alloy | NCF
		Orlin | 25/.06 | heat-treated | 1204 ± 130
		Brex | 25/.06 | conventional | 811 ± 98
		Tovan | 25/.04 | conventional | 902 ± 77`, `
		Orlin; NCF; ; 1204 sd 130; ; ;
		Brex; NCF; ; 811 sd 98; ; ;
		Tovan; NCF; ; 902 sd 77; ; ;`},
	{"group and temperature in label columns", "", `
		Time to fracture in seconds, mean (SD)
		# Instrument | Temperature | n | TTF
		Orlin | 20 °C | 10 | 702.3 (106.8)
		^ | 37 °C | 10 | 401.0 (60.2)
		Brex | 20 °C | 10 | 588.0 (140.3)
		^ | 37 °C | 9 | 390.5 (88.8)`, `
		Orlin; TTF; 20 °C; 702.3 sd 106.8; 10; seconds;
		Orlin; TTF; 37 °C; 401.0 sd 60.2; 10; seconds;
		Brex; TTF; 20 °C; 588.0 sd 140.3; 10; seconds;
		Brex; TTF; 37 °C; 390.5 sd 88.8; 9; seconds;`},
	{"a second pair of columns beside the first", "", `
		Descriptive statistics
		# Group | Mean | SD | CV (%) | SE | 95% CI
		Torque (N·cm) | < | < | < | < | <
		Orlin | 1.21 | 0.10 | 8.3 | 0.03 | 1.14–1.28
		Brex | 0.98 | 0.12 | 12.2 | 0.04 | 0.89–1.07`, `
		Orlin; Torque; ; 1.21 sd 0.10; ; N·cm;
		Brex; Torque; ; 0.98 sd 0.12; ; N·cm;`},
	{"mean with SD, and median beside", "", `
		Screw-in force (N)
		# Instrument | Mean ± SD | Median | Range
		Orlin | 3.68 ± 0.80 | 3.60 | 2.1–5.0
		Brex | 1.38 ± 0.41 | 1.30 | 0.8–2.2`, `
		Orlin; Screw-in force; ; 3.68 sd 0.80 min 2.1 max 5.0; ; N;
		Brex; Screw-in force; ; 1.38 sd 0.41 min 0.8 max 2.2; ; N;`},
	{"rows called Mean and SD with the outcome in their label", "", `
		Results
		# | Orlin | Brex
		Mean TTF (s) | 702.3 | 588.0
		SD of TTF (s) | 106.8 | 140.3
		Mean NCF | 3511 | 2940
		SD of NCF | 534 | 702`, `
		Orlin; TTF; ; 702.3 sd 106.8; ; s;
		Brex; TTF; ; 588.0 sd 140.3; ; s;
		Orlin; NCF; ; 3511 sd 534; ; ;
		Brex; NCF; ; 2940 sd 702; ; ;`},
	{"spread in brackets in the row below", "", `
		Mean (SD) of the bending moment (N·cm)
		# Instrument | Bending moment
		Orlin | 1.21
		 | (0.10)
		Brex | 0.98
		 | (0.12)`, `
		Orlin; Bending moment; ; 1.21 sd 0.10; ; N·cm;
		Brex; Bending moment; ; 0.98 sd 0.12; ; N·cm;`},
	{"a note with an exception to n", "", `
		NCF (mean ± SD)
		# Instrument | NCF
		Orlin | 1204 ± 130
		Brex | 811 ± 98
		NOTE: n = 12 in every group except Brex (n = 11).`, `
		Orlin; NCF; ; 1204 sd 130; 12; ;
		Brex; NCF; ; 811 sd 98; 11; ;`},
	{"a section's unit ends at the next; sizes of groups are no newtons", "", `
		Outcomes, mean (SD)
		# Outcome | Orlin (N = 12) | Brex (N = 11)
		Duration of treatment, years | < | <
		Left side | 3.1 (0.8) | 3.8 (0.9)
		Attitude | < | <
		Left view | 12.5 (2.2) | 13.1 (2.4)`, `
		Orlin; Duration of treatment; Left side; 3.1 sd 0.8; 12; years;
		Brex; Duration of treatment; Left side; 3.8 sd 0.9; 11; years;
		Orlin; Attitude; Left view; 12.5 sd 2.2; 12; ;
		Brex; Attitude; Left view; 13.1 sd 2.4; 11; ;`},
	{"outcome and group in one label", "The blocks were divided into two groups: G1 (polished) and G2 (heated).", `
		Results after polishing, mean ± SD
		# Variable | Before | After
		Hardness (HV) G1 | 340.1 ± 16.6 | 329.5 ± 35.7
		Hardness (HV) G2 | 338.3 ± 15.6 | 312.4 ± 46.3
		Wear (µm) G1 | 0.41 ± 0.12 | 0.50 ± 0.18
		Wear (µm) G2 | 0.39 ± 0.11 | 0.31 ± 0.16`, `
		G1; Hardness; Before; 340.1 sd 16.6; ; HV;
		G1; Hardness; After; 329.5 sd 35.7; ; HV;
		G2; Hardness; Before; 338.3 sd 15.6; ; HV;
		G2; Hardness; After; 312.4 sd 46.3; ; HV;
		G1; Wear; Before; 0.41 sd 0.12; ; µm;
		G1; Wear; After; 0.50 sd 0.18; ; µm;
		G2; Wear; Before; 0.39 sd 0.11; ; µm;
		G2; Wear; After; 0.31 sd 0.16; ; µm;`},
	{"group and time in one label", "The files were divided into group A and group B (n = 12 per group).", `
		Torque (N·cm), mean ± SD
		# Group | Torque
		Group A before | 1.21 ± 0.10
		Group A after | 1.01 ± 0.12
		Group B before | 1.25 ± 0.09
		Group B after | 1.22 ± 0.11`, `
		Group A; Torque; before; 1.21 sd 0.10; 12; N·cm;
		Group A; Torque; after; 1.01 sd 0.12; 12; N·cm;
		Group B; Torque; before; 1.25 sd 0.09; 12; N·cm;
		Group B; Torque; after; 1.22 sd 0.11; 12; N·cm;`},
	{"an outcome's own unit wins over the caption's", "", `
		Pulse (/min) and pain (mm) of the groups, mean ± SD
		# Group | Pulse/min | Pain
		Orlin | 71.3 ± 6.2 | 22.1 ± 4.0
		Brex | 74.9 ± 7.0 | 25.3 ± 4.4`, `
		Orlin; Pulse; ; 71.3 sd 6.2; ; /min;
		Orlin; Pain; ; 22.1 sd 4.0; ; mm;
		Brex; Pulse; ; 74.9 sd 7.0; ; /min;
		Brex; Pain; ; 25.3 sd 4.4; ; mm;`},
	{"units in a heading row of their own", "", `
		Mean (SD) of the outcomes
		# Instrument | Torque at fracture | Angle of rotation
		# | (N·cm) | (°)
		Orlin | 1.21 (0.10) | 410 (33)
		Brex | 0.98 (0.12) | 380 (41)`, `
		Orlin; Torque at fracture; ; 1.21 sd 0.10; ; N·cm;
		Orlin; Angle of rotation; ; 410 sd 33; ; °;
		Brex; Torque at fracture; ; 0.98 sd 0.12; ; N·cm;
		Brex; Angle of rotation; ; 380 sd 41; ; °;`},
	{"groups in sections, outcomes in rows, conditions in columns", "", `
		Fatigue at two temperatures (mean ± SD)
		# Outcome | 20 °C | 37 °C
		Orlin 25/.06 | < | <
		TTF (s) | 702.3 ± 106.8 | 401.0 ± 60.2
		NCF | 3511 ± 534 | 2005 ± 301
		Brex 25/.06 | < | <
		TTF (s) | 588.0 ± 140.3 | 390.5 ± 88.8
		NCF | 2940 ± 702 | 1952 ± 444`, `
		Orlin 25/.06; TTF; 20 °C; 702.3 sd 106.8; ; s;
		Orlin 25/.06; TTF; 37 °C; 401.0 sd 60.2; ; s;
		Orlin 25/.06; NCF; 20 °C; 3511 sd 534; ; ;
		Orlin 25/.06; NCF; 37 °C; 2005 sd 301; ; ;
		Brex 25/.06; TTF; 20 °C; 588.0 sd 140.3; ; s;
		Brex 25/.06; TTF; 37 °C; 390.5 sd 88.8; ; s;
		Brex 25/.06; NCF; 20 °C; 2940 sd 702; ; ;
		Brex 25/.06; NCF; 37 °C; 1952 sd 444; ; ;`},
	{"times printed as minutes and seconds", "", `
		Preparation time (mean ± SD)
		# System | Preparation time (min:s)
		Orlin | 3:25 ± 0:40
		Brex | 4:10 ± 0:55`, `
		Orlin; Preparation time; ; 3:25 sd 0:40; ; min:s;
		Brex; Preparation time; ; 4:10 sd 0:55; ; min:s;`},
	{"mean, SD and range in one bracket", "", `
		Torque (N·cm): mean (SD; range)
		# Instrument | Maximum torque
		Orlin | 1.21 (0.10; 1.02–1.40)
		Brex | 0.98 (0.12; 0.80–1.15)`, `
		Orlin; Maximum torque; ; 1.21 sd 0.10 min 1.02 max 1.40; ; N·cm;
		Brex; Maximum torque; ; 0.98 sd 0.12 min 0.80 max 1.15; ; N·cm;`},
	{"a legend that names the groups", "", `
		NCF of the groups (mean ± SD; n = 20)
		# Group | NCF
		A | 1204 ± 130
		B | 811 ± 98
		NOTE: A: Orlin; B: Brex.`, `
		A; NCF; ; 1204 sd 130; 20; ;
		B; NCF; ; 811 sd 98; 20; ;`},
	{"letters on the left and of two cases", "", `
		Microhardness (VHN), mean ± SD
		# Group | 24 h | 7 days
		Saline | 62.1 ± 3.3 Aa | 61.8 ± 3.0 Aa
		Chelor | 50.2 ± 4.4 Ba | 44.0 ± 5.2 Bb`, `
		Saline; Microhardness; 24 h; 62.1 sd 3.3; ; VHN; Aa
		Saline; Microhardness; 7 days; 61.8 sd 3.0; ; VHN; Aa
		Chelor; Microhardness; 24 h; 50.2 sd 4.4; ; VHN; Ba
		Chelor; Microhardness; 7 days; 44.0 sd 5.2; ; VHN; Bb`},
	{"Weibull figures beside means", "", `
		Fatigue life
		# Instrument | Mean NCF | SD | Weibull modulus | Characteristic life
		Orlin | 1204 | 130 | 9.8 | 1262
		Brex | 811 | 98 | 8.1 | 853`, `
		Orlin; NCF; ; 1204 sd 130; ; ;
		Brex; NCF; ; 811 sd 98; ; ;`},
	{"a column of change in percent", "", `
		Bending load (gf) at two temperatures
		# Instrument | 23 °C, mean ± SD | 37 °C, mean ± SD | Change (%)
		Orlin | 371.0 ± 53.5 | 535.3 ± 57.5 | 44.3
		Brex | 263.8 ± 24.4 | 385.2 ± 40.8 | 46.0`, `
		Orlin; Bending load; 23 °C; 371.0 sd 53.5; ; gf;
		Orlin; Bending load; 37 °C; 535.3 sd 57.5; ; gf;
		Brex; Bending load; 23 °C; 263.8 sd 24.4; ; gf;
		Brex; Bending load; 37 °C; 385.2 sd 40.8; ; gf;`},
	{"materials by treatments", "", `
		Shear bond strength in MPa (mean ± SD) of the cements by surface treatment
		# Cement | No treatment | Sandblasting | Silane
		Adfix | 8.1 ± 1.2{Bc} | 12.4 ± 2.0{Ab} | 15.5 ± 2.2{Aa}
		Bondal | 10.0 ± 1.7{Ac} | 13.1 ± 1.9{Ab} | 16.0 ± 2.5{Aa}
		NOTE: Different uppercase letters in columns and lowercase letters in rows indicate significant differences.`, `
		Adfix; Shear bond strength; No treatment; 8.1 sd 1.2; ; MPa; Bc
		Adfix; Shear bond strength; Sandblasting; 12.4 sd 2.0; ; MPa; Ab
		Adfix; Shear bond strength; Silane; 15.5 sd 2.2; ; MPa; Aa
		Bondal; Shear bond strength; No treatment; 10.0 sd 1.7; ; MPa; Ac
		Bondal; Shear bond strength; Sandblasting; 13.1 sd 1.9; ; MPa; Ab
		Bondal; Shear bond strength; Silane; 16.0 sd 2.5; ; MPa; Aa`},
	{"n under each heading and a total row", "", `
		Canal transportation (mm)
		# Level | Orlin | < | Brex | <
		# ^ | n | Mean ± SD | n | Mean ± SD
		3 mm | 20 | 0.06 ± 0.04 | 19 | 0.09 ± 0.05
		6 mm | 20 | 0.10 ± 0.05 | 19 | 0.12 ± 0.06`, `
		Orlin; Canal transportation; 3 mm; 0.06 sd 0.04; 20; mm;
		Brex; Canal transportation; 3 mm; 0.09 sd 0.05; 19; mm;
		Orlin; Canal transportation; 6 mm; 0.10 sd 0.05; 20; mm;
		Brex; Canal transportation; 6 mm; 0.12 sd 0.06; 19; mm;`},
	{"a figure named by a symbol of the mean", "", `
		Time to fracture of the instruments
		# Instrument | x̄ ± SD (s) | N
		Orlin | 702.3 ± 106.8 | 12
		Brex | 588.0 ± 140.3 | 12`, `
		Orlin; Time to fracture; ; 702.3 sd 106.8; 12; s;
		Brex; Time to fracture; ; 588.0 sd 140.3; 12; s;`},
	{"pairwise comparisons", "", `
		Pairwise comparisons of NCF (Tukey)
		# Comparison | Mean difference ± SE | p
		Orlin vs Brex | 393 ± 44 | <0.001
		Orlin vs Tovan | 302 ± 44 | 0.002`, ``},
	{"correlations", "", `
		Correlation between the outcomes
		# | TTF | Torque
		Torque | 0.41 (0.02) | 1
		Angle | −0.20 (0.31) | 0.11 (0.40)`, ``},
}
