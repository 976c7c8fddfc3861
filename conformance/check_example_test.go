package conformance_test

import (
	"fmt"
	"log"
	"math"

	"lubberline.example/conformance"
)

// Check holds an implementation to the corpus outside of a test.
func ExampleCheck() {
	mine := conformance.Subject{Name: "mine", Version: "1", Operations: map[string]conformance.Operation{
		"fix.horizon": conformance.On(func(given struct{ HeightFeet float64 }) (conformance.Answer, error) {
			return conformance.Answer{"horizonMiles": 1.17 * math.Sqrt(given.HeightFeet)}, nil
		}),
	}}
	report, err := conformance.Check(mine, conformance.Options{Topic: "fix"})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(report.Good())
	fmt.Println(report.Counts()[conformance.Fail])
	// Output:
	// true
	// 0
}
