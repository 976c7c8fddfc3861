package check

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// TestALogThatChangedMeanwhileIsKept puts a log in the place of one that another program has
// changed, begun or removed since it was read.
func TestALogThatChangedMeanwhileIsKept(t *testing.T) {
	name := filepath.Join(t.TempDir(), "book.csv")
	write := func(text string) os.FileInfo {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(name)
		if err != nil {
			t.Fatal(err)
		}
		return info
	}
	if err := replace(name, []byte("new"), 0o644, nil); err != nil {
		t.Fatal(err)
	}
	for what, before := range map[string]os.FileInfo{"begun": nil, "appended to": write("a")} {
		write("another's")
		if err := replace(name, []byte("mine"), 0o644, before); !errors.Is(err, errMeanwhile) {
			t.Errorf("%s: %v", what, err)
		}
	}
	before := write("a")
	if err := os.Chtimes(name, time.Time{}, before.ModTime().Add(time.Second)); err != nil {
		t.Fatal(err)
	}
	if err := replace(name, []byte("mine"), 0o644, before); !errors.Is(err, errMeanwhile) {
		t.Errorf("written at another time: %v", err)
	}
	if err := os.Remove(name); err != nil {
		t.Fatal(err)
	}
	if err := replace(name, []byte("mine"), 0o644, before); !errors.Is(err, errMeanwhile) {
		t.Errorf("removed: %v", err)
	}
	before = write("a")
	if err := replace(name, []byte("mine"), 0o600, before); err != nil {
		t.Fatal(err)
	}
	if left, err := os.ReadDir(filepath.Dir(name)); err != nil || len(left) != 1 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

// TestALockedFolderIsWaitedFor appends while another program appends to a log in the same folder.
// The second waits for the first, and says so if that does not end.
func TestALockedFolderIsWaitedFor(t *testing.T) {
	folder := t.TempDir()
	unlock, err := lockFolder(folder, 0)
	if err != nil {
		t.Fatal(err)
	}
	second, err := lockFolder(folder, 0)
	if err == nil {
		t.Skip("no lock of folders on", runtime.GOOS)
	}
	if path, ok := errors.AsType[*fs.PathError](err); !ok || !errors.Is(err, errLocked) || path.Path != folder || second != nil {
		t.Errorf("a locked folder: %v", err)
	}
	time.AfterFunc(20*time.Millisecond, unlock)
	if second, err = lockFolder(folder, time.Minute); err != nil {
		t.Fatal(err)
	}
	second()
	if unlock, err = lockFolder(filepath.Join(folder, "missing"), 0); err != nil {
		t.Errorf("a missing folder: %v", err) // the file's own error says more
	}
	unlock()
}
