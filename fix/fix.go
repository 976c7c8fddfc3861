package fix

import (
	"cmp"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// A Fix is a position from lines, and how far to trust it, as [Solve] found it. The zero
// value, as stands beside an error, is no fix.
type Fix struct {
	position         angle.Position
	lines            []Line
	residuals        []Residual
	chiSquare        float64
	degreesOfFreedom int
	compassError     angle.EastWest
	alternatives     []angle.Position

	covariance sailing.Covariance
	known      bool // whether the uncertainties of the lines were stated

	solver solver
	state  state
}

// A Residual is what is left of a line at the fix.
type Residual struct {
	// Value is what was observed less what is expected at the fix: radians for
	// angles, metres for distances, latitudes and longitudes, and the unit of
	// [LineFromFunc] for its lines.
	Value float64 `json:"value"`

	// Ratio is Value in the line's standard uncertainties, an error that is shared
	// allowed for; in nominal ones where uncertainties are not stated.
	Ratio float64 `json:"ratio"`

	// Offset is how far the line, as it is drawn, passes from the fix, and Toward the
	// direction in which it does (with a negative offset, the other way).
	Offset sailing.Distance `json:"offset"`
	Toward angle.True       `json:"toward"`

	leverage float64
}

// Position returns the most probable position, on WGS84.
func (f Fix) Position() angle.Position { return f.position }

// Lines returns the lines that the fix was solved from.
func (f Fix) Lines() []Line {
	lines := slices.Clone(f.lines)
	for i := range lines {
		lines[i] = lines[i].given()
	}
	return lines
}

// Residuals returns the residual of each line, in the order of the lines.
func (f Fix) Residuals() []Residual { return slices.Clone(f.residuals) }

// ChiSquare returns the sum of the squared residuals, each divided by its standard
// uncertainty first.
func (f Fix) ChiSquare() float64 { return f.chiSquare }

// DegreesOfFreedom returns how many more lines there are than unknowns. A prior counts as
// two lines.
func (f Fix) DegreesOfFreedom() int { return f.degreesOfFreedom }

// CompassError returns the constant error of the bearings by the vessel's compass, over
// what their conversion allowed for, east positive. It is zero unless
// [Options.CompassError] asked for it.
func (f Fix) CompassError() angle.EastWest { return f.compassError }

// Alternatives returns the other places where two lines meet. For more lines, it returns
// the other places that they fit about as well, if nothing chose between them.
func (f Fix) Alternatives() []angle.Position { return slices.Clone(f.alternatives) }

// Covariance returns how well the position is known, by the lines' stated uncertainties
// and how they cut, and by nothing else: judge by [Fix.Probability] whether the lines
// agree as well as they claim. It is false where the uncertainties of the lines were
// not stated: then nothing can be told, and what is returned is no covariance.
func (f Fix) Covariance() (c sailing.Covariance, known bool) { return f.covariance, f.known }

// Time returns when the last of the lines was observed: the time of the fix, if earlier
// lines were transferred to it. It is zero where no line has its time.
func (f Fix) Time() (last time.Time) {
	for i := range f.lines {
		if t := f.lines[i].time; t.After(last) {
			last = t
		}
	}
	return last
}

// Probability returns how often lines of the stated uncertainties disagree by chance
// as much as these, or more; below 0.01 one of them is likely to be wrong. It is 1
// where no line is to spare, which says nothing, and where uncertainties are not
// stated.
func (f Fix) Probability() float64 {
	if f.degreesOfFreedom <= 0 || !f.known {
		return 1
	}
	return distuv.ChiSquared{K: float64(f.degreesOfFreedom)}.Survival(f.chiSquare)
}

// disagrees reports whether the lines disagree by more than chance: then the position is
// not to be used, and nothing tells how far off it is.
func (f Fix) disagrees() bool { return f.Probability() < suspicionLevel }

// Ellipse returns the region that holds the true position with a probability, such
// as 0.95, if the lines are as good as stated. Where they do not agree
// ([Fix.Probability] under 0.01) they are not, and it holds nothing: the text, the working
// and the JSON of a fix leave it out then. It errs for probabilities that are none with a
// [*angle.RangeError], and where uncertainties are not stated with a [*SolveError].
func (f Fix) Ellipse(probability float64) (sailing.Ellipse, error) {
	if !f.known {
		return sailing.Ellipse{}, &SolveError{Reason: "the uncertainties of the lines are not stated, so that no region can be told"}
	}
	return f.covariance.Ellipse(probability)
}

// A Cut is the angle at which two lines cross at the fix.
type Cut struct {
	A     int         `json:"a"` // the two lines, by their index in Fix.Lines
	B     int         `json:"b"`
	Angle angle.Angle `json:"angle"` // between them, from 0 to 90°
}

// BestCut returns the two lines that cross nearest to a right angle, and the angle,
// up to 90°. Under 30° the fix is weak along the lines (common practice). It is false
// for fewer than two lines.
func (f Fix) BestCut() (Cut, bool) {
	best, found := Cut{Angle: -1}, false
	try := func(j, i int) {
		off := f.residuals[i].Toward.Sub(f.residuals[j].Toward).Abs()
		if off > angle.Turn/4 {
			off = angle.Turn/2 - off
		}
		if off > best.Angle {
			best, found = Cut{min(i, j), max(i, j), off}, true
		}
	}
	if len(f.residuals) <= 100 {
		for i := range f.residuals {
			for j := range i {
				try(j, i)
			}
		}
		return best, found
	}
	// Of many, each with the two whose directions stand on either side of its perpendicular.
	way := func(i int) angle.Angle { return f.residuals[i].Toward.FromNorth() % (angle.Turn / 2) }
	order := make([]int, len(f.residuals))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(way(i), way(j)) })
	for i := range order {
		across := (way(i) + angle.Turn/4) % (angle.Turn / 2)
		at, _ := slices.BinarySearchFunc(order, across, func(j int, to angle.Angle) int { return cmp.Compare(way(j), to) })
		for _, k := range [2]int{at % len(order), (at + len(order) - 1) % len(order)} {
			if order[k] != i {
				try(order[k], i)
			}
		}
	}
	return best, found
}
