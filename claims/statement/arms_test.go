package statement

import (
	"fmt"
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// armCases are invented sentences about the invented study of testStudy, with
// the reading typed by hand: kind, direction, subject against reference, the
// pairs of measures (an "?" behind a pair that is a guess), the printed p.
// What stands under "any" is not looked at.
var armCases = []struct{ text, want string }{
	// percent and fold claims are tied to the tables
	{"Velto lasted 19.4% longer than Koris at 20 °C.", "percent higher Velto/Koris m1:m2"},
	{"Velto lasted 19.4% longer than Koris.", "percent higher Velto/Koris m1:m2? m5:m6?"},
	{"At 37 °C, the time to fracture of Velto was 5.0% longer than that of Koris.", "percent higher Velto/Koris m5:m6"},
	{"The bending load of Koris was 2.4 times that of Velto.", "fold higher Koris/Velto m8:m7"},
	{"The bending load of Velto reached 42.4% of that of Koris.", "percent - Velto/Koris m7:m8"},
	{"Compared with Koris, the bending load of Velto was reduced by 57.6%.", "percent lower Velto/Koris m7:m8"},
	{"Group A had a 57.6% lower bending load than group B.", "percent lower Group A/group B m7:m8"},
	{"Velto was 57.6% more flexible than Koris, with a lower bending load.", "percent lower Velto/Koris m7:m8"},
	{"Koris and Marel exceeded Velto in bending load by 136% and 155%, respectively.", "percent higher Koris/Velto m8:m7 | percent higher Marel/Velto m9:m7"},
	{"Bending load was 136% higher with Koris than with Velto.", "percent higher Koris/Velto m8:m7"},
	{"Velto needed 64.0% less bending load than the control group.", "percent lower Velto/control group m7:m10"},
	// significance
	{"The bending load of Velto was significantly lower than that of Koris (P < 0.001).", "significance lower Velto/Koris m7:m8 P < 0.001"},
	{"Velto and Koris differed significantly in bending load (p = .010).", "significance - Velto/Koris m7:m8 p = .010"},
	{"A statistically significant difference in bending load was found between Velto and Marel (p < .001).", "significance - Velto/Marel m7:m9 p < .001"},
	{"Significant differences in bending load were seen between Velto and Koris and Marel.", "significance - Velto/Koris and Marel m7:m8 m7:m9 m8:m9"},
	{"Velto showed a significantly higher bending load than Marel (P,.05).", "significance higher Velto/Marel m7:m9 P,.05"},
	{"Velto showed statistically lower bending load than Koris (P=0.0056).", "significance lower Velto/Koris m7:m8 P=0.0056"},
	{"Koris had a greater bending load than Velto (p < 0.01).", "significance higher Koris/Velto m8:m7 p < 0.01"},
	{"The bending load was 9.8 N for Velto and 23.1 N for Koris (P = 0.0056).", "significance - Velto/Koris m7:m8 P = 0.0056"},
	// no difference
	{"There was no significant difference in bending load between Marel and Dantor (P = 0.75).", "no-difference - Marel/Dantor m9:m10 P = 0.75"},
	{"The bending load of Marel did not differ significantly from that of Dantor (p > .05).", "no-difference - Marel/Dantor m9:m10 p > .05"},
	{"No difference in bending load was found between groups C and D.", "no-difference - C/D m9:m10"},
	{"Marel and Dantor showed similar bending load.", "no-difference - Marel/Dantor m9:m10"},
	{"Marel was equivalent to Dantor in bending load.", "no-difference - Marel/Dantor m9:m10"},
	{"The bending load of Marel and Dantor was not statistically different (p=0,62).", "no-difference - Marel/Dantor m9:m10 p=0,62"},
	{"The difference in bending load between Marel and Dantor was insignificant.", "no-difference - Marel/Dantor m9:m10"},
	{"Neither Marel nor Dantor differed significantly in bending load.", "no-difference - Marel/Dantor m9:m10"},
	{"There was no significant difference in bending load between Velto and Koris, Koris and Marel, and Marel and Dantor (P>0.05).", "no-difference - any m7:m8 m8:m9 m9:m10 P>0.05"},
	{"For bending load, significant differences were found between Velto and Koris, but not between Marel and Dantor.", "significance - Velto/Koris m7:m8 | no-difference - Marel/Dantor m9:m10"},
	{"The bending load of Velto was lower than that of Koris, but this difference was not significant.", "no-difference - Velto/Koris m7:m8 | ranking lower Velto/Koris m7:m8"},
	// order
	{"The order of bending load was Dantor > Marel > Koris > Velto.", "ranking higher Dantor>Marel>Koris>Velto"},
	{"Dantor had the highest bending load, followed by Marel, Koris and Velto.", "ranking higher Dantor>Marel>Koris>Velto"},
	{"The mean bending load ranked as follows: Velto, Koris, Marel, Dantor, from lowest to highest.", "ranking lower Velto<Koris<Marel<Dantor"},
	{"The lowest bending load was recorded for Velto and the highest for Dantor.", "ranking lower Velto<Dantor"},
	{"Dantor and Velto had the highest and the lowest bending load, respectively.", "ranking higher Dantor>Velto"},
	{"Velto had the lowest bending load.", "ranking lower Velto/all m7:m8 m7:m9 m7:m10"},
	{"In descending order of bending load: Dantor, Marel, Koris and Velto.", "ranking higher Dantor>Marel>Koris>Velto"},
	// the former, the latter, the others, both
	{"Velto and Koris were bent; the bending load of the former was lower than that of the latter.", "ranking lower the former/the latter m7:m8"},
	{"Velto had a significantly lower bending load than all other groups (P < 0.05).", "significance lower Velto/all other groups m7:m8 m7:m9 m7:m10 P < 0.05"},
	{"Velto had a lower bending load than both Koris and Marel.", "ranking lower Velto/Koris and Marel m7:m8 m7:m9"},
	{"Heat-treated instruments had a lower bending load than conventional instruments.", "ranking lower Heat-treated/conventional m7:m9? m7:m10? m8:m9? m8:m10?"},
	{"No significant difference in bending load was found between the groups (P > .05).", "no-difference - any m7:m8 m7:m9 m7:m10 m8:m9 m8:m10 m9:m10 P > .05"},
	// a bare comparison and a difference with its value
	{"The bending load of Velto was lower than that of Koris.", "ranking lower Velto/Koris m7:m8"},
	{"Koris required more bending load than Velto.", "ranking higher Koris/Velto m8:m7"},
	{"The difference in bending load between Koris and Velto was 13.3 N.", "difference - Koris/Velto m8:m7"},
	// test statistics
	{"One-way ANOVA showed a significant difference among the groups in bending load (F(3,36) = 5.21, P = 0.004).", "significance - any any P = 0.004 | test-statistic F(3,36)=5.21 P = 0.004"},
	{"Velto bent more easily than Koris in bending load (t(18) = 2.40, p = .027).", "any | test-statistic t(18)=2.40 p = .027"},
	{"The groups differed significantly in bending load (Kruskal-Wallis H = 9.80, p = .020).", "significance - any any p = .020 | test-statistic H()=9.80 p = .020"},
	{"Groups differed significantly in bending load, χ² (3) = 11.2, P < .05.", "significance - any any P < .05 | test-statistic chi2(3)=11.2 P < .05"},
	{"Mann-Whitney showed a significant difference in bending load (U = 34.5, P = .03).", "significance - any any P = .03 | test-statistic U()=34.5 P = .03"},
	// sentences that state nothing of the kind
	{"The bending load was measured at 45 degrees.", ""},
	{"The level of significance was set at P < 0.05.", ""},
	{"Differences were considered significant at P < .05.", ""},
	{"ANOVA was used to compare the bending load of the groups.", ""},
	{"The aim was to compare the bending load of Velto and Koris.", ""},
	{"Velto and Koris were inspected under a microscope.", ""},
}

// written writes statements as armCases do.
func written(s *claims.Statement) string {
	switch {
	case s.Kind == claims.TestStatistic:
		var df []string
		for _, d := range s.Stat.DF {
			df = append(df, d.Text)
		}
		return fmt.Sprintf("%s %s(%s)=%s %s", s.Kind, s.Stat.Name, strings.Join(df, ","), s.Stat.Value.Text, "p")
	case len(s.Order) > 0:
		out := ""
		for i, p := range s.Order {
			if i > 0 {
				out += map[int]string{1: ">", 0: "=", -1: "<"}[s.Than[i-1]]
			}
			out += p.Text
		}
		return fmt.Sprintf("%s %s %s", s.Kind, s.Direction, out)
	}
	ref := s.Reference.Text
	if ref == "" && s.Reference.All {
		ref = "all"
	}
	out := fmt.Sprintf("%s %s %s/%s", s.Kind, dash(s.Direction.String()), s.Subject.Text, ref)
	for _, p := range s.Pairs {
		out += " " + p.A.ID + ":" + p.B.ID
		if !p.Sure() {
			out += "?"
		}
	}
	if s.P.Known() && s.Kind != claims.Percent && s.Kind != claims.Fold {
		out += " " + s.Printed
	}
	return out
}

// agrees compares a reading with what is wanted, where "any" stands for all.
func agrees(got, want string) bool {
	if want == "any" || got == want {
		return true
	}
	g, w := strings.Fields(got), strings.Fields(want)
	if strings.HasPrefix(want, "test-statistic ") {
		return len(g) > 1 && g[0] == w[0] && g[1] == w[1]
	}
	if len(w) > 3 && w[2] == "any" && w[3] == "any" {
		return strings.HasPrefix(got, w[0]+" "+w[1]+" ") && strings.HasSuffix(got, " "+strings.Join(w[4:], " "))
	}
	if len(w) > 3 && w[2] == "any" {
		return strings.HasPrefix(got, w[0]+" "+w[1]+" ") && strings.HasSuffix(got, " "+strings.Join(w[3:], " "))
	}
	return false
}

func TestArms(t *testing.T) {
	for _, c := range armCases {
		doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Place: extract.Place{Section: extract.Results}, Runs: []extract.Run{{Text: c.text}}}}}
		found, _ := Read(doc, testStudy(), catalog.Default())
		var got []string
		for _, s := range found {
			got = append(got, written(s))
		}
		var want []string
		if c.want != "" {
			want = strings.Split(c.want, " | ")
		}
		ok := len(got) == len(want)
		for i := 0; ok && i < len(got); i++ {
			match := false
			for _, w := range want {
				match = match || agrees(got[i], w)
			}
			ok = match
		}
		if !ok {
			t.Errorf("%s\n got  %s\n want %s", c.text, strings.Join(got, " | "), c.want)
		}
	}
}

