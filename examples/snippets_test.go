package examples_test

import (
	"fmt"
	"go/ast"
	"go/doc/comment"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestSnippetsOnPackagePagesCompile type-checks each piece of Go in a package comment, as
// the body of a function with its imports added. A variable need not be used.
func TestSnippetsOnPackagePagesCompile(t *testing.T) {
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{if .GoFiles}}{{.ImportPath}}|{{.Export}}|{{.Dir}}{{end}}", "lubberline.example/...", "encoding/json", "log/slog", "os", "net/http").Output()
	if err != nil {
		t.Fatal(err)
	}
	exports, paths := map[string]string{}, map[string]string{} // by path; path by name
	var ours []string
	for line := range strings.Lines(string(out)) {
		fields := strings.Split(strings.TrimSpace(line), "|")
		if len(fields) != 3 {
			continue
		}
		exports[fields[0]] = fields[1]
		if strings.HasPrefix(fields[0], "lubberline.example/") && !strings.Contains(fields[0], "/internal/") {
			ours = append(ours, fields[2])
		}
		name := path.Base(fields[0])
		if old, ok := paths[name]; !ok || len(fields[0]) < len(old) { // compiles takes a snippet's own package first
			paths[name] = fields[0]
		}
	}
	fset := token.NewFileSet()
	importing := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	seen := 0
	for _, directory := range ours {
		files, err := filepath.Glob(filepath.Join(directory, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			f, err := parser.ParseFile(fset, file, nil, parser.PackageClauseOnly|parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			if f.Doc == nil || f.Name.Name == "main" || strings.HasSuffix(file, "_test.go") {
				continue
			}
			own := "lubberline.example" + filepath.ToSlash(strings.TrimPrefix(directory, root(t)))
			for _, block := range new(comment.Parser).Parse(f.Doc.Text()).Content {
				code, ok := block.(*comment.Code)
				if !ok || !isGo(code.Text) {
					continue
				}
				seen++
				if err := compiles(code.Text, f.Name.Name, own, paths, importing); err != nil {
					t.Errorf("%s: %v\n%s", own, err, code.Text)
				}
			}
		}
	}
	if seen < 15 {
		t.Errorf("%d pieces of Go", seen)
	}
}

// isGo leaves out commands of a shell and samples of files.
func isGo(text string) bool {
	return regexp.MustCompile(`:=|(?m)^\w+(\.\w+)*\(|func |(?m)^var `).MatchString(text)
}

// compiles type-checks a snippet and returns what is wrong with it.
func compiles(snippet, name, own string, paths map[string]string, importing types.Importer) error {
	var b strings.Builder
	b.WriteString("package snippet\n")
	var used []string
	code := regexp.MustCompile(`(?m)//.*$`).ReplaceAllString(snippet, "")
	for _, m := range regexp.MustCompile(`\b([a-z]\w*)\.[A-Z]`).FindAllStringSubmatch(code, -1) {
		declared := regexp.MustCompile(`\b` + m[1] + `(, \w+)* :?=|, ` + m[1] + `\b[^\n]* :=|var ` + m[1] + `\b`).MatchString(code)
		if !declared && !slices.Contains(used, m[1]) {
			used = append(used, m[1])
		}
	}
	for _, q := range used {
		p, ok := paths[q]
		if q == name {
			p, ok = own, true
		}
		if ok {
			fmt.Fprintf(&b, "import %q\n", p)
		}
	}
	if strings.Contains(snippet, "func ") && !strings.Contains(snippet, ":= func") {
		b.WriteString(snippet)
	} else {
		b.WriteString("func _() {\n" + snippet + "\n}\n")
	}
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "snippet.go", b.String(), 0)
	if err != nil {
		return err
	}
	var faults []string
	config := types.Config{Importer: importing, Error: func(err error) {
		if !strings.Contains(err.Error(), "declared and not used") {
			faults = append(faults, err.Error())
		}
	}}
	_, _ = config.Check("snippet", fset, []*ast.File{f}, nil) // Error has collected the faults
	if len(faults) > 0 {
		return fmt.Errorf("%s", strings.Join(faults, "; "))
	}
	return nil
}

// root returns the directory of the module.
func root(t *testing.T) string {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(out))
}
