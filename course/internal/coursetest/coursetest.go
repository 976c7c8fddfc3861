// Package coursetest makes headings and bearings for tests.
package coursetest

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// Known returns a known variation and a known deviation to convert with.
func Known(v, d string) course.With {
	return course.With{Variation: variation.MustParse(v), Deviation: deviation.MustParse(d)}
}

// Heading converts a direction, whose last letter says by which north it is given: T, M or C.
func Heading(t testing.TB, text string, w course.With) course.Heading {
	t.Helper()
	var h course.Heading
	var err error
	switch text[len(text)-1] {
	case 'T':
		h, err = course.FromTrue(angle.MustParseTrue(text), w)
	case 'M':
		h, err = course.FromMagnetic(angle.MustParseMagnetic(text), w)
	default:
		h, err = course.FromCompass(angle.MustParseCompass(text), w)
	}
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// Bearing converts a bearing in the same way; R is from the bow.
func Bearing(h course.Heading, text string) course.Bearing {
	switch text[len(text)-1] {
	case 'T':
		return h.BearingFromTrue(angle.MustParseTrue(text))
	case 'M':
		return h.BearingFromMagnetic(angle.MustParseMagnetic(text))
	case 'R':
		return h.BearingFromRelative(angle.Must(angle.ParseRelative(text)))
	}
	return h.BearingFromCompass(angle.MustParseCompass(text))
}