// A printed p with each of its signs, damaged ones among them.
func TestPrintedP(t *testing.T) {
	tests := []struct {
		text string
		rel  extract.Relation
		v    float64
	}{
		{"P<0.05", extract.Less, .05}, {"P < .001", extract.Less, .001}, {"p = .03", extract.Equal, .03}, {"p=0,02", extract.Equal, .02},
		{"P > 0.05", extract.Greater, .05}, {"P ≤ 0.05", extract.LessEqual, .05}, {"P , .05", extract.Less, .05}, {"P [ 0.05", extract.Greater, .05},
		{"p value of 0.04", extract.Equal, .04}, {"P-value = 0.04", extract.Equal, .04}, {"P ¼ .012", extract.Equal, .012}, {"p < 0·00001", extract.Less, .00001},
		{"P=.000", extract.Equal, 0},
	}
	for _, tt := range tests {
		found := ReadText("Velto was significantly stiffer than Koris ("+tt.text+").", catalog.Default())
		if len(found) != 1 {
			t.Errorf("%s: %d statements, want 1", tt.text, len(found))
			continue
		}
		p := found[0].P
		if !p.Known() || p.Relation != tt.rel || p.Value != tt.v {
			t.Errorf("p of %q = %v %v (%q), want %v %v", tt.text, p.Relation, p.Value, p.Text, tt.rel, tt.v)
		}
	}
}

