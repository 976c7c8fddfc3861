// Command lubberline answers the conformance protocol for this module.
package main

import (
	"fmt"
	"os"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
)

func main() {
	if err := conformance.Serve(lubberline.Subject(), os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
