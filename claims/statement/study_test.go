package statement

import (
	"probity/claims"
	"probity/extract"
)

func printedNumber(text string, value float64, decimals int) extract.Number {
	return extract.Number{Text: text, Value: value, Decimals: decimals}
}

// testStudy is an invented study of four invented instruments, two outcomes
// and two temperatures.
func testStudy() *claims.Study {
	velto := &claims.Arm{Name: "Velto", Short: "A", Aliases: []string{"Group A"}, Class: []string{"heat-treated"}}
	koris := &claims.Arm{Name: "Koris", Short: "B", Aliases: []string{"Group B"}, Class: []string{"heat-treated"}}
	marel := &claims.Arm{Name: "Marel", Short: "C", Aliases: []string{"Group C"}, Class: []string{"conventional"}}
	dantor := &claims.Arm{Name: "Dantor", Short: "D", Aliases: []string{"Group D", "control group"}, Control: true, Class: []string{"conventional"}}
	st := &claims.Study{Arms: []*claims.Arm{velto, koris, marel, dantor}}
	add := func(id string, a *claims.Arm, outcome, outcomeID, cond string, text string, v float64, d int) {
		m := &claims.Measure{ID: id, Arm: a, ArmText: a.Name, Outcome: outcome, OutcomeID: outcomeID, Condition: cond, Unit: "s"}
		m.Mean.Number = printedNumber(text, v, d)
		m.Place.Table, m.Place.Section = "1", extract.InTable
		st.Measures = append(st.Measures, m)
	}
	add("m1", velto, "Time to fracture", "time-to-fracture", "20 °C", "702.3", 702.3, 1)
	add("m2", koris, "Time to fracture", "time-to-fracture", "20 °C", "588.0", 588.0, 1)
	add("m3", marel, "Time to fracture", "time-to-fracture", "20 °C", "401.2", 401.2, 1)
	add("m4", dantor, "Time to fracture", "time-to-fracture", "20 °C", "390.0", 390.0, 1)
	add("m5", velto, "Time to fracture", "time-to-fracture", "37 °C", "302.3", 302.3, 1)
	add("m6", koris, "Time to fracture", "time-to-fracture", "37 °C", "288.0", 288.0, 1)
	add("m7", velto, "Bending load", "bending-load", "", "9.8", 9.8, 1)
	add("m8", koris, "Bending load", "bending-load", "", "23.1", 23.1, 1)
	add("m9", marel, "Bending load", "bending-load", "", "25.0", 25.0, 1)
	add("m10", dantor, "Bending load", "bending-load", "", "27.2", 27.2, 1)
	return st
}
