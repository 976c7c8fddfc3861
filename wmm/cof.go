package wmm

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
)

// life is the number of years for which a World Magnetic Model is valid.
const life = 5

// ReadCOF reads a model in the published format of the World Magnetic Model. The first line
// has the epoch, the model's name and the day of its release. Then each line has a degree n,
// an order m, the coefficients g and h in nT, and their yearly rates in nT a year. One or two
// lines of nines end the file. The model is valid for five years from its epoch.
//
// The file does not state the uncertainty. ReadCOF sets the published uncertainty of
// WMM-2015 to WMM-2025 and WMMHR-2025. For any other name the uncertainty of the model, and
// of its variations, is unknown. Set it with [Model.WithUncertainty].
//
// The reference radius is 6371.2 km. If the first line has a fourth field, it must be this
// radius.
//
// Errors are an [*Error], or the reader's error. The limits are [MaxDegree], 32 MiB, and a
// million bytes in a line.
func ReadCOF(r io.Reader) (*Model, error) {
	if r == nil {
		return nil, errNoReader
	}
	s := newLines(r)
	if !s.next() {
		return nil, s.ended("the file is empty")
	}
	m, err := s.cofHeader()
	if err != nil {
		return nil, err
	}
	n, order := 1, 0 // the next row
	for {
		if !s.next() {
			return nil, s.ended(fmt.Sprintf("the file ends before the line of nines, after degree %d", n))
		}
		if isNines(s.text) {
			break
		}
		fields := strings.Fields(s.text)
		if len(fields) != 6 {
			return nil, s.fail(BadNumber, "the line has %d fields; write six: n, m, g, h and two rates", len(fields))
		}
		if n > MaxDegree {
			return nil, s.fail(TooLarge, "the degree is beyond %d, the maximum", MaxDegree)
		}
		if err := s.expect(fields[0], fields[1], n, order); err != nil {
			return nil, err
		}
		var v [4]float64
		for i := range v {
			if v[i], err = s.number(fields[2+i]); err != nil {
				return nil, err
			}
		}
		if order == 0 && (v[1] != 0 || v[3] != 0) {
			return nil, s.fail(BadNumber, "h of order 0 is %v and its rate %v; write 0 for both", v[1], v[3])
		}
		if order == 0 {
			m.coefficients = append(m.coefficients, make(coefficients, n+1)...)
		}
		m.coefficients[index(n, order)] = coefficient{v[0], v[1], v[2], v[3]}
		if order++; order > n {
			n, order = n+1, 0
		}
	}
	if order != 0 || n == 1 {
		return nil, s.fail(MissingRow, "the rows end before degree %d, order %d; complete the last degree", n, order)
	}
	for s.next() {
		if !isNines(s.text) {
			return nil, s.fail(WrongOrder, "there is text after the line of nines; leave it out")
		}
	}
	if s.err() != nil {
		return nil, s.err()
	}
	return m.finish(), nil
}

// cofHeader reads the first line of a file: the epoch, the name, and the day of release.
func (s *lines) cofHeader() (*Model, error) {
	fields := strings.Fields(s.text)
	if len(fields) < 2 {
		return nil, s.fail(BadHeader, "the first line is %.40q; write the epoch, the name and the day of release, such as 2025.0 WMM-2025 11/13/2024", s.text)
	}
	epoch, err := s.number(fields[0])
	if err != nil || epoch < 1000 || epoch > 3000 {
		return nil, s.fail(BadHeader, "%.40q is not an epoch; write a year such as 2025.0", fields[0])
	}
	m := &Model{name: fields[1], epoch: epoch, from: epoch, until: epoch + life, coefficients: newCoefficients(0)}
	if len(fields) > 2 {
		if m.released, err = time.Parse("01/02/2006", fields[2]); err != nil {
			return nil, s.fail(BadHeader, "%.40q is not a day of release; write month/day/year, such as 11/13/2024", fields[2])
		}
	}
	if len(fields) > 3 {
		if radius, err := s.number(fields[3]); err != nil || radius != referenceRadius {
			return nil, s.fail(BadHeader, "the reference radius %.40q is not that of the model; write %v (km), or leave it out", fields[3], referenceRadius)
		}
	}
	m.uncertainty = publishedUncertainty(m.name)
	return m, nil
}

