package angle_test

import (
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"strings"
	"testing"
)

// What must not compile is the reason for having three types.
func TestNorthsDoNotMix(t *testing.T) {
	if testing.Short() {
		t.Skip("it reads the standard library from source")
	}
	fset := token.NewFileSet()
	imports := importer.ForCompiler(fset, "source", nil) // shared: it reads each package once
	compile := func(body string) error {
		source := "package p\nimport \"lubberline.example/angle\"\n" + body
		file, err := parser.ParseFile(fset, "p.go", source, 0)
		if err != nil {
			t.Fatal(err)
		}
		config := types.Config{Importer: imports}
		_, err = config.Check("p", fset, []*ast.File{file}, nil)
		return err
	}
	// The control: the same things done to one north.
	if err := compile(`
		func steer(angle.True) {}
		func f[R angle.North](a, b angle.Direction[R]) angle.Angle { return a.Sub(b) }
		func g(a, b angle.True, c angle.Compass, r angle.Relative) (angle.Angle, angle.True, angle.Compass, bool, bool) {
			steer(a)
			return a.Sub(b) + f(c, c), angle.True(b), c.Bearing(r), a == b, angle.Relative{} == r
		}`); err != nil {
		t.Fatalf("the control does not compile: %v", err)
	}
	for what, c := range map[string]struct {
		body string
		says []string
	}{
		"true minus magnetic":            {`func f(t angle.True, m angle.Magnetic) { t.Sub(m) }`, []string{"angle.Magnetic", "angle.trueNorth", "Sub"}},
		"compass minus true":             {`func f(t angle.True, c angle.Compass) { c.Sub(t) }`, []string{"angle.True", "angle.compassNorth"}},
		"true compared with magnetic":    {`func f(t angle.True, m angle.Magnetic) bool { return t == m }`, []string{"angle.True", "angle.Magnetic"}},
		"true made magnetic":             {`func f(t angle.True) angle.Magnetic { return angle.Magnetic(t) }`, []string{"angle.True", "angle.Magnetic"}},
		"compass made true":              {`func f(c angle.Compass) angle.True { return angle.True(c) }`, []string{"angle.Compass", "angle.True"}},
		"pointers to them":               {`func f(c *angle.Compass) *angle.True { return (*angle.True)(c) }`, []string{"angle.Compass", "angle.True"}},
		"magnetic where true is wanted":  {`func steer(angle.True) {}; func f(m angle.Magnetic) { steer(m) }`, []string{"angle.Magnetic", "angle.True"}},
		"relative where true is wanted":  {`func steer(angle.True) {}; func f(r angle.Relative) { steer(r) }`, []string{"angle.Relative", "angle.True"}},
		"an angle where true is wanted":  {`func steer(angle.True) {}; func f(a angle.Angle) { steer(a) }`, []string{"angle.Angle", "angle.True"}},
		"a number where true is wanted":  {`func steer(angle.True) {}; func f() { steer(45) }`, []string{"angle.True"}},
		"a number made true":             {`var d = angle.True(45)`, []string{"angle.True"}},
		"the two in one mean":            {`func f(t angle.True, m angle.Magnetic) { angle.Mean(t, m) }`, []string{"angle.Magnetic", "angle.trueNorth"}},
		"a fourth north":                 {`type grid struct{}; var d angle.Direction[grid]`, []string{"grid", "angle.North"}},
		"latitude in longitude's place":  {`func f(a angle.Latitude, o angle.Longitude) angle.Position { return angle.Position{Latitude: o, Longitude: a} }`, []string{"angle.Longitude", "angle.Latitude"}},
		"a bare number beside a bearing": {`func f(t angle.True) angle.True { return t + 5 }`, []string{"angle.True"}},
	} {
		err := compile(c.body)
		if err == nil {
			t.Errorf("%s compiles", what)
			continue
		}
		for _, name := range c.says {
			if !strings.Contains(err.Error(), name) {
				t.Errorf("%s: %q does not name %s", what, err, name)
			}
		}
	}
}
