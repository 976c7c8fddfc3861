// Command isogonic draws a map of magnetic variation as SVG: the isogonic lines of an area
// on a date, with lines of equal annual change, a graticule and a key. It also writes the lines as
// GeoJSON.
//
//	go run ./examples/isogonic
//	go run ./examples/isogonic -h # for another area or date
//
// It shows package [lubberline.example/wmm].
package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/examples/internal/help"
	"lubberline.example/examples/internal/isomap"
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
	var a isomap.Area
	flags.TextVar(&a.South, "south", latitude("35°N"), "`latitude` of the southern edge")
	flags.TextVar(&a.North, "north", latitude("60°N"), "`latitude` of the northern edge")
	flags.TextVar(&a.West, "west", longitude("40°W"), "`longitude` of the western edge")
	flags.TextVar(&a.East, "east", longitude("000°E"), "`longitude` of the eastern edge")
	every := flags.Float64("every", 0, "`degrees` of variation between two lines; if 0, the program chooses 1′ to 10°")
	flags.BoolVar(&a.Narrow, "narrow", false, "draw a map 95 mm wide with fewer lines, for a small screen")
	title := flags.String("title", "", "title of the map (default \"Magnetic variation\" and the date)")
	dateText := flags.String("date", "2026-07-02", "`date` of the map")
	svg := flags.String("svg", "isogonic.svg", "`file` for the map; if empty, no map is written")
	geojson := flags.String("geojson", "isogonic.geojson", "`file` for the lines; if empty, no lines are written")
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	date, err := time.Parse(time.DateOnly, *dateText)
	if err != nil {
		err = fmt.Errorf("-date: %q is not a date; write it as 2026-07-02", *dateText)
	}
	if err == nil && flags.NArg() > 0 {
		err = fmt.Errorf("%q is not a flag; -h explains the flags", flags.Arg(0))
	}
	if err == nil {
		a.Every, err = angle.Degrees(*every)
		a.Every = a.Every.Round(angle.Second)
	}
	if err == nil {
		if err = isomap.CheckEvery(a.Every); err != nil {
			err = fmt.Errorf("-every %v: %w", *every, err)
		}
	}
	if err == nil {
		if err = isomap.CheckTitle(*title); err != nil {
			err = fmt.Errorf("-title: %w", err)
		}
	}
	if err == nil {
		err = a.Check()
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
func draw(a isomap.Area, title string, date time.Time, svg, geojson string, stdout, stderr io.Writer) error {
	m, err := isomap.New(a, title, date)
	if err != nil {
		return err
	}
	if len(m.Lines) == 0 {
		fmt.Fprintf(stderr, "isogonic: no line to draw: no multiple of %s occurs in the area; with -every 0 the program chooses\n", m.Every())
	}
	var b bytes.Buffer
	if svg != "" {
		sheet, err := m.Draw()
		if err == nil {
			err = sheet.WriteSVG(&b, drawing.Plate)
		}
		if err == nil {
			err = save(svg, b.Bytes(), stdout, stderr)
		}
		if err != nil {
			return err
		}
	}
	if geojson != "" {
		b.Reset()
		if err := wmm.WriteGeoJSON(&b, m.Lines); err != nil {
			return err
		}
		return save(geojson, b.Bytes(), stdout, stderr)
	}
	return nil
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
