package wmm

import (
	"math"

	"lubberline.example/angle"
)

// A Grid is a grid of places in a region: parallels from South northward to North, and
// meridians from West eastward over Width. A last step that would leave the region is left
// out.
type Grid struct {
	South angle.Latitude  `json:"south"`
	North angle.Latitude  `json:"north"` // not south of South; equal to South for one parallel
	West  angle.Longitude `json:"west"`
	Width angle.Angle     `json:"width"` // from West eastward, 0° to 360°; 0 for one meridian, a turn for the whole earth

	// The spacings, which must be more than 0°, even for one parallel or meridian. So the
	// zero Grid is invalid.
	LatitudeStep  angle.Angle `json:"latitudeStep"`
	LongitudeStep angle.Angle `json:"longitudeStep"`

	HeightMetres float64 `json:"heightMetres"` // above the ellipsoid, −15 km to 2,000 km; the zero value is on it
}

var errNoFunction = badGrid("the function for the rows is nil; give one that takes a Row")

// maxMeridians is the maximum length of a row. A row keeps a sine and a cosine for each
// meridian and order.
const maxMeridians = 100_000

// maxParallels keeps the number of a row within an int of 32 bits.
const maxParallels = math.MaxInt32 - 1

// size returns the numbers of parallels and meridians.
func (g Grid) size() (rows, columns int, err error) {
	height := g.North.Angle() - g.South.Angle()
	switch {
	case height < 0:
		return 0, 0, badGrid("the grid goes from South %v to North %v; North must not be south of South", g.South, g.North)
	case g.Width < 0 || g.Width > angle.Turn:
		return 0, 0, badGrid("the grid is %v wide; give a Width from 0° to 360°", g.Width)
	case g.LatitudeStep <= 0 || g.LongitudeStep <= 0:
		return 0, 0, badGrid("the steps of the grid are %v of latitude and %v of longitude; give more than 0°, such as angle.Degree", g.LatitudeStep, g.LongitudeStep)
	case height/g.LatitudeStep >= maxParallels:
		return 0, 0, badGrid("the grid has more than %d parallels; make LatitudeStep larger", maxParallels)
	case g.Width/g.LongitudeStep >= maxMeridians:
		return 0, 0, badGrid("the grid has more than %d meridians; make LongitudeStep larger", maxMeridians)
	}
	return int(height/g.LatitudeStep) + 1, int(g.Width/g.LongitudeStep) + 1, nil
}

// latitude returns the latitude of a row, counted from 0 at the south.
func (g Grid) latitude(row int) angle.Latitude {
	return angle.Must(angle.LatitudeFrom(g.South.Angle() + angle.Angle(row)*g.LatitudeStep))
}

// longitude returns the longitude of a column, counted from 0 at the west.
func (g Grid) longitude(column int) angle.Longitude {
	return g.West.Add(angle.Angle(column) * g.LongitudeStep)
}

// A Row is the field along one parallel of a grid.
type Row struct {
	Latitude   angle.Latitude    `json:"latitude"`
	Longitudes []angle.Longitude `json:"longitudes"` // shared by all rows: not to be changed
	Fields     []Field           `json:"fields"`     // one for each longitude; see [Evaluator.Rows] for how long it lasts
}

// Rows computes the field on a grid and calls row for each parallel, from south to north.
// The next call overwrites Fields, so copy them to keep them. A place of a grid takes
// several times less time than a call of [Evaluator.Field].
//
// If row returns an error, Rows stops and returns it. If the grid is invalid or row is nil,
// Rows returns an [*Error]. If the height is invalid, it returns an [*angle.RangeError].
func (e *Evaluator) Rows(g Grid, row func(Row) error) error {
	w, rows, err := e.newRowWorker(g)
	if err != nil {
		return err
	}
	if row == nil {
		return errNoFunction
	}
	fields := make([]Field, len(w.longitudes))
	for i := range rows {
		if err := w.evaluate(i, fields); err != nil {
			return err
		}
		if err := row(Row{g.latitude(i), w.longitudes, fields}); err != nil {
			return err
		}
	}
	return nil
}

// A rowWorker evaluates rows of a grid.
type rowWorker struct {
	grid       Grid
	main       *prepared
	longitudes []angle.Longitude
	cosSin     []cosSin // of mλ, by meridian and then by order m from 1
	orders     []orderOnParallel
}

// cosSin is a cosine and a sine of one angle.
type cosSin struct{ cos, sin float64 }

// An orderOnParallel is what one order adds along a parallel: the factors of cos mλ and
// sin mλ for each component.
type orderOnParallel struct{ xCos, xSin, yCos, ySin, zCos, zSin float64 }

// newRowWorker prepares the meridians of a grid. It also returns the number of rows.
func (e *Evaluator) newRowWorker(g Grid) (*rowWorker, int, error) {
	if e.empty() {
		return nil, 0, errNoEvaluator
	}
	rows, columns, err := g.size()
	if err != nil {
		return nil, 0, err
	}
	w := &rowWorker{grid: g, main: e.main, orders: make([]orderOnParallel, e.main.degree)}
	w.longitudes = make([]angle.Longitude, columns)
	w.cosSin = make([]cosSin, 0, columns*e.main.degree)
	for i := range w.longitudes {
		w.longitudes[i] = g.longitude(i)
		sinLon, cosLon := w.longitudes[i].Angle().SinCos()
		cos, sin := cosLon, sinLon
		for range e.main.degree {
			w.cosSin = append(w.cosSin, cosSin{cos, sin})
			cos, sin = cos*cosLon-sin*sinLon, sin*cosLon+cos*sinLon
		}
	}
	return w, rows, nil
}

// evaluate computes the fields of one row.
func (w *rowWorker) evaluate(row int, fields []Field) error {
	var l place
	if err := l.toParallel(w.grid.latitude(row), w.grid.HeightMetres); err != nil {
		return err
	}
	xZonal, zZonal := w.main.alongParallel(&l, w.orders)
	for i := range fields {
		x, y, z := xZonal, 0.0, zZonal
		at := w.cosSin[i*len(w.orders):]
		at = at[:len(w.orders)]
		for m := range w.orders {
			o, t := &w.orders[m], &at[m]
			x += o.xCos*t.cos + o.xSin*t.sin
			y += o.yCos*t.cos + o.ySin*t.sin
			z += o.zCos*t.cos + o.zSin*t.sin
		}
		fields[i] = Field{x, y, z}
	}
	return nil
}

// alongParallel computes what all places of a parallel share: the part of each order, and
// the north and down components of order 0.
func (p *prepared) alongParallel(l *place, orders []orderOnParallel) (xZonal, zZonal float64) {
	qc, q2, qs := l.q*l.cos, l.q*l.q, l.q*l.sin
	r, m := q2*l.q, 0.0
	turn := func(north, down float64) (x, z float64) {
		return north*l.cosTurn - down*l.sinTurn, north*l.sinTurn + down*l.cosTurn
	}
	for i, terms := range p.orders {
		m++
		ag, ah, pg, ph, kg, kh := sum(terms, qc, q2, r)
		ng, nh := float64(p.degree+1)*ag-pg, float64(p.degree+1)*ah-ph
		o := &orders[i]
		o.xCos, o.zCos = turn(l.cos*ng-l.q*kg, -l.sin*(ng+ag))
		o.xSin, o.zSin = turn(l.cos*nh-l.q*kh, -l.sin*(nh+ah))
		o.yCos, o.ySin = -m*ah, m*ag
		r *= qs
	}
	outward, north := sumZonal(p.zonal, qc, q2, l.q)
	return turn(l.sin*north, -outward)
}
