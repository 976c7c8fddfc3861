package wmm_test

import (
	"math/rand/v2"

	"lubberline.example/angle"
)

// somePlaces are places all over the earth, the same each time.
func somePlaces(n int) []angle.Position {
	r := rand.New(rand.NewPCG(1, 2))
	p := make([]angle.Position, n)
	for i := range p {
		p[i] = at(r.Float64()*180-90, r.Float64()*360-180)
	}
	return p
}
