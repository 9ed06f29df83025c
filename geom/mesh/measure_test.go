package mesh_test

import (
	"math"
	"testing"

	"fettle/geom/mesh"
)

func TestMeasures(t *testing.T) {
	cube := box(mesh.Vec{X: 100, Y: -7, Z: 3})
	near(t, "area of a cube", cube.Area(), 6, 1e-12)
	near(t, "volume of a cube", cube.Volume(), 1, 1e-12)
	near(t, "volume inside out", flipped(cube).Volume(), -1, 1e-12)
	near(t, "curvature of a cube", curvature(cube), 4*math.Pi, 1e-12)
	for v, d := range defects(cube) {
		near(t, "defect of a corner", d, math.Pi/2, 1e-12)
		want := cube.Points[v].Sub(mesh.Vec{X: 100.5, Y: -6.5, Z: 3.5}).Scale(2 / math.Sqrt(3))
		near(t, "normal of a corner", cube.VertexNormals()[v].Sub(want).Length(), 0, 1e-12)
	}
	lo, hi := cube.Box()
	if lo != (mesh.Vec{X: 100, Y: -7, Z: 3}) || hi != (mesh.Vec{X: 101, Y: -6, Z: 4}) {
		t.Errorf("box from %v to %v", lo, hi)
	}
	ring := torus(60, 40, 3, 1)
	near(t, "area of a torus", ring.Area(), 4*math.Pi*math.Pi*3, 0.5)
	near(t, "curvature of a torus", curvature(ring), 0, 1e-9)
	near(t, "curvature of a tube", curvature(tube(12)), 0, 1e-12)
	if a := sheet(2, 1).FaceAreas(); len(a) != 4 || a[3] != 0.5 {
		t.Errorf("areas %v, want four of 0.5", a)
	}
}

// TestAngles_GaussBonnet holds the angles of any surface to its shape.
func TestAngles_GaussBonnet(t *testing.T) {
	bent := sheet(7, 5)
	for i, p := range bent.Points {
		bent.Points[i].Z = math.Sin(p.X) * p.Y
	}
	for _, m := range []mesh.Mesh{bent, tube(7), torus(9, 5, 2, 1), both(box(mesh.Vec{}), bent)} {
		m.Points = append(m.Points, mesh.Vec{X: 9}) // out of use
		var sum float64
		for _, d := range defects(m) {
			sum += d
		}
		near(t, "sum of defects", sum, 2*math.Pi*float64(m.Euler()), 1e-9)
	}
}

func TestMeasures_NoArea(t *testing.T) {
	m := mesh.Mesh{Points: make([]mesh.Vec, 4), Faces: []mesh.Face{{0, 1, 2}}}
	if m.Area() != 0 || m.FaceNormal(0) != (mesh.Vec{}) || m.VertexNormals()[3] != (mesh.Vec{}) || defects(m)[3] != 0 {
		t.Error("a face without area has a measure")
	}
	if lo, hi := (mesh.Mesh{Points: m.Points}).Box(); lo != hi || (mesh.Mesh{}).Volume() != 0 {
		t.Error("a mesh without faces has a size")
	}
}

// defects is by vertex what the angles of its faces lack of a whole turn within
// the surface, of half a turn at its rim, radians; 0 out of use.
func defects(m mesh.Mesh) []float64 {
	list, a := make([]float64, len(m.Points)), m.Adjacency()
	rim := a.OnBoundary()
	for v := range list {
		switch {
		case len(a.Leaving(int32(v))) == 0:
		case rim[v]:
			list[v] = math.Pi
		default:
			list[v] = 2 * math.Pi
		}
	}
	for c, angle := range m.Angles() {
		list[a.Tail[c]] -= angle
	}
	return list
}

// curvature is the Gauss curvature within the rims, radians: 4π for a ball, 0
// for whatever rolls out flat.
func curvature(m mesh.Mesh) (sum float64) {
	rim := m.Adjacency().OnBoundary()
	for v, d := range defects(m) {
		if !rim[v] {
			sum += d
		}
	}
	return sum
}

func flipped(m mesh.Mesh) mesh.Mesh {
	out := mesh.Mesh{Points: m.Points}
	for _, f := range m.Faces {
		out.Faces = append(out.Faces, f.Flip())
	}
	return out
}

func TestTransform(t *testing.T) {
	turn := mesh.Affine{{0, -1, 0, 5}, {1, 0, 0, 6}, {0, 0, 1, 7}}
	if got, want := turn.Apply(mesh.Vec{X: 1, Y: 2, Z: 3}), (mesh.Vec{X: 3, Y: 7, Z: 10}); got != want {
		t.Errorf("turned to %v, want %v", got, want)
	}
	p := mesh.Vec{X: 1, Y: 2, Z: 3}
	twice := mesh.Scaling(2).After(turn)
	if got, want := twice.Apply(p), turn.Apply(p).Scale(2); got != want {
		t.Errorf("turned, then doubled: %v, want %v", got, want)
	}
	if mesh.Identity.Apply(p) != p || turn.Mirrors() || !mesh.Scaling(-1).Mirrors() {
		t.Error("identity moves, a turn mirrors, or a mirror does not")
	}
	near(t, "volume doubled", box(mesh.Vec{}).Scale(2).Volume(), 8, 1e-12)
	near(t, "volume mirrored", box(mesh.Vec{}).Transform(mesh.Scaling(-1)).Volume(), 1, 1e-12)
}
