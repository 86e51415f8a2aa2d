package role_test

import "testing"

// TestForms holds single forms of numbers; all of them must be right. The
// sentences are invented.
func TestForms(t *testing.T) {
	tests := []struct{ text, want string }{
		// how a figure is printed
		{"The gap was 1,85 mm in the milled group.", "1,85=level"},
		{"Of 10 450 files, 188 (1.8 %) had fractured.", "10 450=total 188=count 1.8=share"},
		{"Of 10,450 files, 188 (1.8%) had fractured.", "10,450=total 188=count 1.8=share"},
		{"The load was 1.068,4 ± 210,5 N.", "1.068,4=level 210,5=spread"},
		{"The correlation was strong (r = ·85).", "·85=statistic"},
		{"The roughness was 0·72 ± 0·11 µm.", "0·72=level 0·11=spread"},
		{"The mean time was 7:58 min with Korvel and 6:12 min with Brisa.", "7:58=level 6:12=level"},
		// a figure and its spread, range or interval
		{"Korvel had a mean torque of 42.9 (SD value = 11.5) N.", "42.9=level 11.5=spread"},
		{"The mean pain was 42.9 (3.7) after Brisa.", "42.9=level 3.7=spread"},
		{"Healing was seen in 42.9% (3/7) of the teeth.", "42.9=share 3=count 7=total"},
		{"The median was 4 (range 2–9).", "4=level 2=range-bound 9=range-bound"},
		{"The median was 94 s (IQR 81–120).", "94=level 81=range-bound 120=range-bound"},
		{"The mean was 3.4 mm (95 % CI 1.2 to 5.6).", "3.4=level 95=level-of-confidence 1.2=ci-bound 5.6=ci-bound"},
		{"The mean difference was 0.46 (95% CI: 0.22, 0.70).", "0.46=change 95=level-of-confidence 0.22=ci-bound 0.70=ci-bound"},
		{"Scores of 2.8 [SE 0.3] were found.", "2.8=level 0.3=spread"},
		// tests
		{"The groups differed (F(2,42) = 57.3, p < .001).", "2=df 42=df 57.3=statistic .001=p"},
		{"The groups did not differ (t = 1.07, df = 28, P = .29).", "1.07=statistic 28=df .29=p"},
		{"No difference was found (H(3) = 2.9; p = .03).", "3=df 2.9=statistic .03=p"},
		{"The groups differed (p = 0,021).", "0,021=p"},
		{"The level of significance was set at α = 0.05.", "0.05=alpha"},
		{"Failure was rarer (OR 0.41, 95 % CI 0.18–0.93).", "0.41=effect 95=level-of-confidence 0.18=ci-bound 0.93=ci-bound"},
		{"Failure was as frequent (HR = 1.10).", "1.10=effect"},
		// people and specimens
		{"The files were divided into three groups (n = 12 each).", "three=other 12=n"},
		{"Forty premolars were collected.", "Forty=n"},
		{"6/30 files fractured.", "6=count 30=total"},
		{"Five of the nine implants failed.", "Five=count nine=total"},
		{"In all, 11 adverse events were seen.", "11=count"},
		// settings
		{"Brisa 20 broke.", "20=name"},
		{"A 22G needle was used.", "22=dose"},
		{"Canals were enlarged to 25/.06.", "25=dose .06=dose"},
		{"Files were rotated at 300 rpm and 2.5 Ncm.", "300=dose 2.5=dose"},
		{"Canals were irrigated with 5 mL of 17 % EDTA.", "5=dose 17=dose"},
		{"Patients took 400 mg twice daily.", "400=dose twice=dose"},
		{"Bracket strength rose at 6 months.", "6=time-point"},
		{"An 8-week treatment followed.", "8=duration"},
		{"Pockets of ≥ 5 mm were treated.", "5=threshold"},
		// claims
		{"The torque was 14–17 % lower with Korvel.", "14=percent-claim 17=percent-claim"},
		{"The life of Korvel was 2.3-fold longer.", "2.3=ratio-claim"},
		{"The life of Korvel was twice as long.", "twice=ratio-claim"},
		{"The life of Korvel was 1.8 times longer.", "1.8=ratio-claim"},
		{"The pain fell by 1.15 points.", "1.15=change"},
		// citations, names, the rest
		{"This was reported before [12].", "12=citation"},
		{"This was reported before [12, 15–17].", "12=citation 15=citation 17=citation"},
		{"Halvik et al.35 reported this.", "35=citation"},
		{"Halvik et al. (2014) reported this.", "2014=citation"},
		{"Details are given in Table 2 and Fig. 3.", "2=name 3=name"},
		{"Groups 1, 2 and 5 did not differ.", "1=name 2=name 5=name"},
		{"The price was €18.50.", "18.50=money"},
		{"The HbA1c was measured.", "1=name"},
		{"A two-way ANOVA was used.", "two=name"},
		// what is said once for several numbers
		{"The groups were small (n = 12, 14 and 13).", "12=n 14=n 13=n"},
		{"There were 46, 61 and 108 participants in groups 1, 2 and 3.", "46=n 61=n 108=n 1=name 2=name 3=name"},
		{"We enrolled 26 wearers of brackets and 24 controls.", "26=n 24=n"},
		{"All 40 patients were seen at 1 week, 36 at 6 months and 31 at 2 years.", "40=n 1=time-point 36=n 6=time-point 31=n 2=time-point"},
		{"The mean time was 11 min 20 s.", "11=level 20=level"},
		{"The load was 34.2 N for size 25 and 61.7 N for size 40.", "34.2=level 25=dose 61.7=level 40=dose"},
		{"The gain was 1.60 ± 0.86 mm (P < 0.001) in group A and 2.23 ± 0.75 mm in group B.", "1.60=change 0.86=spread 0.001=p 2.23=change 0.75=spread"},
		{"Only the last group differed (P = 0.01 versus 15 s).", "0.01=p 15=level"},
		{"The groups differed in pain (p = 0.02) and 12% of them in age.", "0.02=p 12=share"},
		{"It differed at P = 0.021 and 67.3% of the patients agreed.", "0.021=p 67.3=share"},
		{"The speed fell from 3.1 mm/s to 1.8 mm/s.", "3.1=level 1.8=level"},
		{"The force was 482 N before and 519 N after the splint.", "482=level 519=level"},
		{"The crowns failed at 1 204 N.", "1 204=level"},
		{"The mean age was 34 years.", "34=level"},
		{"This was done before^7-10,19-24.", "7=citation 10=citation 19=citation 24=citation"},
		{"Post hoc, 1 vs 2: p = .02.", "1=name 2=name .02=p"},
		{"Survival was 98.2 % at 3 and 94.6 % at 8 years.", "98.2=share 3=time-point 94.6=share 8=time-point"},
		{"The error was 12 % for operator 1 and 19 % for operator 2.", "12=share 1=name 19=share 2=name"},
		{"The temperature went up 4.3 °C.", "4.3=change"},
		{"Cracks were seen after 240 000.", "240 000=other"},
		// the same form, another role
		{"Korvel was faster than Brisa (χ2(1) = 8.1; p = .004).", "2=name 1=df 8.1=statistic .004=p"},
		{"The fit was good (R^2 = 0.71).", "2=name 0.71=statistic"},
		{"The area was 2.3 mm^2 in both groups^5.", "2.3=level 2=other 5=citation"},
		{"The result was clear (P = 2 × 10^−5).", "2=p 10=p 5=p"},
		{"The kappa was 0.82.", "0.82=statistic"},
		{"Strength ranged from 16.3 to 23.1 MPa.", "16.3=range-bound 23.1=range-bound"},
		{"Pain was marked on a 0–10 scale.", "0=range-bound 10=range-bound"},
		{"The median was 232 s (Q1–Q3: 201–288).", "232=level 1=name 3=name 201=range-bound 288=range-bound"},
		{"Survival was 97 % (95 % CI 88–99) and 61 % (44–75).", "97=share 95=level-of-confidence 88=ci-bound 99=ci-bound 61=share 44=ci-bound 75=ci-bound"},
		{"Files were used with 4% articaine and 1:100,000 epinephrine.", "4=dose 1=dose 100,000=dose"},
		{"Wires of 0.016 × 0.022 in were bent.", "0.016=dose 0.022=dose"},
		{"The canal was opened with a 10 K-file.", "10=dose"},
		{"It was rotated until the foramen was wider than 0.25 mm.", "0.25=threshold"},
		{"A difference of 0.5 mm was to be detected; the margin of 2 mm held.", "0.5=change 2=threshold"},
		{"Torque ↓ 12 %.", "12=percent-claim"},
		{"Pain fell by 0.21, 0.18 and 0.12 mm.", "0.21=change 0.18=change 0.12=change"},
		{"We saw a decrease in plaque and bleeding of 53.3 and 24.1 points.", "53.3=change 24.1=change"},
		{"This was reported by 79 % of the women.", "79=share"},
		{"It agrees with other studies [14,15–16,18].", "14=citation 15=citation 16=citation 18=citation"},
		{"The trial cost CHF 84 a patient.", "84=money"},
		{"The wires survived 1 000 000 cycles.", "1 000 000=level"},
		{"Adverse events occurred in 4 patients.", "4=count"},
		{"Half of the teeth and one in eight implants failed.", "Half=share one=count eight=total"},
	}
	for _, tt := range tests {
		if got := roles(tt.text); got != tt.want {
			t.Errorf("roles(%q) = %s, want %s", tt.text, got, tt.want)
		}
	}
}
