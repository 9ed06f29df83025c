package trim

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/engine/flatten"
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
	_, faces := f.Flatten()
	lo, hi := f.Problem.Surface.Box()
	apart := hi.Sub(lo).Length() / 6
	var out []Place
	for _, kind := range []struct {
		words string
		of    func(face int) float64
		least float64
	}{{"wrinkles", func(i int) float64 { _, p := f.Use(i); return p }, 1}, {"pull", func(i int) float64 { p, _ := f.Use(i); return p }, 0.25}} {
		order := make([]int32, len(faces))
		for i := range order {
			order[i] = int32(i)
		}
		slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(kind.of(int(b)), kind.of(int(a))) })
		var at []mesh.Vec
		for _, i := range order {
			share := kind.of(int(i))
			if share < kind.least || len(at) >= most {
				break
			}
			mid := f.middle(i)
			if !slices.ContainsFunc(at, func(p mesh.Vec) bool { return p.Sub(mid).Length() < apart }) {
				at = append(at, mid)
				out = append(out, Place{kind.words, i, share})
			}
		}
	}
	return out
}

func (f Flattened) middle(face int32) mesh.Vec {
	m := f.Problem.Surface
	t := m.Faces[face]
	return m.Points[t[0]].Add(m.Points[t[1]]).Add(m.Points[t[2]]).Scale(1.0 / 3)
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
	edge := map[[2]int32][2]int32{} // of the surface → of the pattern
	for i, face := range f.Result.Flat.Faces {
		of := f.Problem.Surface.Faces[i]
		for k := range of {
			edge[[2]int32{of[k], of[(k+1)%3]}] = [2]int32{face[k], face[(k+1)%3]}
		}
	}
	var out []SeamSides
	for n, cut := range f.Result.Cuts {
		s := SeamSides{Asked: n < len(f.Problem.Cuts)}
		var left, right []geom.Point
		for i, v := range cut[1:] {
			u := cut[i]
			s.On += f.Problem.Surface.EdgeLength(u, v)
			if e, ok := edge[[2]int32{u, v}]; ok {
				left = joinAt(left, f.Result.Flat.Points[e[0]], f.Result.Flat.Points[e[1]])
			}
			if e, ok := edge[[2]int32{v, u}]; ok {
				right = joinAt(right, f.Result.Flat.Points[e[1]], f.Result.Flat.Points[e[0]])
			}
		}
		if c, err := flatten.Compare(left, right, 150); err == nil {
			s.Sides, s.Ease, s.Intervals = c.Length, c.Ease(), c.Intervals
		}
		out = append(out, s)
	}
	return out
}

// joinAt adds a step to a line.
func joinAt(line []geom.Point, a, b geom.Point) []geom.Point {
	if len(line) == 0 {
		line = append(line, a)
	}
	return append(line, b)
}
