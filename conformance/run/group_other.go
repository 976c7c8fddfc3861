//go:build !unix

package main

import (
	"os"
	"os/exec"
)

// ownGroup does nothing: this system has no process groups as Unix has them.
func ownGroup(*exec.Cmd) {}

// endGroup ends the program. What it has started may outlive it.
func endGroup(p *os.Process) { p.Kill() }
