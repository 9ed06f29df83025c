package flatten

import (
	"fettle/geom"
	"fettle/geom/mesh"
)

// Problem is what to lay flat. Lengths are all in one unit, the caller's own;
// millimetres where a metal's thickness is given.
type Problem struct {
	Surface  mesh.Mesh
	Cuts     [][]int32 // paths of vertices along edges that are cut open; closed where first is last
	Material *Material // nil: as near to isometry as can be
	Grain    Grain     // how the flat pattern's axis of the material lies on the surface
}

// Grain fixes which way the material runs: the step from vertex From to vertex
// To, laid flat, is the direction along. Where both are one vertex the best
// direction is looked for.
type Grain struct{ From, To int32 }

// Material says what a material bears when the flat pattern is brought onto
// the surface. Stretches are ratios less one: 0.05 is a twentieth longer.
// Directions are along and across its axis (the backbone of a hide, the length
// of a roll); Stiffness is relative to the first.
type Material struct {
	Name      string
	Tension   [2]float64 // most it is pulled
	Squeeze   [2]float64 // most it is pushed together before it wrinkles, positive
	Stiffness [2]float64
	Poisson   float64
	Shear     float64 // modulus over that of the first direction
	Slack     float64 // share of the stiffness that is left in compression
	Lock      float64 // of woven cloth: the shear at which its threads lock, radians; else 0, and limits hold in every direction
	Metal     *Metal  // sheet metal: plastic work instead of the above
}

// Metal is a sheet that is formed for good: Hill's normal anisotropy and a
// power law of hardening.
type Metal struct {
	Grade     string
	Thickness float64 // mm
	R         float64 // mean plastic strain ratio
	N         float64 // hardening exponent
	K         float64 // MPa
}

// Flat is a surface laid flat.
type Flat struct {
	Points []geom.Point
	Faces  []mesh.Face
	Source []int32 // by flat point: the vertex of the surface it came from
}

// Options say how much to try. The same problem, seed and budget give the same
// answer on any machine.
type Options struct {
	Seed     uint64
	Steps    int // most Newton steps of each pass; 0 is enough for any surface of the trade
	Progress func(Progress)
}

// Progress is how far a Solve is.
type Progress struct {
	Stage    string // cutting, conformal, isometric, material; cuts, of proposals
	Step, Of int
}

// Status says how a Solve ended.
type Status uint8

// How a Solve ended.
const (
	Settled     Status = iota // strain stopped moving
	OutOfSteps                // the budget ended first
	Interrupted               // the caller ended it
)

// Result is a surface laid flat and what that costs.
type Result struct {
	Flat      Flat
	Status    Status
	Cuts      [][]int32 // all cuts that were made: those asked for, then those that were needed
	Conformal Strain
	Isometric Strain
	Material  Strain // of the last pass, the same as Isometric without a material
	Faces     []FaceStrain
	Stats     Stats
}

// Strain sums up how far a flat pattern is from its surface. Mounting stretch
// is surface over pattern, less one.
type Strain struct {
	Dirichlet float64    // mean of s1² + s2² + 1/s1² + 1/s2² by area; 4 is an isometry
	Quasi     float64    // mean of s1 ÷ s2 by area
	AreaRMS   float64    // root mean square of log(s1 s2)
	Stretch   [3]float64 // mounting stretch at 99 % of the area, at 1 %, and the most in size
	Along     [2]float64 // least and most along the material
	Across    [2]float64
	Outside   float64 // share of the area outside the material's limits
	Flips     int
	Overlaps  int // pairs of boundary edges that cross, and corners of the outline that faces go round more than once
}

// FaceStrain is the strain of one face of the flat pattern when it is brought
// onto the surface.
type FaceStrain struct {
	Stretch [2]float64 // principal mounting stretches less one, the larger first
	Angle   float64    // of the larger in the flat pattern, radians anticlockwise from x
	Along   float64    // along and across the material
	Across  float64
	Shear   float64 // radians
	Thick   float64 // of sheet metal: thickness over that before, less one
}

// Stats counts the work.
type Stats struct {
	Vertices, Faces int
	Factors, Solves int
	Steps           int
}
