//go:build unix

package main

import (
	"os"
	"os/exec"
	"syscall"
)

// ownGroup makes the program lead a process group of its own, so that endGroup ends what
// it starts too.
func ownGroup(c *exec.Cmd) { c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

// endGroup ends a program and everything in its process group.
func endGroup(p *os.Process) { syscall.Kill(-p.Pid, syscall.SIGKILL) }
