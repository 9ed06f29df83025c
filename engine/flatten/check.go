package flatten

import (
	"math"

	"fettle/fault"
	"fettle/geom/mesh"
)

// What Check lets a reported strain differ by, and how near sides of the
// outline may come, over its size, and still only touch.
const (
	checkSame  = 1e-6
	checkTouch = 1e-8
	checkFull  = 1e-5 // radians over a whole turn
)

// Check recomputes from the raw problem what a result claims. Every face of
// the surface is in the flat pattern, in its order, with its own corners; the
// pattern hangs together over every edge that no cut names; no face is turned
// over; the faces around no inner vertex go round it twice; and the strain and
// the number of overlaps are as the last pass reports them: crossings of the
// outline, and corners of it that the faces go round more than once. The share
// outside a material's limits is not measured again. It shares no code with the
// search: stretches come from the metric of the two surfaces, crossings from a
// sweep.
//
// It returns what it measured. A fault is of kind Invalid and says where.
func Check(p Problem, r Result) (Strain, error) {
	if err := checkFaces(p.Surface, r.Flat); err != nil {
		return Strain{}, err
	}
	if err := checkCuts(p.Surface, r); err != nil {
		return Strain{}, err
	}
	got, pieces, err := measure(p.Surface, r.Flat)
	if err != nil {
		return got, err
	}
	got.Overlaps += sweep(r.Flat, checkTouch)
	said := r.Material
	if got.Flips > 0 {
		return got, fault.New(fault.Invalid, "%d faces are turned over", got.Flips)
	}
	if got.Overlaps != said.Overlaps {
		return got, fault.New(fault.Invalid, "the outline crosses itself %d times, %d are told", got.Overlaps, said.Overlaps)
	}
	for _, pair := range [][2]float64{{got.Dirichlet, said.Dirichlet}, {got.Stretch[2], said.Stretch[2]}, {got.AreaRMS, said.AreaRMS}, {got.Quasi, said.Quasi},
		{got.Along[0], said.Along[0]}, {got.Along[1], said.Along[1]}, {got.Across[0], said.Across[0]}, {got.Across[1], said.Across[1]}} {
		if !(math.Abs(pair[0]-pair[1]) <= checkSame*max(1, math.Abs(pair[0]))) {
			return got, fault.New(fault.Invalid, "the strain is %.9g where %.9g is told", pair[0], pair[1])
		}
	}
	for i, share := range [2]float64{0.99, 0.01} {
		low, high := pieces.at(i, share-1e-9), pieces.at(i, share+1e-9)
		got.Stretch[i] = low
		if !(said.Stretch[i] >= low-checkSame && said.Stretch[i] <= high+checkSame) {
			return got, fault.New(fault.Invalid, "%g of the area stretches up to %.9g, %.9g is told", share, low, said.Stretch[i])
		}
	}
	return got, nil
}

// checkFaces compares the faces with those of the surface.
func checkFaces(m mesh.Mesh, flat Flat) error {
	if len(flat.Faces) != len(m.Faces) || len(flat.Source) != len(flat.Points) {
		return fault.New(fault.Invalid, "the pattern has %d faces and %d sources of %d points, the surface %d faces", len(flat.Faces), len(flat.Source), len(flat.Points), len(m.Faces))
	}
	for i, f := range flat.Faces {
		for c, v := range f {
			if v < 0 || int(v) >= len(flat.Points) || flat.Source[v] != m.Faces[i][c] {
				return fault.New(fault.Invalid, "corner %d of face %d of the pattern is not that of the surface", c, i)
			}
			if at := flat.Points[v]; math.IsNaN(at.X-at.X) || math.IsNaN(at.Y-at.Y) {
				return fault.New(fault.Invalid, "point %d of the pattern lies nowhere", v)
			}
		}
	}
	return nil
}

// checkCuts finds edges that are open in the pattern alone.
func checkCuts(m mesh.Mesh, r Result) error {
	cut := map[[2]int32]bool{}
	for _, path := range r.Cuts {
		for i := 1; i < len(path); i++ {
			cut[[2]int32{min(path[i-1], path[i]), max(path[i-1], path[i])}] = true
		}
	}
	type side struct{ face, corner int32 }
	first := map[[2]int32]side{}
	for i, f := range m.Faces {
		for c := range 3 {
			u, v := f[c], f[(c+1)%3]
			key := [2]int32{min(u, v), max(u, v)}
			other, met := first[key]
			if !met {
				first[key] = side{int32(i), int32(c)}
				continue
			}
			here, there := r.Flat.Faces[i], r.Flat.Faces[other.face]
			same := here[c] == there[(other.corner+1)%3] && here[(c+1)%3] == there[other.corner]
			if !same && !cut[key] {
				return fault.New(fault.Invalid, "the pattern is open at the edge from vertex %d to %d, where no cut is told", key[0], key[1])
			}
		}
	}
	return nil
}
