package assemble_test

import (
	"slices"
	"strings"
	"testing"

	"probity/claims/assemble"
	"probity/claims/catalog"
)

// mostBroken is how many pairs of a table and a change that alters no record
// may be read otherwise.
const mostBroken = 0

// told is a drawing with the paragraph that goes with it.
type told struct {
	name, methods string
	drawing
}

func outcomesOf(set string, i int) []measured { return outcomeSets[set][i] }

func labelsOf(list []measured) []string {
	var out []string
	for _, o := range list {
		out = append(out, o.label)
	}
	return out
}

// unchanging are the tables that are printed in other ways. Each is of another
// shape.
func unchanging() []told {
	files, codes := []string{"Orlin", "Brex", "Tovan"}, []string{"H", "P", "O"}
	visits, thirds := []string{"Baseline", "1 week", "4 weeks"}, []string{"Coronal", "Middle", "Apical"}
	torsion, unknown := outcomesOf("several known", 0), outcomesOf("several unknown", 0)
	torque, quiver := torsion[:1], outcomesOf("one unknown", 3)
	const files12 = "Orlin (n = 12), Brex (n = 12) and Tovan (n = 12) were compared."
	const codes12 = "Specimens were divided into three groups (n = 12 each): H, heated files; P, polished files; and O, oxidized files."
	arms := func(names ...string) level { return level{of: byArm, labels: names} }
	outcomes := func(list []measured) level { return level{of: byOutcome, labels: labelsOf(list)} }
	times := func(names ...string) level { return level{of: byTime, labels: names} }
	stats := level{of: byStat, labels: []string{"Mean", "SD"}}
	return []told{
		{"one outcome, arms in rows", files12, drawing{arms: files, outcomes: torque, caption: "Torque at fracture of the instruments, mean ± SD", corner: []string{"Instrument"},
			head: []level{outcomes(torque)}, stub: []level{arms(files...)}, form: plusMinus}},
		{"outcomes in columns, arms in rows", files12, drawing{arms: files, outcomes: torsion, caption: "Torsional properties, mean (SD)", corner: []string{"Instrument"},
			head: []level{outcomes(torsion)}, stub: []level{arms(files...)}, form: bracket}},
		{"outcomes in rows, arms in columns", files12, drawing{arms: files, outcomes: torsion, caption: "Torsional properties, mean ± SD", corner: []string{"Parameter"},
			head: []level{arms(files...)}, stub: []level{outcomes(torsion)}, form: plusMinus}},
		{"outcomes in columns, mean and SD apart", files12, drawing{arms: files, outcomes: torsion, caption: "Torsional properties", corner: []string{"Group"},
			head: []level{outcomes(torsion), stats}, stub: []level{arms(files...)}, form: columns}},
		{"unknown outcomes, arms in columns", files12, drawing{arms: files, outcomes: unknown, caption: "Results of the tests, mean ± SD", corner: []string{""},
			head: []level{arms(files...)}, stub: []level{outcomes(unknown)}, form: plusMinus}},
		{"visits in columns, one unknown outcome", files12, drawing{arms: files, outcomes: quiver, times: visits, caption: "Quiver (gf), mean ± SD", corner: []string{"Group"},
			head: []level{times(visits...)}, stub: []level{arms(files...)}, form: plusMinus}},
		{"thirds in rows, one known outcome, codes", codes12, drawing{arms: codes, outcomes: torque, times: thirds, caption: "Torque at fracture (N·cm), mean (SD)", corner: []string{"Root third"},
			head: []level{arms(codes...)}, stub: []level{times(thirds...)}, form: bracket}},
		{"codes, unknown outcomes in columns", codes12, drawing{arms: codes, outcomes: unknown, caption: "Comparison of the groups, median [IQR]", corner: []string{"Group"},
			head: []level{outcomes(unknown)}, stub: []level{arms(codes...)}, form: quartiles}},
		{"visits under arms, outcomes in rows", "Specimens were divided into two groups: control group and laser group.", drawing{arms: []string{"Control", "Laser"}, outcomes: outcomesOf("several known", 2), times: visits,
			caption: "Clinical parameters, mean ± SD", corner: []string{"Parameter"},
			head: []level{arms("Control (n = 16)", "Laser (n = 15)"), times(visits...)}, stub: []level{outcomes(outcomesOf("several known", 2))}, form: plusMinus}},
		{"arms in sections, outcomes in rows, visits in columns", files12, drawing{arms: files, outcomes: torsion, times: visits, caption: "Torsional properties, mean ± SD", corner: []string{"Parameter"},
			head: []level{times(visits...)}, stub: []level{arms(files...), outcomes(torsion)}, section: true, form: plusMinus}},
		{"arms in outer labels, thirds in inner ones", "", drawing{arms: []string{"Saline", "Heat"}, outcomes: quiver, times: thirds, caption: "Quiver in the groups, mean (SD)", corner: []string{"Group", "Root third"},
			head: []level{outcomes(quiver)}, stub: []level{arms("Saline", "Heat"), times(thirds...)}, form: bracket}},
		{"doses in rows, visits in columns", "The specimens were randomly assigned to receive 5 mg or 10 mg (n = 12 per group).", drawing{arms: []string{"5 mg", "10 mg"}, outcomes: torque, times: visits,
			caption: "Torque at fracture (N·cm), mean ± SD", corner: []string{"Dose"}, head: []level{times(visits...)}, stub: []level{arms("5 mg", "10 mg")}, form: plusMinus}},
		{"names that no text gives, over thirds, unknown outcomes in rows", "", drawing{arms: files[:2], outcomes: unknown, times: thirds, caption: "Summary of the measurements, mean ± SD", corner: []string{""},
			head: []level{arms(files[:2]...), times(thirds...)}, stub: []level{outcomes(unknown)}, form: plusMinus}},
		{"n in the labels, visits in sections", "", drawing{arms: files, outcomes: torsion, times: visits[:2], caption: "Torsional properties, mean (SD)", corner: []string{"Instrument"},
			head: []level{outcomes(torsion)}, stub: []level{times(visits[:2]...), arms("Orlin (n = 12)", "Brex (n = 11)", "Tovan (n = 10)")}, section: true, form: bracket}},
	}
}

