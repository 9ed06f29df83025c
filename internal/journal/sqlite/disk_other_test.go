//go:build !linux

package sqlite

// Mounting a disk for one process needs Linux.
func fullDisk(string) error     { return nil }
func readOnlyDisk(string) error { return nil }
