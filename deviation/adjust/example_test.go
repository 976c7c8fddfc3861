package adjust_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
)

// What a large coefficient B comes from, and what acts on it.
func ExampleAnalyse() {
	analysis := adjust.Analyse(deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree})
	b := analysis.Findings[1]
	fmt.Printf("%s %v: greatest %s\n", b.Letter, b.Value.EastWestString(), b.Greatest)
	fmt.Println("cause:", b.Cause)
	fmt.Println("corrector:", b.Corrector)
	// Output:
	// B 4°00′W: greatest on east and west
	// cause: permanent magnetism fore and aft, and vertical soft iron forward or aft of the compass
	// corrector: fore-and-aft magnets for the permanent part, a vertical soft-iron bar (Flinders bar) for the induced part
}

// The largest deviation of a compass, and what a flag state allows.
func ExampleLimit_Remark() {
	curve, err := deviation.Coefficients{B: -4 * angle.Degree, D: 3 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	remark, err := adjust.FlagStateLimit().Remark(curve)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(remark.What, remark.Value)
	fmt.Println(remark.How)
	// Output:
	// Largest deviation 6.1°W
	// on 124°C; MORE than the 5° allowed on any heading (Republic of the Marshall Islands, Marine Notice 2-011-32 (June 2009), 2.1; other flag states may differ)
}

// Heading 010° by compass and heeled 15° to port, so that the starboard side is high,
// the Quillon's compass deviates 3° more to the east than upright.
func ExampleHeelingFrom() {
	j, err := adjust.HeelingFrom(deviation.MustParse("3°E"), angle.MustParseCompass("010°C"), 15*angle.Degree, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("J %+.2f\n", float64(j))
	added, err := j.Adds(angle.MustParseCompass("060°C"), 10*angle.Degree, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("on 060°C, heeled 10°: %.0v more\n", added)
	// Output:
	// J +0.20
	// on 060°C, heeled 10°: 1°01′E more
}

// Bound for high latitudes, where the horizontal field is weak, the Quillon's
// permanent magnetism turns its compass further.
func ExampleForces_At() {
	here := deviation.ExactCoefficients{B: -0.070, C: 0.052, D: 0.035}
	forces, err := adjust.AllPermanent(here, swxField{23_000, 62 * angle.Degree})
	if err != nil {
		log.Fatal(err)
	}
	there, err := forces.At(swxField{12_000, 77 * angle.Degree})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("here ", here)
	fmt.Println("there", there)
	// Output:
	// here  A +0.0000  B -0.0700  C +0.0520  D +0.0350  E +0.0000
	// there A +0.0000  B -0.1342  C +0.0997  D +0.0350  E +0.0000
}

// swxField is the earth's field at a place.
type swxField struct {
	horizontal float64 // nanotesla
	dip        angle.Angle
}

func (f swxField) H() float64 { return f.horizontal }

func (f swxField) I() (angle.Angle, error) { return f.dip, nil }

// Swung off Orlesk Head and again far to the south, the Quillon's coefficient B
// has a permanent and an induced part.
func ExampleSeparate() {
	orlesk := swxField{23_000, 62 * angle.Degree}
	south := swxField{28_000, -20 * angle.Degree}
	first := deviation.ExactCoefficients{B: -0.070, C: 0.052, D: 0.035}
	second := deviation.ExactCoefficients{B: -0.030, C: 0.043, D: 0.035}
	forces, err := adjust.Separate(first, orlesk, second, south)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("permanent ahead %.0f nT, induced ahead %.4f of the vertical field\n", forces.PermanentAhead, forces.InducedAhead)
	k, err := forces.At(swxField{30_000, 0})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("where there is no dip: B %.3f\n", k.B)
	// Output:
	// permanent ahead -987 nT, induced ahead -0.0144 of the vertical field
	// where there is no dip: B -0.033
}

// What corrects a compass, which way, and what half of it would leave.
func ExampleLesson() {
	k := deviation.Coefficients{B: -4 * angle.Degree, D: 2 * angle.Degree}
	corrections, err := adjust.Lesson{Coefficients: k}.Corrections()
	if err != nil {
		log.Fatal(err)
	}
	for i, c := range corrections {
		fmt.Println(c.Corrector, c.Way, c.Amount)
		corrections[i].Amount /= 2
	}
	before, err := k.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	after, err := adjust.After(before, corrections...)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(after.Coefficients())
	// Output:
	// spheres abeam 2°00′
	// fore-and-aft-magnets red-aft 4°00′
	// A +0.00°  B −2.00°  C +0.00°  D +1.00°  E +0.00°
}

// A magnet the wrong way doubles B. The table shows it.
func ExampleCompare() {
	before, err := deviation.Coefficients{B: -4 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	wrong := adjust.Correction{Corrector: adjust.ForeAndAftMagnets, Way: adjust.RedForward, Amount: 4 * angle.Degree}
	after, err := adjust.After(before, wrong)
	if err != nil {
		log.Fatal(err)
	}
	table, err := adjust.Compare(before, after, 45*angle.Degree)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(table)
	// Output:
	// Before and after
	//
	//   compass  before  after  change
	//     000°C   0.0°   0.0°    0.0°
	//     045°C   2.8°W  5.7°W   2.9°W
	//     090°C   4.0°W  8.0°W   4.0°W
	//     135°C   2.8°W  5.7°W   2.9°W
	//     180°C   0.0°   0.0°    0.0°
	//     225°C   2.8°E  5.7°E   2.9°E
	//     270°C   4.0°E  8.0°E   4.0°E
	//     315°C   2.8°E  5.7°E   2.9°E
	//
	// Largest: 4.0°W before, 8.0°W after
	// This checks a compass. Correcting it is the work of a compass adjuster, certified where the flag state requires it; after any correction the compass is swung again.
}

// Which way the magnets for B stand, and why.
func ExampleRules() {
	step, _ := adjust.Rules().Steps.Find("B west")
	fmt.Printf("%s: %s\n%s\n", step.What, step.Value, step.How)
	// Output:
	// B −: fore-and-aft magnets, red ends aft
	// westerly on east, easterly on west: the needle's north end is drawn aft; the magnets lie below the card: red ends aft drive the needle's north end forward
}

// The heeling coefficient by Smith's formula, and what a heel of 10° to port adds on north.
func ExampleNewHeeling() {
	j, err := adjust.NewHeeling(0.05, 0.95, 0.9, 65*angle.Degree)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.3f° for each degree of heel\n", float64(j))
	adds, err := j.Adds(angle.MustParseCompass("000"), 10*angle.Degree, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(adds)
	// Output:
	// 0.226° for each degree of heel
	// 2°15.8′E
}
