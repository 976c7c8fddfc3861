package check

import (
	"bytes"
	"cmp"
	"encoding"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// columns are those of a written log, in the order in which they stand.
var columns = []string{"time", "heading", "method", "against", "bearing", "true", "position", "compassError", "variation", "variationSource", "variationChange", "deviation", "observer", "remarks", "warnings"}

// A LogFormat is a form of a log of checks.
type LogFormat string

// The forms of a log. Both have the same columns.
const (
	CSV  LogFormat = "csv"
	JSON LogFormat = "json"
)

// WriteLog writes a log of checks that [ReadLog] reads back, with the true bearing beside
// them. Figures are written in full. Steps are left out, and of a warning its kind is
// kept.
//
// If there is no check, or one is empty, it writes nothing and returns an [*Error]. Each text must
// be one line without spaces at its ends, and the checks must read back. Otherwise it writes
// nothing and returns an [*Error] or a [*record.Error]. If w is nil, it returns a [*fs.PathError].
// An error of the writer is returned unchanged.
func WriteLog(w io.Writer, format LogFormat, checks ...Check) error {
	if w == nil {
		return &fs.PathError{Op: "write", Path: "a log of checks to a nil writer", Err: fs.ErrInvalid}
	}
	data, err := logged(nil, format, checks)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}

// AppendLog appends checks to the log in a file, in the form of the file and with its
// columns. A file that does not exist is begun: as JSON if its name ends in .json, and
// otherwise as CSV.
//
// What the file has already is never lost, even if the program is stopped. The whole log
// is written to a new file beside it, whose name begins with a dot, and takes its place
// when it is complete. Where the system can lock a folder, programs that append at the same
// moment wait for each other, for at most ten seconds. If another program changed the file
// meanwhile, AppendLog returns a [*fs.PathError] and changes nothing. Without locks, such as on
// Windows, two programs that append at the very same moment may lose one of the checks.
//
// A log that [ReadLog] does not read is left as it is, and the [*record.Error] names the
// line to mend. So is a file without a column that a check needs. Other errors are those of
// [WriteLog] and of the files.
func AppendLog(name string, checks ...Check) error {
	target, mode := name, fs.FileMode(0o644)
	if real, err := filepath.EvalSymlinks(name); err == nil {
		target = real
	}
	unlock, err := lockFolder(filepath.Dir(target), maxWait)
	if err != nil {
		return err
	}
	defer unlock()
	info, err := os.Stat(target)
	var before []byte
	switch {
	case err == nil && !info.Mode().IsRegular():
		return &fs.PathError{Op: "append", Path: name, Err: errors.New("not a regular file: give the name of a log")}
	case err == nil && info.Size() > record.MaxBytes:
		return &record.Error{Err: fmt.Errorf("the log has more than %d MiB, the maximum: begin a new one", record.MaxBytes>>20)}
	case err == nil:
		mode = info.Mode().Perm()
		if before, err = os.ReadFile(target); err != nil {
			return err
		}
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	format := CSV
	if strings.EqualFold(filepath.Ext(name), ".json") {
		format = JSON
	}
	data, err := logged(before, format, checks)
	if err != nil {
		return err
	}
	return replace(target, data, mode, info)
}

// errMeanwhile refuses to lose what another program appended.
var errMeanwhile = errors.New("another program changed the file meanwhile: append the checks again")

// maxWait is how long AppendLog waits for other programs that append.
const maxWait = 10 * time.Second

// errLocked gives up waiting for another program.
var errLocked = errors.New("another program keeps the folder locked: append the checks again when it has ended")

// unchanged returns an error if a file is not as it was before; nil if there was none.
func unchanged(name string, before fs.FileInfo) error {
	now, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist) && before == nil:
		return nil
	case err != nil && before == nil:
		return err
	case err == nil && before != nil && os.SameFile(now, before) && now.Size() == before.Size() && now.ModTime().Equal(before.ModTime()):
		return nil
	}
	return &fs.PathError{Op: "append", Path: name, Err: errMeanwhile}
}

// replace puts data in the place of a file at once, or leaves the file as it is. The file before
// is the one that was read; nil if there was none.
func replace(name string, data []byte, mode fs.FileMode, before fs.FileInfo) (err error) {
	file, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*.new")
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return &fs.PathError{Op: "write a file in", Path: filepath.Dir(name), Err: path.Err} // not the name of the copy
	} else if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			file.Close()
			os.Remove(file.Name())
		}
	}()
	if _, err = file.Write(data); err != nil {
		return err
	}
	if err = file.Chmod(mode); err != nil {
		return err
	}
	if err = file.Sync(); err != nil {
		return err
	}
	if err = file.Close(); err != nil {
		return err
	}
	if err = unchanged(name, before); err != nil {
		return err
	}
	if err = os.Rename(file.Name(), name); err != nil {
		return err
	}
	// The name is on the disk when its folder is. Not every system can sync a folder.
	if folder, opened := os.Open(filepath.Dir(name)); opened == nil {
		folder.Sync()
		folder.Close()
	}
	return nil
}

