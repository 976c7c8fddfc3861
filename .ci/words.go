//go:build ignore

// Fails where a word of words.txt stands in a Go file, a guide or a golden file, unless
// words-allowed.txt lets it. Run it in the folder of the module.
package main

import (
	"bufio"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
)

// A word is a phrase to avoid, and what to write instead.
type word struct {
	phrase  *regexp.Regexp
	instead string
}

// An exception lets a phrase stand in some lines of some files.
type exception struct{ path, line string }

func main() {
	log.SetFlags(0)
	var words []word
	for _, line := range lines(".ci/words.txt") {
		phrase, instead, _ := strings.Cut(line, " = ")
		words = append(words, word{regexp.MustCompile(`(?i)\b(?:` + phrase + `)\b`), instead})
	}
	var allowed []exception
	for _, line := range lines(".ci/words-allowed.txt") {
		path, part, _ := strings.Cut(line, " ")
		allowed = append(allowed, exception{path, part})
	}
	files, err := exec.Command("git", "ls-files", "-co", "--exclude-standard", "*.go", "*.md", "*.golden").Output()
	if err != nil {
		log.Fatal(err)
	}
	found := 0
	for path := range strings.FieldsSeq(string(files)) {
		if strings.HasPrefix(path, ".ci/") {
			continue
		}
		data, err := os.ReadFile(filepath.FromSlash(path))
		if err != nil {
			continue // removed, and not yet in the index
		}
		n := 0
		for line := range strings.Lines(string(data)) {
			n++
			for _, w := range words {
				if at := w.phrase.FindString(line); at != "" && !isAllowed(allowed, path, line) {
					fmt.Printf("%s:%d: %q: write %s\n", path, n, at, w.instead)
					found++
				}
			}
		}
	}
	if found > 0 {
		log.Fatalf("%d lines that a reader stumbles over", found)
	}
}

func isAllowed(allowed []exception, path, line string) bool {
	for _, a := range allowed {
		if strings.HasPrefix(path, a.path) && strings.Contains(line, a.line) {
			return true
		}
	}
	return false
}

// lines are the lines of a list, without comments and blank ones.
func lines(path string) []string {
	f, err := os.Open(path)
	if err != nil {
		log.Fatal(err)
	}
	defer f.Close()
	var out []string
	for s := bufio.NewScanner(f); s.Scan(); {
		if text := s.Text(); strings.TrimSpace(text) != "" && !strings.HasPrefix(text, "#") {
			out = append(out, text)
		}
	}
	return out
}
