package check_test

import (
	"math/rand/v2"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation/check"
)

// A log of 3,600 checks, with a blunder in every hundredth: at most 100 ms.
func BenchmarkReviewChecks(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 2))
	card, checks := simLog{n: 3600, own: 1, shared: 0.25, card: 0.3, compass: func(_ angle.Angle, i int) float64 {
		if i%100 == 7 {
			return 12
		}
		return 0
	}}.draw(b, random, 0)
	for b.Loop() {
		if _, err := check.ReviewCard(card, checks); err != nil {
			b.Fatal(err)
		}
	}
}