// Means in prose become measures of their arms.
func TestProseMeasures(t *testing.T) {
	tests := []struct{ text, want string }{
		{"The mean bending load was 9.80 (1.10) N for Velto and 23.10 (2.20) N for Koris.", "Velto 9.80 1.10 unstated | Koris 23.10 2.20 unstated"},
		{"Mean (SD) bending load amounted to 9.9 ± 1.1 N in Velto and 23.1 ± 2.2 N in Koris.", "Velto 9.9 1.1 sd | Koris 23.1 2.2 sd"},
		{"The bending load of Velto (9.8 ± 1.1 N) was lower than that of Koris (23.1 ± 2.2 N).", "Velto 9.8 1.1 unstated | Koris 23.1 2.2 unstated"},
		{"The bending load was 9.8, 23.1 and 25.0 N for Velto, Koris and Marel, respectively.", "Velto 9.8  unstated | Koris 23.1  unstated | Marel 25.0  unstated"},
		{"The difference in bending load between Velto and Koris was 13.3 N.", ""},
		{"Alder et al. [3] found a bending load of 9.8 ± 1.1 N for Velto.", ""},
		{"Bending load increased by 3.2 N with Velto.", ""},
	}
	for _, tt := range tests {
		doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Place: extract.Place{Section: extract.Abstract}, Runs: []extract.Run{{Text: tt.text}}}}}
		_, found := Read(doc, testStudy(), catalog.Default())
		var got []string
		for _, m := range found {
			got = append(got, strings.Join([]string{m.Arm.Name, m.Mean.Text, m.Spread.Value.Text, m.Spread.Kind.String()}, " "))
		}
		if g := strings.Join(got, " | "); g != tt.want {
			t.Errorf("%s\n got  %s\n want %s", tt.text, g, tt.want)
		}
	}
}

