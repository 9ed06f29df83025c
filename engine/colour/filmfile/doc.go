// Package filmfile reads paint films on a ground from a text file and works out
// how they look. The form is described in docs/engine/film-file.md.
//
// Reflectance is worked out at the bands of the file, whichever and however many
// they are. For colours K, S and the ground are put on the grid of
// [colour.Spectrum] by straight lines, the ends held, and a note says so.
package filmfile
