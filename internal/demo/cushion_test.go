package demo_test

import (
	"crypto/sha256"
	"fmt"
	"math"
	"slices"
	"testing"

	"fettle/build"
	"fettle/geom/mesh"
	"fettle/internal/demo"
	"fettle/internal/vault"
)

// TestScans: each packed scan is the surface its function gives, and the demo's
// facts are those of it.
func TestScans(t *testing.T) {
	f := pedlar(t)
	for _, c := range []struct {
		id     build.SurfaceID
		packed []byte
		want   mesh.Mesh
	}{{"U1", demo.Cushion(), demo.CushionSurface()}, {"U2", demo.Wing(), demo.WingSurface()}} {
		got, err := mesh.Unpack(c.packed)
		if err != nil || len(got.Points) != len(c.want.Points) || len(got.Faces) != len(c.want.Faces) {
			t.Fatalf("%s: %d points and %d faces, %v", c.id, len(got.Points), len(got.Faces), err)
		}
		for i := range got.Points {
			if got.Points[i].Sub(c.want.Points[i]).Length() > 1e-4 {
				t.Fatalf("%s: point %d is %v, want %v", c.id, i, got.Points[i], c.want.Points[i])
			}
		}
		for i := range got.Faces {
			if got.Faces[i] != c.want.Faces[i] {
				t.Fatalf("%s: face %d is %v, want %v", c.id, i, got.Faces[i], c.want.Faces[i])
			}
		}
		if found := got.Check(); len(found) > 0 {
			t.Errorf("%s: %v", c.id, found)
		}
		u := f.Build.Surface(c.id)
		if u == nil || string(u.Scan) != fmt.Sprintf("%x", sha256.Sum256(c.packed)) || u.Vertices != len(c.want.Points) || u.Faces != len(c.want.Faces) {
			t.Fatalf("%s: the demo says %+v", c.id, u)
		}
		if math.Abs(c.want.Area()-float64(u.Area)) > 1 {
			t.Errorf("%s: area %.1f mm², the demo says %d", c.id, c.want.Area(), u.Area)
		}
		if media, err := vault.Sniff(c.packed[:vault.SniffLen]); media != vault.Mesh || err != nil {
			t.Errorf("%s: the vault takes it for %q, %v", c.id, media, err)
		}
	}
}

// TestPedlar_AnEdgeIsSewnOnce: no two seams of the demo join the same edge of the
// same hand of a piece, or its notches would lie over each other.
func TestPedlar_AnEdgeIsSewnOnce(t *testing.T) {
	by := map[build.EdgeOf]build.SeamID{}
	for _, m := range pedlar(t).Build.Seams {
		for _, e := range slices.Concat(m.A, m.B) {
			if was, ok := by[e]; ok {
				t.Errorf("%s %s (mirrored: %v) is in %s and %s", e.Piece, e.Edge, e.Mirrored, was, m.ID)
			}
			by[e] = m.ID
		}
	}
	if len(by) < 40 {
		t.Errorf("%d edges are sewn", len(by))
	}
}
