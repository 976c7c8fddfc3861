package deviation

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"lubberline.example/angle/record"
)

// errNotRows is the error of JSON without rows.
var errNotRows = errors.New(`give a JSON array of rows, or {"smooth": true, "rows": […]}`)

// The table as an object: its rows, and whether it is smooth.
const (
	smoothKey = "smooth"
	rowsKey   = "rows"
)

// tableRows finds the rows in what may be a table as a JSON object, and whether it is smooth.
// Other text passes unchanged. The text around the rows becomes blanks, so that errors in rows
// have the right line.
func tableRows(r io.Reader) (io.Reader, bool, error) {
	if r == nil {
		return nil, false, &record.Error{Err: errors.New("no reader: nil")}
	}
	const enough = 512 // for a byte order mark and blanks before the brace
	buffered := bufio.NewReaderSize(r, enough)
	head, _ := buffered.Peek(enough) // an error comes again
	if !bytes.HasPrefix(bytes.TrimLeft(bytes.TrimPrefix(head, []byte("\ufeff")), " \t\r\n"), []byte("{")) {
		return buffered, false, nil
	}
	data, err := io.ReadAll(io.LimitReader(buffered, record.MaxBytes+1))
	if err != nil {
		return nil, false, &record.Error{Err: err}
	}
	if len(data) > record.MaxBytes {
		return bytes.NewReader(data), false, nil // to be refused
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	o := &tableObject{Decoder: json.NewDecoder(bytes.NewReader(data)), data: data}
	if err := o.read(); err != nil {
		return nil, false, err
	}
	for i, b := range data {
		if (i < o.from || i >= o.to) && b != '\n' {
			data[i] = ' '
		}
	}
	return bytes.NewReader(data), o.smooth, nil
}

// A tableObject is a table as an object, and where its rows are in the text.
type tableObject struct {
	*json.Decoder
	data     []byte
	smooth   bool
	from, to int
}

// read reads the object.
func (o *tableObject) read() error {
	if _, err := o.Token(); err != nil { // the brace already seen
		return o.fault(err)
	}
	seen := map[string]bool{}
	for o.More() {
		key, err := o.Token()
		if err != nil {
			return o.fault(err)
		}
		name := strings.ToLower(key.(string)) // the decoder gives strings as keys
		if seen[name] {
			return o.fault(fmt.Errorf("the key %q is given twice; give it once", name))
		}
		seen[name] = true
		switch name {
		case smoothKey:
			if err := o.Decode(&o.smooth); err != nil {
				return o.fault(fmt.Errorf("smooth is not a boolean; give true or false: %w", err))
			}
		case rowsKey:
			var rows json.RawMessage
			if err := o.Decode(&rows); err != nil {
				return o.fault(err)
			}
			o.to = int(o.InputOffset())
			o.from = o.to - len(rows)
			if rows[0] != '[' {
				return o.fault(errNotRows)
			}
		default:
			return o.fault(fmt.Errorf("unknown key %.60q: %w", name, errNotRows))
		}
	}
	if _, err := o.Token(); err != nil {
		return o.fault(err)
	}
	if !seen[rowsKey] {
		return o.fault(errNotRows)
	}
	if _, err := o.Token(); err != io.EOF {
		return o.fault(errors.New("there is text after the object; give one object alone"))
	}
	return nil
}

// fault returns an error with the line that the decoder has reached.
func (o *tableObject) fault(err error) error {
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		err = errors.New("the file ends before the object does")
	}
	at := min(int(o.InputOffset()), len(o.data))
	return &record.Error{Line: 1 + bytes.Count(o.data[:at], []byte("\n")), Err: err}
}
