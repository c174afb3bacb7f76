//go:build unix

package main

import "syscall"

// cpuSeconds are the seconds of processor time that the program has used.
func cpuSeconds() float64 {
	var use syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &use) != nil {
		return 0
	}
	return float64(use.Utime.Sec) + float64(use.Utime.Usec)/1e6
}
