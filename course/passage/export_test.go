package passage

import "lubberline.example/angle"

// MiddleForTest is the position half way along the leg.
func (l Leg) MiddleForTest() angle.Position { return l.middle() }
