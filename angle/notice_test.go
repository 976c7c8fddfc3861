package angle_test

import (
	"os"
	"strings"
	"testing"
)

// FDLIBM's terms ask that its notice is preserved: beside the polynomials, and for those
// who pass the library on, in LICENSE.
func TestFDLIBMNoticeIsPreserved(t *testing.T) {
	for _, file := range []string{"trig.go", "../LICENSE"} {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		words := strings.Join(strings.Fields(strings.ReplaceAll(string(text), "//", "")), " ")
		for _, part := range []string{
			"Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved.",
			"Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.",
		} {
			if !strings.Contains(words, part) {
				t.Errorf("%s: want %q", file, part)
			}
		}
	}
}
