package check_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/check"
	"lubberline.example/variation"
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

var keptCheck check.Check

func BenchmarkAgainstSun(b *testing.B) {
	b.ReportAllocs()
	r := check.Reading{
		Time: time.Date(2026, 5, 14, 19, 40, 0, 0, time.UTC), Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.MustParseCompass("296")),
		Variation: variation.West(5 * angle.Degree),
	}
	p := angle.MustParsePosition("47°08.4′N 019°00.0′W")
	for b.Loop() {
		var err error
		if keptCheck, err = r.AgainstSun(p); err != nil {
			b.Fatal(err)
		}
	}
}
