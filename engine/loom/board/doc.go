// Package board lays a routed loom flat, one to one, for the table on which it
// is made, and lists what its connectors and splices join; what is cut, labelled
// and metered is for package bench.
//
// Method. The heaviest way through each tree (length × thickness) is its trunk
// and lies straight, from end to end of the board and back where the board is
// shorter. Then the branches, the longest first: each leaves its breakout at 30°
// or more from what lies there, square to it where it can, and runs straight as
// far as all laid before stays clear of it; where the way is shut it is bent, at
// a breakout where one is near. How far a ray is free is found by stepping by
// the distance to what lies nearest. Where no way is found the clearance, then
// the angles, are lowered; where none helps, the tree is laid in nested wedges,
// which never cross, and Status says so. A branch keeps its length to the last
// bit that adding up allows.
//
// The result is polylines and words by layer, and the tables Connectors and
// Splices.
//
// What is proved. Check recomputes every length and every pair of lines from
// the raw input: nothing crosses or touches but at its own breakout.
//
// Limits. Lengths are millimetres, angles degrees, y up. Bundles are drawn by
// their middle; clearance counts their thickness. Faces of connectors are
// schematic: as many cavities as are said, in rows, seen from the mating side;
// their order and shape are on the maker's sheet. Whether a smaller board would
// do is not proved.
//
// docs/engine/loom-route.md has the rules.
package board
