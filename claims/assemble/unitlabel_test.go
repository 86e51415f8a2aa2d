package assemble

import (
	"testing"

	"probity/claims/catalog"
)

// The names are invented or words of every laboratory; the forms are those of
// print: what stands in a label is its name, and its unit as printed.
func TestUnitsInLabels(t *testing.T) {
	ls := &labels{cat: catalog.Default(), seen: map[string]*label{}}
	for _, c := range []struct{ text, clean, unit string }{
		// after a comma, with what is said of the statistics behind it
		{"Weight, kg", "Weight", "kg"},
		{"BMI, kg/m²", "BMI", "kg/m²"},
		{"BMI, Kg.m⁻²", "BMI", "Kg.m⁻²"},
		{"Age, y", "Age", "y"},
		{"Age, years, mean (SD)", "Age", "years"},
		{"Debris, mg, median (Q1, Q3)", "Debris", "mg"},
		{"Duration of session, min. (SD)", "Duration of session", "min."},
		{"Vegetables, serves/day", "Vegetables", "serves/day"},
		{"Cost, €", "Cost", "€"},
		{"White cells, x10³/µL", "White cells", "x10³/µL"},
		{"Filtration, ml/min/1.73 m²", "Filtration", "ml/min/1.73 m²"},
		{"Weight: kg", "Weight", "kg"},
		{"Weight – kg", "Weight", "kg"},
		// in brackets, round or square, alone or with other words
		{"Kinase (U/L)", "Kinase", "U/L"},
		{"Cholesterol [mmol/l]", "Cholesterol", "mmol/l"},
		{"Exposure (ng·h/mL)", "Exposure", "ng·h/mL"},
		{"Age [years (mean SD)]", "Age", "years"},
		{"Bond strength (MPa; mean ± SD)", "Bond strength", "MPa"},
		{"Volume (in mm³)", "Volume", "mm³"},
		{"Height (units: cm)", "Height", "cm"},
		{"Mean TTF ± SD (s)", "TTF", "s"},
		{"Platelets (×10⁹/L)", "Platelets", "×10⁹/L"},
		{"White cells (10^9/L)", "White cells", "10^9/L"},
		{"Red cells (million/mL)", "Red cells", "million/mL"},
		{"Platelets (/nL)", "Platelets", "/nL"},
		{"Pulse (beats per minute)", "Pulse", "beats per minute"},
		{"Pulse (beat/min)", "Pulse", "beat/min"},
		{"Urine (ml/24 h)", "Urine", "ml/24 h"},
		{"Uptake (mL·min⁻¹·kg⁻¹ body mass)", "Uptake", "mL·min⁻¹·kg⁻¹ body mass"},
		{"Uptake (ml/kg⁻¹.min⁻¹⁾", "Uptake", "ml/kg⁻¹.min⁻¹"},
		{"Dose (mg/kg BW/day)", "Dose", "mg/kg BW/day"},
		{"Marker (µmol/g creatinine)", "Marker", "µmol/g creatinine"},
		{"Fruit (pieces/day)", "Fruit", "pieces/day"},
		{"Energy (kJ)", "Energy", "kJ"},
		{"Energy [kcal]", "Energy", "kcal"},
		{"Insulin (uU/ml)", "Insulin", "uU/ml"},
		{"Acuity (logMAR)", "Acuity", "logMAR"},
		{"Pressure (cmH₂O)", "Pressure", "cmH₂O"},
		{"Resistance (dyne s/cm⁵/m²)", "Resistance", "dyne s/cm⁵/m²"},
		{"Walking (MET-min/week)", "Walking", "MET-min/week"},
		{"Copies (log10 copies/mL)", "Copies", "log10 copies/mL"},
		{"Clearance (L/h/kg)", "Clearance", "L/h/kg"},
		{"Mass index (kgm⁻²)", "Mass index", "kgm⁻²"},
		{"Enzyme (nmol/mg x min)", "Enzyme", "nmol/mg x min"},
		{"Response (VU/mL)", "Response", "VU/mL"}, // of a symbol that is not known
		// as the last words
		{"ALT U L⁻¹", "ALT", "U L⁻¹"},
		{"Mass index kg/m2", "Mass index", "kg/m2"},
		{"Torque N·cm", "Torque", "N·cm"},
		{"Glucose mg/dl)", "Glucose", "mg/dl"},
		{"Age years", "Age", "years"},
		{"Age in years", "Age", "years"},
		// after a stroke: given per it, or measured in it
		{"Pulse/min", "Pulse", "/min"},
		{"Steps/day", "Steps", "/day"},
		{"CD4 cells /mL", "CD4 cells", "/mL"},
		{"Time/s", "Time", "s"},
		{"Force/N", "Force", "N"},
		{"Temperature/°C", "Temperature", "°C"},
		// shares: the sign is taken off the end of a name, and stays inside one
		{"CD25%", "CD25", "%"},
		{"CD25 %", "CD25", "%"},
		{"Fat (% energy)", "Fat (% energy)", "%"},
		{"Residue (% w/v)", "Residue (% w/v)", "%"},
		// no unit: counts, sizes of groups, codes, times, doses, ranges, names
		{"Group A (N = 12)", "Group A", ""},
		{"Score (N=34)", "Score", ""},
		{"Group m", "Group m", ""},
		{"Arm h", "Arm h", ""},
		{"Group N", "Group N", ""},
		{"24 h", "24 h", ""},
		{"1st week", "1st week", ""},
		{"250 ppm", "250 ppm", ""},
		{"5% gel", "5% gel", ""},
		{"Gel 5 %", "Gel 5 %", ""},
		{"20 °C", "20 °C", ""},
		{"Tooth(s)", "Tooth(s)", ""},
		{"Pain (0–10)", "Pain (0–10)", ""},
		{"Albumin (117–153)", "Albumin (117–153)", ""},
		{"First year (2003-2004)", "First year (2003-2004)", ""},
		{"Left/right ratio", "Left/right ratio", ""},
		{"Male/female", "Male/female", ""},
		{"N/A", "N/A", ""},
		// no bracket without its other half, nothing left of a mark
		{"Age ( ± DP)", "Age", ""},
		{"Ferritin, fasting))", "Ferritin, fasting", ""},
		{"Hardness (crown", "Hardness crown", ""},
		{"Age, (SD), years", "Age", "years"},
		{"Mean [(standard deviation (SD)]", "", ""},
	} {
		if l := ls.read(c.text); l.clean != c.clean || l.unit != c.unit {
			t.Errorf("label %q is %q with unit %q, want %q, %q", c.text, l.clean, l.unit, c.clean, c.unit)
		}
	}
}
