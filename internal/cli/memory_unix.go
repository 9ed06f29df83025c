//go:build unix

package cli

import (
	"runtime"
	"syscall"
)

// peakMemory is the most memory this process has held so far, in bytes.
func peakMemory() float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	if runtime.GOOS == "darwin" || runtime.GOOS == "ios" {
		return float64(u.Maxrss)
	}
	return float64(u.Maxrss) * 1024
}
