package flatten

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"fettle/geom/mesh"
	"fettle/geom/obj"
)

// patch is a grid of m by n cells, each in two triangles whose diagonals
// alternate so that the grid is its own mirror image about both middles (m and
// n even), brought to space by shape from 0…1 both ways.
func patch(m, n int, shape func(u, v float64) mesh.Vec) mesh.Mesh {
	var out mesh.Mesh
	for i := range m + 1 {
		for j := range n + 1 {
			out.Points = append(out.Points, shape(float64(i)/float64(m), float64(j)/float64(n)))
		}
	}
	for i := range m {
		for j := range n {
			a := int32(i*(n+1) + j)
			b, c, d := a+int32(n)+1, a+int32(n)+2, a+1
			if (2*i < m) == (2*j < n) {
				out.Faces = append(out.Faces, mesh.Face{a, b, c}, mesh.Face{a, c, d})
			} else {
				out.Faces = append(out.Faces, mesh.Face{a, b, d}, mesh.Face{b, c, d})
			}
		}
	}
	return out
}

// disk is a round mesh of rings of six corners more each, brought to space by
// its radius from 0 to 1 and its angle.
func disk(rings int, shape func(r, angle float64) mesh.Vec) mesh.Mesh {
	out := mesh.Mesh{Points: []mesh.Vec{shape(0, 0)}}
	first := func(k int) int { return 1 + 3*k*(k-1) } // of ring k
	for k := 1; k <= rings; k++ {
		for i := range 6 * k {
			out.Points = append(out.Points, shape(float64(k)/float64(rings), 2*math.Pi*float64(i)/float64(6*k)))
		}
	}
	at := func(k, i int) int32 {
		if k == 0 {
			return 0
		}
		return int32(first(k) + (i+6*k)%(6*k))
	}
	for k := 1; k <= rings; k++ {
		for six := range 6 {
			for i := range k {
				outer, inner := six*k+i, six*(k-1)+i
				out.Faces = append(out.Faces, mesh.Face{at(k-1, inner), at(k, outer), at(k, outer+1)})
				if i < k-1 {
					out.Faces = append(out.Faces, mesh.Face{at(k-1, inner), at(k, outer+1), at(k-1, inner+1)})
				}
			}
		}
	}
	return out
}

// dome is a cap of a sphere of a radius, by its half-angle.
func dome(rings int, radius, half float64) mesh.Mesh {
	return disk(rings, func(r, angle float64) mesh.Vec {
		s, c := math.Sincos(half * r)
		y, x := math.Sincos(angle)
		return mesh.Vec{X: radius * s * x, Y: radius * s * y, Z: radius * c}
	})
}

// tube is a sector of a ring of radius big whose section is a circle of radius
// small, slit along the inside.
func tube(m, n int, big, small, angle float64) mesh.Mesh {
	return patch(m, n, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(angle * u)
		b, a := math.Sincos(2*math.Pi*v - math.Pi)
		return mesh.Vec{X: (big + small*a) * c, Y: (big + small*a) * s, Z: small * b}
	})
}

// shared reads a surface of the shared test data, or skips.
func shared(t testing.TB, name string) mesh.Mesh {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "data", "mesh", filepath.FromSlash(name)))
	if err != nil {
		t.Skip("the shared test data is not here")
	}
	m, err := obj.Read(data, mesh.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return m.Mesh
}

// even is leather of equal limits both ways.
func even(tension float64) *Material {
	m := Leather()
	m.Tension, m.Stiffness = [2]float64{tension, tension}, [2]float64{1, 1}
	return &m
}
