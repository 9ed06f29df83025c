package flatten

import (
	"cmp"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom/mesh"
)

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
