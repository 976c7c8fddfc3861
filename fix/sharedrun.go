package fix

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"

	"lubberline.example/course/sailing"
)

// A leg is one run by which a line was transferred.
type leg struct {
	north, east float64 // metres
	known       sailing.Covariance
	lasts       time.Duration // below 0 if it is unknown
}

// maxRuns is how many runs may be shared. Further runs count as independent.
const maxRuns = 100

// A sharedLeg is a leg by which several lines were transferred. Its error has two unknowns,
// in standard uncertainties; root turns them into metres north and east.
type sharedLeg struct {
	at   int           // the index of the first unknown
	root [2][2]float64 // north and east, by the unknowns
}

// shareRuns finds the runs by which several lines were transferred. All lines of a fix are
// transferred to one time, so lines whose last runs are the same share those runs.
func (s *solver) shareRuns() {
	if !s.stated {
		return
	}
	var moved []int
	for i := range s.lines {
		s.lines[i].sharedLegs = nil
		if s.lines[i].moved {
			moved = append(moved, i)
		}
	}
	if len(moved) < 2 {
		return
	}
	s.shareLegs(moved, 0)
}

// shareLegs takes lines whose last legs, common in number, are the same, and groups them by
// the leg before those.
func (s *solver) shareLegs(lines []int, common int) {
	groups := map[leg][]int{}
	var order []leg
	for _, i := range lines {
		l := &s.lines[i]
		last := len(l.legs) - 1 - common
		if last < 0 { // it has no earlier leg
			continue
		}
		key := l.legs[last]
		if groups[key] == nil {
			order = append(order, key)
		}
		groups[key] = append(groups[key], i)
	}
	for _, key := range order {
		same := groups[key]
		if len(same) < 2 {
			continue
		}
		if root, uncertain := rootOf(key.known); uncertain && s.runs < maxRuns {
			shared := sharedLeg{s.groups + 2 + 2*s.runs, root}
			s.runs++
			for _, i := range same {
				l := &s.lines[i]
				l.sharedLegs = append(l.sharedLegs, shared)
				l.without = l.ownLegs(common + 1)
			}
		}
		s.shareLegs(same, common+1)
	}
}

// ownLegs returns the covariance of the legs of a line without the last ones.
func (l *Line) ownLegs(last int) sailing.Covariance {
	c := sailing.Exactly()
	for _, leg := range l.legs[:len(l.legs)-last] {
		c = c.Plus(leg.known)
	}
	return c
}

// rootOf returns the Cholesky root of a covariance. If the covariance is zero, uncertain is
// false.
func rootOf(c sailing.Covariance) (root [2][2]float64, uncertain bool) {
	if c.North > 0 {
		n := math.Sqrt(c.North)
		root = [2][2]float64{{n, 0}, {c.Both / n, math.Sqrt(max(0, c.East-c.Both*c.Both/c.North))}}
		return root, true
	}
	root[1][1] = math.Sqrt(max(0, c.East))
	return root, root[1][1] > 0
}

// joint holds the normal equations of all shared errors if lines share runs. They are solved
// together, since each error may appear with every other. The unknowns are the errors of the
// deviation, the compass error, the error of the variation, and two for each run.
type joint struct {
	own               *mat.SymDense
	inverse           mat.Cholesky
	column            []float64 // the derivatives of one residual
	north, east, left *mat.VecDense
	byNorth, byEast   *mat.VecDense // own⁻¹ times north and east
	errors            *mat.VecDense // own⁻¹ times left
}

// begin empties the equations. The stated uncertainty of an error counts as one observation of it.
func (j *joint) begin(s *solver) {
	n := s.groups + 2 + 2*s.runs
	j.own = mat.NewSymDense(n, nil)
	for i := range n {
		j.own.SetSym(i, i, 1)
	}
	if s.options.CompassError {
		j.own.SetSym(s.groups, s.groups, 0)
	}
	j.column = make([]float64, n)
	j.north, j.east, j.left = mat.NewVecDense(n, nil), mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	j.byNorth, j.byEast, j.errors = mat.NewVecDense(n, nil), mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
}

// of returns the column of a line: how its residual changes with each unknown.
func (j *joint) of(s *solver, l *Line, p predicted) *mat.VecDense {
	clear(j.column)
	ofCommon, ofDeviation := s.scales(l)
	if s.options.CompassError && l.byCompass {
		j.column[s.groups] = -ofCommon
	} else {
		j.column[s.groups+1] = -ofCommon
	}
	if ofDeviation != 0 {
		j.column[l.group] = -ofDeviation
	}
	for _, leg := range l.sharedLegs {
		j.column[leg.at] = -(p.north*leg.root[0][0] + p.east*leg.root[1][0])
		j.column[leg.at+1] = -(p.north*leg.root[0][1] + p.east*leg.root[1][1])
	}
	return mat.NewVecDense(len(j.column), j.column)
}

// add adds a line with its weight.
func (j *joint) add(s *solver, l *Line, p predicted, w float64) {
	c := j.of(s, l, p)
	j.own.SymRankOne(j.own, w, c)
	j.north.AddScaledVec(j.north, w*p.north, c)
	j.east.AddScaledVec(j.east, w*p.east, c)
	j.left.AddScaledVec(j.left, w*p.left, c)
}

// eliminate removes the shared errors from the normal equations of the place, and what they
// explain from the sum of squares.
func (j *joint) eliminate(s *solver, m *normal) {
	if !j.inverse.Factorize(j.own) {
		m.none = true // no bearing is left to find the compass error
		return
	}
	for _, pair := range [][2]*mat.VecDense{{j.byNorth, j.north}, {j.byEast, j.east}, {j.errors, j.left}} {
		if err := j.inverse.SolveVecTo(pair[0], pair[1]); err != nil {
			m.none = true
			return
		}
	}
	m.nn -= mat.Dot(j.north, j.byNorth)
	m.ne -= mat.Dot(j.north, j.byEast)
	m.ee -= mat.Dot(j.east, j.byEast)
	m.n -= mat.Dot(j.north, j.errors)
	m.e -= mat.Dot(j.east, j.errors)
	m.square -= mat.Dot(j.left, j.errors)
}

// turn returns by how much the shared errors change the observed value of a line.
func (j *joint) turn(s *solver, l *Line, p predicted) float64 {
	return -mat.Dot(j.of(s, l, p), j.errors)
}

// variance returns the variance of the expected value of a line, from the covariance of the
// place and the shared errors.
func (j *joint) variance(s *solver, inverse [3]float64, l *Line, p predicted) float64 {
	c := j.of(s, l, p)
	var by mat.VecDense
	if err := j.inverse.SolveVecTo(&by, c); err != nil {
		return math.Inf(1)
	}
	north, east := p.north-mat.Dot(c, j.byNorth), p.east-mat.Dot(c, j.byEast)
	return mat.Dot(c, &by) + north*north*inverse[0] + 2*north*east*inverse[1] + east*east*inverse[2]
}
