package fix

import (
	"fmt"
	"math"

	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// farthest returns the largest distance of a position from its nearest mark, in metres. It is 60
// miles, unless the caller says that the vessel is farther off.
const farthest = 60 * 1852

// beyond limits how far from a mark the position may be: this many times the distance of
// [Options.Near].
const beyond = 1.5

// isFar reports whether a place is too far from all marks to be the vessel's position.
func (s *solver) isFar(at earth.Vector) bool {
	_, far := s.farFrom(at)
	return far
}

// farFrom returns the distance of a place from the nearest mark, and whether the place is
// too far from all marks.
func (s *solver) farFrom(at earth.Vector) (nearest float64, far bool) {
	nearest = math.Inf(1)
	var room [2]earth.Vector
	stated := room[:0] // the reckoned positions
	if s.options.Near != nil {
		stated = append(stated, earth.FrameAt(earth.Upright(*s.options.Near)).At)
	}
	if s.prior.used {
		stated = append(stated, s.prior.frame.At)
	}
	far = true
	for i := range s.lines {
		l := &s.lines[i]
		reach := float64(farthest)
		if l.kind == KindRange {
			reach = max(reach, 1.1*l.want)
		}
		marks := [2]earth.Vector{l.a, l.b}
		for _, mark := range marks[:len(l.marks)] {
			d := mark.Minus(at)
			off, most := math.Sqrt(d.Dot(d)), reach
			for _, near := range stated {
				d := near.Minus(mark)
				most = max(most, beyond*math.Sqrt(d.Dot(d)))
			}
			nearest = min(nearest, off)
			if off <= most+math.Hypot(l.north, l.east) { // the vessel ran on since a transferred line was observed
				far = false
			}
		}
	}
	return nearest, far && !math.IsInf(nearest, 1)
}

// behind returns the first bearing that points away from the place of a state: from there the
// object bears within 90° of the opposite direction.
func (s *solver) behind(st state) (line int, found bool) {
	at := earth.FrameAt(st.up)
	var h shared
	for i := range s.lines {
		l := &s.lines[i]
		if i+1 == s.skip || l.kind != KindBearing {
			continue
		}
		p := l.expect(&at)
		if math.Abs(p.left) <= math.Pi/4 { // shared errors cannot turn it that far
			continue
		}
		if s.sharing && !found {
			s.normal(&at, &h)
		}
		if s.sharing {
			p.left = shortWay(p.left + h.turn(s, l, p))
		}
		if math.Abs(p.left) > math.Pi/2 {
			return i, true
		}
	}
	return 0, false
}

// isAstray reports whether a state cannot be the vessel's position: it is too far from all
// marks, or a bearing points away from it.
func (s *solver) isAstray(st state) bool {
	if s.isFar(earth.FrameAt(st.up).At) {
		return true
	}
	_, behind := s.behind(st)
	return behind
}

// astray returns the reason why a state cannot be the vessel's position.
func (s *solver) astray(st state) string {
	if off, far := s.farFrom(earth.FrameAt(st.up).At); far {
		return fmt.Sprintf("the lines meet only at %v, %v from the nearest mark: check each bearing and its mark, or set Options.Near if the vessel is so far off", earth.Position(st.up), sailing.Distance(off))
	}
	if i, found := s.behind(st); found {
		return fmt.Sprintf("the lines meet only near %v, and the bearing of %s points away from there: it may be the reciprocal", earth.Position(st.up), namesOf(s.lines).of(i))
	}
	return noPosition
}
