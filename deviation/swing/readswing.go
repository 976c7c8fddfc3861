package swing

import (
	"errors"
	"io"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/sunsight"
)

// ReadSwing reads the record of a swing from CSV or JSON (see package [record])
// and reduces it. Every record has a column heading, by the compass that is
// swung, and may have one named uncertainty, one standard deviation of the
// reading. The other columns follow from the method:
//
//	Transit, DistantObject    bearing
//	SunAzimuths               bearing, time (UTC, as in 2026-05-14T17:03:20Z)
//	TrueHeadings              true
//	ShoreCompass              bearing, shore
//	SecondCompass             other
//	StatedDeviations          deviation
//
// A column relative may give bearings from the bow instead of the column bearing, by compass. A
// column bearing_by says by which compass a bearing was taken: swung or another; see
// [BearingCompass]. Errors are a [*record.Error] with the line. It wraps the cause.
func ReadSwing(r io.Reader, method Method) (*Swing, error) {
	if isNil(method) {
		return nil, &record.Error{Err: errNoMethod}
	}
	columns := record.Columns{Required: []string{"heading"}, Optional: []string{"uncertainty"}}
	for _, c := range method.columns() {
		if c == "bearing" {
			columns.Optional = append(columns.Optional, "bearing", "relative", "bearing_by")
			continue
		}
		columns.Required = append(columns.Required, c)
	}
	rows, err := record.Read(r, columns)
	if err != nil {
		return nil, err
	}
	readings := make([]reading, len(rows))
	for i, row := range rows {
		if readings[i], err = readReading(row, method.columns()); err != nil {
			return nil, err
		}
	}
	swung, err := reduceAll(readings, method)
	if e, ok := errors.AsType[*Error](err); ok && e.Index >= 0 {
		column := method.columns()[len(method.columns())-1]
		return nil, rows[e.Index].Fault(column, e.Err)
	} else if err != nil {
		return nil, &record.Error{Err: err}
	}
	return swung, nil
}

// readReading reads the columns of one row.
func readReading(row record.Row, columns []string) (reading, error) {
	var r reading
	var err error
	if r.Heading, err = angle.ParseCompass(row.Text("heading")); err != nil {
		return r, row.Fault("heading", err)
	}
	if row.Has("uncertainty") {
		if err := r.Uncertainty.UnmarshalText([]byte(row.Text("uncertainty"))); err != nil {
			return r, row.Fault("uncertainty", err)
		}
	}
	for _, c := range columns {
		switch c {
		case "bearing":
			if c, err = readBearing(&r, row); err != nil {
				return r, row.Fault(c, err)
			}
			continue
		case "time":
			r.Time, err = sunsight.ParseTime(row.Text(c))
		case "true":
			r.True, err = angle.ParseTrue(row.Text(c))
		case "shore":
			r.Shore, err = angle.ParseMagnetic(row.Text(c))
		case "other":
			r.Other, err = angle.ParseCompass(row.Text(c))
		case "deviation":
			r.Deviation, err = deviation.Parse(row.Text(c))
		}
		if err != nil {
			return r, row.Fault(c, err)
		}
	}
	return r, nil
}

// readBearing reads the bearing by compass or from the bow; it returns the
// column at fault with an error.
func readBearing(r *reading, row record.Row) (column string, err error) {
	switch compass, relative := row.Has("bearing"), row.Has("relative"); {
	case compass && relative:
		return "relative", errors.New("there is a bearing by compass and one from the bow; give one of them")
	case compass:
		r.Bearing, err = angle.ParseCompass(row.Text("bearing"))
		if err != nil {
			return "bearing", err
		}
		if row.Has("bearing_by") {
			r.BearingBy = BearingCompass(row.Text("bearing_by"))
		}
		return "bearing_by", r.BearingBy.check()
	case relative:
		r.fromBow = true
		if row.Has("bearing_by") {
			return "bearing_by", errors.New("a bearing from the bow is by no compass; leave bearing_by empty in this row")
		}
		bow, err := angle.ParseRelative(row.Text("relative"))
		r.Bearing = r.Heading.Bearing(bow)
		return "relative", err
	}
	return "bearing", errors.New("the bearing is missing; give it by compass, or from the bow in a column relative")
}
