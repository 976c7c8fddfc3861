package deviation

import (
	"cmp"
	"fmt"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/say"
)

// A TableHeading is the kind of heading a table is kept by.
type TableHeading interface {
	angle.Compass | angle.Magnetic
}

// A Row is the deviation on one heading, of the kind that its type says. [NewTable] makes a
// [Table] of rows.
type Row[H TableHeading] struct {
	Heading   H         `json:"heading"`
	Deviation Deviation `json:"deviation"`
}

// An Entry is one line of a [Table] or a [Card]. It has a heading by compass, the same heading by
// magnetic, and the deviation between them.
type Entry struct {
	Compass   angle.Compass  `json:"compass"`
	Magnetic  angle.Magnetic `json:"magnetic"`
	Deviation Deviation      `json:"deviation"` // with its uncertainty if that is stated
}

// A row is a row of a table of either kind.
type row struct {
	heading   angle.Angle // of the table's kind
	deviation Deviation
}

// entry returns a row with both headings.
func (t *Table) entry(r row) Entry {
	if t.by == ByMagnetic {
		m := angle.MagneticFrom(r.heading)
		return Entry{Compass: r.deviation.Compass(m), Magnetic: m, Deviation: r.deviation}
	}
	c := angle.CompassFrom(r.heading)
	return Entry{Compass: c, Magnetic: r.deviation.Magnetic(c), Deviation: r.deviation}
}

// A Table is a table of deviations, a [Source] on every heading. Between its rows it is linear, or
// smooth after [Table.Smooth]. The last row is followed by the first, through north.
//
// A table by compass heading answers for a magnetic heading too, and the other way round. It
// solves for the heading on which table and answer agree, to the last unit of [angle.Angle]. It
// does not enter the table with the wrong heading.
//
// A Table does not change after it is made. The zero value has no rows and returns an error, as
// does a nil Table.
type Table struct {
	by    HeadingKind
	curve interpolant
	rows  []row
}

// The bounds of a table.
const (
	// MaxGap is the widest gap between rows: eight headings round the circle.
	MaxGap = 45 * angle.Degree

	// MaxDeviation is the largest deviation. With more, a compass no longer points north.
	MaxDeviation = 90 * angle.Degree
)

// NewTable returns a table of rows, by compass or by magnetic heading as their type says, in any
// order and at any spacing. It returns an [*Error] if a heading is given twice, or if a gap is
// wider than 45°. It also does if a deviation exceeds 90°, or if only some rows state an
// uncertainty.
func NewTable[H TableHeading](rows []Row[H]) (*Table, error) {
	t := &Table{by: ByCompass}
	var h H
	if _, ok := any(h).(angle.Magnetic); ok {
		t.by = ByMagnetic
	}
	if len(rows) == 0 {
		return nil, errNoRows(t.by)
	}
	order := make([]int, len(rows)) // rows by heading
	for i, r := range rows {
		order[i] = i
		var heading angle.Angle
		switch h := any(r.Heading).(type) {
		case angle.Compass:
			heading = h.FromNorth()
		case angle.Magnetic:
			heading = h.FromNorth()
		}
		t.rows = append(t.rows, row{heading, r.Deviation})
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(t.rows[a].heading, t.rows[b].heading) })
	sorted := make([]row, len(order))
	for i, o := range order {
		sorted[i] = t.rows[o]
	}
	t.rows = sorted
	if err := t.check(order); err != nil {
		return nil, err
	}
	t.curve = newInterpolant(t.by, t.rows)
	return t, nil
}

// check returns an error for rows that are not a table; order has their indices as given.
func (t *Table) check(order []int) error {
	n := len(t.rows)
	fail := func(i int, kind ErrorKind, format string, args ...any) error {
		return &Error{Kind: kind, By: t.by, Heading: t.rows[i].heading, Row: order[i], Reason: fmt.Sprintf(format, args...)}
	}
	_, firstStated := t.rows[0].deviation.Uncertainty().Sigma()
	for i, e := range t.rows {
		if d := e.deviation.Angle(); d.Abs() > MaxDeviation {
			return fail(i, DeviationTooLarge, "the deviation is %s; a compass has at most 90°", e.deviation)
		}
		if _, stated := e.deviation.Uncertainty().Sigma(); stated != firstStated {
			return fail(i, UncertaintyPartial, "the uncertainty is stated on some headings only; state it on all or on none")
		}
		if i > 0 && e.heading == t.rows[i-1].heading {
			return fail(i, DuplicateHeading, "the heading is given twice, with %s and %s", t.rows[i-1].deviation, e.deviation)
		}
	}
	for i, e := range t.rows {
		next := t.rows[(i+1)%n].heading
		gap := (next - e.heading).Normalized()
		if n == 1 {
			gap = angle.Turn
		}
		if gap > MaxGap {
			return fail(i, GapTooWide, "the next row is on %s, %v away; rows may be at most 45° apart", say.Heading(t.by, next), gap)
		}
	}
	return nil
}

// Smooth returns the same table with a smooth curve through its rows. The curve is the periodic
// cubic spline. Its slope and curvature have no jump, not even at north. A nil Table remains nil.
//
// Rows that are close together and differ can make the curve swing far out between other rows.
// Where it exceeds [MaxDeviation], the table returns an [*Error].
func (t *Table) Smooth() *Table {
	if t == nil {
		return nil
	}
	s := *t
	if len(t.rows) > 0 {
		s.curve = t.curve.smoothed()
	}
	return &s
}

