package effect

import "testing"

func BenchmarkNoncentralInterval(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := NoncentralityInterval(2.2456, 22, 0.95); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNoncentralIntervalFar(b *testing.B) {
	for b.Loop() {
		if _, err := NoncentralityInterval(177, 18, 0.95); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWeibullFromMoments(b *testing.B) {
	for b.Loop() {
		if _, err := WeibullFromMoments(702.3, 106.8); err != nil {
			b.Fatal(err)
		}
	}
}
