//go:build darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd

package check

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
	"time"
)

// lockFolder keeps other programs that append to a log in a folder waiting until unlock is
// called or the program ends. A folder that its file system can't lock is left unlocked.
func lockFolder(name string, wait time.Duration) (unlock func(), err error) {
	folder, err := os.Open(name)
	if err != nil {
		return func() {}, nil // the error of the log itself says more
	}
	for end := time.Now().Add(wait); ; time.Sleep(2 * time.Millisecond) {
		err := syscall.Flock(int(folder.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		switch {
		case errors.Is(err, syscall.EINTR):
		case !errors.Is(err, syscall.EWOULDBLOCK): // locked, or no locks here
			return func() { folder.Close() }, nil
		case time.Now().After(end):
			folder.Close()
			return nil, &fs.PathError{Op: "append", Path: name, Err: errLocked}
		}
	}
}