// expect checks that a row has the degree n and the order m, which come next.
func (s *lines) expect(degree, order string, n, m int) error {
	gotN, err1 := strconv.Atoi(degree)
	gotM, err2 := strconv.Atoi(order)
	if err1 != nil || err2 != nil || gotN < 1 || gotM < 0 || gotM > gotN {
		return s.fail(BadNumber, "%.40q and %.40q are not a degree and an order; write whole numbers, the order from 0 to the degree", degree, order)
	}
	// Compare degree and order, not their index: that of a degree of 19 figures overflows.
	switch cmp.Or(cmp.Compare(gotN, n), cmp.Compare(gotM, m)) {
	case 0:
		return nil
	case -1:
		lastN, lastM := n, m-1
		if lastM < 0 {
			lastN, lastM = n-1, n-1
		}
		if gotN == lastN && gotM == lastM {
			return s.fail(DuplicateRow, "degree %d, order %d occurs twice; remove one row", gotN, gotM)
		}
	default:
		if gotN == n && gotM == m+1 || gotN == n+1 && gotM == 0 {
			return s.fail(MissingRow, "degree %d, order %d is missing; add its row", n, m)
		}
	}
	return s.fail(WrongOrder, "degree %d, order %d stands where degree %d, order %d must come", gotN, gotM, n, m)
}

// isNines reports whether a line is the one that ends the rows.
func isNines(line string) bool {
	line = strings.TrimSpace(line)
	return len(line) >= 6 && strings.Trim(line, "9") == ""
}

// lines reads a file line by line, and counts the lines.
type lines struct {
	scanner *bufio.Scanner
	file    *io.LimitedReader // the limit is one byte more than is accepted
	at      int
	text    string
}

// The maximum size of a file, and of a line. A model of [MaxDegree] has 20 million bytes.
const (
	maxFileBytes = 32 << 20
	maxLineBytes = 1 << 20
)

var errNoReader = &Error{Kind: Truncated, Reason: "the reader is nil; give an open file"}

// newLines returns the lines of a file.
func newLines(r io.Reader) *lines {
	file := &io.LimitedReader{R: r, N: maxFileBytes + 1}
	s := bufio.NewScanner(file)
	s.Buffer(nil, maxLineBytes)
	return &lines{scanner: s, file: file}
}

// next moves to the next line that is not blank. It reports false at the end, or on an error.
func (s *lines) next() bool {
	for s.scanner.Scan() {
		if s.file.N <= 0 || s.scanner.Err() != nil { // the line may be incomplete
			return false
		}
		s.at++
		if s.text = strings.TrimRight(s.scanner.Text(), " \r\t"); s.text != "" {
			return true
		}
	}
	return false
}

// err returns the error of the reader, or of a line or a file that is too large.
func (s *lines) err() error {
	switch err := s.scanner.Err(); {
	case errors.Is(err, bufio.ErrTooLong):
		return &Error{Line: s.at + 1, Kind: BadNumber, Reason: "the line has more than a million bytes, the maximum"}
	case err != nil:
		return err
	case s.file.N <= 0:
		return &Error{Line: s.at + 1, Kind: TooLarge, Reason: fmt.Sprintf("the file has more than %d MiB, the maximum", maxFileBytes>>20)}
	}
	return nil
}

// ended returns the error of a file that ended too soon.
func (s *lines) ended(reason string) error {
	if err := s.err(); err != nil {
		return err
	}
	return &Error{Line: s.at, Kind: Truncated, Reason: reason}
}

// fail returns an error at the present line. It formats the reason as fmt.Sprintf does.
func (s *lines) fail(kind ErrorKind, format string, args ...any) error {
	return &Error{Line: s.at, Kind: kind, Reason: fmt.Sprintf(format, args...)}
}

// maxCoefficient is a limit in nT. Real coefficients are far smaller.
const maxCoefficient = 1e6

// number reads a decimal number.
func (s *lines) number(text string) (float64, error) {
	x, err := strconv.ParseFloat(text, 64)
	literal := strings.ContainsAny(text, "xX_") // ParseFloat also reads literals of Go: 0x1p3, 1_000
	if err != nil || literal || !finite(x) || math.Abs(x) > maxCoefficient {
		return 0, s.fail(BadNumber, "%.40q is not a number within ±%v; write one such as -29351.8", text, maxCoefficient)
	}
	return x, nil
}
