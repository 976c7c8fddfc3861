package check_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"

	"lubberline.example/deviation/check"
)

// TestAppendsAtTheSameMoment lets several programs, of several goroutines each, append to one log,
// which the first of them begins. Each check is in the log once. Measured without the lock of the
// folder: 10 checks of 48 were kept, and the others were refused or lost.
func TestAppendsAtTheSameMoment(t *testing.T) {
	const goroutines = 3
	rows := 4
	if os.Getenv("FULL") == "1" {
		rows = 60
	}
	if name := os.Getenv("LUBBERLINE_APPEND_TOGETHER"); name != "" {
		var all sync.WaitGroup
		for i := range goroutines {
			all.Go(func() {
				for j := range rows {
					c := loggedChecks(t)[1]
					c.Remarks = fmt.Sprintf("%d %d %d", os.Getpid(), i, j)
					if err := check.AppendLog(name, c); err != nil {
						t.Error(err)
					}
				}
			})
		}
		all.Wait()
		return
	}
	switch runtime.GOOS {
	case "darwin", "dragonfly", "freebsd", "illumos", "linux", "netbsd", "openbsd":
	default:
		t.Skip("no lock of folders on", runtime.GOOS)
	}
	for _, file := range []string{"book.csv", "book.json"} {
		name := filepath.Join(t.TempDir(), file)
		var want []string
		var all sync.WaitGroup
		for range 4 {
			c := exec.Command(os.Args[0], "-test.run=^TestAppendsAtTheSameMoment$")
			c.Env = append(os.Environ(), "LUBBERLINE_APPEND_TOGETHER="+name)
			var out lines
			c.Stdout, c.Stderr = &out, &out
			if err := c.Start(); err != nil {
				t.Skip("no program can be started here:", err)
			}
			for i := range goroutines {
				for j := range rows {
					want = append(want, fmt.Sprintf("%d %d %d", c.Process.Pid, i, j))
				}
			}
			all.Go(func() {
				if err := c.Wait(); err != nil {
					t.Errorf("%s: %v: %s", file, err, out)
				}
			})
		}
		all.Wait()
		checks, err := readLog(t, name)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, c := range checks {
			got = append(got, c.Remarks)
		}
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%s: %d checks of %d, or others", file, len(got), len(want))
		}
	}
}

// lines is what a program prints.
type lines []byte

func (l *lines) Write(p []byte) (int, error) {
	*l = append(*l, p...)
	return len(p), nil
}
