package fix

import (
	"cmp"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// A Fix is a position from position lines, as [Solve] found it, and how far to trust it. It
// does not change once it is made. The zero value, which [Solve] returns with an error, is
// invalid.
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

// A Residual is the difference between an observed value and the one expected at the fix.
type Residual struct {
	// Value is observed minus expected. It is in radians for angles, in metres for distances,
	// latitudes and longitudes, and in its own unit for a line of [LineFromFunc].
	Value float64 `json:"value"`

	// Ratio is Value divided by the line's standard uncertainty, after shared errors are
	// allowed for. If uncertainties are not stated, usual ones stand in.
	Ratio float64 `json:"ratio"`

	// Offset is how far the line, as it is drawn, passes from the fix, and Toward the
	// direction. If Offset is negative, it passes on the other side.
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

// Options returns the options that the fix was solved with. Its pointers are copies.
func (f Fix) Options() Options {
	o := f.solver.options
	if o.Near != nil {
		o.Near = new(*o.Near)
	}
	if o.Prior != nil {
		o.Prior = new(*o.Prior)
	}
	o.Marks = slices.Clone(o.Marks)
	return o
}

// Residuals returns the residual of each line, in the order of the lines.
func (f Fix) Residuals() []Residual { return slices.Clone(f.residuals) }

// ChiSquare returns the sum of the squared residuals, each divided by its standard
// uncertainty first.
func (f Fix) ChiSquare() float64 { return f.chiSquare }

// DegreesOfFreedom returns how many more lines there are than unknowns. A prior counts as
// two lines.
func (f Fix) DegreesOfFreedom() int { return f.degreesOfFreedom }

// CompassError returns the constant error of the vessel's compass, in addition to the
// variation and deviation of its bearings. East is positive. Unless [Options.CompassError] is
// set, it is zero.
func (f Fix) CompassError() angle.EastWest { return f.compassError }

// Alternatives returns the other places where two lines meet. For three or more lines, it
// returns the other places that they fit about as well, unless Near or a prior chose.
func (f Fix) Alternatives() []angle.Position { return slices.Clone(f.alternatives) }

// Covariance returns the covariance of the position that follows from the stated
// uncertainties of the lines and how they cut. It does not depend on whether the lines
// agree: see [Fix.Probability]. If the uncertainties were not stated, known is false.
func (f Fix) Covariance() (c sailing.Covariance, known bool) { return f.covariance, f.known }

// Time returns when the last line was observed: the time of the fix, if earlier lines were
// transferred to it. If no line has a time, it returns the zero time.
func (f Fix) Time() (last time.Time) {
	for i := range f.lines {
		if t := f.lines[i].time; t.After(last) {
			last = t
		}
	}
	return last
}

// Probability returns how often sound lines of the stated uncertainties disagree as much as
// these, or more. Below 0.01 one of them is likely to be wrong. With no degree of freedom,
// or uncertainties that are not stated, it returns 1, which says nothing.
func (f Fix) Probability() float64 {
	if f.degreesOfFreedom <= 0 || !f.known {
		return 1
	}
	return distuv.ChiSquared{K: float64(f.degreesOfFreedom)}.Survival(f.chiSquare)
}

// disagrees reports whether the lines disagree by more than chance. The position is then not to
// be used, and its accuracy cannot be stated.
func (f Fix) disagrees() bool { return f.Probability() < suspicionLevel }

// Ellipse returns the ellipse that holds the true position with a probability, such as 0.95,
// if the lines are as good as stated. If they do not agree ([Fix.Probability] below 0.01), do
// not use it: the working and the JSON of such a fix have no ellipse.
//
// The ellipse assumes straight lines. If lines are nearly parallel for their uncertainty, it
// is too small, and [Fix.Warnings] says so. If the probability is not between 0 and 1,
// Ellipse returns an [*angle.RangeError]. If uncertainties were not stated, it returns an
// [*Error].
func (f Fix) Ellipse(probability float64) (sailing.Ellipse, error) {
	if !f.known {
		return sailing.Ellipse{}, &Error{Kind: UncertaintyMissing, Reason: "there is no ellipse without the uncertainties of the lines: state those of all lines, such as 2° for a bearing, or set Options.UsualUncertainties"}
	}
	return f.covariance.Ellipse(probability)
}

// BestCut returns the two lines that cross nearest to a right angle, by their index in
// [Fix.Lines], and the angle between them, up to 90°. Below 30° the fix is weak along the
// lines (common practice). With fewer than two lines, all results are zero.
func (f Fix) BestCut() (a, b int, cut angle.Angle) {
	try := func(j, i int) {
		off := f.residuals[i].Toward.Sub(f.residuals[j].Toward).Abs()
		if off > angle.Turn/4 {
			off = angle.Turn/2 - off
		}
		if off > cut || a == b {
			a, b, cut = min(i, j), max(i, j), off
		}
	}
	if len(f.residuals) <= 100 {
		for i := range f.residuals {
			for j := range i {
				try(j, i)
			}
		}
		return a, b, cut
	}
	// Of many lines, try each with the two whose directions are next to its perpendicular.
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
	return a, b, cut
}
