package flatten

import (
	"context"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
)

// FuzzHoles lays small rough patches with any faces left out: whatever comes out
// passes the checker, and holes and cuts account for all open edges.
func FuzzHoles(f *testing.F) {
	f.Add([]byte("a field"), []byte{0b0010_0000, 0, 0b0000_1100}, uint8(4))
	f.Add([]byte{0, 255, 0, 90, 0, 255}, []byte{0, 0, 0xff, 0, 3, 0, 0x18}, uint8(5))
	f.Add([]byte{}, []byte{0, 0, 0, 0b0110_0000, 0, 0, 0b0000_0110}, uint8(3))
	f.Fuzz(func(t *testing.T, heights, gone []byte, size uint8) {
		n := 3 + int(size%6)
		m := patch(n, n, func(u, v float64) mesh.Vec { return mesh.Vec{X: u, Y: v} })
		for v := range m.Points {
			if v < len(heights) {
				m.Points[v].Z = float64(heights[v]) / 200
			}
		}
		var kept []mesh.Face
		for i, face := range m.Faces {
			if i/8 >= len(gone) || gone[i/8]>>(i%8)&1 == 0 {
				kept = append(kept, face)
			}
		}
		p := Problem{Surface: mesh.Mesh{Points: m.Points, Faces: kept}}
		r, err := Solve(context.Background(), p, Options{Steps: 40})
		if err != nil {
			if fault.KindOf(err) == fault.Internal {
				t.Fatal(err)
			}
			return
		}
		if _, err := Check(p, r); err != nil {
			t.Fatal(err)
		}
		// Vertices that hold two parts together by their tips alone are parted, so
		// open edges are counted on the surface as it is without any cut.
		d, err := cutAlong(p.Surface, nil)
		if err != nil {
			t.Fatal(err)
		}
		if rings := len(r.Flat.Outline().Holes) + 1; rings+len(r.Cuts) < len(d.near.BoundaryLoops()) {
			t.Fatalf("%d rings and %d cuts of %d open edges", rings, len(r.Cuts), len(d.near.BoundaryLoops()))
		}
	})
}
