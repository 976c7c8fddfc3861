package course_test

import (
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
)

// A checker type-checks programs against this package as its users see it. One
// importer is shared, and it reads what the compiler exported of the packages:
// ten times as fast as from source.
type checker struct {
	files    *token.FileSet
	importer types.Importer
}

var theChecker = sync.OnceValues(func() (checker, error) {
	list, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}} {{.Export}}", ".").Output()
	if err != nil {
		return checker{}, err
	}
	exports := map[string]string{}
	for line := range strings.Lines(string(list)) {
		path, file, _ := strings.Cut(strings.TrimSpace(line), " ")
		exports[path] = file
	}
	files := token.NewFileSet()
	return checker{files, importer.ForCompiler(files, "gc", func(path string) (io.ReadCloser, error) {
		return os.Open(exports[path])
	})}, nil
})

func newChecker(t *testing.T) checker {
	t.Helper()
	c, err := theChecker()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// check returns what the compiler says of a body of statements.
func (c checker) check(t *testing.T, body string) string {
	t.Helper()
	const head = `package program
import (
	"lubberline.example/angle"
	"lubberline.example/course"
)
func steps(t angle.True, m angle.Magnetic, c angle.Compass, r angle.Relative, w course.With, h course.Heading, b course.Bearing) {
`
	file, err := parser.ParseFile(c.files, "program.go", head+body+"\n}\n", 0)
	if err != nil {
		t.Fatal(err)
	}
	config := types.Config{Importer: c.importer}
	if _, err = config.Check("program", c.files, []*ast.File{file}, nil); err != nil {
		return err.Error()
	}
	return ""
}

func TestWhatMustNotCompile(t *testing.T) {
	c := newChecker(t)
	for _, x := range []struct{ name, body, want string }{
		{"each direction by its own north",
			"_, _ = course.FromTrue(t, w); _, _ = course.FromMagnetic(m, w); _, _ = course.FromCompass(c, w)", ""},
		{"each bearing by its own north",
			"_ = h.BearingFromTrue(t); _ = h.BearingFromMagnetic(m); _ = h.BearingFromCompass(c); _ = h.BearingFromRelative(r)", ""},

		{"a compass course steered as a true one", "_, _ = course.FromTrue(c, w)",
			"cannot use c (variable of struct type angle.Compass) as angle.True value in argument to course.FromTrue"},
		{"a magnetic course taken for a compass course", "_, _ = course.FromCompass(m, w)",
			"cannot use m (variable of struct type angle.Magnetic) as angle.Compass value in argument to course.FromCompass"},
		{"a true course taken for a magnetic one", "_, _ = course.FromMagnetic(t, w)",
			"cannot use t (variable of struct type angle.True) as angle.Magnetic value in argument to course.FromMagnetic"},
		{"a bearing by hand-bearing compass taken for one by the steering compass", "_ = h.BearingFromCompass(m)",
			"cannot use m (variable of struct type angle.Magnetic) as angle.Compass value in argument to h.BearingFromCompass"},
		{"a bearing by the steering compass taken for one off the chart", "_ = h.BearingFromTrue(c)",
			"cannot use c (variable of struct type angle.Compass) as angle.True value in argument to h.BearingFromTrue"},
		{"a bearing from the bow taken for one from north", "_ = h.BearingFromTrue(r)",
			"cannot use r (variable of struct type angle.Relative) as angle.True value in argument to h.BearingFromTrue"},
		{"a magnetic heading called a compass heading", "_ = angle.Compass(h.Magnetic())",
			"cannot convert h.Magnetic()"},
		{"the error of the compass as a true less a compass direction", "_ = h.True().Sub(h.Compass())",
			"cannot use h.Compass() (value of struct type angle.Compass) as angle.Direction[angle.trueNorth] value in argument to h.True().Sub"},

		{"a bearing on no heading", "_ = course.BearingFromCompass(c)", "undefined: course.BearingFromCompass"},
		{"a bearing made by hand", "_ = course.Bearing{heading: h}", "cannot refer to unexported field heading in struct literal of type course.Bearing"},
		{"a bearing made by hand without names", "_ = course.Bearing{h, t, m, c, 0}", "implicit assignment to unexported field heading in struct literal of type course.Bearing"},
		{"a bearing put on another heading", "b.heading = h", "b.heading undefined"},
		{"a heading made by hand", "_ = course.Heading{t: t}", "cannot refer to unexported field t in struct literal of type course.Heading"},
	} {
		got := c.check(t, x.body)
		if x.want == "" && got != "" || !strings.Contains(got, x.want) {
			t.Errorf("%s: the compiler says %q, want %q", x.name, got, x.want)
		}
	}
}

// No function of the package gives a bearing, except that of a hand-bearing compass, which
// has no deviation: a heading does, by its methods.
func TestNoFunctionMakesABearing(t *testing.T) {
	c := newChecker(t)
	pkg, err := c.importer.Import("lubberline.example/course")
	if err != nil {
		t.Fatal(err)
	}
	bearing := pkg.Scope().Lookup("Bearing").Type()
	for _, name := range pkg.Scope().Names() {
		f, ok := pkg.Scope().Lookup(name).(*types.Func)
		if !ok || !f.Exported() || name == "HandBearing" {
			continue
		}
		for v := range f.Signature().Results().Variables() {
			if types.Identical(v.Type(), bearing) {
				t.Errorf("%s gives a bearing without a heading", name)
			}
		}
	}
	fields := bearing.Underlying().(*types.Struct)
	for f := range fields.Fields() {
		if f.Exported() {
			t.Errorf("Bearing has an exported field %s", f.Name())
		}
	}
}
