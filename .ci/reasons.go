//go:build ignore

// Lists the reasons and warnings of all workings: each key with its English format, as
// angle/working/reasons.json, for programs that print another language. It fails if a key or
// a format is not a constant, if a key is not in kebab-case, and if two formats share a key.
// With -check it also fails if the file would change, and prints the steps that have an
// English text without a reason.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
)

const room = "lubberline.example/angle/working"

var kebab = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

func main() {
	log.SetFlags(0)
	check := flag.Bool("check", false, "change nothing; fail if the file is not as it would be")
	flag.Parse()
	root, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}").Output()
	if err != nil {
		log.Fatal(err)
	}
	if err := os.Chdir(strings.TrimSpace(string(root))); err != nil {
		log.Fatal(err)
	}
	l := lister{formats: map[string]string{}, fset: token.NewFileSet()}
	l.read()
	if len(l.faults) > 0 {
		log.Fatal(strings.Join(l.faults, "\n"))
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(l.formats); err != nil {
		log.Fatal(err)
	}
	file := filepath.FromSlash("angle/working/reasons.json")
	if !*check {
		if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
			log.Fatal(err)
		}
		return
	}
	if old, err := os.ReadFile(file); err != nil || !bytes.Equal(old, b.Bytes()) {
		log.Fatalf("%s is not up to date: go generate ./angle/working", file)
	}
	fmt.Printf("%d reasons\n", len(l.formats))
	if len(l.bare) > 0 {
		log.Fatalf("steps with an English text only, %d:\n%s", len(l.bare), strings.Join(l.bare, "\n"))
	}
}

type lister struct {
	fset    *token.FileSet
	formats map[string]string // by key
	faults  []string
	bare    []string // where a step has a text without a reason
	exports map[string]string
}

// read goes through the packages of the module, without tests.
func (l *lister) read() {
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", `{{if .GoFiles}}{{.ImportPath}}|{{.Export}}|{{.Dir}}|{{join .GoFiles ","}}|{{if .Module}}{{.Module.Main}}{{end}}{{end}}`, "./...").Output()
	if err != nil {
		log.Fatal(err)
	}
	l.exports = map[string]string{}
	var ours [][]string
	for line := range strings.Lines(string(out)) {
		fields := strings.Split(strings.TrimSpace(line), "|")
		if len(fields) < 5 {
			continue
		}
		l.exports[fields[0]] = fields[1]
		if fields[4] == "true" && fields[0] != room {
			ours = append(ours, fields)
		}
	}
	for _, fields := range ours {
		l.packageIn(fields[0], fields[2], strings.Split(fields[3], ","))
	}
}

func (l *lister) packageIn(path, directory string, names []string) {
	var files []*ast.File
	for _, name := range names {
		f, err := parser.ParseFile(l.fset, filepath.Join(directory, name), nil, 0)
		if err != nil {
			log.Fatal(err)
		}
		files = append(files, f)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}
	config := types.Config{Importer: importer.ForCompiler(l.fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(l.exports[path]) })}
	if _, err := config.Check(path, l.fset, files, info); err != nil {
		log.Fatal(err)
	}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				l.call(n, info)
			case *ast.CompositeLit:
				l.literal(n, info)
			case *ast.AssignStmt:
				for _, to := range n.Lhs {
					if s, ok := to.(*ast.SelectorExpr); ok && s.Sel.Name == "How" && isOf(info.Types[s.X].Type, "Step") {
						l.bare = append(l.bare, l.at(s))
					}
				}
			}
			return true
		})
	}
}

func (l *lister) at(n ast.Node) string {
	p := l.fset.Position(n.Pos())
	if wd, err := os.Getwd(); err == nil {
		if name, err := filepath.Rel(wd, p.Filename); err == nil {
			p.Filename = name
		}
	}
	return fmt.Sprintf("%s:%d", filepath.ToSlash(p.Filename), p.Line)
}

// call takes the key and the format of a call of Because or Warn.
func (l *lister) call(c *ast.CallExpr, info *types.Info) {
	var name *ast.Ident
	switch f := c.Fun.(type) {
	case *ast.SelectorExpr:
		name = f.Sel
	case *ast.Ident:
		name = f
	case *ast.IndexExpr: // Direction of a given north
		if s, ok := f.X.(*ast.SelectorExpr); ok {
			name = s.Sel
		}
	}
	if name == nil {
		return
	}
	o, ok := info.Uses[name].(*types.Func)
	if !ok || o.Pkg() == nil || o.Pkg().Path() != room {
		return
	}
	first := 0
	switch o.Name() {
	case "Because":
	case "Warn":
		first = 1
	default:
		return
	}
	key, format := info.Types[c.Args[first]].Value, info.Types[c.Args[first+1]].Value
	if key == nil || format == nil {
		l.faults = append(l.faults, l.at(c)+": the key and the format of a reason have to be constants")
		return
	}
	k, f := constant.StringVal(key), constant.StringVal(format)
	if !kebab.MatchString(k) {
		l.faults = append(l.faults, fmt.Sprintf("%s: the key %q is not in kebab-case", l.at(c), k))
	}
	if old, ok := l.formats[k]; ok && old != f {
		l.faults = append(l.faults, fmt.Sprintf("%s: the key %q stands for %q and for %q", l.at(c), k, old, f))
	}
	l.formats[k] = f
}

// literal notes a step or a warning that is written with an English text.
func (l *lister) literal(c *ast.CompositeLit, info *types.Info) {
	t := info.Types[c].Type
	for _, e := range c.Elts {
		pair, ok := e.(*ast.KeyValueExpr)
		if !ok {
			continue
		}
		key, _ := pair.Key.(*ast.Ident)
		if key != nil && (key.Name == "How" && isOf(t, "Step") || key.Name == "Message" && isOf(t, "Warning")) {
			l.bare = append(l.bare, l.at(pair))
		}
	}
}

// isOf reports whether a type is one of package working, or a pointer to it.
func isOf(t types.Type, name string) bool {
	if p, ok := t.(*types.Pointer); ok {
		t = p.Elem()
	}
	n, ok := t.(*types.Named)
	return ok && n.Obj().Pkg() != nil && n.Obj().Pkg().Path() == room && n.Obj().Name() == name
}
