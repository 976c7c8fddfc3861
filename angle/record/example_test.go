package record_test

import (
	"errors"
	"fmt"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
)

// Bearings taken from the fictional vessel Quillon, invented: the second is no
// bearing.
func Example() {
	const file = `mark,bearing
Orlesk Head,035°T
Braddle Point,400°T
`
	rows, err := record.Read(strings.NewReader(file), record.Columns{Required: []string{"mark", "bearing"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range rows {
		bearing, err := angle.ParseTrue(row.Text("bearing"))
		if err != nil {
			fmt.Println(row.Fault("bearing", err))
			continue
		}
		fmt.Println(row.Text("mark"), bearing)
	}
	// Output:
	// Orlesk Head 035°T
	// line 3, bearing: "400°T" is not a true direction: out of range; write a direction from 0° to 360°, as in 035°T
}

// A column that nobody asked for is refused: something unread may matter.
func ExampleRead() {
	_, err := record.Read(strings.NewReader("mark,bearing,time\n"), record.Columns{Required: []string{"mark", "bearing"}})
	fmt.Println(err)
	// Output:
	// line 1: unknown column "time"; the columns are mark, bearing
}

// The line of a fault, for a program that shows the file beside it; and what was
// wrong, for one that can mend it.
func ExampleError() {
	rows, err := record.Read(strings.NewReader("mark,bearing\nOrlesk Head,400°T\n"), record.Columns{Required: []string{"mark", "bearing"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	if _, refused := angle.ParseTrue(rows[0].Text("bearing")); refused != nil {
		err = rows[0].Fault("bearing", refused)
	}
	if e, ok := errors.AsType[*record.Error](err); ok {
		fmt.Println("line", e.Line, "column", e.Column)
	}
	if e, ok := errors.AsType[*angle.ParseError](err); ok {
		fmt.Println(e.Kind)
	}
	// Output:
	// line 2 column bearing
	// out-of-range
}
