// Command isogonic draws a map of magnetic variation as SVG: the isogonic lines of an area
// on a date, with a graticule, the annual change and a key. It also writes the lines as
// GeoJSON.
//
//	go run ./examples/isogonic
//	go run ./examples/isogonic -h # for another area or date
//
// It shows package [lubberline.example/wmm].
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

const about = `Usage: isogonic [flags]

Draws the lines of equal variation in an area, by models of the earth's magnetic field,
for a date from 1900 to 2030. The area runs eastward from -west to -east, and may cross
the date line. For the whole earth use -west 180W -east 180E. If the area reaches beyond
70° of latitude in one hemisphere only, the map is drawn around the pole. The file name -
means standard output.

`

// main runs the program.
func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run runs the program and returns its exit status: 1 for an error of the map or a file, 2
// for an error in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("isogonic", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	var a area
	flags.TextVar(&a.south, "south", latitude("35°N"), "`latitude` of the southern edge")
	flags.TextVar(&a.north, "north", latitude("60°N"), "`latitude` of the northern edge")
	flags.TextVar(&a.west, "west", longitude("40°W"), "`longitude` of the western edge")
	flags.TextVar(&a.east, "east", longitude("000°E"), "`longitude` of the eastern edge")
	every := flags.Float64("every", 0, "`degrees` of variation between two lines; if 0, the program chooses 1′ to 10°")
	title := flags.String("title", "", "title of the map (default \"Magnetic variation\" and the date)")
	dateText := flags.String("date", "2026-07-02", "`date` of the map")
	svg := flags.String("svg", "isogonic.svg", "`file` for the map; if empty, no map is written")
	geojson := flags.String("geojson", "isogonic.geojson", "`file` for the lines; if empty, no lines are written")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	date, err := time.Parse(time.DateOnly, *dateText)
	if err == nil && flags.NArg() > 0 {
		err = fmt.Errorf("%q is not a flag; -h explains the flags", flags.Arg(0))
	}
	if err == nil {
		a.every, err = angle.Degrees(*every)
		a.every = a.every.Round(angle.Second)
	}
	if err == nil && a.every != 0 && (a.every < angle.Minute || a.every > 90*angle.Degree || a.every%angle.Minute != 0) {
		err = fmt.Errorf("-every %v: write degrees in whole minutes, from 1′ (0.0166667) to 90°, such as 0.5, or 0", *every)
	}
	if err == nil && utf8.RuneCountInString(*title) > maxTitle {
		err = fmt.Errorf("-title: write at most %d characters", maxTitle)
	}
	if err == nil {
		err = a.check()
	}
	if err != nil {
		fmt.Fprintln(stderr, "isogonic:", err)
		return 2
	}
	if err := draw(a, *title, date, *svg, *geojson, stdout, stderr); err != nil {
		fmt.Fprintln(stderr, "isogonic:", err)
		return 1
	}
	return 0
}

// maxTitle is the number of characters of a title that fit on the narrowest sheet.
const maxTitle = 60

// latitude and longitude return the defaults of flags.
func latitude(text string) *angle.Latitude {
	l := angle.Must(angle.ParseLatitude(text))
	return &l
}

func longitude(text string) *angle.Longitude {
	l := angle.Must(angle.ParseLongitude(text))
	return &l
}

// draw computes the lines, and writes the map and the lines to files.
func draw(a area, title string, date time.Time, svg, geojson string, stdout, stderr io.Writer) error {
	e, err := wmm.Models().On(date)
	if err != nil {
		return err
	}
	look, err := a.look(e)
	if err != nil {
		return err
	}
	if a.every == 0 {
		a.every = look.spacing()
	}
	lines, err := e.Isogonics(a.grid(), look.levels(a.every)...)
	if err != nil {
		return err
	}
	lines = withLines(lines)
	if len(lines) == 0 {
		fmt.Fprintf(stderr, "isogonic: no line to draw: no multiple of %s occurs in the area; with -every 0 the program chooses\n", short(a.every))
	}
	var b bytes.Buffer
	if svg != "" {
		m := newSheet(a)
		m.date, m.model, m.survey = date.Format("2 January 2006"), e.Model(), look
		if m.title = title; title == "" {
			m.title = "Magnetic variation, " + m.date
		}
		if err := m.draw(&b, e, lines); err != nil {
			return err
		}
		if err := save(svg, b.Bytes(), stdout, stderr); err != nil {
			return err
		}
	}
	if geojson != "" {
		b.Reset()
		if err := wmm.WriteGeoJSON(&b, lines); err != nil {
			return err
		}
		return save(geojson, b.Bytes(), stdout, stderr)
	}
	return nil
}

// withLines leaves out the declinations that do not occur in the area.
func withLines(all []wmm.Isogonic) []wmm.Isogonic {
	var some []wmm.Isogonic
	for _, i := range all {
		if len(i.Lines) > 0 {
			some = append(some, i)
		}
	}
	return some
}

// save writes a file, or standard output if the path is -.
func save(path string, data []byte, stdout, stderr io.Writer) error {
	if path == "-" {
		_, err := stdout.Write(data)
		return err
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		return err
	}
	fmt.Fprintf(stderr, "wrote %s\n", path)
	return nil
}
