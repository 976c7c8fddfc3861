package examples_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"lubberline.example/conformance"
)

// TestTheGuidesNameWhatThereIs holds each exported name in the README and in DEVELOPERS.md,
// as in `variation.ParseLegend` or `Rose.InYear`, to the packages.
func TestTheGuidesNameWhatThereIs(t *testing.T) {
	known, tests := exported(t)
	for _, guide := range []string{"../README.md", "../DEVELOPERS.md", "../conformance/README.md"} {
		text, err := os.ReadFile(guide)
		if err != nil {
			t.Fatal(err)
		}
		for _, quoted := range regexp.MustCompile("`[^`\n]+`").FindAllString(string(text), -1) {
			for _, name := range regexp.MustCompile(`\b[A-Za-z]\w*\.[A-Z]\w*`).FindAllString(quoted, -1) {
				if first, _, _ := strings.Cut(name, "."); first != "testing" && !known[name] {
					t.Errorf("%s: there is no %s", guide, name)
				}
			}
			for _, name := range regexp.MustCompile("^`(Test[A-Z]\\w*)`$").FindAllStringSubmatch(quoted, -1) {
				if !tests[name[1]] {
					t.Errorf("%s: there is no test %s", guide, name[1])
				}
			}
		}
	}
}

// TestStatementsAreHeldByWhatThereIs does the same for what holds to the statements of
// manuals.
func TestStatementsAreHeldByWhatThereIs(t *testing.T) {
	known, _ := exported(t)
	data, err := fs.ReadFile(conformance.Files(), "facts.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Facts []struct{ ID, Held string } }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	for _, f := range file.Facts {
		for _, name := range regexp.MustCompile(`\b[A-Za-z]\w*\.[A-Z]\w*`).FindAllString(f.Held, -1) {
			if !known[name] {
				t.Errorf("%s: there is no %s", f.ID, name)
			}
		}
	}
}

// exported are the exported names of the module, as package.Name and as Type.Method or
// Type.Field, and the names of its tests.
func exported(t *testing.T) (names, tests map[string]bool) {
	t.Helper()
	names, tests = map[string]bool{}, map[string]bool{}
	err := filepath.WalkDir("..", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				switch {
				case strings.HasSuffix(path, "_test.go"):
					tests[d.Name.Name] = true
				case d.Recv == nil:
					names[file.Name.Name+"."+d.Name.Name] = true
				default:
					names[typeName(d.Recv.List[0].Type)+"."+d.Name.Name] = true
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					addSpec(names, file.Name.Name, s)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return names, tests
}

func addSpec(names map[string]bool, pkg string, s ast.Spec) {
	switch s := s.(type) {
	case *ast.ValueSpec:
		for _, n := range s.Names {
			names[pkg+"."+n.Name] = true
		}
	case *ast.TypeSpec:
		names[pkg+"."+s.Name.Name] = true
		if fields, ok := s.Type.(*ast.StructType); ok {
			for _, f := range fields.Fields.List {
				for _, n := range f.Names {
					names[s.Name.Name+"."+n.Name] = true
				}
			}
		}
	}
}

// typeName is the name of a receiver's type.
func typeName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return typeName(e.X)
	case *ast.IndexExpr:
		return typeName(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}
