package assemble_test

import (
	"fmt"
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/assemble"
	"probity/claims/catalog"
)

// sizesIn reads a paper with one table and gives the n of the measures in it,
// "-" where it is not known.
func sizesIn(t *testing.T, text, table string) (string, *claims.Study) {
	t.Helper()
	study := assemble.Study(paperOf(t, text, table), nil, catalog.Default())
	var out []string
	for _, m := range study.Measures {
		if m.N.Known() {
			out = append(out, fmt.Sprint(m.N.Value))
		} else {
			out = append(out, "-")
		}
	}
	return strings.Join(out, " "), study
}

const lampTable = `
	Pain scores after treatment (mean ± SD)
	# Outcome | Lamp group | Sham group
	Pain score | 3.4 ± 1.1 | 4.2 ± 1.3`

// Each sentence gives the n of the lamp group and of the sham group, or of
// neither.
func TestSizesOfGroups(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"n in brackets", "Forty-three patients were randomly assigned to the lamp group (n = 22) or the sham group (n = 21).", "22 21"},
		{"people in brackets", "Adults were randomised to a lamp group (22 subjects) or a sham group (21 subjects).", "22 21"},
		{"a bracket behind a bracket", "Patients received either lamp (active treatment) (n = 22) or sham (n = 21).", "22 21"},
		{"name and n in one bracket", "One class served as the treated one (lamp group; n = 22), the other as control (sham group; n = 21).", "22 21"},
		{"number, in the group", "There were 22 subjects in the lamp group and 21 in the sham group.", "22 21"},
		{"number, to the group", "Twenty-two patients were allocated to the lamp group and 21 to the sham group.", "22 21"},
		{"number, received", "Of 43 patients randomised, 22 received lamp treatment and 21 received sham treatment.", "22 21"},
		{"the group included", "The lamp group included 22 patients, and the sham group included 21 patients.", "22 21"},
		{"in order", "The lamp and sham groups consisted of 22 and 21 patients, respectively.", "22 21"},
		{"in order, the groups behind", "There were 22 and 21 patients in the lamp and sham groups, respectively.", "22 21"},
		{"in a list", "Patients were enrolled in two groups (22 lamp, 21 sham).", "22 21"},
		{"in words of hundreds", "One hundred and twenty patients were allocated to the lamp group and ninety to the sham group.", "120 90"},
		{"in the results", "RESULTS: Data of 22 patients in the lamp group and 21 in the sham group were analysed.", "22 21"},
		{"those analysed before those allotted", "Patients were allocated to the lamp group (n = 25) or the sham group (n = 24).\nRESULTS: The final analysis included 22 patients in the lamp group and 21 in the sham group.", "22 21"},
		{"each group", "Patients were randomised into two groups, with 22 patients in each group.", "22 22"},
		{"per group", "Patients were randomised into two groups (n = 22 per group).", "22 22"},
		{"groups of", "Forty-four patients were randomly divided into two groups of 22.", "22 22"},
		{"each", "Patients were randomised to lamp or sham (n = 22 each).", "22 22"},
		{"divided equally", "Forty-four patients took part. They were divided equally into two groups.", "- -"},
		{"a total divided equally", "A total of 44 patients were divided equally into two groups.", "22 22"},
		{"all left but one by another name", "Patients were allocated to the light therapy group (n = 22) or the sham group (n = 21).", "22 21"},
		{"all alike by other names", "Patients were allocated to the red group (n = 22) or the blue group (n = 22).", "22 22"},

		{"required", "A sample of 22 patients in the lamp group and 21 in the sham group was required.", "- -"},
		{"power", "With a power of 80 %, 22 patients per group were sufficient.", "- -"},
		{"lost", "Six patients in the lamp group and five patients in the sham group withdrew.", "- -"},
		{"of whom something is told", "In all, 12 patients in the lamp group and 11 in the sham group had diabetes and were enrolled.", "- -"},
		{"one sex", "The lamp group included 12 men and 10 women, the sham group included 11 men and 10 women.", "- -"},
		{"doses", "Patients were assigned to the lamp group (500 mg) or the sham group (20 mg).", "- -"},
		{"both groups together", "In all, 43 patients were randomised to either the lamp group or the sham group.", "- -"},
		{"blocks", "Patients were randomised to two groups in permuted blocks of 4 per group.", "- -"},
		{"sessions", "Patients were randomised to two groups and had 12 sessions in each group.", "- -"},
		{"two that differ", "Patients were allocated to the lamp group (n = 22) or the sham group (n = 21).\nPatients were allocated to the lamp group (n = 25) or the sham group (n = 21).", "- 21"},
		{"a range", "Patients were randomised into two groups, with 4 to 6 patients in each group.", "- -"},
		{"hours", "Patients in the lamp group (1900–2100) and the sham group (800–1000) were measured.", "- -"},
		{"seen in some", "After treatment healing was seen in 15 patients in the lamp group and in 11 patients in the sham group, who were followed.", "- -"},
		{"with a trait", "There were 18 cases with high values in the lamp group and 16 cases in the sham group.", "- -"},
		{"no people", "The analysis included 307 referrals, of which 111 of the lamp group and 196 of the sham group.", "- -"},
		{"something else in the bracket", "Patients were assigned to two groups (lamp, level 15; sham, level 20).", "- -"},
		{"all of one number", "The same person took all 198 readings using the same lamp for each group.", "- -"},
		{"sessions in groups", "Peers held sessions, typically with groups of 60 patients.", "- -"},
		{"one outcome", "Data on pain were available in 20 patients in the lamp group and 19 patients in the sham group.", "- -"},
		{"as many as all", "A total of 86 women took part. Then 86 women were randomised to the lamp group.", "- -"},
		{"a subset", "In a subset of patients of the lamp group (n = 8) and the sham group (n = 9) blood was taken.", "- -"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, study := sizesIn(t, c.text, lampTable); got != c.want {
				t.Errorf("n of %q: %s, want %s", c.text, got, c.want)
				for _, m := range study.Measures {
					t.Logf("%s: %q", m.ArmText, m.N.Why)
				}
			}
		})
	}
}

