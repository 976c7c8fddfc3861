package passage

import (
	"time"

	"lubberline.example/angle"
)

// MiddleForTest is the position half way along the leg.
func (l Leg) MiddleForTest() angle.Position { return l.middle() }

// Number is the number of the leg, from 1.
func (l Leg) Number() int { return l.number }

// Time is how long the leg takes.
func (l Leg) Time() time.Duration { return l.time() }
