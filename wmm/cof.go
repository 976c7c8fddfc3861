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

// life is how many years a World Magnetic Model holds from its epoch.
const life = 5

// ReadCOF reads a model in the published format of the World Magnetic Model. The first line
// has the epoch, the model's name and the day of its release. Then each line has a degree n,
// an order m, g, h, and the yearly rates of g and h, in nT and nT a year. One or two lines of
// nines end the file. The model is valid for five years from its epoch.
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
	n, order := 1, 0 // the row that must come next
	for {
		if !s.next() {
			return nil, s.ended(fmt.Sprintf("the file ends before the line of nines, after degree %d", n))
		}
		if isNines(s.text) {
			break
		}
		fields := strings.Fields(s.text)
		if len(fields) != 6 {
			return nil, s.fail(BadNumber, "%d fields: want n, m, g, h and two rates", len(fields))
		}
		if n > MaxDegree {
			return nil, s.fail(TooLarge, "a degree beyond %d", MaxDegree)
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
			return nil, s.fail(BadNumber, "h of order 0 is %v, its rate %v: want 0", v[1], v[3])
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
		return nil, s.fail(MissingRow, "the rows end before degree %d, order %d", n, order)
	}
	for s.next() {
		if !isNines(s.text) {
			return nil, s.fail(WrongOrder, "want nothing after the line of nines")
		}
	}
	if s.err() != nil {
		return nil, s.err()
	}
	return m.finish(), nil
}

func (s *lines) cofHeader() (*Model, error) {
	fields := strings.Fields(s.text)
	if len(fields) < 2 {
		return nil, s.fail(BadHeader, "want the epoch, the model's name and the day of its release")
	}
	epoch, err := s.number(fields[0])
	if err != nil || epoch < 1000 || epoch > 3000 {
		return nil, s.fail(BadHeader, "epoch %.40q: want a year such as 2025.0", fields[0])
	}
	m := &Model{name: fields[1], epoch: epoch, from: epoch, until: epoch + life, coefficients: newCoefficients(0)}
	if len(fields) > 2 {
		if m.released, err = time.Parse("01/02/2006", fields[2]); err != nil {
			return nil, s.fail(BadHeader, "day of release %.40q: want month/day/year", fields[2])
		}
	}
	if len(fields) > 3 {
		if radius, err := s.number(fields[3]); err != nil || radius != referenceRadius {
			return nil, s.fail(WrongRadius, "reference radius %.40q: want %v km", fields[3], referenceRadius)
		}
	}
	m.uncertainty = publishedUncertainty(m.name)
	return m, nil
}

// expect checks that a row is the one that must come next.
func (s *lines) expect(degree, order string, n, m int) error {
	gotN, err1 := strconv.Atoi(degree)
	gotM, err2 := strconv.Atoi(order)
	if err1 != nil || err2 != nil || gotN < 1 || gotM < 0 || gotM > gotN {
		return s.fail(BadNumber, "degree %.40q, order %.40q: want whole numbers, the order from 0 to the degree", degree, order)
	}
	// By degree, then by order: the index of a degree of 19 figures would overflow.
	switch cmp.Or(cmp.Compare(gotN, n), cmp.Compare(gotM, m)) {
	case 0:
		return nil
	case -1:
		lastN, lastM := n, m-1
		if lastM < 0 {
			lastN, lastM = n-1, n-1
		}
		if gotN == lastN && gotM == lastM {
			return s.fail(DuplicateRow, "degree %d, order %d twice", gotN, gotM)
		}
	default:
		if gotN == n && gotM == m+1 || gotN == n+1 && gotM == 0 {
			return s.fail(MissingRow, "degree %d, order %d is missing", n, m)
		}
	}
	return s.fail(WrongOrder, "degree %d, order %d where %d, %d must come", gotN, gotM, n, m)
}

// isNines reports whether a line is the one that ends the rows.
func isNines(line string) bool {
	line = strings.TrimSpace(line)
	return len(line) >= 6 && strings.Trim(line, "9") == ""
}

// lines reads a file line by line, and knows where it is.
type lines struct {
	scanner *bufio.Scanner
	file    *io.LimitedReader // of one byte more than is accepted
	at      int
	text    string
}

// mostFile is how many bytes of a file are read: a model of [MaxDegree] has 20
// million. maxLineBytes is how many of a line.
const (
	mostFile     = 32 << 20
	maxLineBytes = 1 << 20
)

var errNoReader = &Error{Kind: Truncated, Reason: "no file: the reader is nil"}

func newLines(r io.Reader) *lines {
	file := &io.LimitedReader{R: r, N: mostFile + 1}
	s := bufio.NewScanner(file)
	s.Buffer(nil, maxLineBytes)
	return &lines{scanner: s, file: file}
}

// next moves to the next line that is not blank.
func (s *lines) next() bool {
	for s.scanner.Scan() {
		if s.file.N <= 0 || s.scanner.Err() != nil { // the line may be cut
			return false
		}
		s.at++
		if s.text = strings.TrimRight(s.scanner.Text(), " \r\t"); s.text != "" {
			return true
		}
	}
	return false
}

func (s *lines) err() error {
	switch err := s.scanner.Err(); {
	case errors.Is(err, bufio.ErrTooLong):
		return &Error{Line: s.at + 1, Kind: BadNumber, Reason: "a line of more than a million bytes"}
	case err != nil:
		return err
	case s.file.N <= 0:
		return &Error{Line: s.at + 1, Kind: TooLarge, Reason: fmt.Sprintf("the file has more than %d MiB", mostFile>>20)}
	}
	return nil
}

// ended is the error of a file that ended too soon.
func (s *lines) ended(reason string) error {
	if err := s.err(); err != nil {
		return err
	}
	return &Error{Line: s.at, Kind: Truncated, Reason: reason}
}

func (s *lines) fail(kind ErrorKind, format string, args ...any) error {
	return &Error{Line: s.at, Kind: kind, Reason: fmt.Sprintf(format, args...)}
}

// mostCoefficient is a bound, in nT, that no coefficient comes near.
const mostCoefficient = 1e6

func (s *lines) number(text string) (float64, error) {
	x, err := strconv.ParseFloat(text, 64)
	literal := strings.ContainsAny(text, "xX_") // of Go, which ParseFloat reads: 0x1p3, 1_000
	if err != nil || literal || !finite(x) || math.Abs(x) > mostCoefficient {
		return 0, s.fail(BadNumber, "%.40q: want a number within ±%v", text, mostCoefficient)
	}
	return x, nil
}