// Where those allotted and those who completed are not as many, the figures
// carry a doubt.
func TestSizesThatDiffer(t *testing.T) {
	_, study := sizesIn(t, "Patients were allocated to the lamp group (n = 22) or the sham group (n = 21).\nRESULTS: In the end, 18 patients in the lamp group and 21 in the sham group completed the study.", lampTable)
	lamp, sham := study.Measures[0], study.Measures[1]
	if lamp.N.Value != 22 || lamp.Doubt.Sure() || !sham.Doubt.Sure() {
		t.Errorf("n %v, doubt %v; n %v, doubt %v; want 22 doubted, 21 not", lamp.N.Value, lamp.Doubt, sham.N.Value, sham.Doubt)
	}
}

// Where everyone took every treatment, or nobody was grouped, n is that of the
// whole sample.
func TestSizeOfWholeSample(t *testing.T) {
	const times = `
		Pain scores (mean ± SD)
		# Outcome | Baseline | Week 6
		Pain score | 5.4 ± 1.1 | 4.2 ± 1.3`
	const withAll = `
		Characteristics (mean ± SD)
		# | Lamp group (n = 22) | Sham group (n = 21) | Total
		Pain score | 3.4 ± 1.1 | 4.2 ± 1.3 | 3.8 ± 1.2`
	for _, c := range []struct{ name, text, table, want string }{
		{"crossover", "Twelve healthy volunteers took part in this randomised crossover study of lamp and sham.", lampTable, "12 12"},
		{"own controls", "A total of 48 healthy women took part. They served as their own controls.", lampTable, "48 48"},
		{"in so many", "This crossover trial was conducted in 16 healthy adults.", lampTable, "16 16"},
		{"one group", "Eighteen patients with pain completed the programme.", times, "18 18"},
		{"all of three columns", "A total of 43 patients took part and were allocated to the lamp group or the sham group.", withAll, "22 21 43"},
		{"parallel", "A total of 48 women took part in this trial with two parallel groups; no cross-over study was done.", lampTable, "- -"},
		{"an escape", "A total of 48 women were randomised. In this trial cross-over to the lamp was allowed.", lampTable, "- -"},
		{"screened", "In this crossover trial 60 adults were screened.", lampTable, "- -"},
		{"two that differ as often", "In this crossover trial 60 adults were enrolled. A total of 30 adults were enrolled in spring.", lampTable, "- -"},
		{"thousands", "A total of 1,209 adults took part in this crossover trial.", lampTable, "1209 1209"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, _ := sizesIn(t, c.text, c.table); got != c.want {
				t.Errorf("n of %q: %s, want %s", c.text, got, c.want)
			}
		})
	}
}

