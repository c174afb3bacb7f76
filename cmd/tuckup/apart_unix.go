//go:build unix

package main

import "syscall"

// apart keeps a program that is started from ending with this one, and from what is typed in its terminal.
func apart() *syscall.SysProcAttr { return &syscall.SysProcAttr{Setsid: true} }
