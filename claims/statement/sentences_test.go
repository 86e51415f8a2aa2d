package statement

import (
	"strings"
	"testing"

	"probity/claims"
	"probity/claims/catalog"
	"probity/extract"
)

// sentenceCases are invented sentences about invented instruments (Velto,
// Koris, Marel, Dantor, Sorvik) with the reading a careful person gives them,
// typed by hand: kind, printed value, form, direction, figure of the subject,
// figure of the reference; "-" where there is none. Several statements of one
// sentence are parted by " | ". Only own percent and fold claims are listed
// here; an empty reading means that the sentence makes none.
var sentenceCases = []struct{ text, want string }{
	// an increase or decrease of P %
	{"A reduction of 24% was found for Velto.", "percent 24% change lower - -"},
	{"There was an increase of 12.5 % in the load with Koris.", "percent 12.5 % change higher - -"},
	{"Use of Marel brought a decrease of 8.3% in preparation time (45.1 vs 49.2 s).", "percent 8.3% change lower 45.1 49.2"},
	{"An 18% decline in torque followed the third cycle.", "percent 18% change lower - -"},
	{"This was a rise of 31%.", "percent 31% change higher - -"},
	{"The coating gave a gain of 7 % over the uncoated file.", "percent 7 % change higher - -"},
	{"A drop of 40 per cent was recorded at body temperature.", "percent 40 per cent change lower - -"},
	{"We saw a mean increase in fatigue life of 22% with the new alloy.", "percent 22% change higher - -"},
	{"Sterilisation led to a loss of 15% of the initial strength.", "percent 15% change lower - -"},
	{"The treatment caused a 33% fall in stiffness.", "percent 33% change lower - -"},
	// increased and reduced by P %
	{"The load increased by 20% after heat treatment.", "percent 20% change higher - -"},
	{"Preparation time was reduced by 35% with Velto compared with Koris.", "percent 35% change lower - -"},
	{"Velto cut the force by 44%.", "percent 44% change lower - -"},
	{"Velto shortened preparation by 12.0%.", "percent 12.0% change lower - -"},
	{"The torque rose by 9 %.", "percent 9 % change higher - -"},
	{"Debris was diminished by 27% when Marel was used.", "percent 27% change lower - -"},
	{"The new design extended the fatigue life by 64%.", "percent 64% change higher - -"},
	{"Body temperature lowered the time to fracture by 51.3% (240.1 vs 493.0 s).", "percent 51.3% change lower 240.1 493.0"},
	{"Marel outlasted Dantor by 38%.", "percent 38% change higher - -"},
	{"Marel exceeded Dantor in angle of rotation by 14%.", "percent 14% change higher - -"},
	{"Koris surpassed Velto by 5.5% in cutting depth.", "percent 5.5% change higher - -"},
	{"The bond strength dropped by 19% from 24.2 to 19.6 MPa.", "percent 19% change lower 19.6 24.2"},
	{"Torque was boosted by 11%.", "percent 11% change higher - -"},
	{"The load decreased 16% after use.", "percent 16% change lower - -"},
	{"The mean value significantly increased 25% in group B.", "percent 25% change higher - -"},
	{"Time was longer by 39% with Koris than with Velto.", "percent 39% change higher - -"},
	{"With Koris, the angle was smaller by 6%.", "percent 6% change lower - -"},
	// P % higher, longer, less ... than
	{"Velto lasted 19% longer than Koris.", "percent 19% change higher - -"},
	{"Velto lasted 19.4% longer than Koris (702.3 vs 588.0 s).", "percent 19.4% change higher 702.3 588.0"},
	{"Velto (702.3 s) lasted 19.4% longer than Koris (588.0 s).", "percent 19.4% change higher 702.3 588.0"},
	{"Marel showed a 37.6% higher screw-in force than Dantor.", "percent 37.6% change higher - -"},
	{"Marel needed 15% less time than Sorvik.", "percent 15% change lower - -"},
	{"Marel had 22% fewer cycles than Sorvik.", "percent 22% change lower - -"},
	{"The bending load of Koris was 29.2% lower than that of Velto.", "percent 29.2% change lower - -"},
	{"Koris removed 12% more dentine than Velto did (4.31 versus 3.85 mm).", "percent 12% change higher 4.31 3.85"},
	{"Dantor was 8% stiffer than Sorvik.", "percent 8% change higher - -"},
	{"Canals were 5% shorter afterwards.", "percent 5% change lower - -"},
	{"The depth was 54% greater with Marel.", "percent 54% change higher - -"},
	{"Velto gave 16% lower values of maximum torque than Koris.", "percent 16% change lower - -"},
	{"Values were 12 percent higher in the coated group.", "percent 12 percent change higher - -"},
	{"Compared with Koris, Velto was 41% stronger.", "percent 41% change higher - -"},
	{"Relative to Koris (50.2 N), Velto (40.1 N) needed 20.1% less force.", "percent 20.1% change lower 40.1 50.2"},
	{"In contrast to Velto, Koris produced 60% more debris.", "percent 60% change higher - -"},
	{"Time to fracture was significantly (P < 0.001) longer, by 48%, for Marel.", "percent 48% change higher - -"},
	// from X to Y
	{"The time rose from 50.0 to 60.0 s, an increase of 20%.", "percent 20% change higher 60.0 50.0"},
	{"Torque fell from 2.50 N cm with Velto to 1.50 N cm with Koris, a reduction of 40%.", "percent 40% change lower 1.50 2.50"},
	{"A 25% increase, from 4.0 to 5.0 mm, was found.", "percent 25% change higher 5.0 4.0"},
	{"The score changed from 8.0 (SD 1.1) at baseline to 2.0 (SD 0.4) at the end, a decrease of 75%.", "percent 75% change lower 2.0 8.0"},
	{"The count decreased by 10% (from 300 ± 21 to 270 ± 19).", "percent 10% change lower 270 300"},
	{"The load went from 120 N in week 1 to 90 N in week 2 and to 60 N in week 3, a fall of 25% in week 2 and of 50% in week 3.", "percent 25% change lower 90 120 | percent 50% change lower 60 120"},
	{"It was reduced by 50% from 18.0 ± 2.0 to 9.0 ± 1.0 mg.", "percent 50% change lower 9.0 18.0"},
	{"Hardness improved by 20% (from 50 to 60).", "percent 20% change - 60 50"},
	{"The ratio dropped (from 0.80 to 0.60, −25%).", "percent 25% change lower 0.60 0.80"},
	// X versus Y, in all the ways it is printed
	{"Velto was 10% higher (110 v. 100 N).", "percent 10% change higher 110 100"},
	{"Velto was 10% higher (110 vs. 100 N).", "percent 10% change higher 110 100"},
	{"Velto was 10% higher (110 N compared with 100 N).", "percent 10% change higher 110 100"},
	{"Velto was 10% higher (110 ± 9 N against 100 ± 12 N).", "percent 10% change higher 110 100"},
	{"Velto was 10% higher than Koris (110 and 100 N, respectively).", "percent 10% change higher 110 100"},
	{"Velto (110 ± 9) was 10% higher as compared to Koris (100 ± 12).", "percent 10% change higher 110 100"},
	{"Velto had 10% more (control: 100 N, Velto: 110 N).", "percent 10% change higher 110 100"},
	{"The mean was 20% lower with Marel (80 mg) compared with the control (100 mg).", "percent 20% change lower 80 100"},
	{"The depth was 24.0% greater (2.48 v 2.00 mm; 95% CI of difference 0.1–0.9 mm; P = 0.006) with Koris.", "percent 24.0% change higher 2.48 2.00"},
	// P % of
	{"Koris reached 92% of the number of cycles of Velto.", "percent 92% share - - -"},
	{"The toughness of Koris amounted to 67% of that of Velto.", "percent 67% share - - -"},
	{"The force was only 46% of control.", "percent 46% share - - -"},
	{"Patients came to 18 sessions (75% of the expected 24 sessions).", "percent 75% share - 18 24"},
	{"The load with Marel was 150% of that of Dantor (300 vs 200 g).", "percent 150% share - 300 200"},
	{"Marel kept 88% of the specimens intact.", ""},
	{"In 80% of the teeth a crack was seen.", ""},
	{"Cracks were seen in 20% of specimens of Velto and 35% of specimens of Koris.", ""},
	{"Only 58% of patients returned.", ""},
	{"The load with Marel was 150% more than that of Dantor.", "percent 150% change higher - -"},
	// percentage points, absolute
	{"The untouched area was 12 percentage points lower (30% vs 42%).", "percent 12 percentage points points lower 30 42"},
	{"An absolute reduction of 5% (from 30% to 25%) was seen.", "percent 5% points lower 25 30"},
	{"The share fell by five percentage points.", "percent five percentage points points lower - -"},
	{"There was a 17% relative reduction (25% vs 30%).", "percent 17% change lower 25 30"},
	{"Success was 10·5 percentage points higher (76·2% vs 65·7%).", "percent 10·5 percentage points points higher 76·2 65·7"},
	{"Coverage rose by 3 %-points.", "percent 3 %-points points higher - -"},
	// N-fold
	{"Velto had a 1.4-fold higher number of cycles than Koris.", "fold 1.4-fold times higher - -"},
	{"The load increased 3-fold.", "fold 3-fold times higher - -"},
	{"A twofold increase was seen (20.1 vs 9.8 N).", "fold twofold times higher 20.1 9.8"},
	{"The torque of Marel was 1.7-fold that of Dantor.", "fold 1.7-fold times higher - -"},
	{"Debris was threefold lower with Koris (0.2 vs 0.6 mg).", "fold threefold times lower 0.2 0.6"},
	{"There was nearly a four-fold rise.", "fold four-fold times higher - -"},
	{"The effect was 2 fold greater.", "fold 2 fold times higher - -"},
	{"Serial 10-fold dilutions were plated.", ""},
	{"A two-fold purpose guided the study.", ""},
	// N times as, more, less
	{"Velto lasted 5x longer than Koris.", "fold 5x more higher - -"},
	{"Velto lasted 5 x longer than Koris.", "fold 5 x more higher - -"},
	{"Velto lasted 5× longer than Koris.", "fold 5× more higher - -"},
	{"Velto lasted 5x as long as Koris.", "fold 5x times higher - -"},
	{"Velto (tip 25 x 4 mm) lasted longer than Koris.", ""},
	{"Velto was 2.4 times as flexible as Koris.", "fold 2.4 times times lower - -"},
	{"Velto was half as flexible as Koris.", "fold half times higher - -"},
	{"Velto prepared canals twice as fast as Koris.", "fold twice times lower - -"},
	{"Velto was twice as flexible as Koris.", "fold twice times lower - -"},
	{"Velto lasted 1.6 times as long as Koris.", "fold 1.6 times times higher - -"},
	{"Time was 1.4 times longer with Velto than with Koris.", "fold 1.4 times more higher - -"},
	{"Velto was three times more resistant than Koris.", "fold three times more higher - -"},
	{"The force was 6 times less than with Koris (10.7 vs 65 N).", "fold 6 times less lower 10.7 65"},
	{"The maximum load was 2.3 times that of Koris.", "fold 2.3 times times higher - -"},
	{"It removed five times as much dentine.", "fold five times times higher - -"},
	{"Marel had nearly three times the influence of Dantor (111 vs. 39 g).", "fold about three times times higher 111 39"},
	{"Loads were two to three times higher.", "fold two to three times more higher - -"},
	{"Strength was about 1.3 - 1.6 times higher at 1 hour.", "fold about 1.3 - 1.6 times more higher - -"},
	{"Pain was three times lower (1.7 vs 5.2).", "fold three times less lower 1.7 5.2"},
	{"The rinse was used three times a day.", ""},
	{"Each canal was irrigated 3 times.", ""},
	{"Images were taken at 40 times magnification.", ""},
	{"Measurements were repeated three times and averaged.", ""},
	// twice, double, half, thirds
	{"Velto lasted twice as long as Koris (100.2 vs 51.3 s).", "fold twice times higher 100.2 51.3"},
	{"The load was twice that of Koris.", "fold twice times higher - -"},
	{"Heat treatment doubled the fatigue life.", "fold doubled times higher - -"},
	{"The strength tripled after curing (9.0 versus 3.1 MPa).", "fold tripled times higher 9.0 3.1"},
	{"Marel took double the time of Dantor.", "fold double times higher - -"},
	{"Velto needed half the force of Koris.", "fold half times lower - -"},
	{"The load was less than half that of Koris (8.5 versus 18.9 N).", "fold less half times lower 8.5 18.9"},
	{"Debris was halved (6 vs 13 mg).", "fold halved times lower 6 13"},
	{"Fractures were half as likely with Velto.", "fold half times lower - -"},
	{"The time was reduced by half.", "fold half times lower - -"},
	{"The load of Velto was half as much again as that of Koris (15.0 versus 10.0 N).", "percent half change higher 15.0 10.0"},
	{"The depth was one-sixth higher (0.72 vs 0.62 mm).", "percent one-sixth change higher 0.72 0.62"},
	{"The interval decreased by over a third, from 323 to 195 s.", "percent more a third change lower 195 323"},
	{"Velto took a quarter less time than Koris.", "percent a quarter change lower - -"},
	{"The force was two thirds of that of Koris.", "percent two thirds share - - -"},
	{"Irrigation was done twice daily.", ""},
	{"The canal was rinsed twice with saline.", ""},
	{"A double-blind design was used.", ""},
	{"The apical third was the least clean.", ""},
	{"Half of the teeth were stored in water.", ""},
	{"The first half of the canal was straight.", ""},
	{"The middle third showed a crack.", ""},
	// approximate and bounding words
	{"Velto lasted about 20% longer than Koris.", "percent about 20% change higher - -"},
	{"Velto lasted nearly 20% longer than Koris.", "percent about 20% change higher - -"},
	{"Velto lasted approximately 20% longer than Koris.", "percent about 20% change higher - -"},
	{"Velto lasted ~20% longer than Koris.", "percent about 20% change higher - -"},
	{"Velto lasted almost 20% longer than Koris.", "percent about 20% change higher - -"},
	{"Velto lasted roughly 20% longer than Koris.", "percent about 20% change higher - -"},
	{"Velto lasted more than 20% longer than Koris.", "percent more 20% change higher - -"},
	{"Velto lasted over 20% longer than Koris.", "percent more 20% change higher - -"},
	{"Velto lasted at least 20% longer than Koris.", "percent more 20% change higher - -"},
	{"Velto lasted up to 20% longer than Koris.", "percent upto 20% change higher - -"},
	{"Velto lasted less than 20% longer than Koris.", "percent less 20% change higher - -"},
	{"Velto lasted only 20% longer than Koris.", "percent 20% change higher - -"},
	{"The load fell by <6% with Velto versus Koris.", ""},
	{"The load was <6% lower with Velto versus Koris.", "percent less 6% change lower - -"},
	{"More than twice as many cycles were counted.", "fold more twice times higher - -"},
	{"It was no more than 5% higher.", "percent upto 5% change higher - -"},
	// ranges
	{"Fatigue life was 50–92% longer.", "percent 50–92% change higher - -"},
	{"The load was reduced by 20 to 30%.", "percent 20 to 30% change lower - -"},
	// a factor of, an order of magnitude
	{"The load rose by a factor of 2.5.", "fold 2.5 times higher - -"},
	{"Debris was lower by a factor of two.", "fold two times lower - -"},
	{"The torque was an order of magnitude higher.", "fold about order of magnitude times higher - -"},
	{"Counts were reduced by two orders of magnitude.", "fold about two orders of magnitude times lower - -"},
	// lists and respectively
	{"Velto and Koris exceeded Marel by 13.0% and 42.2%, respectively.", "percent 13.0% change higher - - | percent 42.2% change higher - -"},
	{"The strength was improved by 62.3% for Velto, 42.4% for Koris and 26.1% for Marel.", "percent 62.3% change - - - | percent 42.4% change - - - | percent 26.1% change - - -"},
	{"The time of Velto and Marel was increased by 55% and 43%, respectively.", "percent 55% change higher - - | percent 43% change higher - -"},
	{"Values were 44%, 35% and 26% lower (1.9, 3.7 and 4.8 N) than in controls (3.3, 5.6 and 6.4 N).", "percent 44% change lower 1.9 3.3 | percent 35% change lower 3.7 5.6 | percent 26% change lower 4.8 6.4"},
	{"The forces were 5.1, 8.8 and 12.3 N for Velto, Koris and Marel, respectively, reductions of 58% for Velto and 29% for Koris relative to Marel.", "percent 58% change lower 5.1 12.3 | percent 29% change lower 8.8 12.3"},
	{"Velto was 36% higher (0.28 N) than Koris (0.21 N), but 6% lower compared to Marel (0.30 N).", "percent 36% change higher 0.28 0.21 | percent 6% change lower 0.28 0.30"},
	{"Velto and Koris took 36% less time (74 s) and 61% less time (45 s) than Marel (116 s).", "percent 36% change lower 74 116 | percent 61% change lower 45 116"},
	// decoys beside the figures
	{"Velto lasted 20% longer than Koris (60 vs 50 s, n = 12, P = 0.04, 95% CI 2 to 18).", "percent 20% change higher 60 50"},
	{"At 37 °C, Velto (size 25, .06 taper) lasted 20% longer than Koris (60 vs 50 s).", "percent 20% change higher 60 50"},
	{"After 6 months the load of group 2 was 20% higher (60 N vs 50 N; Table 3).", "percent 20% change higher 60 50"},
	{"In 2019 [4], the load of our Velto files was 20% higher (60 N vs 50 N) in this study.", "percent 20% change higher 60 50"},
	{"The risk was reduced by 58% (HR 0.42, 95% CI 0.29–0.60).", "percent 58% change lower 0.42 1"},
	{"The shorter stay (11.8 vs 17.8 days) led to a 37% higher profit.", "percent 37% change higher - -"},
	// the sentence before
	{"Velto lasted 60 s and Koris 50 s.", ""},
	{"The time rose from 3,788 to 5,837 s. This represents a 54% increase.", "percent 54% change higher 5,837 3,788"},
	{"The load was 31.6 N versus 24.7 N. This is a 28% difference.", "percent 28% change - 31.6 24.7"},
	// merit and inversion
	{"Velto was 15-fold faster (4.5 vs 66.2 s).", "fold 15-fold times lower 4.5 66.2"},
	{"Velto was 136% more flexible than Koris.", "percent 136% change lower - -"},
	{"Velto was 30% less flexible than Koris.", "percent 30% change higher - -"},
	{"Velto was 25% more resistant than Koris.", "percent 25% change higher - -"},
	{"Velto was 25% more efficient than Koris.", "percent 25% change - - -"},
	{"A 29.6% improvement was found.", "percent 29.6% change - - -"},
	{"Velto had an advantage of 12% over Koris.", "percent 12% change - - -"},
	{"Velto showed a 12% superiority over Koris.", "percent 12% change - - -"},
	{"Koris was 46% slower than Velto.", "percent 46% change higher - -"},
	{"Cuts preparation time in half.", "fold half times lower - -"},
	{"Group B exhibited 0.8 times the load of group A (40 vs 50 N).", "fold 0.8 times times - 40 50"},
	{"The mean reduction in load was 24%.", "percent 24% change lower - -"},
	{"The difference between Velto and Koris amounted to 20 %.", "percent 20 % change - - -"},
	{"The percent decrease was 54% in Velto versus 21% in Koris.", ""},
	{"Wear increased twofold, from 10 to 20 µm.", "fold twofold times higher 20 10"},
	{"Group 2 (18.4 MPa) was 23% higher than group 1 (15.0 MPa) and 41% higher than group 3 (13.0 MPa).", "percent 23% change higher 18.4 15.0 | percent 41% change higher 18.4 13.0"},
	{"The rate increased from 72% to 90% (25% increase).", "percent 25% change higher 90 72"},
	{"Velto had the greatest load (30 N), which was 50% more than the lowest (20 N).", "percent 50% change higher 30 20"},
	{"Our file is up to 700% more resistant to cyclic fatigue!", "percent upto 700% change higher - -"},
	{"The sole use of 5% KNO3 reduced pain by ~40.0%.", "percent about 40.0% change lower - -"},
	// a difference of P %
	{"There was a 55% difference between Velto and Koris.", "percent 55% change - - -"},
	{"The eradication was 91% against 50% (difference of 41%).", "percent 41% change - 91 50"},
	// not claims
	{"Confidence intervals of 95% were computed.", ""},
	{"The 95% confidence interval was 3 to 9.", ""},
	{"Canals were irrigated with 5.25% sodium hypochlorite.", ""},
	{"A 17% EDTA solution removed the smear layer.", ""},
	{"The teeth were kept at 100% humidity and 37 °C for 7 days.", ""},
	{"The level of significance was 5%.", ""},
	{"Significance was set at the 95% level.", ""},
	{"A significance level of 5% was chosen.", ""},
	{"Files with a 6% taper were used.", ""},
	{"The alloy contains 55% nickel and 45% titanium.", ""},
	{"The filler content is 71%.", ""},
	{"Adhesive failure was found in 80% of specimens in groups A and B, and 90% of those in group C.", ""},
	{"Fractures occurred in 23.3%, 10% and 16.7% of teeth, respectively.", ""},
	{"The degree of conversion was 56 ± 11% in group A.", ""},
	{"Recovery was 45% in Velto and 56% in Koris.", ""},
	{"The coefficient of variation was 12%.", ""},
	{"The ratio of 90% was reached sooner with Velto (1.4 min) than with Koris (25.2 min).", ""},
	{"14/15 (93.3%) patients had a <20% decrease compared with 8/15 (53.3%) for placebo.", ""},
	{"More women had a >90% reduction (85 versus 50%).", ""},
	{"The 4% solution acted longer than the 2% solution (228 vs 207 min).", ""},
	{"Half-lives were measured.", ""},
	{"The reviewer asked for a 12-week follow-up.", ""},
	// cited work, power and assumptions are claims, but not the paper's own
	{"Alder et al. [5] reported that Velto lasted 16% longer than Koris.", ""},
	{"Alder et al.5 found a 20% reduction with Velto.", ""},
	{"Previous work found a reduction of 71% at body temperature [6].", ""},
	{"In an earlier study, Velto had a load 49% higher than Koris [4].", ""},
	{"A 52% higher value of Velto over Koris has been described in the literature [6].", ""},
	{"It has been reported that heat treatment increases fatigue life by 300%.", ""},
	{"A sample size of 12 gives 80% power to detect a 30% reduction.", ""},
	{"A power of 90% and an expected difference of 25% gave 10 specimens per group.", ""},
	{"Assuming a 50% increase, from 11 to 17, the required sample size is 24.", ""},
	{"We postulate that the file may reduce the load by 5%.", ""},
	{"Type-1 error was assumed at 0.05 and power was assumed at 80% for a reduction by 30%.", ""},
	{"In the present study Velto lasted 16% longer, as also found by Alder et al. [5].", "percent 16% change higher - -"},
	{"In agreement with Alder et al. [5], Velto lasted 16% longer than Koris in our study.", "percent 16% change higher - -"},
	{"Similar to the present results, Alder et al. [5] found a 16% longer life.", ""},
}