// Tables show the size of a group also by its sexes and by counts with their
// percentages, which go before what the text tells; by a row label, and by a
// column beside that of the group.
func TestSizesShown(t *testing.T) {
	const text = "Patients were allocated to the lamp group (n = 25) or the sham group (n = 24)."
	for _, c := range []struct{ name, table, want string }{
		{"sexes", `
			Characteristics (mean ± SD)
			# | Lamp group | Sham group
			Sex (male/female) | 9/7 | 8/5
			Pain score | 3.4 ± 1.1 | 4.2 ± 1.3`, "16 13"},
		{"sexes by name", `
			Characteristics (mean ± SD)
			# Group | Sex | Pain score
			Lamp group | 11 f; 5 m | 3.4 ± 1.1
			Sham group | 5 f; 3 m | 4.2 ± 1.3`, "16 8"},
		{"a ratio of the sexes", `
			Characteristics (mean ± SD)
			# | Lamp group | Sham group
			Male/female ratio | 9/7 | 8/5
			Pain score | 3.4 ± 1.1 | 4.2 ± 1.3`, "25 24"},
		// 9/16 = 56.25 %, 5/16 = 31.25 %, 3/16 = 18.75 %; 4/13 = 30.8 %, 6/13 = 46.2 %, 7/13 = 53.8 %
		{"counts", `
			Characteristics (mean ± SD)
			# | Lamp group | Sham group
			Smokers, n (%) | 9 (56.3) | 4 (30.8)
			Diabetes, n (%) | 5 (31.3) | 6 (46.2)
			Asthma, n (%) | 3 (18.8) | 7 (53.8)
			Pain score | 3.4 ± 1.1 | 4.2 ± 1.3`, "16 13"},
		{"a row label is of both groups", `
			Scores (mean ± SD)
			# | Lamp group | Sham group
			Pain score (n = 45) | 3.4 ± 1.1 | 4.2 ± 1.3`, "- -"},
		{"a row label for each group", `
			Scores (mean ± SD)
			# | Lamp | Sham
			Swelling, mild (lamp n = 12; sham n = 11) | 3.4 ± 1.1 | 4.2 ± 1.3
			Swelling, marked (lamp n = 10; sham n = 13) | 3.1 ± 1.1 | 4.4 ± 1.3`, "12 11 10 13"},
		{"columns of n before the groups", `
			Scores (mean ± SD)
			# | n | Lamp group | n | Sham group
			Pain score | 12 | 3.4 ± 1.1 | 11 | 4.2 ± 1.3`, "12 11"},
		{"columns of n behind the groups", `
			Scores (mean ± SD)
			# | Lamp group | n | Sham group | n
			Pain score | 3.4 ± 1.1 | 12 | 4.2 ± 1.3 | 11`, "12 11"},
		{"a median in brackets", `
			Scores
			# Outcome, mean ± SD (median) | Lamp group | Sham group
			Stay (days), mean ± SD (median) | 9.3 ± 6.4 (7) | 11.3 ± 9.1 (8)`, "25 24"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, study := sizesIn(t, text, c.table)
			if got != c.want {
				t.Errorf("n: %s, want %s", got, c.want)
				for _, m := range study.Measures {
					t.Logf("%s: %v %q", m.ArmText, m.N.Value, m.N.Why)
				}
			}
		})
	}
}

// Captions and notes tell of each group by its name; what they tell of all is
// not that of each.
func TestSizesInCaption(t *testing.T) {
	const table = `
		Pain scores (mean ± SD)%s
		# Outcome | Lamp group | Sham group
		Pain score | 3.4 ± 1.1 | 4.2 ± 1.3
		%s`
	for _, c := range []struct{ name, caption, note, text, want string }{
		{"brackets", " of the lamp group (n = 12) and the sham group (n = 11)", "", "", "12 11"},
		{"without brackets", " (lamp group n=12, sham group n=11)", "", "", "12 11"},
		{"a note", "", "NOTE: N = 12 for lamp and n = 11 for sham.", "", "12 11"},
		{"people", " in 12 patients receiving lamp and 11 patients receiving sham", "", "", "12 11"},
		{"of each", " (n = 12 per group)", "", "", "12 12"},
		{"of all", " (n = 23)", "", "Patients were allocated to the lamp group (n = 12) or the sham group (n = 11).", "12 11"},
		{"of all analysed", " (n = 20)", "", "Patients were allocated to the lamp group (n = 12) or the sham group (n = 11).", "- -"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, _ := sizesIn(t, c.text, fmt.Sprintf(table, c.caption, c.note)); got != c.want {
				t.Errorf("n under %q, %q: %s, want %s", c.caption, c.note, got, c.want)
			}
		})
	}
}

// A whole number in brackets under a heading of percentages is no n.
func TestPercentagesAreNoSizes(t *testing.T) {
	got, _ := sizesIn(t, "", `
		Scores (mean ± SD)
		# Outcome | Lamp group | Sham group
		Pain score (% changed) | 14 ± 12 (33) | 15 ± 11 (28)`)
	if got != "- -" {
		t.Errorf("n = %s, want none", got)
	}
}
