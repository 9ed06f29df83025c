package trim

import (
	"fmt"
	"math"

	"fettle/engine/flatten"
	"fettle/engine/flatten/pieces"
	"fettle/geom"
	"fettle/geom/mesh"
)

// Says is the estimate in a sentence, before anything is laid flat.
func (f Flattened) Says() string {
	e := f.Estimate
	need := fmt.Sprintf("The shape asks for a range of %.1f %% between its most and its least stretched place", 100*e.Needed)
	if f.Problem.Material == nil {
		return need + "; what does not give bears none of it without cuts."
	}
	need += fmt.Sprintf("; %s bears %.1f %%.", f.Problem.Material.Name, 100*e.Allowed)
	switch e.Verdict {
	case flatten.Bears:
		return need + " It goes on in one piece."
	case flatten.Close:
		return need + " That is close: the map below tells."
	}
	return need + fmt.Sprintf(" It does not go on in one piece: darts or seams must take %.0f° of its curvature.", e.Relief*180/math.Pi)
}

// Place is one place that a table names.
type Place struct {
	What  string
	Face  int32
	Share float64 // of what the material bears
}

// Places are where to pull by hand and where it wrinkles, the worst first and
// apart from each other, at most so many of each.
func (f Flattened) Places(most int) []Place {
	lo, hi := f.Problem.Surface.Box()
	apart := hi.Sub(lo).Length() / 6
	var out []Place
	for _, kind := range []struct {
		words string
		of    func(face int) float64
		least float64
	}{{"wrinkles", func(i int) float64 { _, p := f.Use(i); return p }, 1}, {"pull", func(i int) float64 { p, _ := f.Use(i); return p }, 0.25}} {
		for _, i := range f.Problem.Surface.Peaks(kind.of, kind.least, apart, most) {
			out = append(out, Place{kind.words, i, kind.of(int(i))})
		}
	}
	return out
}

// Flatten returns the flat points and faces.
func (f Flattened) Flatten() ([]geom.Point, []mesh.Face) {
	return f.Result.Flat.Points, f.Result.Flat.Faces
}

// SeamSides is one cut as it is sewn shut: its length on the surface, both
// sides of it in the pattern, and the ease between notches.
type SeamSides struct {
	Asked     bool // drawn by hand; else it was needed
	On        float64
	Sides     [2]float64 // mm
	Ease      float64    // of the second over the first
	Intervals []flatten.Interval
}

// Sides measures every cut, those that were asked for first.
func (f Flattened) Sides() []SeamSides {
	var out []SeamSides
	for n, cut := range pieces.SidesOf(f.Problem.Surface, f.Result) {
		s := SeamSides{Asked: n < len(f.Problem.Cuts), On: cut.On}
		if c, err := flatten.Compare(cut.Edges[0], cut.Edges[1], 150); err == nil {
			s.Sides, s.Ease, s.Intervals = c.Length, c.Ease(), c.Intervals
		}
		out = append(out, s)
	}
	return out
}
