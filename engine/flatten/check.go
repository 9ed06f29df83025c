package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
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
// outline, and corners of it that the faces go round more than once. It
// shares no code with the search: stretches come from the metric of the two
// surfaces, crossings from a sweep.
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
	for _, pair := range [][2]float64{{got.Dirichlet, said.Dirichlet}, {got.Stretch[2], said.Stretch[2]}, {got.AreaRMS, said.AreaRMS}, {got.Quasi, said.Quasi}} {
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

// measure works out the strain of all faces from the lengths and angles of
// their edges on either surface.
func measure(m mesh.Mesh, flat Flat) (Strain, pieces, error) {
	t := Strain{Along: [2]float64{math.Inf(1), math.Inf(-1)}, Across: [2]float64{math.Inf(1), math.Inf(-1)}}
	list := make(pieces, len(m.Faces))
	round := make([]float64, len(flat.Points))
	var whole, logs float64
	for i, f := range m.Faces {
		area := m.Points[f[1]].Sub(m.Points[f[0]]).Cross(m.Points[f[2]].Sub(m.Points[f[0]])).Length() / 2
		whole += area
		g := flat.Faces[i]
		if flat.Points[g[1]].Sub(flat.Points[g[0]]).Cross(flat.Points[g[2]].Sub(flat.Points[g[0]])) <= 0 {
			t.Flips++
		}
		xx, xy, yy := mounting(m, flat, i)
		mid, off := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
		large := math.Sqrt(mid + off)
		small := math.Sqrt(math.Max(0, xx*yy-xy*xy)) / large
		list[i] = piece{area, [2]float64{large - 1, small - 1}}
		t.Dirichlet += area * (large*large + small*small + 1/(large*large) + 1/(small*small))
		t.Quasi += area * large / small
		logs += area * math.Pow(math.Log(large*small), 2)
		t.Along = [2]float64{min(t.Along[0], math.Sqrt(xx)-1), max(t.Along[1], math.Sqrt(xx)-1)}
		t.Across = [2]float64{min(t.Across[0], math.Sqrt(yy)-1), max(t.Across[1], math.Sqrt(yy)-1)}
		for _, x := range [2]float64{large - 1, small - 1} {
			if math.Abs(x) > math.Abs(t.Stretch[2]) {
				t.Stretch[2] = x
			}
		}
		for c := range 3 {
			a, b := flat.Points[g[(c+1)%3]].Sub(flat.Points[g[c]]), flat.Points[g[(c+2)%3]].Sub(flat.Points[g[c]])
			round[g[c]] += math.Acos(max(-1, min(1, (a.X*b.X+a.Y*b.Y)/(math.Hypot(a.X, a.Y)*math.Hypot(b.X, b.Y)))))
		}
	}
	rim := map[int32]bool{}
	for _, side := range rims(flat) {
		rim[side[0]] = true
	}
	for v, angle := range round {
		if rim[int32(v)] {
			if angle > 2*math.Pi+checkFull {
				t.Overlaps++
			}
		} else if angle > 2*math.Pi+0.01 {
			return t, nil, fault.New(fault.Invalid, "the faces around point %d of the pattern go round it more than once", v)
		}
	}
	t.Dirichlet, t.Quasi, t.AreaRMS = t.Dirichlet/whole, t.Quasi/whole, math.Sqrt(logs/whole)
	return t, list, nil
}

// piece is a face by its area and its two mounting stretches.
type piece struct {
	area    float64
	stretch [2]float64
}

type pieces []piece

// at returns the stretch that a share of the area does not exceed.
func (p pieces) at(which int, share float64) float64 {
	slices.SortFunc(p, func(a, b piece) int { return cmp.Compare(a.stretch[which], b.stretch[which]) })
	var whole, sum float64
	for _, x := range p {
		whole += x.area
	}
	for _, x := range p {
		if sum += x.area; sum >= share*whole {
			return x.stretch[which]
		}
	}
	return p[len(p)-1].stretch[which]
}

// mounting returns the square of the stretch from the pattern to the surface
// as a metric in the pattern's axes.
func mounting(m mesh.Mesh, flat Flat, i int) (xx, xy, yy float64) {
	f, g := m.Faces[i], flat.Faces[i]
	u, v := m.Points[f[1]].Sub(m.Points[f[0]]), m.Points[f[2]].Sub(m.Points[f[0]])
	a, b := flat.Points[g[1]].Sub(flat.Points[g[0]]), flat.Points[g[2]].Sub(flat.Points[g[0]])
	d := a.Cross(b)
	// Steps of the surface for the unit steps of the pattern.
	x, y := u.Scale(b.Y/d).Sub(v.Scale(a.Y/d)), v.Scale(a.X/d).Sub(u.Scale(b.X/d))
	return x.Dot(x), x.Dot(y), y.Dot(y)
}

// rims returns the sides of the pattern that one face has alone, by their ends.
func rims(flat Flat) [][2]int32 {
	lone := map[[2]int32]bool{}
	for _, f := range flat.Faces {
		for c := range 3 {
			u, v := f[c], f[(c+1)%3]
			if lone[[2]int32{v, u}] {
				delete(lone, [2]int32{v, u})
			} else {
				lone[[2]int32{u, v}] = true
			}
		}
	}
	var sides [][2]int32
	for _, f := range flat.Faces {
		for c := range 3 {
			if u, v := f[c], f[(c+1)%3]; lone[[2]int32{u, v}] {
				sides = append(sides, [2]int32{u, v})
			}
		}
	}
	return sides
}

// sweep counts the pairs of sides of a pattern's outline that cross, going from
// left to right.
func sweep(flat Flat, touch float64) int {
	var sides [][2]geom.Point
	for _, ends := range rims(flat) {
		sides = append(sides, [2]geom.Point{flat.Points[ends[0]], flat.Points[ends[1]]})
	}
	return swept(sides, touch)
}

// swept counts the pairs of sides that cross and share no end.
func swept(sides [][2]geom.Point, touch float64) int {
	left := func(s [2]geom.Point) float64 { return min(s[0].X, s[1].X) }
	slices.SortFunc(sides, func(a, b [2]geom.Point) int { return cmp.Compare(left(a), left(b)) })
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range sides {
		low, high = min(low, s[0].X, s[0].Y, s[1].X, s[1].Y), max(high, s[0].X, s[0].Y, s[1].X, s[1].Y)
	}
	near := touch * (high - low)
	// beyond tells the distance of p from the line of s, positive to its left.
	beyond := func(s [2]geom.Point, p geom.Point) float64 {
		return s[1].Sub(s[0]).Cross(p.Sub(s[0])) / s[0].Distance(s[1])
	}
	parted := func(s, o [2]geom.Point) bool {
		a, b := beyond(s, o[0]), beyond(s, o[1])
		return min(a, b) < -near && max(a, b) > near
	}
	var count int
	for i, s := range sides {
		right := max(s[0].X, s[1].X)
		for _, o := range sides[i+1:] {
			if left(o) > right {
				break
			}
			if s[0] != o[0] && s[0] != o[1] && s[1] != o[0] && s[1] != o[1] && parted(s, o) && parted(o, s) {
				count++
			}
		}
	}
	return count
}
