package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// TestInventedSheet holds the sheet and its marks to a file that was read by a person.
func TestInventedSheet(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run(nil, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	golden := filepath.Join("testdata", "worksheet.golden")
	if *update {
		if err := os.WriteFile(golden, stdout.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(stdout.Bytes(), want) {
		t.Errorf("the sheet has changed; got\n%s", &stdout)
	}
}

// TestPagesKeepAnswersApart writes the pages, and looks for answers among the questions.
func TestPagesKeepAnswersApart(t *testing.T) {
	out := filepath.Join(t.TempDir(), "made", "if missing")
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-out", out, "-difficulty", "hard", "-each", "2"}, &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	if strings.Contains(stdout.String(), "Marked") {
		t.Error("answers to another sheet were marked")
	}
	for _, name := range []string{"questions.html", "questions.md", "answers.html", "answers.md"} {
		page, err := os.ReadFile(filepath.Join(out, name))
		if err != nil {
			t.Fatal(err)
		}
		if got, want := strings.Contains(string(page), "wrong way"), strings.HasPrefix(name, "answers"); got != want {
			t.Errorf("%s: has answers: %v", name, got)
		}
	}
}

// TestFaultsAreNamed gives the program bad flags and files.
func TestFaultsAreNamed(t *testing.T) {
	for _, test := range []struct {
		desc, answers string
		args          []string
		status        int
		want          string
	}{
		{"difficulty", "", []string{"-difficulty", "odd"}, 2, "easy, medium or hard"},
		{"no flag", "", []string{"knots"}, 2, "give flags only"},
		{"topic", "", []string{"-topics", "knots"}, 2, "course to steer"},
		{"none", "", []string{"-each", "0"}, 2, "number of exercises 0 is invalid; give 1 to 1000"},
		{"no such file", "", []string{"-answers", "nowhere.csv"}, 1, "nowhere.csv"},
		{"no head", "1,2\n", nil, 1, "question,answer"},
		{"three columns", "question,answer\n1,2,3\n", nil, 1, "line 2"},
		{"question 9", "question,answer\n9,2\n", nil, 1, "from 1 to 8"},
		{"twice", "question,answer\n2,2\n2,2\n", nil, 1, "each once"},
		{"unreadable", "question,answer\n2,x\n", nil, 0, "cannot be read"},
		{"blank", "question,answer\n2,\n6,\n", nil, 0, "0 right of 0 answered, of 8 exercises"},
		{"semicolons", "\ufeffquestion;answer\r\n6;999\r\n", nil, 0, "of 1 answered"},
		{"names", "# a class; invented\nname,question,answer\nAda,6,999\nBo,6,999\n,,\n", nil, 0, "Bo\n 6. 999.0 M"},
		{"twice by one name", "name,question,answer\nAda,6,999\nAda,6,999\n", nil, 1, "each once for each name"},
		{"unexplained", "question,answer\n6,999\n", nil, 0, "no common slip"},
	} {
		args := test.args
		if test.answers != "" {
			path := filepath.Join(t.TempDir(), "answers.csv")
			if err := os.WriteFile(path, []byte(test.answers), 0o644); err != nil {
				t.Fatal(err)
			}
			args = []string{"-answers", path}
		}
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != test.status || !strings.Contains(stdout.String()+stderr.String(), test.want) {
			t.Errorf("%s: status %d: %s%s", test.desc, status, &stdout, &stderr)
		}
	}
}
