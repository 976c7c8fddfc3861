package wmm_test

import (
	"errors"
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// The variation off the Orlesk coast, which is invented; the field there is the
// earth's own.
func Example() {
	e, err := wmm.WMM2025().On(time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC))
	if err != nil {
		log.Fatal(err)
	}
	field, rates, err := e.FieldAndRates(angle.MustParsePosition("47°06′N 019°02′W"), 0)
	if err != nil {
		log.Fatal(err)
	}
	d, err := field.D()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("variation %s, changing %+.0f′ a year (east positive); H %.0f nT, zone %s\n", d.EastWestString(), 60*rates.D(field), field.H(), field.Zone())
	// Output:
	// variation 5°08.2′W, changing +12′ a year (east positive); H 22203 nT, zone clear
}

// A set chooses the model for the date.
func ExampleSet_InYear() {
	for _, year := range []float64{1987, 2016, 2019, 2022, 2026.5} {
		e, err := wmm.Models().InYear(year)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(year, e.Model())
	}
	_, err := wmm.Models().InYear(1887)
	fmt.Println(err)
	// Output:
	// 1987 IGRF-14 1985.0, degree 10, 1985.0 to 1990.0
	// 2016 WMM-2015v2, degree 12, 2015.0 to 2020.0
	// 2019 WMM-2015v2, degree 12, 2015.0 to 2020.0
	// 2022 WMM-2020, degree 12, 2020.0 to 2025.0
	// 2026.5 WMM-2025, degree 12, 2025.0 to 2030.0
	// wmm: the set of WMM-2025, WMM-2020, WMM-2015v2, IGRF-14 is not valid in 1887.0; give a date from 1900.0 to 2030.0
}

// A set can have other models beside those of the package. This one is a dipole for
// teaching, with rounded figures.
func ExampleSet_With() {
	dipole, err := wmm.ReadCOF(strings.NewReader(`1990.0 DIPOLE-1990
1 0 -29775    0  0 0
1 1  -1850 5410  0 0
999999999999999999
`))
	if err != nil {
		log.Fatal(err)
	}
	models, err := wmm.Models().With(dipole)
	if err != nil {
		log.Fatal(err)
	}
	for _, year := range []float64{1992, 2026.5} {
		e, err := models.InYear(year)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(year, e.Model())
	}
	// Output:
	// 1992 DIPOLE-1990, degree 1, 1990.0 to 1995.0
	// 2026.5 WMM-2025, degree 12, 2025.0 to 2030.0
}

// A date outside a model's years is an error, which says for which years the model is valid.
// A program that needs an answer nevertheless can extrapolate.
func ExampleModel_Extrapolate() {
	m, bay := wmm.WMM2025(), angle.MustParsePosition("47°06′N 019°02′W")
	e, err := m.InYear(2032.5)
	if refused, ok := errors.AsType[*wmm.Error](err); ok && refused.Kind == wmm.OutsideYears {
		fmt.Println(err)
		e, err = m.Extrapolate(2032.5)
	}
	if err != nil {
		log.Fatal(err)
	}
	field, err := e.Field(bay, 0)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("extrapolated H: %.0f nT\n", field.H())
	// Output:
	// wmm: WMM-2025 is not valid in 2032.5; give a date from 2025.0 to 2030.0
	// extrapolated H: 22341 nT
}

// The agonic line where it crosses a stretch of sea.
func ExampleEvaluator_Isogonics() {
	e, err := wmm.WMM2025().InYear(2026.5)
	if err != nil {
		log.Fatal(err)
	}
	lines, err := e.Isogonics(wmm.Grid{
		South: angle.Must(angle.ParseLatitude("45°N")), North: angle.Must(angle.ParseLatitude("47°N")),
		West: angle.Must(angle.ParseLongitude("8°W")), Width: 6 * angle.Degree,
		LatitudeStep: angle.Degree, LongitudeStep: angle.Degree,
	}, 0)
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range lines[0].Lines[0] {
		fmt.Println(lines[0].Name(), p)
	}
	// Output:
	// 0° 45°00.0′N 005°16.5′W
	// 0° 46°00.0′N 005°03.8′W
	// 0° 46°17.0′N 005°00.0′W
	// 0° 47°00.0′N 004°49.9′W
}

// The variation along a parallel, row by row.
func ExampleEvaluator_Rows() {
	e, err := wmm.WMM2025().InYear(2026.5)
	if err != nil {
		log.Fatal(err)
	}
	err = e.Rows(wmm.Grid{
		South: angle.Must(angle.ParseLatitude("46°N")), North: angle.Must(angle.ParseLatitude("47°N")),
		West: angle.Must(angle.ParseLongitude("20°W")), Width: 2 * angle.Degree,
		LatitudeStep: angle.Degree, LongitudeStep: angle.Degree,
	}, func(r wmm.Row) error {
		for i, f := range r.Fields {
			d, err := f.D()
			if err != nil {
				return err
			}
			fmt.Println(r.Latitude, r.Longitudes[i], d.EastWestString())
		}
		return nil
	})
	if err != nil {
		log.Fatal(err)
	}
	// Output:
	// 46°00.0′N 020°00.0′W 5°20.9′W
	// 46°00.0′N 019°00.0′W 4°57.7′W
	// 46°00.0′N 018°00.0′W 4°34.7′W
	// 47°00.0′N 020°00.0′W 5°29.9′W
	// 47°00.0′N 019°00.0′W 5°06.4′W
	// 47°00.0′N 018°00.0′W 4°43.1′W
}

// A file that is cut short is refused with the line.
func ExampleReadCOF() {
	_, err := wmm.ReadCOF(strings.NewReader("2025.0 WMM-2025 11/13/2024\n1 0 -29351.8 0.0 12.0 0.0\n"))
	if e, ok := errors.AsType[*wmm.Error](err); ok {
		fmt.Println(e.Line, e.Kind)
	}
	// Output:
	// 2 truncated
}

// The variation in Orlesk Bay, as a source for package course, with how well the model
// knows it.
func ExampleSet_VariationAt() {
	v, err := wmm.Models().VariationAt(angle.MustParsePosition("47°06′N 019°02′W"), time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(v, v.Uncertainty())
	// Output:
	// 5°08.2′W ±0°21.4′
}

// The components of the field, as a compass adjuster wants them.
func ExampleField() {
	e, err := wmm.WMM2025().InYear(2026.5)
	if err != nil {
		log.Fatal(err)
	}
	field, err := e.Field(angle.MustParsePosition("47°06′N 019°02′W"), 0)
	if err != nil {
		log.Fatal(err)
	}
	dip, err := field.I()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("H %.0f nT, Z %.0f nT, F %.0f nT, dip %.1f\n", field.H(), field.Z, field.F(), dip)
	// Output:
	// H 22203 nT, Z 41803 nT, F 47334 nT, dip 62.0°
}
