package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"

	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/swing"
	"lubberline.example/examples/internal/inputs"
)

// inputsOf are what the swing was reduced from, as they stand in the output.
type inputsOf struct {
	Method           string `json:"method"`
	Direction        string `json:"direction,omitempty"`
	Variation        string `json:"variation,omitempty"`
	Position         string `json:"position"`
	Date             string `json:"date"`
	Step             string `json:"step"`
	ShoreUncertainty string `json:"shoreUncertainty,omitempty"`
	SecondCard       any    `json:"secondCard,omitempty"`
	All              bool   `json:"all,omitempty"`
	Lesson           bool   `json:"lesson,omitempty"`
	Correct          string `json:"correct,omitempty"`
	Induced          string `json:"induced,omitempty"`
	Heeling          string `json:"heeling,omitempty"`
	Vessel           string `json:"vessel,omitempty"`
	Compass          string `json:"compass,omitempty"`
	Adjuster         string `json:"adjuster,omitempty"`
	Remarks          string `json:"remarks,omitempty"`
	Readings         any    `json:"readings"`
}

// results are what was found.
type results struct {
	Suspicions []swing.Suspicion `json:"suspicions,omitempty"` // look at these readings first
	Swing      *swing.Swing      `json:"swing"`
	Fit        *swing.Fit        `json:"fit"`
	Warnings   []working.Warning `json:"warnings,omitempty"` // of the fit
	Meaning    working.Sheet     `json:"meaning"`            // of the coefficients
	Card       *deviation.Card   `json:"card"`
	Lesson     *lesson           `json:"lesson,omitempty"`
}

// columns are all columns that a record may have, for any method.
var columns = record.Columns{
	Required: []string{"heading"},
	Optional: []string{"bearing", "bearing_by", "relative", "time", "true", "shore", "other", "deviation", "uncertainty"},
}

// writeJSON writes the inputs and the results.
func (j job) writeJSON(w io.Writer, swung *swing.Swing, fit *swing.Fit, card *deviation.Card) error {
	rows, err := record.Read(bytes.NewReader(j.readings), columns)
	if err != nil {
		return fmt.Errorf("%s: %w", j.name, err)
	}
	in := inputsOf{
		Method: j.options.method, Position: j.options.position, Date: j.date, Step: j.options.step, All: j.all,
		Lesson: j.lesson, Correct: j.correct, Induced: j.induced, Heeling: j.heeling,
		Vessel: j.details.Vessel, Compass: j.details.Compass, Adjuster: j.details.Adjuster, Remarks: j.details.Remarks,
		Readings: inputs.Texts(rows, columns),
	}
	if j.card != nil {
		in.SecondCard = j.card
	}
	for _, name := range slices.Concat(needs[in.Method], uses[in.Method]) {
		switch name {
		case "direction":
			in.Direction = j.direction
		case "variation":
			in.Variation = j.variation
		case "shore-uncertainty":
			in.ShoreUncertainty = j.shore
		}
	}
	var taught *lesson
	if j.lesson {
		if taught, err = j.teach(fit); err != nil {
			return err
		}
	}
	return inputs.Write(w, in, results{swung.Suspicions(), swung, fit, fit.Working().Warnings, adjust.Analyse(fit.Curve.Coefficients()).Working(), card, taught})
}

// recalled is what the file of a swing holds.
type recalled struct {
	name     string // of the file
	readings []byte // the readings alone
	card     *deviation.Table
	invented bool // the program's own record
}

// recall reads the record. If it is the output of -format json, its inputs set the flags that
// are not on the command line.
func (o *options) recall() (recalled, error) {
	if o.path == "" {
		if _, known := needs[o.method]; !known {
			return recalled{}, nil // parse says what to give
		}
		own, ok := inventedSwings[o.method]
		if !ok {
			return recalled{}, flagError{fmt.Errorf("-swing missing: there is no invented swing by the method %s; give a file of your own", o.method)}
		}
		return recalled{name: own.file, readings: *own.record, invented: true}, nil
	}
	r := recalled{name: o.path}
	data, err := os.ReadFile(o.path)
	if err != nil {
		return r, err
	}
	r.readings = data
	var card, readings json.RawMessage
	in := inputsOf{SecondCard: &card, Readings: &readings}
	if isOutput, err := inputs.Read(data, &in); err != nil || !isOutput {
		if err != nil {
			err = fmt.Errorf("%s: %w", o.path, err)
		}
		return r, err
	}
	if readings == nil {
		return r, fmt.Errorf("%s: %w", o.path, errors.New(`the JSON has no readings in its inputs; give an array of readings, or what -format json wrote: {"inputs": {"readings": [ … ]}}`))
	}
	// With another method, the figures of the one in the file do not count.
	if slices.Contains(o.given, "method") && o.method != in.Method {
		in.Direction, in.Variation, in.ShoreUncertainty, card = "", "", "", nil
	}
	o.places = map[string]string{}
	for _, input := range []struct {
		flag, key, value string
		to               *string
	}{
		{"method", "method", in.Method, &o.method}, {"direction", "direction", in.Direction, &o.direction},
		{"variation", "variation", in.Variation, &o.variation}, {"position", "position", in.Position, &o.position},
		{"date", "date", in.Date, &o.date}, {"step", "step", in.Step, &o.step},
		{"shore-uncertainty", "shoreUncertainty", in.ShoreUncertainty, &o.shore}, {"vessel", "vessel", in.Vessel, &o.details.Vessel},
		{"compass", "compass", in.Compass, &o.details.Compass}, {"adjuster", "adjuster", in.Adjuster, &o.details.Adjuster},
		{"correct", "correct", in.Correct, &o.correct}, {"induced", "induced", in.Induced, &o.induced}, {"heeling", "heeling", in.Heeling, &o.heeling},
		{"", "remarks", in.Remarks, &o.details.Remarks},
	} {
		if input.value != "" && !slices.Contains(o.given, input.flag) {
			*input.to = input.value
			o.places[input.flag] = fmt.Sprintf("%s: line %d, %s", o.path, inputs.Line(data, input.key), input.key)
		}
	}
	if !slices.Contains(o.given, "all") {
		o.all = in.All
	}
	if !slices.Contains(o.given, "lesson") {
		o.lesson = in.Lesson
	}
	if card != nil && !slices.Contains(o.given, "second-card") {
		if r.card, err = deviation.ReadTable(bytes.NewReader(inputs.Rows(data, card))); err != nil {
			return r, fmt.Errorf("%s: secondCard: %w", o.path, err)
		}
		o.places["secondCard"] = o.path
	}
	r.readings = inputs.Rows(data, readings)
	return r, nil
}
