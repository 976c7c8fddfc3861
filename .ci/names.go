//go:build ignore

// Prints for each package how many exported identifiers and error types it has, and how
// many words its documentation, so that growth is seen. Identifiers are constants,
// variables, types, functions, methods of exported types and fields of exported structs.
// Commands and internal packages are left out.
package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"log"
	"os"
	"os/exec"
	"strings"
	"text/tabwriter"
)

func main() {
	log.SetFlags(0)
	list, err := exec.Command("go", "list", "-f", "{{if .GoFiles}}{{.Name}} {{.ImportPath}} {{.Dir}}{{end}}", "./...").Output()
	if err != nil {
		log.Fatal(err)
	}
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "names\terrors\twords\t  package")
	var total count
	for line := range strings.Lines(string(list)) {
		name, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		path, directory, _ := strings.Cut(rest, " ")
		if name == "main" || strings.Contains(path, "/internal/") {
			continue
		}
		c := countOf(directory)
		page, err := exec.Command("go", "doc", "-all", path).Output()
		if err != nil {
			log.Fatal(err)
		}
		c.words = len(strings.Fields(string(page)))
		fmt.Fprintf(w, "%d\t%d\t%d\t  %s\n", c.names, c.errors, c.words, path)
		total = count{total.names + c.names, total.errors + c.errors, total.words + c.words}
	}
	fmt.Fprintf(w, "%d\t%d\t%d\t  in all\n", total.names, total.errors, total.words)
	w.Flush()
}

type count struct{ names, errors, words int }

// countOf counts the exported identifiers and error types of a directory.
func countOf(directory string) (c count) {
	files, err := os.ReadDir(directory)
	if err != nil {
		log.Fatal(err)
	}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), directory+"/"+f.Name(), nil, 0)
		if err != nil {
			log.Fatal(err)
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if !d.Name.IsExported() || d.Recv != nil && !ast.IsExported(receiver(d.Recv.List[0].Type)) {
					continue
				}
				c.names++
				if d.Recv != nil && d.Name.Name == "Error" {
					c.errors++
				}
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					c.names += inSpec(spec)
				}
			}
		}
	}
	return c
}

// inSpec counts the exported names of a declaration, fields of structs among them.
func inSpec(spec ast.Spec) int {
	switch spec := spec.(type) {
	case *ast.ValueSpec:
		return exported(spec.Names)
	case *ast.TypeSpec:
		if !spec.Name.IsExported() {
			return 0
		}
		n := 1
		if s, ok := spec.Type.(*ast.StructType); ok {
			for _, field := range s.Fields.List {
				n += exported(field.Names)
			}
		}
		return n
	}
	return 0
}

func exported(names []*ast.Ident) (n int) {
	for _, name := range names {
		if name.IsExported() {
			n++
		}
	}
	return n
}

// receiver is the name of the type of a method.
func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}
