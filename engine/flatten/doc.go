// Package flatten lays a curved surface flat: a disc of triangles in space
// becomes one in the plane, with as little strain as can be, or with strain
// that the material bears.
//
// A Problem is a surface with cuts to be made, a material and its grain. Solve
// lays it flat and says what that costs; Check measures the result from the raw
// surface by other means.
//
// Method. Handles and closed surfaces are cut open along short paths, all of
// them named [EricksonWhittlesey2005]. Holes stay holes: they are filled for the
// start alone. The first pattern keeps angles and the lengths of the rim
// [SawhneyCrane2017]; where it turns a face over, the surface is laid on a round
// disc instead, which cannot [Tutte1963]. Then the symmetric
// Dirichlet energy is lowered by Newton steps whose matrix is made positive
// face by face in closed form [SmithDeGoesKim2019], and taken whole near the
// end, where it is positive by itself. A step ends before the first face would
// vanish [SmithSchaefer2015], so no face is ever turned over. Starts that press
// faces together a thousandfold are eased: faces are first asked for shapes
// between their own and those they have [LiuYeNiFu2018]. It ends when strain
// stands still, not when the energy seems to. An outline that crosses itself is
// laid anew behind a fence that keeps its sides apart. Where open holes make a
// pattern clearly dearer than one whose holes are joined to the rim, or keep it
// from unrolling, the fewest are joined that hide most curvature.
//
// Then the material passes: what leather, vinyl, cloth and sheet metal bear, in
// each direction; and darts and seams are proposed where they bear it not.
//
// Limits. One piece at a time; faces need area. Holes of a surface with handles
// are joined to its rim. What a fence would make twice as dear
// stays as it is and its overlaps are told: only a cut helps there. The pattern
// is that of the mesh: a smooth surface is wider than its chords.
//
// Keys in brackets stand in docs/references.md; docs/engine/flatten.md has the
// method and the measured figures.
package flatten
