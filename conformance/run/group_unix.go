//go:build unix

package main

import (
	"os"
	"os/exec"
	"syscall"
)

// ownGroup gives the program its own process group, so that endGroup also ends what it starts.
func ownGroup(c *exec.Cmd) { c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

// endGroup ends a program and everything in its process group.
func endGroup(p *os.Process) { syscall.Kill(-p.Pid, syscall.SIGKILL) }
