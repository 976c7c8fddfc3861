// Command chart draws what a navigator draws on paper. It draws one kind of picture from a small file, or all kinds into a folder.
//
// Without flags it lists the kinds.
//
//	go run ./examples/chart
//	go run ./examples/chart -kind rose -o rose.svg
//	go run ./examples/chart -kind rose -example > rose.json # the file, to change it
//	go run ./examples/chart -out pictures                   # all kinds
//
// It shows the packages that draw: [lubberline.example/course/plot],
// [lubberline.example/fix/plot] and [lubberline.example/deviation/diagram]. Their signs are those of
// [lubberline.example/course/signs].
package main

//go:generate go run . -kind passage-small -form figure -o passage.svg
//go:generate go run . -kind fix -form figure -o fix.svg

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
	"lubberline.example/examples/internal/help"
)

const about = `Usage: chart -kind KIND [flags]
       chart -out DIRECTORY [flags]

Draws a picture as SVG. The figures are in a small JSON file. Without -file they
are those of the Orlesk coast, which is invented; -example writes that file, so
that you can change it. A plate is a page to print at full scale. A figure is
the drawing alone, for a web page. For a small screen some files have "narrow":
set it to true.

Kinds:

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options are the flags as they were given.
type options struct {
	kind, file, form, signs, to, out string
	example                          bool
}

// run does the program's work and returns its exit status: 1 for a fault in the files, 2 for a
// fault in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("chart", flag.ContinueOnError)
	flags.StringVar(&o.kind, "kind", "", "`kind` of picture")
	flags.StringVar(&o.file, "file", "", "JSON `file` with the figures (default: the invented one)")
	flags.StringVar(&o.form, "form", "plate", "plate, a page to print, or figure, for a web page")
	flags.StringVar(&o.signs, "signs", "commonwealth", "`usage` of signs: commonwealth or united-states")
	flags.StringVar(&o.to, "o", "", "`file` to write (default: standard output)")
	flags.StringVar(&o.out, "out", "", "`directory` for a picture of every kind, from the invented figures")
	flags.BoolVar(&o.example, "example", false, "write the invented file of the kind, and draw nothing")
	if status, goOn := help.Parse(flags, about+list()+"\nFlags:\n\n", args, stderr); !goOn {
		return status
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "chart: %q: files are given with flags; -h explains\n", flags.Arg(0))
		return 2
	}
	if len(args) == 0 {
		fmt.Fprint(stdout, about, list(), "\nchart -h lists the flags.\n")
		return 0
	}
	work, err := o.work()
	if err != nil {
		fmt.Fprintln(stderr, "chart:", err)
		return 2
	}
	if err := work(stdout); err != nil {
		fmt.Fprintln(stderr, "chart:", strings.ReplaceAll(err.Error(), "\n", "\nchart: "))
		return 1
	}
	return 0
}

// work checks the flags, and returns what the program has to do.
func (o *options) work() (func(stdout io.Writer) error, error) {
	form := drawing.Form(o.form)
	if form != drawing.Plate && form != drawing.Figure {
		return nil, fmt.Errorf("-form %q: give plate or figure", o.form)
	}
	usage, err := signs.ParseUsage(o.signs)
	if err != nil {
		return nil, fmt.Errorf("-signs %q: give commonwealth or united-states", o.signs)
	}
	if o.out != "" {
		if o.kind != "" || o.file != "" || o.to != "" || o.example {
			return nil, errors.New("-out draws every kind from the invented figures: leave out -kind, -file, -o and -example")
		}
		return func(io.Writer) error { return drawAll(o.out, form, usage) }, nil
	}
	k, err := find(o.kind)
	if err != nil {
		return nil, err
	}
	if o.example && o.file != "" {
		return nil, errors.New("-example writes the invented file: leave out -file")
	}
	return func(stdout io.Writer) error {
		data, err := k.data(o.file)
		if err != nil {
			return err
		}
		if !o.example {
			if data, err = k.svg(data, form, usage); err != nil {
				return fmt.Errorf("%s: %w", k.path(o.file), err)
			}
		}
		if o.to != "" {
			return os.WriteFile(o.to, data, 0o666)
		}
		_, err = stdout.Write(data)
		return err
	}, nil
}

// drawAll draws every kind into a folder, from the invented figures.
func drawAll(folder string, form drawing.Form, usage signs.Usage) error {
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	for _, k := range sorted() {
		data, err := k.data("")
		if err == nil {
			data, err = k.svg(data, form, usage)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", k.name, err)
		}
		if err := os.WriteFile(filepath.Join(folder, k.name+".svg"), data, 0o666); err != nil {
			return err
		}
	}
	return nil
}

// svg draws the picture.
func (k kind) svg(data []byte, form drawing.Form, usage signs.Usage) ([]byte, error) {
	sheet, err := k.draw(data, usage)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = sheet.WriteSVG(&b, form)
	return b.Bytes(), err
}
