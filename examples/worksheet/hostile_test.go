package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A file that is not a file of answers, or has no end, gets a short error.
func TestHostileAnswers(t *testing.T) {
	paths := map[string]string{}
	if _, err := os.Stat("/dev/zero"); err == nil {
		paths["without end"] = "/dev/zero"
	}
	for name, text := range map[string]string{
		"empty":                "",
		"one NUL":              "\x00",
		"UTF-16":               "\xff\xfeq\x00",
		"too long":             strings.Repeat("# more\n", 1<<18),
		"columns":              strings.Repeat(",", 1<<19),
		"an open quote":        "question,answer\n1,\"" + strings.Repeat("x\n", 1<<18),
		"a long number":        "question,answer\n" + strings.Repeat("9", 1<<19) + ",1\n",
		"a number that is not": "question,answer\n1e0,1\n",
	} {
		paths[name] = filepath.Join(t.TempDir(), "answers.csv")
		if err := os.WriteFile(paths[name], []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for name, path := range paths {
		var out, faults bytes.Buffer
		if status := run([]string{"-answers", path}, &out, &faults); status != 1 || faults.Len() == 0 || faults.Len() > 500 {
			t.Errorf("%s: status %d, %.300s", name, status, faults.String())
		}
		faults.Reset()
		if status := run([]string{"-problems", path}, &out, &faults); status != 1 || faults.Len() == 0 || faults.Len() > 500 {
			t.Errorf("%s as a paper: status %d, %.300s", name, status, faults.String())
		}
	}
	// An answer that cannot be read is reported, and the others are marked.
	path := filepath.Join(t.TempDir(), "answers.csv")
	if err := os.WriteFile(path, []byte("question,answer\n1,\""+strings.Repeat("\x00", 1<<13)+"\"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	var out, faults bytes.Buffer
	if status := run([]string{"-answers", path}, &out, &faults); status != 0 || !strings.Contains(out.String(), "not-read") || out.Len() > 50_000 {
		t.Errorf("status %d, %d bytes, %.300s", status, out.Len(), faults.String())
	}
}
