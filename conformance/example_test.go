package conformance_test

import (
	"fmt"
	"log"
	"math"
	"strings"

	"lubberline.example/conformance"
)

// A program of your own, which knows one operation: the distance of the horizon.
var mine = conformance.Subject{
	Name: "mine", Version: "1",
	Operations: map[string]conformance.Operation{
		"fix.horizon": conformance.On(func(given struct{ HeightFeet float64 }) (conformance.Answer, error) {
			if given.HeightFeet < 0 {
				return nil, &conformance.Error{Status: conformance.Refused, Reason: "below the water"}
			}
			return conformance.Answer{"horizonMiles": 1.17 * math.Sqrt(given.HeightFeet)}, nil
		}),
	},
}

// Held to the cases of fixes without a test; in a test conformance.Run makes a subtest
// of each.
func Example() {
	report, err := conformance.Check(mine, conformance.Options{Topic: "fix"})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("all that is offered passes:", report.Good())
	for _, r := range report.Results {
		if !r.Status.Good() {
			fmt.Println(r)
		}
	}
	// Output:
	// all that is offered passes: true
}

// What is asked in one case, what must come of it, and where it stands.
func ExampleLoad() {
	topics, err := conformance.Load()
	if err != nil {
		log.Fatal(err)
	}
	for _, t := range topics {
		for _, c := range t.Cases {
			if c.Operation == "fix.horizon" {
				fmt.Println(c.ID)
				want := c.Expect["horizonMiles"]
				fmt.Println("want", want.Value, "miles, within", want.Within)
				fmt.Println(t.Sources[c.Source.ID].Kind, "-", c.Standing)
				return
			}
		}
	}
	// Output:
	// fix/horizon/1-feet
	// want 1.2 miles, within 0.051
	// from-memory - table
}

// The protocol, for a program in Go that the command in conformance/run drives.
func ExampleServe() {
	lines := strings.NewReader(`{"hello":1,"corpus":"2.0","operations":["fix.horizon"]}
{"case":"mine","operation":"fix.horizon","given":{"heightFeet":100}}
{"bye":true}
`)
	var answers strings.Builder // or standard output
	if err := conformance.Serve(mine, lines, &answers); err != nil {
		log.Fatal(err)
	}
	fmt.Print(answers.String())
	// Output:
	// {"hello":1,"name":"mine","version":"1","offers":["fix.horizon"]}
	// {"case":"mine","answer":{"horizonMiles":11.7}}
}
