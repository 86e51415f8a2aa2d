package interval

import "testing"

func BenchmarkFitsAllBases(b *testing.B) {
	s, _ := Parse("702.3")
	r, _ := Parse("588.0")
	claim, _ := Parse("19%")
	b.ReportAllocs()
	for b.Loop() {
		for _, base := range Bases {
			if _, err := Percent(base, s, r); err != nil {
				b.Fatal(err)
			}
			if _, err := Fits(claim, base, s, r); err != nil {
				b.Fatal(err)
			}
		}
	}
}
