package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// TestInventedSheet holds the sheet and its marks to a file that was read by a person.
func TestInventedSheet(t *testing.T) {
	var stdout, stderr bytes.Buffer
	if status := run(nil, &stdout, &stderr); status != 0 || !strings.HasPrefix(stderr.String(), "worksheet: cells of the marks with an apostrophe") {
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

// TestSheets writes the sheets on both sizes of paper, and looks for answers among the questions.
func TestSheets(t *testing.T) {
	out := filepath.Join(t.TempDir(), "made", "if missing")
	for _, args := range [][]string{{"-out", out}, {"-out", out, "-letter", "-level", "hard", "-questions", "12"}} {
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != 0 {
			t.Fatalf("status %d: %s", status, &stderr)
		}
		if marked := strings.Contains(stdout.String(), "Marks\n"); marked != (len(args) == 2) {
			t.Errorf("%v: marked: %v", args, marked)
		}
		for _, name := range []string{"questions.html", "key.html", "workings.html", "chart.svg", "paper.json", "results.html", "marks.csv"} {
			text, err := os.ReadFile(filepath.Join(out, name))
			if err != nil {
				t.Fatal(err)
			}
			if got, want := strings.Contains(strings.ReplaceAll(string(text), "-", " "), "wrong way"), name != "questions.html" && name != "key.html" && name != "chart.svg"; got != want {
				t.Errorf("%s: has wrong answers: %v", name, got)
			}
			if strings.HasSuffix(name, ".html") && name != "results.html" && strings.Contains(string(text), "size: letter") != (len(args) > 2) {
				t.Errorf("%s: the size of the paper", name)
			}
		}
	}
	// The paper that was written is a paper like one that a school writes, and its answers are marked.
	answers := filepath.Join(t.TempDir(), "answers.csv")
	if err := os.WriteFile(answers, []byte("question;answer\n1;x\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-problems", filepath.Join(out, "paper.json"), "-answers", answers, "-tolerances"}, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "not-read") {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
}

// TestFaultsAreNamed gives the program bad flags and files.
func TestFaultsAreNamed(t *testing.T) {
	wide := filepath.Join(t.TempDir(), "paper.json")
	if err := os.WriteFile(wide, []byte("\xff\xfe{\x00}\x00"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		desc, answers string
		args          []string
		status        int
		want          string
	}{
		{"level", "", []string{"-level", "odd"}, 2, "easy, medium or hard"},
		{"no flag", "", []string{"knots"}, 2, "give flags only"},
		{"topic", "", []string{"-topics", "knots"}, 2, "course to steer"},
		{"few", "", []string{"-questions", "1"}, 2, "number of questions 1 is invalid; give 6 to 12"},
		{"no such file", "", []string{"-answers", "nowhere.csv"}, 1, "nowhere.csv"},
		{"no such paper", "", []string{"-problems", "nowhere.json"}, 1, "nowhere.json"},
		{"no such card", "", []string{"-deviation", "nowhere.csv"}, 1, "nowhere.csv"},
		{"not a paper", "", []string{"-problems", "answers.csv"}, 1, "line 1"},
		{"a paper and its seed", "", []string{"-problems", "paper.json", "-seed", "3"}, 2, "-seed makes a paper, and -problems reads one"},
		{"a card that is no card", "", []string{"-deviation", "answers.csv"}, 1, "worksheet: answers.csv: line 3: unknown column \"name\""},
		{"a paper in UTF-16", "", []string{"-problems", wide}, 1, "paper.json: line 1: the file is not JSON in UTF-8, but in UTF-16: save it as UTF-8"},
		{"answers in UTF-16", "", []string{"-answers", wide}, 1, "paper.json: line 1: the file is not UTF-8: save it as CSV in UTF-8"},
		{"answers in Latin 1", "question,answer\n8,5\xb049W\n", nil, 1, "answers.csv: line 2, answer: the text is not UTF-8"},
		{"no head", "1,2\n", nil, 1, "the columns are name, question, answer"},
		{"three cells", "question,answer\n1,2,3\n", nil, 1, "line 2"},
		{"question 9", "question,answer\n9,2\n", nil, 1, "from 1 to 8"},
		{"twice", "question,answer\n2,2\n2,2\n", nil, 1, "stands twice"},
		{"unreadable", "question,answer\n2,x\n", nil, 0, "not-read"},
		{"blank", "question,answer\n2,\n6,\n", nil, 0, "0 right and 0 carried on, of 0 answered"},
		{"semicolons", "\ufeffquestion;answer\r\n2;999\r\n", nil, 0, "of 1 answered"},
		{"names", "# a class; invented\nname,question,answer\nAda,2,999\nBo,2,999\n,,\n", nil, 0, "Bo,2,distance run,answer,999,wrong"},
		{"formulas", "name,question,answer\n=1+1,2,@x\n", nil, 0, "cells of the marks with an apostrophe"},
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

// TestNothingIsWrittenAfterAFault marks answers whose second row is wrong. No sheet is written, no
// mark of the first row, and no paper is printed.
func TestNothingIsWrittenAfterAFault(t *testing.T) {
	out := filepath.Join(t.TempDir(), "sheets")
	answers := filepath.Join(t.TempDir(), "answers.csv")
	if err := os.WriteFile(answers, []byte("question,answer\n2,5.1 M\nx,1\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-answers", answers, "-out", out}, &stdout, &stderr); status != 1 || stdout.Len() > 0 || stderr.String() != "worksheet: "+answers+": line 3, question: question \"x\": write a number from 1 to 8\n" {
		t.Errorf("status %d: %s%s", status, &stdout, &stderr)
	}
	if left, err := os.ReadDir(out); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

// TestProgressIsPrinted prints the number of rows after a second.
func TestProgressIsPrinted(t *testing.T) {
	var b bytes.Buffer
	p := progress(&b, 0)
	p(7)
	if b.String() != "worksheet: 7 rows marked\n" {
		t.Errorf("%q", b.String())
	}
	progress(&b, time.Hour)(8)
	if strings.Contains(b.String(), "8") {
		t.Errorf("%q", b.String())
	}
}