// Whose result a sentence tells.
func TestOwn(t *testing.T) {
	tests := []struct {
		text    string
		section extract.Section
		want    string
	}{
		{"Velto lasted 20% longer than Koris.", extract.Results, ""},
		{"Velto lasted 20% longer than Koris [4].", extract.Discussion, "cited work"},
		{"Velto lasted 20% longer than Koris in the present study [4].", extract.Discussion, "cited work"},
		{"In the present study, Velto lasted 20% longer than Koris, confirming others [4].", extract.Discussion, ""},
		{"This agrees with Alder et al. [7], who found that Velto was significantly stiffer than Koris.", extract.Discussion, "cited work"},
		{"In accordance to Alder et al. [7], the results of our study showed that Velto was significantly stiffer than Koris.", extract.Discussion, ""},
		{"A sample size of 12 was needed to detect a 20% difference.", extract.Methods, "power calculation"},
		{"The new furnace lasted 20% longer than the old one.", extract.Introduction, "introduction"},
		{"A shorter life was expected for Velto than for Koris.", extract.Discussion, "expectation"},
	}
	for _, tt := range tests {
		doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Place: extract.Place{Section: tt.section}, Runs: []extract.Run{{Text: tt.text}}}}}
		found, _ := Read(doc, nil, catalog.Default())
		if len(found) == 0 {
			t.Errorf("%s: no statement", tt.text)
			continue
		}
		if found[0].WhyNotOwn != tt.want || found[0].Own != (tt.want == "") {
			t.Errorf("%s: own %v (%q), want %q", tt.text, found[0].Own, found[0].WhyNotOwn, tt.want)
		}
	}
}

func ExampleReadText() {
	for _, s := range ReadText("Velto lasted about 19% longer than Koris (702.3 vs 588.0 s).", catalog.Default()) {
		fmt.Println(s.Kind, s.Printed, s.Direction, s.A.Number.Text, "against", s.B.Number.Text)
		fmt.Printf("%q against %q, rests on %q\n", s.Subject.Text, s.Reference.Text, s.Rests)
	}
	// Output:
	// percent 19% higher 702.3 against 588.0
	// "Velto" against "Koris", rests on ["longer" "than"]
}