func relationWord(r extract.Relation) string {
	switch r {
	case extract.About:
		return "about "
	case extract.Greater, extract.GreaterEqual:
		return "more "
	case extract.Less:
		return "less "
	case extract.LessEqual:
		return "upto "
	}
	return ""
}

var formNames = map[claims.Form]string{claims.Change: "change", claims.Share: "share", claims.Points: "points", claims.Times: "times", claims.TimesMore: "more", claims.TimesLess: "less"}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// shown writes the own percent and fold claims of a text as the cases do.
func shown(text string) string {
	doc := &extract.Document{Blocks: []extract.Block{&extract.Prose{Runs: []extract.Run{{Text: text}}}}}
	found, _ := Read(doc, nil, catalog.Default())
	var out []string
	for _, s := range found {
		if !s.Own || s.Kind != claims.Percent && s.Kind != claims.Fold {
			continue
		}
		out = append(out, strings.Join([]string{string(s.Kind), relationWord(s.Value.Relation) + s.Printed, formNames[s.Form],
			dash(s.Direction.String()), dash(s.A.Number.Text), dash(s.B.Number.Text)}, " "))
	}
	return strings.Join(out, " | ")
}

func TestSentences(t *testing.T) {
	for _, c := range sentenceCases {
		if got := shown(c.text); got != c.want {
			t.Errorf("%s\n got  %s\n want %s", c.text, got, c.want)
		}
	}
}
