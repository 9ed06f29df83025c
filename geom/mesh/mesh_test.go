package mesh_test

import (
	"math"
	"slices"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
)

// sheet is a flat rectangle of nx by ny squares, two faces each.
func sheet(nx, ny int) mesh.Mesh {
	return patch(nx, ny, nx+1, ny+1, func(i, j int) mesh.Vec { return mesh.Vec{X: float64(i), Y: float64(j)} })
}

// tube is open at both ends, n faces around and one wide, radius 1.
func tube(n int) mesh.Mesh {
	return patch(n, 1, n, 2, func(i, j int) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		return mesh.Vec{X: c, Y: s, Z: float64(j)}
	})
}

// torus is closed, with radii R and r.
func torus(nx, ny int, R, r float64) mesh.Mesh {
	return patch(nx, ny, nx, ny, func(i, j int) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(nx))
		t, k := math.Sincos(2 * math.Pi * float64(j) / float64(ny))
		return mesh.Vec{X: (R + r*k) * c, Y: (R + r*k) * s, Z: r * t}
	})
}

// patch is nx by ny squares over px by py points, going round where there are
// as many points as squares.
func patch(nx, ny, px, py int, at func(i, j int) mesh.Vec) mesh.Mesh {
	var m mesh.Mesh
	for j := range py {
		for i := range px {
			m.Points = append(m.Points, at(i, j))
		}
	}
	v := func(i, j int) int32 { return int32(j%py*px + i%px) }
	for j := range ny {
		for i := range nx {
			m.Faces = append(m.Faces, mesh.Face{v(i, j), v(i+1, j), v(i+1, j+1)}, mesh.Face{v(i, j), v(i+1, j+1), v(i, j+1)})
		}
	}
	return m
}

// box is a closed cube of one unit, outside out, moved by at.
func box(at mesh.Vec) mesh.Mesh {
	var m mesh.Mesh
	for i := range 8 {
		m.Points = append(m.Points, mesh.Vec{X: float64(i & 1), Y: float64(i >> 1 & 1), Z: float64(i >> 2)}.Add(at))
	}
	for _, q := range [][4]int32{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.Faces = append(m.Faces, mesh.Face{q[0], q[1], q[2]}, mesh.Face{q[0], q[2], q[3]})
	}
	return m
}

// both puts two meshes beside each other in one.
func both(a, b mesh.Mesh) mesh.Mesh {
	n := int32(len(a.Points))
	out := mesh.Mesh{Points: slices.Concat(a.Points, b.Points), Faces: slices.Clone(a.Faces)}
	for _, f := range b.Faces {
		out.Faces = append(out.Faces, mesh.Face{f[0] + n, f[1] + n, f[2] + n})
	}
	return out
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, within)
	}
}

func kind(t *testing.T, err error, want fault.Kind) {
	t.Helper()
	if err == nil || fault.KindOf(err) != want {
		t.Errorf("got %v, want a fault of kind %v", err, want)
	}
}
