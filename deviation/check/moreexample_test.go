package check_test

import (
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/check"
	"lubberline.example/variation"
)

// Two charted marks come in line on 062° true, and bear 071° by compass on heading 090°.
func ExampleReading_Against() {
	reading := check.Reading{
		Heading:   new(angle.MustParseCompass("090°C")),
		Bearing:   new(angle.MustParseCompass("071°C")),
		Variation: variation.West(5 * angle.Degree),
	}
	c, err := reading.Against("the leading marks", angle.MustParseTrue("062°T"), angle.Uncertainty{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("compass error", c.Error)
	fmt.Println("deviation", c.Deviation)
	// Output:
	// compass error 9°00′W
	// deviation 4°00′W
}

// A check is written to a log, and read back.
func ExampleWriteLog() {
	reading := check.Reading{
		Time:        time.Date(2026, time.May, 14, 19, 40, 0, 0, time.UTC),
		Heading:     new(angle.MustParseCompass("090°C")),
		Bearing:     new(angle.MustParseCompass("071°C")),
		Variation:   variation.MustParse("5°00′W ±0°15′"),
		Uncertainty: angle.Must(angle.StandardUncertainty(angle.Degree / 2)),
	}
	c, err := reading.Against("the leading marks", angle.MustParseTrue("062°T"), angle.Must(angle.StandardUncertainty(0)))
	if err != nil {
		log.Fatal(err)
	}
	var b strings.Builder
	if err := check.WriteLog(&b, check.CSV, c); err != nil {
		log.Fatal(err)
	}
	back, err := check.ReadLog(strings.NewReader(b.String()))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(back[0].Time.Format(time.DateTime), back[0].Against, back[0].Deviation, back[0].Deviation.Uncertainty())
	// Output:
	// 2026-05-14 19:40:00 the leading marks 4°00′W ±0°33.5′
}

// A page of the compass record book as text: the columns that have something in them.
func ExampleRecordBook() {
	checks, err := check.ReadLog(strings.NewReader(`time,heading,deviation,uncertainty,against
2026-05-14T19:40:00Z,090,4°W,0.5,the leading marks
2026-05-15T06:10:00Z,180,1°W,0.5,the Sun
`))
	if err != nil {
		log.Fatal(err)
	}
	columns, rows := check.RecordBook(checks...)
	for i, column := range columns {
		if rows[0][i] != "" {
			fmt.Printf("%s: %s, %s\n", column, rows[0][i], rows[1][i])
		}
	}
	// Output:
	// Date, UTC: 2026-05-14 1940, 2026-05-15 0610
	// Heading: 090°C, 180°C
	// Object: the leading marks, the Sun
	// Deviation: 4.0°W ±0.5°, 1.0°W ±0.5°
}
