//go:build !unix

package main

import (
	"os"
	"os/exec"
)

// ownGroup does nothing, since this system has no process groups like those of Unix.
func ownGroup(*exec.Cmd) {}

// endGroup ends the program. What it started may go on.
func endGroup(p *os.Process) { p.Kill() }