// other names of the same kind.
var renamed = strings.NewReplacer("Orlin", "Dravik", "Brex", "Sennit", "Tovan", "Pelk", "Saline", "Vinegar", "Heat", "Frost", "heat", "frost", "Control", "Placebo", "control", "placebo", "Laser", "Rinse", "laser", "rinse",
	"5 mg", "20 mg", "10 mg", "40 mg", "H,", "W,", "P,", "M,", "O,", "K,")

// rename gives a name of an arm its other name; a code of one letter stands
// before no comma.
func rename(s string) string {
	switch s {
	case "H", "P", "O":
		return strings.TrimSuffix(renamed.Replace(s+","), ",")
	}
	return renamed.Replace(s)
}

// changes print a table in another way that says the same.
var changes = []struct {
	name   string
	change func(*told)
}{
	{"rows in another order", func(t *told) { reverse(t.stub) }},
	{"columns in another order", func(t *told) { reverse(t.head) }},
	{"other names of arms", func(t *told) {
		t.methods, t.caption = renamed.Replace(t.methods), renamed.Replace(t.caption)
		t.arms = mapped(t.arms, rename)
		for _, levels := range [][]level{t.head, t.stub} {
			for i := range levels {
				if levels[i].of == byArm {
					levels[i].labels = mapped(levels[i].labels, rename)
				}
			}
		}
	}},
	{"transposed", func(t *told) {
		t.head, t.stub, t.section = t.stub, t.head, false // headings inside the body become headings of columns
		t.corner = nil
	}},
	{"a column of p", func(t *told) { t.p = true }},
	{"units in the caption", func(t *told) {
		var units []string
		for _, o := range t.outcomes {
			if o.unit != "" && !strings.Contains(t.caption, "("+o.unit+")") {
				units = append(units, strings.ToLower(o.name)+" ("+o.unit+")")
			}
		}
		for _, levels := range [][]level{t.head, t.stub} {
			for i := range levels {
				if levels[i].of == byOutcome {
					levels[i].labels = t.outcomeNames()
				}
			}
		}
		if len(units) > 0 {
			t.caption += ": " + strings.Join(units, ", ")
		}
	}},
}

func mapped(list []string, f func(string) string) []string {
	var out []string
	for _, s := range list {
		out = append(out, f(s))
	}
	return out
}

// reverse prints levels from their last entry to their first, but mean before
// SD.
func reverse(levels []level) {
	for i := range levels {
		if levels[i].of != byStat {
			levels[i] = levels[i].reversed()
		}
	}
}

// read gives the records that a table is read as, sorted, a line each; back
// gives renamed arms their old names.
func (t *told) read(tb *testing.T, back map[string]string) []string {
	text, _ := t.set()
	var out []string
	for _, m := range assemble.Study(paperOf(tb, t.methods, text), nil, catalog.Default()).Measures {
		names := []string{m.ArmText, m.Outcome, m.Condition}
		for i, s := range names {
			names[i] = plain(s)
			if old, ok := back[names[i]]; ok {
				names[i] = old
			}
		}
		out = append(out, strings.Join(append(names, m.Centre.String(), m.Mean.Text, m.Spread.Kind.String(), m.Spread.Text, m.N.Text, m.Unit), "; "))
	}
	slices.Sort(out)
	return out
}

// TestInvariance holds the law of printing: a table printed in another way
// that says the same gives the same records.
func TestInvariance(t *testing.T) {
	broken := 0
	for i := range unchanging() {
		base := unchanging()[i]
		base.seed = uint64(i)
		want := base.read(t, nil)
		back := map[string]string{}
		for _, name := range base.arms {
			back[plain(rename(name))] = plain(name)
		}
		for _, c := range changes {
			changed := unchanging()[i]
			changed.seed = uint64(i)
			c.change(&changed)
			var names map[string]string
			if c.name == "other names of arms" {
				names = back
			}
			got := changed.read(t, names)
			if !slices.Equal(got, want) {
				broken++
				t.Logf("%s: %s: %s", base.name, c.name, firstDifference(want, got))
			}
		}
	}
	t.Logf("%d of %d pairs of a table and a change give other records", broken, len(unchanging())*len(changes))
	if broken > mostBroken {
		t.Errorf("%d pairs of a table and a change give other records, want at most %d", broken, mostBroken)
	}
}

// firstDifference shows one record that is lost and one that is new.
func firstDifference(want, got []string) string {
	lost, extra := "nothing", "nothing"
	for _, s := range want {
		if !slices.Contains(got, s) {
			lost = s
			break
		}
	}
	for _, s := range got {
		if !slices.Contains(want, s) {
			extra = s
			break
		}
	}
	return "instead of [" + lost + "] is read [" + extra + "]"
}
