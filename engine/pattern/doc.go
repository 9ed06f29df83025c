// Package pattern turns sewn lines into patterns that can be cut, and says what
// sewing them takes.
//
// A Piece is the outline along which it is sewn, divided into edges at its
// corners, each edge with its kind of seam and its allowance. Cut offsets every
// edge by its own allowance; CheckCut, which shares nothing with it, holds the
// result to the sewn line. A Seam joins a chain of edges to another: notches
// stand at the same share of both sides, and the ease between two notches is
// said. Recipes give the piping strip, the wheel rim, the headliner and their
// like from a few measures, each figure with its working; so do the sums of
// thread, glue, cord, clips and foam. Order sorts the seams into steps, each
// with the reasons for what comes before it.
//
// Lengths are millimetres, areas square metres, angles degrees anticlockwise
// from x in names that end in deg. Outlines run anticlockwise seen from the
// face, y up. Input that cannot be right is a fault of kind Invalid with place
// and hint. Nothing here reads a clock, a file or a map's order.
//
// Limits. The sewn line is taken as true: what the material gives is for
// engine/flatten to say. What is called a trade default is habit and gives way
// to a test piece. docs/engine/pattern.md has the formulas with worked values.
package pattern
