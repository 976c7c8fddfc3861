package fix_test

import (
	"errors"
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// The vessel Quillon, the Orlesk coast and every figure here are invented.
var (
	orleskHead   = fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	minnowLedge  = fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	braddlePoint = fix.Mark{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")}
	stOsk        = fix.Mark{Name: "St Osk church", Position: angle.MustParsePosition("46°57.0′N 019°03.0′W")}

	quillonReckoned = angle.MustParsePosition("46°58.0′N 019°17.8′W")
)

// The standard uncertainty of a bearing from a small vessel, in degrees.
var oneDegree = angle.Must(angle.StandardUncertainty(angle.Degree))

// Three bearings by the steering compass, while the vessel heads 226° by it.
func Example() {
	half := angle.Must(angle.StandardUncertainty(30 * angle.Minute))
	heading, err := course.FromCompass(angle.MustParseCompass("226°C"), course.With{
		Variation: variation.MustParse("5°08′W").WithUncertainty(half),
		Deviation: deviation.MustParse("0°50′E").WithUncertainty(half),
	})
	if err != nil {
		log.Fatal(err)
	}
	bearing := func(mark fix.Mark, compass string) fix.Line {
		return fix.CompassBearing(mark, heading.BearingFromCompass(angle.MustParseCompass(compass)), oneDegree)
	}
	f, err := fix.Solve([]fix.Line{
		bearing(orleskHead, "053°C"), bearing(minnowLedge, "042°C"), bearing(braddlePoint, "137°C"),
	}, fix.Options{Near: &quillonReckoned})
	if err != nil {
		log.Fatal(err)
	}
	ellipse, err := f.Ellipse(0.95)
	if err != nil {
		log.Fatal(err)
	}
	a, b, cut := f.BestCut()
	fmt.Println(f.Position())
	fmt.Printf("95 %%: %v by %v, the longer axis %v\n", ellipse.SemiMajor, ellipse.SemiMinor, ellipse.MajorAxis)
	fmt.Printf("probability %.2f\n", f.Probability())
	fmt.Printf("%s and %s cut at %.0f\n", f.Lines()[a].Name(), f.Lines()[b].Name(), cut)
	// Output:
	// 46°58.1′N 019°17.7′W
	// 95 %: 0.84 M by 0.33 M, the longer axis 027°T
	// probability 0.37
	// Minnow Ledge beacon and Braddle Point tower cut at 85°
}

func ExampleSolve() {
	f, err := fix.Solve([]fix.Line{
		fix.Bearing(minnowLedge, angle.MustParseTrue("037°T"), oneDegree),
		fix.Bearing(braddlePoint, angle.MustParseTrue("132°T"), oneDegree),
	}, fix.Options{})
	if err != nil {
		log.Fatal(err)
	}
	_, _, cut := f.BestCut()
	fmt.Printf("%v, cut %.0f\n", f.Position(), cut)
	// Output:
	// 46°57.9′N 019°17.8′W, cut 85°
}

// Two distances off meet twice. The reckoned position chooses.
func ExampleRange() {
	off, err := fix.Range(minnowLedge, 7*sailing.NauticalMile, 200)
	if err != nil {
		log.Fatal(err)
	}
	church, err := fix.Range(stOsk, 10.2*sailing.NauticalMile, 200)
	if err != nil {
		log.Fatal(err)
	}
	f, err := fix.Solve([]fix.Line{off, church}, fix.Options{Near: &quillonReckoned})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(f.Position())
	fmt.Println("or", f.Alternatives())
	// Output:
	// 46°58.0′N 019°17.8′W
	// or [47°07.2′N 019°02.8′W]
}

// A running fix: St Osk church bears 096°, and after four miles to the south
// 074°.
func ExampleLine_Transferred() {
	run := sailing.Run{Course: angle.MustParseTrue("180°T"), Distance: 4 * sailing.NauticalMile}
	// The run is good to 0.25 M along and 0.1 M across.
	known := sailing.Oriented(run.Course, 0.25*sailing.NauticalMile, 0.1*sailing.NauticalMile)
	first := fix.Bearing(stOsk, angle.MustParseTrue("096°T"), oneDegree).Transferred(run, known)
	second := fix.Bearing(stOsk, angle.MustParseTrue("074°T"), oneDegree)
	f, err := fix.Solve([]fix.Line{first, second}, fix.Options{Near: &quillonReckoned})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(f.Position())
	fmt.Print(first.Working())
	// Output:
	// 46°54.1′N 019°17.9′W
	// True bearing            096°T  of St Osk church
	// Transferred   180.0°T, 4.00 M  the run over the ground since the line was observed
}

// A running fix by a run as in the log: St Osk church bears 096° at ten, and 074° after 40
// minutes on 180° at six knots, with a stream that sets to the east at half a knot.
func ExampleLine_TransferredBy() {
	ten := time.Date(2026, time.July, 2, 10, 0, 0, 0, time.UTC)
	quarter := angle.Must(sailing.StandardUncertainty(0.25 * sailing.Knot))
	run := stream.ReckonedRun{
		Heading: angle.MustParseTrue("180°T"), Speed: 6 * sailing.Knot, Lasts: 40 * time.Minute,
		Stream:             stream.Stream{Set: angle.MustParseTrue("090°T"), Rate: 0.5 * sailing.Knot},
		HeadingUncertainty: oneDegree, SpeedUncertainty: quarter, StreamUncertainty: quarter,
	}
	first, err := fix.Bearing(stOsk, angle.MustParseTrue("096°T"), oneDegree).WithTime(ten).TransferredBy(run)
	if err != nil {
		log.Fatal(err)
	}
	second := fix.Bearing(stOsk, angle.MustParseTrue("074°T"), oneDegree).WithTime(ten.Add(run.Lasts))
	f, err := fix.Solve([]fix.Line{first, second}, fix.Options{Near: &quillonReckoned})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(f.Time().Format("15:04"), f)
	cut, _ := f.Working().Steps.Find("cut")
	fmt.Println(cut.What, cut.Value, cut.How)
	fmt.Print(first.Working())
	// Output:
	// 10:40 46°54.1′N 019°17.8′W, 95 %: 2.25 M along 080°T, 0.39 M across
	// Best cut 22° of St Osk church at 10:00 UTC and St Osk church at 10:40 UTC
	// True bearing            096°T  of St Osk church
	// Transferred   175.2°T, 4.01 M  over the ground in 40 min, heading 180°T at 6.0 kn; stream sets 090°T at 0.5 kn
}

// The bearing of Orlesk Head was read ten degrees too large.
func ExampleFix_Suspicions() {
	f, err := fix.Solve([]fix.Line{
		fix.Bearing(orleskHead, angle.MustParseTrue("059°T"), oneDegree),
		fix.Bearing(minnowLedge, angle.MustParseTrue("037°T"), oneDegree),
		fix.Bearing(braddlePoint, angle.MustParseTrue("132°T"), oneDegree),
		fix.Bearing(stOsk, angle.MustParseTrue("095°T"), oneDegree),
	}, fix.Options{Near: &quillonReckoned})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v, probability %.0e\n", f.Position(), f.Probability())
	for _, s := range f.Suspicions() {
		fmt.Printf("without %s: %v, probability %.2f, off by %.1f standard uncertainties\n", f.Lines()[s.Line].Name(), s.Position, s.Probability, s.Ratio)
	}
	// Output:
	// 46°58.2′N 019°18.3′W, probability 2e-18
	// without Orlesk Head light: 46°57.9′N 019°17.9′W, probability 0.91, off by 9.0 standard uncertainties
}

// Which of two marks to observe next: the one that makes the ellipse smallest.
func ExampleFix_NextBearings() {
	f, err := fix.Solve([]fix.Line{
		fix.Bearing(orleskHead, angle.MustParseTrue("049°T"), oneDegree),
		fix.Bearing(minnowLedge, angle.MustParseTrue("037°T"), oneDegree),
	}, fix.Options{})
	if err != nil {
		log.Fatal(err)
	}
	advice, err := f.NextBearings([]fix.Mark{stOsk, braddlePoint}, oneDegree)
	if err != nil {
		log.Fatal(err)
	}
	for _, a := range advice {
		fmt.Printf("%v, bearing %.0f: the ellipse then reaches %v\n", a.Mark, a.Bearing, a.Ellipse.SemiMajor)
	}
	// Output:
	// St Osk church, bearing 093°T: the ellipse then reaches 0.59 M
	// Braddle Point tower, bearing 131°T: the ellipse then reaches 0.65 M
}

// The corners of the cocked hat of three bearings.
func ExampleFix_Hat() {
	f, err := fix.Solve([]fix.Line{
		fix.Bearing(orleskHead, angle.MustParseTrue("050°T"), oneDegree),
		fix.Bearing(minnowLedge, angle.MustParseTrue("037°T"), oneDegree),
		fix.Bearing(braddlePoint, angle.MustParseTrue("132°T"), oneDegree),
	}, fix.Options{})
	if err != nil {
		log.Fatal(err)
	}
	corners, longest := f.Hat()
	for _, c := range corners {
		fmt.Printf("%v with %v: %v\n", f.Lines()[c.A].Name(), f.Lines()[c.B].Name(), c.Position)
	}
	fmt.Printf("the longest side is %.1f miles\n", longest.NauticalMiles())
	// Output:
	// Orlesk Head light with Minnow Ledge beacon: 46°58.7′N 019°17.1′W
	// Orlesk Head light with Braddle Point tower: 46°58.1′N 019°18.1′W
	// Minnow Ledge beacon with Braddle Point tower: 46°57.9′N 019°17.8′W
	// the longest side is 0.9 miles
}

// Two horizontal sextant angles between three marks: a position without a compass.
func ExampleHorizontalAngle() {
	known := angle.Must(angle.StandardUncertainty(2 * angle.Minute))
	left, err := fix.HorizontalAngle(minnowLedge, orleskHead, angle.Must(angle.Parse("12°22′")), known)
	if err != nil {
		log.Fatal(err)
	}
	right, err := fix.HorizontalAngle(orleskHead, stOsk, angle.Must(angle.Parse("46°40′")), known)
	if err != nil {
		log.Fatal(err)
	}
	f, err := fix.Solve([]fix.Line{left, right}, fix.Options{Near: &quillonReckoned})
	if err != nil {
		log.Fatal(err)
	}
	ellipse, err := f.Ellipse(0.95)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v, to within %v 95 times in 100\n", f.Position(), ellipse.SemiMajor)
	// Output:
	// 46°58.1′N 019°17.7′W, to within 0.02 M 95 times in 100
}

// One line gives no fix, but it improves an estimated position.
func ExampleError() {
	line := fix.Bearing(minnowLedge, angle.MustParseTrue("037°T"), oneDegree)
	_, err := fix.Solve([]fix.Line{line}, fix.Options{})
	if e, ok := errors.AsType[*fix.Error](err); ok {
		fmt.Println(e.Reason)
	}
	f, err := fix.Solve([]fix.Line{line}, fix.Options{Prior: &stream.Estimate{
		Position: quillonReckoned, Covariance: sailing.Circular(1 * sailing.NauticalMile),
	}})
	fmt.Println(f.Position(), err)
	// Output:
	// one line cannot determine 2 unknowns: observe more lines, or give an estimated position as Options.Prior
	// 46°58.0′N 019°17.8′W <nil>
}

// All bearings by the steering compass have the same error of some degrees. Four lines give
// this error together with the position.
func ExampleOptions() {
	heading, err := course.FromCompass(angle.MustParseCompass("226°C"), course.With{
		Variation: variation.MustParse("5°08′W ±0°15′"), Deviation: deviation.MustParse("0°50′E ±2°"),
	})
	if err != nil {
		log.Fatal(err)
	}
	var lines []fix.Line
	for _, l := range []struct {
		mark    fix.Mark
		compass string
	}{{orleskHead, "056"}, {minnowLedge, "044"}, {braddlePoint, "139"}, {stOsk, "102"}} {
		lines = append(lines, fix.CompassBearing(l.mark, heading.BearingFromCompass(angle.MustParseCompass(l.compass)), oneDegree))
	}
	f, err := fix.Solve(lines, fix.Options{Near: &quillonReckoned, CompassError: true})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v, a further compass error of %.1f %v\n", f.Position(), f.CompassError(), f.CompassError().Uncertainty())
	// Output:
	// 46°57.9′N 019°17.8′W, a further compass error of 2.6°W ±1°39′
}