// WithUncertainty returns the same table with an uncertainty on every heading. A nil Table remains
// nil.
func (t *Table) WithUncertainty(u angle.Uncertainty) *Table {
	if t == nil {
		return nil
	}
	s := *t
	s.rows = slices.Clone(t.rows)
	for i := range s.rows {
		s.rows[i].deviation = s.rows[i].deviation.WithUncertainty(u)
	}
	return &s
}

// By returns the kind of heading by which the table is kept. For a nil Table and the zero value it
// is ByCompass.
func (t *Table) By() HeadingKind {
	if t == nil || t.by == "" {
		return ByCompass
	}
	return t.by
}

// IsSmooth reports whether the table is smooth between its rows; see [Table.Smooth].
func (t *Table) IsSmooth() bool { return t != nil && t.curve.second != nil }

// Entries returns the rows in the order of their headings. A nil Table and the zero
// value have none.
func (t *Table) Entries() []Entry {
	if t == nil {
		return nil
	}
	var entries []Entry
	for _, r := range t.rows {
		entries = append(entries, t.entry(r))
	}
	return entries
}

// NearestEntry returns the row nearest to a heading of the table's own kind. If two are equally
// near, it returns the next clockwise. Some examinations ask for it instead of interpolation. If
// the table has no rows, it returns an [*Error].
func (t *Table) NearestEntry(heading angle.Angle) (Entry, error) {
	if t == nil || len(t.rows) == 0 {
		return Entry{}, errNoRows(t.By())
	}
	heading = heading.Normalized()
	best, least := row{}, angle.Turn
	for _, e := range t.rows {
		d := (e.heading - heading).NormalizedSigned()
		if d.Abs() < least || d.Abs() == least && d > 0 {
			best, least = e, d.Abs()
		}
	}
	return t.entry(best), nil
}

// OnCompass returns the deviation on a compass heading. If the table has no rows, or if a
// smooth curve swings beyond 90°, it returns an [*Error]. A table by magnetic heading may
// return an [*AmbiguousHeadingError].
func (t *Table) OnCompass(c angle.Compass) (Deviation, error) {
	return t.look(c.FromNorth(), ByCompass)
}

// OnMagnetic returns the deviation on a magnetic heading. Its errors are those of OnCompass; a
// table by compass may return an [*AmbiguousHeadingError].
func (t *Table) OnMagnetic(m angle.Magnetic) (Deviation, error) {
	return t.look(m.FromNorth(), ByMagnetic)
}

// Ordered reports whether compass and magnetic heading rise together round the whole circle. Then
// OnCompass and OnMagnetic never return an [*AmbiguousHeadingError].
func (t *Table) Ordered() bool { return t != nil && t.curve.ordered && len(t.rows) > 0 }

// look returns the deviation on a heading of either kind.
func (t *Table) look(heading angle.Angle, by HeadingKind) (Deviation, error) {
	if t == nil || len(t.rows) == 0 {
		return Deviation{}, errNoRows(by)
	}
	if by != t.by {
		d, err := t.solve(heading)
		if err != nil || t.curve.second == nil {
			return d, err
		}
		return t.checkSmooth(heading-t.curve.sign*d.Angle(), d)
	}
	d := t.at(heading)
	if t.curve.second == nil {
		return d, nil
	}
	return t.checkSmooth(heading, d)
}

// checkSmooth returns an error where a smooth curve swings beyond 90°. It looks at the curve itself,
// because a swing of 270° would look like 90° the other way.
func (t *Table) checkSmooth(heading angle.Angle, d Deviation) (Deviation, error) {
	heading = heading.Normalized()
	i, along := t.curve.segment(heading)
	swung := t.curve.value(i, along)
	if swung.Abs() <= MaxDeviation+1 { // a unit for the rounding of a heading solved for
		return d, nil
	}
	return Deviation{}, &Error{
		Kind: DeviationTooLarge, By: t.by, Heading: heading, Row: -1,
		Reason: fmt.Sprintf("the smooth curve swings to %.0f°, beyond 90°; use the table without Smooth, or leave out rows that are close together", swung.Degrees()),
	}
}

// errNoRows is the error of a table without rows.
func errNoRows(by HeadingKind) error {
	return &Error{Kind: NoRows, By: by, Row: -1, Reason: "there are no rows; give at least 8 headings round the circle"}
}

// at returns the deviation on a heading of the table's own kind.
func (t *Table) at(heading angle.Angle) Deviation {
	i, along := t.curve.segment(heading)
	return East(t.curve.value(i, along)).WithUncertainty(t.uncertainty(i, along))
}

// solve returns the deviation on a heading of the other kind.
func (t *Table) solve(other angle.Angle) (Deviation, error) {
	heading, ok := t.curve.unique(other)
	if !ok {
		return Deviation{}, ambiguous(t.by, t.curve.all(other), other)
	}
	i, along := t.curve.segment(heading)
	d := (other - heading) * t.curve.sign
	return East(d).WithUncertainty(t.uncertainty(i, along)), nil
}

// uncertainty interpolates between the rows' uncertainties, as if their errors were the same. So it
// is never less than both.
func (t *Table) uncertainty(i int, along angle.Angle) angle.Uncertainty {
	a, stated := t.rows[i].deviation.Uncertainty().Sigma()
	if !stated {
		return angle.Uncertainty{}
	}
	j := i + 1
	if j == len(t.rows) {
		j = 0
	}
	b, _ := t.rows[j].deviation.Uncertainty().Sigma()
	if a == b {
		return t.rows[i].deviation.Uncertainty()
	}
	s := a + angle.Angle(float64(b-a)*float64(along)/float64(t.curve.width(i)))
	return angle.Must(angle.StandardUncertainty(s))
}
