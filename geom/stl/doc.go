// Package stl reads and writes surfaces in STL files, binary and text. Such a
// file repeats the points for every face: those at exactly the same place become
// one. It has no unit.
package stl
