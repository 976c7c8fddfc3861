// Package lubberline is this module as a subject of the conformance suite. It shows how to make
// one: for each operation, write a function from what a case gives to the answer.
//
//	report, err := conformance.Check(lubberline.Subject(), conformance.Options{})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(report.Summary())
//
// # Where to begin
//
// Read package [conformance] first. The source files of this package are by topic, such as fix.go
// for fixes and tables.go for deviation tables. Copy the form of an operation from there, with the
// struct of its inputs.
package lubberline

import (
	"errors"
	"maps"
	"math"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation/sky"
	"lubberline.example/fix/danger"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// Subject returns this module as a subject, with an operation for every one of the corpus.
func Subject() conformance.Subject {
	s := conformance.Subject{Name: "lubberline", Version: "0", Operations: map[string]conformance.Operation{}}
	for _, topic := range []map[string]conformance.Operation{angles, variations, courses, deviations, sailings, fixes, fields, reciprocals, roses, reckonings, positions, dangers, swings} {
		for name, operation := range topic {
			s.Operations[name] = refusing(operation)
		}
	}
	return s
}

// refusing turns the module's typed errors into refusals.
func refusing(operation conformance.Operation) conformance.Operation {
	return func(given []byte) (conformance.Answer, error) {
		answer, err := operation(given)
		if kind := refusalOf(err); kind != "" {
			return nil, &conformance.Error{Status: conformance.Refused, Kind: kind, Reason: err.Error()}
		}
		return maps.Clone(answer), err
	}
}

// refusalOf returns the kind of refusal that an error is. It returns "" for other errors.
func refusalOf(err error) string {
	if e, ok := errors.AsType[*variation.Error](err); ok && e.Kind != variation.BadChart && e.Kind != variation.OutsideRoses {
		return string(e.Kind)
	}
	if e, ok := errors.AsType[*angle.ParseError](err); ok {
		return string(e.Kind)
	}
	if e, ok := errors.AsType[*sailing.Error](err); ok {
		return string(e.Kind)
	}
	if e, ok := errors.AsType[*sky.Error](err); ok {
		return string(e.Kind)
	}
	if e, ok := errors.AsType[*stream.Error](err); ok && e.Kind == stream.TooStrong {
		return "stream-too-strong"
	}
	if e, ok := errors.AsType[*wmm.Error](err); ok {
		return string(e.Kind)
	}
	if _, ok := errors.AsType[*angle.RangeError](err); ok {
		return "out-of-range"
	}
	if _, ok := errors.AsType[*danger.Error](err); ok {
		return "no-limit"
	}
	return ""
}

// onCircle is a difference of degrees the shorter way round.
func onCircle(degrees float64) float64 { return math.Remainder(degrees, 360) }
