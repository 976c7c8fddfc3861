package geojson_test

import (
	"bytes"
	"errors"
	"io/fs"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/geojson"
)

func TestLinesAreCutAtTheDateLineOnly(t *testing.T) {
	p := func(text string) angle.Position { return angle.MustParsePosition(text) }
	for _, test := range []struct {
		line []angle.Position
		want string
	}{
		{[]angle.Position{p("0°N 179°W"), p("0°N 179°E")}, "[[[-179,0],[-180,0]],[[180,0],[179,0]]]"},
		{[]angle.Position{p("0°N 180°E"), p("0°N 179°W")}, "[[[-180,0],[-179,0]]]"},
		{[]angle.Position{p("0°N 10°W"), p("1°N 10°E")}, "[[[-10,0],[10,1]]]"},
		{[]angle.Position{p("0°N 10°W")}, "[]"},
		{[]angle.Position{}, "[]"},
	} {
		var b bytes.Buffer
		if err := geojson.Write(&b, []geojson.Feature{{Lines: [][]angle.Position{test.line}}}); err != nil || !bytes.Contains(b.Bytes(), []byte(`"coordinates":`+test.want+`}`)) {
			t.Errorf("%v: %s, %v; want %s", test.line, &b, err, test.want)
		}
	}
}

type failing struct{}

var errFull = errors.New("full")

func (failing) Write([]byte) (int, error) { return 0, errFull }

func TestAWritersErrorComesBack(t *testing.T) {
	if err := geojson.Write(failing{}, nil); !errors.Is(err, errFull) {
		t.Error(err)
	}
}

func TestNilWriterIsRefused(t *testing.T) {
	err := geojson.Write(nil, nil)
	if e, ok := errors.AsType[*fs.PathError](err); !ok || !errors.Is(err, fs.ErrInvalid) || e.Op != "write" {
		t.Error(err)
	}
}
