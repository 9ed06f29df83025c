// Package psplib reads public benchmarks of project scheduling and measures the
// search against them [PSPLIB].
//
// ReadSM reads one single-mode file; Open reads a whole set, from a folder or
// a .tar.gz; ReadKnown reads the best-known makespans; Bench solves a set on one
// seed and adds up the figures that publications give: mean percentage above
// the critical path and above the best known. The files are not part of the
// program.
//
// Limits. One mode an activity and renewable resources only. CPU time is for
// the caller to measure: nothing here reads a clock.
//
// Keys in brackets stand in docs/references.md.
package psplib
