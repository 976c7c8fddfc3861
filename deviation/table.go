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

// An Entry is one line of a [Table] or a [Card]: a heading by compass, the same heading from
// magnetic north, and the deviation between them.
type Entry struct {
	Compass   angle.Compass  `json:"compass"`
	Magnetic  angle.Magnetic `json:"magnetic"`
	Deviation Deviation      `json:"deviation"` // with its uncertainty if that is stated
}

// A row is a row of a table, whatever its kind.
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

// A Table is a table of deviations, a [Source] on every heading. It goes
// between its rows linearly, or with [Table.Smooth] by a smooth curve, and round
// through north: it is periodic.
//
// A table by compass heading answers for a magnetic heading too, and a table by
// magnetic heading for a compass heading. The answer is solved for, not
// approximated by entering the table with the other heading: it is the heading
// on which table and answer agree, to the last unit of [angle.Angle].
//
// A Table does not change once it is made with [NewTable] or [ReadTable]. The
// zero value has no rows and answers with an error, as does a nil Table.
type Table struct {
	by    HeadingKind
	curve interpolant
	rows  []row
}

// Bounds of what a table may hold.
const (
	// MaxGap is the widest gap between rows: eight headings round the circle.
	MaxGap = 45 * angle.Degree

	// MaxDeviation is the largest deviation of a compass that still points.
	MaxDeviation = 90 * angle.Degree
)

// NewTable returns a table of some rows, by compass or by magnetic heading as
// their type says, in any order and at any spacing. It refuses, with a
// [*Error]: a heading given twice, a gap of more than 45°, a deviation of
// more than 90°, and uncertainties stated on some rows but not on others.
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

// check refuses what can't be a table; order tells the caller's rows.
func (t *Table) check(order []int) error {
	n := len(t.rows)
	fail := func(i int, kind ErrorKind, format string, args ...any) error {
		return &Error{Kind: kind, By: t.by, Heading: t.rows[i].heading, Row: order[i], Reason: fmt.Sprintf(format, args...)}
	}
	_, firstStated := t.rows[0].deviation.Uncertainty().Sigma()
	for i, e := range t.rows {
		if d := e.deviation.Angle(); d.Abs() > MaxDeviation {
			return fail(i, DeviationTooLarge, "deviation %s: at most 90°", e.deviation)
		}
		if _, stated := e.deviation.Uncertainty().Sigma(); stated != firstStated {
			return fail(i, UncertaintyPartial, "an uncertainty is stated on some headings only: want all or none")
		}
		if i > 0 && e.heading == t.rows[i-1].heading {
			return fail(i, DuplicateHeading, "given twice, %s and %s", t.rows[i-1].deviation, e.deviation)
		}
	}
	for i, e := range t.rows {
		next := t.rows[(i+1)%n].heading
		gap := (next - e.heading).Normalized()
		if n == 1 {
			gap = angle.Turn
		}
		if gap > MaxGap {
			return fail(i, GapTooWide, "nothing from there to %s, %v: rows may be at most 45° apart", say.Heading(t.by, next), gap)
		}
	}
	return nil
}

// Smooth returns the same table with a smooth curve through its rows: the
// periodic cubic spline, whose slope and curvature have no jump, at north
// neither. A nil Table remains nil. Rows that lie close together and disagree can throw it far out
// between others: where it comes to more than [MaxDeviation] the table answers
// with an [*Error].
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

// WithUncertainty returns the same table, known as well as given on every
// heading. A nil Table remains nil.
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

// By says by which heading the table is kept. A nil Table is kept by compass, as the
// zero value is.
func (t *Table) By() HeadingKind {
	if t == nil || t.by == "" {
		return ByCompass
	}
	return t.by
}

// IsSmooth reports whether the table goes between its rows by a smooth curve.
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

// NearestEntry returns the row whose heading is nearest to one given in the
// table's own kind, the next clockwise if two are equally near. Some
// examinations and printed cards ask for it in place of going between rows. A table
// without rows returns an [*Error].
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

// Ordered reports whether compass and magnetic heading rise together all round,
// so that each belongs to one of each. If it is so, neither OnCompass nor
// OnMagnetic ever returns an [*AmbiguousHeadingError].
func (t *Table) Ordered() bool { return t != nil && t.curve.ordered && len(t.rows) > 0 }

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

// checkSmooth refuses a deviation that no compass has, into which only a smooth
// curve can swing: by the curve itself, since a swing of 270° would pass for 90° the
// other way.
func (t *Table) checkSmooth(heading angle.Angle, d Deviation) (Deviation, error) {
	heading = heading.Normalized()
	i, along := t.curve.segment(heading)
	swung := t.curve.value(i, along)
	if swung.Abs() <= MaxDeviation+1 { // a unit for the rounding of a heading solved for
		return d, nil
	}
	return Deviation{}, &Error{
		Kind: DeviationTooLarge, By: t.by, Heading: heading, Row: -1,
		Reason: fmt.Sprintf("the smooth curve swings to %.0f°: at most 90°; use the table without Smooth, or leave out rows that lie close together", swung.Degrees()),
	}
}

func errNoRows(by HeadingKind) error {
	return &Error{Kind: NoRows, By: by, Reason: "no rows: want at least 8 headings round the circle"}
}

// at looks a heading of the table's own kind up.
func (t *Table) at(heading angle.Angle) Deviation {
	i, along := t.curve.segment(heading)
	return East(t.curve.value(i, along)).WithUncertainty(t.uncertainty(i, along))
}

// solve looks a heading of the other kind up.
func (t *Table) solve(other angle.Angle) (Deviation, error) {
	heading, ok := t.curve.unique(other)
	if !ok {
		return Deviation{}, ambiguous(t.by, t.curve.all(other), other)
	}
	i, along := t.curve.segment(heading)
	d := (other - heading) * t.curve.sign
	return East(d).WithUncertainty(t.uncertainty(i, along)), nil
}

// uncertainty goes linearly between the rows' uncertainties, as if those erred
// together: never better than both.
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
