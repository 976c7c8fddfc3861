package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// hostilePrograms are shell programs that break the protocol.
var hostilePrograms = map[string]struct{ script, want string }{
	"a line without end":   {`exec cat /dev/zero`, "a line of more than 1024 KiB"},
	"a long line, asleep":  {`head -c 3000000 /dev/zero; exec sleep 60`, "a line of more than 1024 KiB"},
	"its output is closed": {`exec >&-; exec sleep 60`, "the program ended"},
	"lines without end":    {`exec yes '{"case":"x"}'`, "the answer to the greeting has protocol 0"},
	"two objects":          {`echo '{"hello":1}{"hello":1}'; exec sleep 60`, "more than one object"},
	"an unknown field":     {`printf '{"%0100000d":1}\n' 0; exec sleep 60`, "unknown field"},
	"a child holds on":     {`sleep 60 & echo nonsense`, "invalid character"},
}

// The command ends soon, with a short reason, even if the program writes too much, or nothing more,
// and does not end.
func TestHostileProgramsAreEnded(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for programs to be ended")
	}
	for name, p := range hostilePrograms {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c := &child{command: []string{"/bin/sh", "-c", p.script}, timeout: time.Second}
			begun := time.Now()
			err := c.start()
			if err == nil || !strings.Contains(err.Error(), p.want) || len(err.Error()) > 3000 {
				t.Errorf("%.300v, want %s", err, p.want)
			}
			if took := time.Since(begun); took > 20*time.Second || c.process != nil {
				t.Errorf("ended after %v", took)
			}
		})
	}
}

// What a program has started is ended with it.
func TestGrandchildrenAreEnded(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for programs to be ended")
	}
	alive := filepath.Join(t.TempDir(), "alive")
	script := `(while true; do echo x >> "` + alive + `"; sleep 0.1; done) >/dev/null 2>&1 & echo '{"hello":1,"offers":[]}'; exec sleep 60`
	c := &child{command: []string{"/bin/sh", "-c", script}, timeout: time.Second}
	if err := c.start(); err != nil {
		t.Skip("no shell here: ", err)
	}
	c.stop()
	size := func() int64 {
		info, err := os.Stat(alive)
		if err != nil {
			return 0
		}
		return info.Size()
	}
	before := size()
	time.Sleep(500 * time.Millisecond)
	if after := size(); after != before {
		t.Errorf("a grandchild still writes: %d bytes, then %d", before, after)
	}
}

func TestHostileListsOfKnownFailures(t *testing.T) {
	for name, text := range map[string]string{
		"a long line": strings.Repeat("x", 100_000),
		"a long id":   strings.Repeat("x", 60_000) + "\n",
		"long":        strings.Repeat("# more\n", 1<<20),
		"a NUL":       "\x00",
	} {
		path := filepath.Join(t.TempDir(), "known")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if known, err := readKnown(path); err == nil || len(err.Error()) > 500 {
			t.Errorf("%s: %d known, %.300v", name, len(known), err)
		}
	}
	if _, err := os.Stat("/dev/zero"); err == nil {
		if _, err := readKnown("/dev/zero"); err == nil {
			t.Error("a file without end was read")
		}
	}
}
