// Package obj reads and writes surfaces in Wavefront OBJ files: points, flat
// places (texture coordinates) and faces of any number of corners.
//
// The format has no unit. Points that are named apart stay apart, so that a
// surface that was cut open stays open.
package obj
