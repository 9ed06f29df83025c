package demo_test

import (
	"crypto/sha256"
	"fmt"
	"testing"

	"fettle/geom/mesh"
	"fettle/internal/demo"
	"fettle/internal/vault"
)

// TestCushion: the packed scan is the surface the function gives, and the
// demo's facts are those of it.
func TestCushion(t *testing.T) {
	packed, want := demo.Cushion(), demo.CushionSurface()
	got, err := mesh.Unpack(packed)
	if err != nil || len(got.Points) != len(want.Points) || len(got.Faces) != len(want.Faces) {
		t.Fatalf("%d points and %d faces, %v", len(got.Points), len(got.Faces), err)
	}
	for i := range got.Points {
		if got.Points[i].Sub(want.Points[i]).Length() > 1e-4 {
			t.Fatalf("point %d is %v, want %v", i, got.Points[i], want.Points[i])
		}
	}
	for i := range got.Faces {
		if got.Faces[i] != want.Faces[i] {
			t.Fatalf("face %d is %v, want %v", i, got.Faces[i], want.Faces[i])
		}
	}
	f := pedlar(t)
	u := f.Build.Surface("U1")
	if u == nil || string(u.Scan) != fmt.Sprintf("%x", sha256.Sum256(packed)) || u.Vertices != len(want.Points) || u.Faces != len(want.Faces) {
		t.Fatalf("the demo says %+v", u)
	}
	if off := want.Area() - float64(u.Area); off > 1 || off < -1 {
		t.Errorf("area %.1f mm², the demo says %d", want.Area(), u.Area)
	}
	if media, err := vault.Sniff(packed[:vault.SniffLen]); media != vault.Mesh || err != nil {
		t.Errorf("the vault takes it for %q, %v", media, err)
	}
}
