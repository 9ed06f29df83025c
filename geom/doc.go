// Package geom holds plane geometry: points, boxes and paths. A path is read
// from a small part of the SVG path language (absolute M, L, C, Q and Z), and
// can be flattened to polylines and asked for its box, area, centroid and
// what it contains. A Ring is the edge of a polygon; GridPoint and GridEdges
// answer what must not be left to rounding, on an integer grid.
//
// Units are the caller's own: nothing here knows millimetres. Coordinates are
// float64 and at most 1e7 in size. Angles do not occur. The y axis may point
// up or down; a ring's direction only matters for holes, which run the other
// way round than the outline they are cut from.
//
// Area and centroid are integrals along the boundary (Green's theorem), exact
// but for rounding. Contains walks a flattened copy and is therefore right to
// within a small part of the path's size along curved edges.
package geom
