// Package dxf reads outlines from ASCII DXF drawings and writes them, after
// the published description of its group codes [DXF].
//
// Read: LINE, ARC, CIRCLE, ELLIPSE, LWPOLYLINE and POLYLINE with bulges,
// SPLINE (rational, by control points) and INSERT of blocks, scaled, turned,
// in rows and columns, nested up to 16 deep. Layers keep their names; what
// stands on layer 0 of a block takes the layer it is inserted on. What is
// drawn on paper space, hidden, or not a line is skipped and counted. Curves
// are cut into chords within a stated tolerance and loose ends are joined:
// see package outline, which also holds the limits.
//
// Written: R12 (POLYLINE) and R2000 (LWPOLYLINE), in millimetres.
//
// Lengths are millimetres after reading; the y axis points up. Every fault
// names the line of the file.
package dxf
