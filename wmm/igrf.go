package wmm

import (
	"fmt"
	"io"
	"strconv"
	"strings"
)

// ReadIGRF reads the published table of the International Geomagnetic Reference Field. The
// table has comments that begin with #, a line with the kind of each column, and a line of
// epochs. Each other line is a coefficient. It has g or h, the degree, the order, the
// values at the epochs in nT, and the yearly rate after the last epoch.
//
// The result is a set of models. There is one from each epoch to the next, with linear
// coefficients, and one for five years after the last epoch.
//
// Errors are an [*Error], or the reader's error. A table that ends before the degree in its
// comments, such as "n=1,13", is truncated. The limits are 32 MiB, a million bytes in a
// line, 200 epochs and two million numbers.
//
// Models of the 14th generation have the uncertainty of [IGRF14]. For other generations it
// is unknown: see [Model.WithUncertainty].
func ReadIGRF(r io.Reader) (*Set, error) {
	if r == nil {
		return nil, errNoReader
	}
	s := newLines(r)
	generation, named := "IGRF", 0
	for {
		if !s.next() {
			return nil, s.ended("the file has no line of epochs, which begins with g/h n m")
		}
		if strings.HasPrefix(s.text, "#") {
			if g, ok := strings.CutSuffix(strings.Fields(s.text + " #")[1], "th"); ok && len(g) <= 3 {
				generation = "IGRF-" + g
			}
			named = max(named, namedDegree(s.text))
			continue
		}
		if strings.HasPrefix(s.text, "g/h") {
			break
		}
		if !strings.HasPrefix(s.text, "c/s") {
			return nil, s.fail(BadHeader, "the line %.40q stands before the epochs; write the line c/s … with the kinds of model, then the line g/h n m … with the epochs", s.text)
		}
	}
	epochs, err := s.igrfEpochs()
	if err != nil {
		return nil, err
	}
	values, degree, err := s.igrfRows(len(epochs) + 1)
	if err != nil {
		return nil, err
	}
	if degree < named {
		return nil, s.ended(fmt.Sprintf("the rows end after degree %d, but the comments name degree %d", degree, named))
	}
	models := make([]*Model, len(epochs))
	for e, epoch := range epochs {
		m := &Model{name: fmt.Sprintf("%s %.1f", generation, epoch), epoch: epoch, from: epoch, until: epoch + life}
		if e+1 < len(epochs) {
			m.until = epochs[e+1]
		}
		if generation == igrfName {
			m.uncertainty = igrfUncertainty(epoch)
		}
		c := newCoefficients(degree)
		for i, v := range values {
			g, h := v[0], v[1]
			if e+1 < len(epochs) {
				span := epochs[e+1] - epoch
				c[i] = coefficient{g[e], h[e], (g[e+1] - g[e]) / span, (h[e+1] - h[e]) / span}
			} else {
				c[i] = coefficient{g[e], h[e], g[e+1], h[e+1]}
			}
		}
		m.coefficients = c.trimmed()
		models[e] = m.finish()
	}
	return NewSet(models...)
}

// namedDegree returns the largest degree that a comment names, such as 13 in "degree n=1,13".
// If it names none, namedDegree returns 0.
func namedDegree(comment string) int {
	degree := 0
	for {
		_, after, found := strings.Cut(comment, "n=1,")
		if !found {
			return degree
		}
		figures := len(after) - len(strings.TrimLeft(after, "0123456789"))
		n, _ := strconv.Atoi(after[:figures]) // without figures n is 0, with too many it is the largest int
		degree, comment = max(degree, n), after
	}
}

// The limits of a table. Every epoch becomes a model, which takes far more memory than the
// figures of its column.
const (
	maxEpochs  = 200
	maxNumbers = 2_000_000
)

// igrfEpochs reads the line of epochs: g/h n m 1900.0 … 2025.0 2025-30.
func (s *lines) igrfEpochs() ([]float64, error) {
	fields := strings.Fields(s.text)
	if len(fields) < 5 || fields[1] != "n" || fields[2] != "m" {
		return nil, s.fail(BadHeader, "%.40q is not a line of epochs; write g/h n m, the epochs, and the years of the rate, such as g/h n m 2020.0 2025.0 2025-30", s.text)
	}
	var epochs []float64
	for _, f := range fields[3 : len(fields)-1] {
		epoch, err := s.number(f)
		if err != nil || epoch < 1000 || epoch > 3000 {
			return nil, s.fail(BadHeader, "%.40q is not an epoch; write a year such as 1900.0", f)
		}
		if n := len(epochs); n > 0 && epoch <= epochs[n-1] {
			return nil, s.fail(BadHeader, "the epoch %v stands after %v; write the epochs in order", epoch, epochs[n-1])
		}
		if len(epochs) == maxEpochs {
			return nil, s.fail(TooLarge, "the table has more than %d epochs, the maximum", maxEpochs)
		}
		epochs = append(epochs, epoch)
	}
	if !strings.Contains(fields[len(fields)-1], "-") {
		return nil, s.fail(BadHeader, "the last column is %.40q; write the years of the rate, such as 2025-30", fields[len(fields)-1])
	}
	return epochs, nil
}

// igrfRows reads the rows: the values of g and of h of each degree and order.
func (s *lines) igrfRows(columns int) (values [][2][]float64, degree int, err error) {
	values = [][2][]float64{{make([]float64, columns), make([]float64, columns)}}
	n, m, part := 1, 0, "g" // the next row
	numbers := 0
	for s.next() {
		fields := strings.Fields(s.text)
		if len(fields) != 3+columns {
			return nil, 0, s.fail(BadNumber, "the line has %d fields; write %d, as many as the line of epochs has", len(fields), 3+columns)
		}
		if n > MaxDegree {
			return nil, 0, s.fail(TooLarge, "the degree is beyond %d, the maximum", MaxDegree)
		}
		if err := s.expect(fields[1], fields[2], n, m); err != nil {
			return nil, 0, err
		}
		if fields[0] != part {
			if fields[0] == "g" && part == "h" {
				return nil, 0, s.fail(DuplicateRow, "g of degree %d, order %d occurs twice; remove one row", n, m)
			}
			return nil, 0, s.fail(WrongOrder, "%.40q of degree %d, order %d stands where %s must come", fields[0], n, m, part)
		}
		if numbers += columns; numbers > maxNumbers {
			return nil, 0, s.fail(TooLarge, "the table has more than %d numbers, the maximum", maxNumbers)
		}
		row := make([]float64, columns)
		for i := range row {
			if row[i], err = s.number(fields[3+i]); err != nil {
				return nil, 0, err
			}
		}
		if part == "g" {
			values = append(values, [2][]float64{row, make([]float64, columns)})
		} else {
			values[index(n, m)][1] = row
		}
		switch {
		case part == "g" && m > 0:
			part = "h"
		case m == n:
			n, m, part = n+1, 0, "g"
		default:
			m, part = m+1, "g"
		}
	}
	if err := s.err(); err != nil {
		return nil, 0, err
	}
	if n == 1 || m != 0 {
		return nil, 0, s.ended("the rows end before " + part + " of degree " + strconv.Itoa(n) + ", order " + strconv.Itoa(m))
	}
	return values, n - 1, nil
}

// trimmed leaves out the highest degrees if all their coefficients are zero.
func (c coefficients) trimmed() coefficients {
	for n := c.degree(); n > 1; n-- {
		for _, k := range c[index(n, 0):] {
			if k != (coefficient{}) {
				return c
			}
		}
		c = c[:index(n, 0)]
	}
	return c
}
