// Package route leads the wires of a loom over a body: which way the trunk
// takes, what runs where, how thick each part becomes, which holes it needs and
// how long every wire is cut.
//
// A Problem is waypoints with places in three dimensions (clips, holes,
// breakouts, connectors), stretches between them with what forbids some, and
// wires with their ends. Solve chooses the tree of least cost over the places
// where wires end (engine/loom/steiner: exact for up to ten, else with a proved
// bound), a stretch costing its length, more where it needs a new hole. Inside
// the tree the way of a wire is the only one. Splices are set where their wires
// use least copper, apart from breakouts, holes and each other. Every stretch
// gets its wires, its thickness by packing their round sections
// (engine/loom/circles) with the rule of thumb beside it, its cover and its
// bend. Where a bundle is too thick for a hole or clip, the ways through it are
// made dearer and the tree is chosen again, until all fit or no way is left,
// which is then told with the diameter that would do.
//
// Lengths are millimetres, masses grams, resistances ohms. Input that cannot
// be right is a fault of kind Invalid with place and hint; what is right but
// cannot be done is a Finding and makes Status Infeasible. Check recomputes a
// result from the raw problem and shares nothing with the search.
//
// Limits. The tree is one for each part of the graph that hangs together;
// wires do not share more than that. The bound holds for the tree at the costs
// of the last round. Bends are judged at the corners of the given lines, as
// those lie. Where a route passes heat, moving parts, fuel or brake lines,
// distances and protection are for the person who fits it, after the makers'
// sheets and the local rules: the tool advises and certifies nothing.
//
// docs/engine/loom-route.md has the formulas.
package route
