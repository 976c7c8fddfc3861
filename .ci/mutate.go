//go:build ignore

// Command mutate changes the operators of packages, one at a time, and shows how many of
// the changes the packages' tests notice. It changes no file: each change is compiled over
// it (go build -overlay). Run it from the top of the repository:
//
//	go run .ci/mutate.go -sample 100 angle variation course deviation fix wmm
//
// A sample is drawn by a seed, so that two runs draw the same. -sample 0 takes all.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// swaps are the changes: each operator and what it becomes.
var swaps = map[token.Token][]token.Token{
	token.ADD: {token.SUB}, token.SUB: {token.ADD}, token.MUL: {token.QUO}, token.QUO: {token.MUL}, token.REM: {token.MUL},
	token.LSS: {token.LEQ, token.GEQ}, token.LEQ: {token.LSS, token.GTR}, token.GTR: {token.GEQ, token.LEQ}, token.GEQ: {token.GTR, token.LSS},
	token.EQL: {token.NEQ}, token.NEQ: {token.EQL}, token.LAND: {token.LOR}, token.LOR: {token.LAND},
	token.ADD_ASSIGN: {token.SUB_ASSIGN}, token.SUB_ASSIGN: {token.ADD_ASSIGN}, token.MUL_ASSIGN: {token.QUO_ASSIGN}, token.QUO_ASSIGN: {token.MUL_ASSIGN},
	token.INC: {token.DEC}, token.DEC: {token.INC},
}

// mutant is one change.
type mutant struct {
	file         string
	line, column int
	what         string
	code         []byte
}

func main() {
	sample := flag.Int("sample", 100, "how many changes of each package; 0 for all")
	seed := flag.Uint64("seed", 1, "seed of the sample")
	workers := flag.Int("workers", 2, "how many are tried at once")
	timeout := flag.Duration("timeout", 2*time.Minute, "how long the tests of one may take")
	flag.Parse()
	status := 0
	for _, directory := range flag.Args() {
		mutants, err := find(directory)
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(2)
		}
		all := len(mutants)
		rand.New(rand.NewPCG(*seed, 1)).Shuffle(all, func(i, j int) { mutants[i], mutants[j] = mutants[j], mutants[i] })
		if *sample > 0 && *sample < all {
			mutants = mutants[:*sample]
		}
		if !try(directory, mutants, all, *workers, *timeout) {
			status = 1
		}
	}
	os.Exit(status)
}

// find lists the changes of a package's files.
func find(directory string) ([]mutant, error) {
	names, err := filepath.Glob(filepath.Join(directory, "*.go"))
	if err != nil {
		return nil, err
	}
	var out []mutant
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, name, nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		change := func(op *token.Token, at token.Pos) {
			was := *op
			for _, to := range swaps[was] {
				*op = to
				var b bytes.Buffer
				if err := format.Node(&b, set, file); err == nil {
					out = append(out, mutant{name, set.Position(at).Line, set.Position(at).Column, fmt.Sprintf("%v to %v", was, to), b.Bytes()})
				}
			}
			*op = was
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GenDecl:
				return n.Tok != token.IMPORT
			case *ast.BinaryExpr:
				if isText(n.X) || isText(n.Y) {
					return true
				}
				change(&n.Op, n.OpPos)
			case *ast.AssignStmt:
				change(&n.Tok, n.TokPos)
			case *ast.IncDecStmt:
				change(&n.Tok, n.TokPos)
			}
			return true
		})
	}
	return out, nil
}

// isText reports whether an operand is a text, which can't be subtracted.
func isText(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.BasicLit:
		return e.Kind == token.STRING
	case *ast.BinaryExpr:
		return isText(e.X) || isText(e.Y)
	}
	return false
}

// try runs the tests over each change and reports whether 85 % are noticed.
func try(directory string, mutants []mutant, all, workers int, timeout time.Duration) bool {
	var mu sync.Mutex
	killed, broken := 0, 0
	var lived, endless []mutant
	next := make(chan mutant)
	var group sync.WaitGroup
	for range workers {
		group.Go(func() {
			for m := range next {
				outcome := test(directory, m, timeout)
				mu.Lock()
				switch outcome {
				case "killed":
					killed++
				case "endless":
					killed++
					endless = append(endless, m)
				case "no build":
					broken++
				default:
					lived = append(lived, m)
				}
				mu.Unlock()
			}
		})
	}
	for _, m := range mutants {
		next <- m
	}
	close(next)
	group.Wait()
	judged := killed + len(lived)
	share := 100 * float64(killed) / float64(max(1, judged))
	fmt.Printf("%s: %d of %d noticed (%.0f %%), of %d possible changes; %d did not build\n", directory, killed, judged, share, all, broken)
	for _, m := range lived {
		fmt.Printf("  lived: %s:%d:%d: %s\n", m.file, m.line, m.column, m.what)
	}
	for _, m := range endless {
		fmt.Printf("  noticed by the time limit, look at it: %s:%d:%d: %s\n", m.file, m.line, m.column, m.what)
	}
	return share >= 85
}

// test runs the package's tests over a change.
func test(directory string, m mutant, timeout time.Duration) string {
	dir, err := os.MkdirTemp("", "mutate-")
	if err != nil {
		return err.Error()
	}
	defer os.RemoveAll(dir)
	changed := filepath.Join(dir, "changed.go")
	path, err := filepath.Abs(m.file)
	if err != nil {
		return err.Error()
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{path: changed}})
	if err != nil {
		return err.Error()
	}
	list := filepath.Join(dir, "overlay.json")
	for name, data := range map[string][]byte{changed: m.code, list: overlay} {
		if err := os.WriteFile(name, data, 0o644); err != nil {
			return err.Error()
		}
	}
	ctx, cancel := context.WithTimeout(context.Background(), timeout)
	defer cancel()
	binary := filepath.Join(dir, "test")
	build := exec.CommandContext(ctx, "go", "test", "-c", "-o", binary, "-overlay", list, "./"+directory)
	if err := build.Run(); err != nil {
		return "no build"
	}
	// Rapid need not look for the simplest failure.
	args := []string{"-test.short", "-test.failfast", "-test.timeout", timeout.String()}
	if uses(directory, "pgregory.net/rapid") {
		args = append(args, "-rapid.shrinktime=1ns", "-rapid.nofailfile")
	}
	run := exec.CommandContext(ctx, binary, args...)
	run.Dir = directory
	if err := run.Run(); err != nil {
		if ctx.Err() != nil {
			return "endless" // or the machine is slow
		}
		return "killed"
	}
	// What the package's own tests miss the corpus may catch.
	corpus := exec.CommandContext(ctx, "go", "test", "-overlay", list, "-run", "TestNothingIsLeftOut", "./conformance")
	if err := corpus.Run(); err != nil {
		return "killed"
	}
	return "lived"
}

// uses reports whether a package's tests import a package.
func uses(directory, what string) bool {
	names, err := filepath.Glob(filepath.Join(directory, "*_test.go"))
	if err != nil {
		return false
	}
	for _, name := range names {
		if data, err := os.ReadFile(name); err == nil && bytes.Contains(data, []byte(what)) {
			return true
		}
	}
	return false
}
