package role_test

import (
	"fmt"
	"strings"
	"testing"

	"probity/claims/catalog"
	"probity/claims/role"
)

// BenchmarkNumbers reads a paragraph with many numbers, again and again twice
// as long: the MB/s must not fall.
func BenchmarkNumbers(b *testing.B) {
	const sentence = "Brisa 20 lasted 398.4 ± 36.7 s at 300 rpm and Korvel 25/.06 lasted 251.9 ± 44.2 s (95 % CI 31.0 to 37.4; n = 12, 14 and 13; p < 0.001) [12, 15–17]. "
	cat := catalog.Default()
	for _, times := range []int{10, 20, 40, 80, 160} {
		text := strings.Repeat(sentence, times)
		b.Run(fmt.Sprint("sentences=", times), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				role.Numbers(text, cat)
			}
		})
	}
	list := strings.Repeat("3.4, ", 2000) + "and 5.6 mm"
	b.Run("one list", func(b *testing.B) {
		b.SetBytes(int64(len(list)))
		for b.Loop() {
			role.Numbers(list, cat)
		}
	})
}
