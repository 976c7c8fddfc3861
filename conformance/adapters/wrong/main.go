// Command wrong answers the conformance protocol for this module with one slip that
// people and programs make, to prove that the corpus catches it:
//
//	go run ./conformance/run -- go run ./conformance/adapters/wrong -slip mean-across-north
package main

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"slices"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
)

func main() {
	name := flag.String("slip", "", fmt.Sprintf("one of %v", slices.Sorted(maps.Keys(slips))))
	flag.Parse()
	s, err := wrong(*name)
	if err == nil {
		err = conformance.Serve(s, os.Stdin, os.Stdout)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// wrong returns this module with a slip.
func wrong(slip string) (conformance.Subject, error) {
	s := lubberline.Subject()
	apply, ok := slips[slip]
	if !ok {
		return s, fmt.Errorf("there is no slip %q; use one of %v", slip, slices.Sorted(maps.Keys(slips)))
	}
	s.Name = "wrong: " + slip
	apply(s.Operations)
	return s, nil
}
