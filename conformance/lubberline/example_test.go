package lubberline_test

import (
	"fmt"
	"log"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
)

// This module, held to the cases of one topic.
func Example() {
	report, err := conformance.Check(lubberline.Subject(), conformance.Options{Topic: "variation"})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(report.Subject, "passes:", report.Good())
	// Output:
	// lubberline passes: true
}
