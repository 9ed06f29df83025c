//go:build !unix

package cli

// peakMemory is not known on this system.
func peakMemory() float64 { return 0 }
