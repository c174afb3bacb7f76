package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
)

// memory is what this process holds, in megabytes (2^20 bytes).
type memory struct {
	Peak    float64 `json:"peak_mb"`    // most resident since the start of the measurement; 0 = the system doesn't tell
	Runtime float64 `json:"runtime_mb"` // what the Go runtime has from the system, never less than at an earlier look
}

const megabyte = 1 << 20

// freshPeak gives memory back and makes the system count the peak anew, where it can (Linux, proc(5): clear_refs 5).
func freshPeak() {
	debug.FreeOSMemory()
	_ = os.WriteFile("/proc/self/clear_refs", []byte("5"), 0) // elsewhere the peak stays that of the whole run
}

func memoryNow() memory {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		status = nil
	}
	return memory{Peak: peakOf(string(status)), Runtime: float64(m.Sys) / megabyte}
}

// peakOf reads the line `VmHWM: N kB` of a process's status; 0 without one.
func peakOf(status string) float64 {
	for line := range strings.Lines(status) {
		f := strings.Fields(line)
		if len(f) == 3 && f[0] == "VmHWM:" && f[2] == "kB" {
			if kb, err := strconv.ParseFloat(f[1], 64); err == nil {
				return kb / 1024
			}
		}
	}
	return 0
}