// logged returns a log with checks after it. The log may be empty, and is then begun.
func logged(before []byte, format LogFormat, checks []Check) ([]byte, error) {
	if format != CSV && format != JSON {
		return nil, &Error{"a log", fmt.Errorf("%.60q is not a form of a log: give check.CSV or check.JSON", string(format))}
	}
	if len(checks) == 0 {
		return nil, &Error{"a log", errors.New("there is no check to write: give at least one")}
	}
	header, text := columns, bytes.TrimSpace(bytes.TrimPrefix(before, []byte("\ufeff")))
	if len(text) == 0 {
		before = nil
	} else {
		if _, err := ReadLog(bytes.NewReader(before)); err != nil {
			return nil, err
		}
		format = CSV
		if text[0] == '[' {
			format = JSON
		} else {
			var err error
			if header, err = firstRow(before); err != nil {
				return nil, &record.Error{Line: 1, Err: err}
			}
		}
	}
	rows := make([][]string, len(checks))
	for i, c := range checks {
		var err error
		if rows[i], err = c.row(header); err != nil {
			return nil, &Error{cmp.Or(c.Against, "an object"), err}
		}
	}
	var data []byte
	var err error
	if format == JSON {
		data, err = appendJSON(before, header, rows)
	} else {
		data, err = appendCSV(before, header, rows)
	}
	if err != nil {
		return nil, err
	}
	_, err = ReadLog(bytes.NewReader(data))
	return data, err
}

// appendCSV appends rows to a log in CSV.
func appendCSV(before []byte, header []string, rows [][]string) ([]byte, error) {
	b := bytes.NewBuffer(slices.Clip(before))
	w := csv.NewWriter(b)
	if len(before) == 0 {
		rows = slices.Concat([][]string{slices.Clone(header)}, rows)
	} else if before[len(before)-1] != '\n' {
		b.WriteByte('\n')
	}
	for _, row := range rows {
		for i := range row {
			row[i] = record.Cell(row[i])
		}
	}
	err := w.WriteAll(rows)
	return b.Bytes(), err
}

// appendJSON appends rows to a log in JSON, one on each line.
func appendJSON(before []byte, header []string, rows [][]string) ([]byte, error) {
	b := bytes.NewBufferString("[")
	if len(before) > 0 {
		b = bytes.NewBuffer(slices.Clone(before[:bytes.LastIndexByte(before, ']')]))
		b.Truncate(len(bytes.TrimRight(b.Bytes(), " \t\r\n")))
		b.WriteByte(',')
	}
	for i, row := range rows {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n{")
		first := true
		for j, text := range row {
			if text == "" {
				continue
			}
			if !first {
				b.WriteString(", ")
			}
			first = false
			value, err := json.Marshal(text)
			if err != nil {
				return nil, err
			}
			fmt.Fprintf(b, "%q: %s", header[j], value)
		}
		b.WriteByte('}')
	}
	b.WriteString("\n]\n")
	return b.Bytes(), nil
}

// empty reports whether a check has neither a figure nor a time. Its zeros would be read
// back as figures.
func (c Check) empty() bool {
	return c.Time.IsZero() && c.Heading == (angle.Compass{}) && c.Bearing == nil && c.Position == nil &&
		c.Error == (angle.EastWest{}) && c.Variation == (variation.Variation{}) && c.Deviation == (deviation.Deviation{})
}

// row returns a check under columns. It refuses an empty check, and one that needs a column
// which is not there.
func (c Check) row(header []string) ([]string, error) {
	if c.empty() {
		return nil, errors.New("the check is empty: make it from a reading, such as with Reading.Against")
	}
	values := map[string]string{
		"method": c.Method, "against": c.Against, "variationsource": c.VariationSource, "observer": c.Observer, "remarks": c.Remarks,
		"time": format(c.Time),
	}
	for name, text := range values {
		if strings.TrimSpace(text) != text || strings.ContainsFunc(text, unicode.IsControl) || strings.ToValidUTF8(text, "") != text {
			return nil, fmt.Errorf("%s: %.60q is not one line of text without spaces at its ends", name, text)
		}
	}
	figures := map[string]encoding.TextMarshaler{"heading": c.Heading, "deviation": c.Deviation, "compasserror": c.Error, "variation": c.Variation}
	if c.Bearing != nil {
		figures["bearing"], figures["true"] = *c.Bearing, *c.trueBearing()
	}
	if c.Position != nil {
		figures["position"] = *c.Position
	}
	if c.VariationChange != 0 {
		figures["variationchange"] = c.VariationChange
	}
	for name, figure := range figures {
		text, err := figure.MarshalText()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		values[name] = string(text)
	}
	var kinds []string
	for _, w := range c.Warnings {
		if kind := string(w.Kind); kind != "" && w.Kind != NotADeviation && w.Kind != LargeDeviation && !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
	}
	values["warnings"] = strings.Join(kinds, " ")
	row := make([]string, len(header))
	for i, name := range header {
		name = strings.ToLower(strings.TrimSpace(name))
		if name == "uncertainty" && stated(c.Deviation.Uncertainty()) {
			text, err := c.Deviation.Uncertainty().MarshalText()
			if err != nil {
				return nil, err
			}
			row[i] = string(text)
			continue
		}
		row[i] = values[name]
		delete(values, name)
	}
	for _, name := range columns {
		lower := strings.ToLower(name)
		// The deviation and the variation give the compass error, and the true bearing follows.
		if values[lower] != "" && lower != "true" && lower != "compasserror" {
			return nil, fmt.Errorf("the log has no column %q: add it to the first line and a comma to each row, or begin a new log", name)
		}
	}
	return row, nil
}
