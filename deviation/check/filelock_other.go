//go:build !(darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd)

package check

import "time"

// lockFolder does nothing, since this system has no locks like those of Unix. A change by another
// program is still noticed, except at the very same moment.
func lockFolder(string, time.Duration) (unlock func(), err error) { return func() {}, nil }
