package conformance_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"lubberline.example/conformance/lubberline"
)

// TestOperationsNameFunctions holds operations.txt to the code: each function in it exists,
// each operation is in the corpus, and each operation that this module offers is named by a
// function. With -v it lists the functions that no operation works: laws, references or
// simulations in their own packages hold those.
func TestOperationsNameFunctions(t *testing.T) {
	data, err := os.ReadFile("operations.txt")
	if err != nil {
		t.Fatal(err)
	}
	offered := lubberline.Subject().Operations
	listed, worked := map[string]bool{}, map[string]bool{}
	for line := range strings.Lines(string(data)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		name, operations, _ := strings.Cut(line, " ")
		if listed[name] || operations == "" {
			t.Errorf("%s: twice, or without an operation", name)
		}
		listed[name] = true
		for operation := range strings.FieldsSeq(operations) {
			if offered[operation] == nil {
				t.Errorf("%s: no operation %q in the corpus", name, operation)
			}
			worked[operation] = true
		}
	}
	for operation := range offered {
		if !worked[operation] {
			t.Errorf("%s: no function in operations.txt", operation)
		}
	}
	var others []string
	for _, directory := range packages(t) {
		for _, name := range exported(t, directory) {
			if !listed[name] {
				others = append(others, name)
			}
			delete(listed, name)
		}
	}
	for name := range listed {
		t.Errorf("operations.txt: there is no %s", name)
	}
	if testing.Verbose() {
		t.Logf("%d functions that no operation works:\n%s", len(others), strings.Join(others, "\n"))
	}
}

// packages are the directories of the module's own computing packages.
func packages(t *testing.T) []string {
	t.Helper()
	var found []string
	err := filepath.WalkDir("..", func(at string, entry os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := entry.Name()
		if !entry.IsDir() {
			return nil
		}
		if at != ".." && (name[0] == '.' || name == "testdata" || name == "internal" || name == "conformance" || name == "examples") {
			return filepath.SkipDir
		}
		directory, err := filepath.Rel("..", at)
		found = append(found, directory)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// exported are the exported functions of a package, and the exported methods of its
// exported types.
func exported(t *testing.T, directory string) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join("..", directory))
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
