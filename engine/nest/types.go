package nest

import "fettle/geom"

// Kind is what a layout is for.
type Kind uint8

// The kinds of problem.
const (
	Strip    Kind = iota // one roll of given width: use as little of its length as can be
	Bins                 // hides or sheets: use as few, or as cheap ones, as can be
	Knapsack             // given material: get the most out of it
)

// Problem is what to cut from what. Lengths are all in one unit, the
// caller's own; angles are degrees, anticlockwise in axes with y up.
type Problem struct {
	Kind       Kind
	Pieces     []Piece
	Containers []Container // one for a strip
	Clearance  float64     // the least web left between two pieces, beside Kerf
	Kerf       float64     // what the tool takes away along its path: pieces lie at least Clearance + Kerf apart
}

// Piece is a shape to cut, with how it may lie.
type Piece struct {
	ID        string
	Shape     geom.Polygon
	Count     int         // copies wanted; 0 is 1
	Rotations []float64   // angles allowed; nil is 0 only
	Free      bool        // any angle will do; Rotations is empty then
	Mirror    bool        // may be turned over; material with a face forbids it
	FaceDown  bool        // lies turned over in any case, as where it is marked on the back
	Quality   int         // least quality of the material under it; 0 asks for material without any zone
	Zones     []Zone      // parts of the shape that ask for another quality, such as a hidden flap
	Axis      *Axis       // how its tight direction must lie to that of the material; nil is anyhow
	Match     *Match      // how it keeps to the pattern of the material; nil is not at all
	Pair      string      // ID of its left or right mate: each copy lies on the sheet of its mate's; may be empty
	Group     string      // pieces of one group lie on one sheet; may be empty
	Value     float64     // what a copy is worth in a Knapsack; 0 is its area
	Locked    []Placement // copies that stay where they are, first copy first
}

// Zone is a part of a container or of a piece with a quality of its own. In a
// container 0 is a hole and a larger number is better material; what lies in
// no zone is without fault. A piece may lie on zones of its Quality or better.
type Zone struct {
	Shape   geom.Polygon
	Quality int
}

// Axis is the direction in which a piece must not give.
type Axis struct {
	Angle     float64 // in the piece's own coordinates
	Tolerance float64 // how far it may stray from the direction of the material, to either side
	OneWay    bool    // nap: the half turn is not allowed
}

// Match holds a piece to the pattern of its material, as mates that continue
// each other's stripes are: its anchor lies on a line of the lattice, along each
// axis that is held. Material that does not repeat along it takes it anywhere.
type Match struct {
	Anchor geom.Point // in the piece's own coordinates
	X, Y   bool       // the axes of the material that are held
}

// Repeat is a pattern that comes again along a material, such as pleats,
// stripes or a plaid. Its lattice are the places Phase + (i X, j Y).
type Repeat struct {
	X, Y  float64    // after how far; 0 is no pattern along that axis
	Phase geom.Point // a place where the pattern begins
}

// Container is a roll, a hide or a sheet.
type Container struct {
	ID      string
	Height  float64        // width of the roll of a Strip, on which x is 0 or more and y is 0 to Height
	Outline geom.Polygon   // of hides and sheets, with holes
	Zones   []Zone         // parts of lesser quality, or holes
	KeepOut []geom.Polygon // drawn by hand: nothing lies here
	Margin  float64        // least distance of pieces to outline, holes, keep-outs, and zones they may not lie on
	Grain   []Heading      // direction of the material; empty is 0 everywhere
	Repeat  Repeat         // its pattern, which pieces with a Match keep to; none where zero
	Cost    float64        // of one; 0 is its area
	Count   int            // how many there are; 0 is 1
}

// Heading says which way the material runs near a place; between headings the
// nearest counts.
type Heading struct {
	At    geom.Point
	Angle float64
}

// Placement says where one copy of a piece lies: its shape, mirrored first
// where asked (x becomes -x), is turned by Rotation about the origin of its
// own coordinates and then moved by X and Y.
type Placement struct {
	Piece     int // index into Problem.Pieces
	Copy      int // from 0
	Container int // index into Problem.Containers
	Sheet     int // which of the Count containers of that kind, from 0
	X, Y      float64
	Rotation  float64
	Mirrored  bool
}

// Options steer Solve.
type Options struct {
	Seed     uint64
	Steps    int             // budget; one step is StepEvaluations places judged. 0 is the starting layout only
	Workers  int             // searches side by side in each round; 0 is 1. The result depends on it, but for rolls of many copies, where it is the same for one to three
	Start    []Placement     // where copies lie to begin with, as CheckPart allows; those left out find a place. May be empty
	Progress func(Progress)  // called after each better layout; may be nil
	Stepped  func(steps int) // told between better layouts how many steps are done, once in SteppedEvery at most, by the goroutine that called Solve; may be nil
}

// SteppedEvery is the least number of steps between two calls of
// Options.Stepped. One look for a place on hides is not parted: between two
// calls may lie a few hundred.
const SteppedEvery = 50

// StepEvaluations is how many candidate places, each judged against all other
// pieces, count as one step.
const StepEvaluations = 1024

// Progress is the best layout so far.
type Progress struct {
	Steps, Budget int
	Length        float64
	Density       float64
	Placements    []Placement // the receiver's own copy
}

// Status says how far a result can be trusted.
type Status uint8

// The states of a result.
const (
	BestFound   Status = iota // the best the budget found
	Interrupted               // the context ended first; the best so far
	Incomplete                // not all pieces found a place; those that did are placed
)

// Stats count the work that was done.
type Stats struct {
	Steps       int // whole steps used
	Evaluations int // places judged
	Separations int // infeasible layouts worked on
	Improved    int // times a shorter layout was found
	Refused     int // layouts the search held for free of collisions and the exact check did not
}

// Result is a layout that Check has passed.
type Result struct {
	Status      Status
	Placements  []Placement // by piece and copy
	Length      float64     // of a Strip: largest x any piece reaches, plus the margin
	Used        []int       // number of sheets used, one per container
	Reason      string      // why it is Incomplete: a proof, or the first copy without a place
	Bound       float64     // of Bins, a cost that no layout goes below; of a Knapsack, a value that none passes
	Density     float64     // area of the placed pieces over that of the material used, 0 to 1
	SmallestGap float64     // that of Report: +Inf where there is nothing to measure, which JSON cannot hold
	Stats       Stats
}
