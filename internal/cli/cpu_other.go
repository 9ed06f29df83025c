//go:build !unix

package cli

// cpuSeconds is not known on this system.
func cpuSeconds() float64 { return 0 }
