// Package svg reads outlines from SVG drawings and writes them, after the
// published recommendation [SVG2].
//
// Read: path (the whole path language), polygon, polyline, rect, circle,
// ellipse and line, in groups with transform (matrix, translate, rotate,
// scale, skewX, skewY). The layer of an outline is the nearest data-layer, or
// else the nearest id of a group. Definitions and what display hides are left
// out; use, text, images and inner drawings are skipped and counted. Styles
// are not read.
//
// The size is taken from width or height in mm, cm, in, pt or pc with a
// viewBox. Pixels are no length: programs write 72, 90 or 96 of them to an
// inch, so without a real size the reader asks, and the caller may state it.
//
// After reading, lengths are millimetres and the y axis points up, as in
// package outline, so the drawing is turned over: what is left stays left.
// Every fault names the line of the file.
package svg
