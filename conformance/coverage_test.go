package conformance_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"strings"
	"testing"

	"lubberline.example/conformance/lubberline"
)

// packages are those whose exported operations are accounted for.
var packages = []string{"angle", "variation", "deviation", "deviation/sun", "course", "course/sailing", "course/passage", "course/gpx", "fix", "wmm"}

// TestEveryOperationIsAccountedFor wants, in operations.txt, each exported function and
// method of the module with the operation of the corpus that works it, or the reason why
// none does.
func TestEveryOperationIsAccountedFor(t *testing.T) {
	data, err := os.ReadFile("operations.txt")
	if err != nil {
		t.Fatal(err)
	}
	offered := lubberline.Subject().Operations
	listed := map[string]bool{}
	for line := range strings.Lines(string(data)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		name, how, _ := strings.Cut(line, " ")
		how = strings.TrimSpace(how)
		reason, none := strings.CutPrefix(how, "none: ")
		switch {
		case listed[name]:
			t.Errorf("%s: twice", name)
		case none && reason == "":
			t.Errorf("%s: no reason", name)
		case !none:
			for operation := range strings.FieldsSeq(how) {
				if offered[operation] == nil {
					t.Errorf("%s: no operation %q in the corpus", name, operation)
				}
			}
		}
		listed[name] = true
	}
	for _, p := range packages {
		for _, name := range exported(t, p) {
			if !listed[name] {
				t.Errorf("%s: not in operations.txt", name)
			}
			delete(listed, name)
		}
	}
	for name := range listed {
		t.Errorf("operations.txt: there is no %s", name)
	}
}

// exported are the exported functions of a package, and the exported methods of its
// exported types.
func exported(t *testing.T, directory string) []string {
	t.Helper()
	entries, err := os.ReadDir("../" + directory)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, entry := range entries {
		if !strings.HasSuffix(entry.Name(), ".go") || strings.HasSuffix(entry.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), path.Join("..", directory, entry.Name()), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || !f.Name.IsExported() {
				continue
			}
			name := path.Base(directory) + "."
			if f.Recv != nil {
				receiver := receiverName(f.Recv.List[0].Type)
				if !ast.IsExported(receiver) {
					continue
				}
				name += receiver + "."
			}
			names = append(names, name+f.Name.Name)
		}
	}
	return names
}

// receiverName is the name of a method's type.
func receiverName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiverName(e.X)
	case *ast.IndexExpr:
		return receiverName(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}
