package mesh_test

import (
	"bytes"
	"encoding/binary"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
)

func TestPack(t *testing.T) {
	for _, m := range []mesh.Mesh{{}, sheet(3, 2), torus(20, 10, 185, 15)} {
		data := mesh.Pack(m)
		got, err := mesh.Unpack(data)
		if err != nil || len(got.Points) != len(m.Points) || len(got.Faces) != len(m.Faces) {
			t.Fatalf("%d points, %d faces, %v; want %d, %d", len(got.Points), len(got.Faces), err, len(m.Points), len(m.Faces))
		}
		for i, p := range got.Points {
			near(t, "distance", p.Sub(m.Points[i]).Length(), 0, 2e-5)
		}
		for f := range got.Faces {
			if got.Faces[f] != m.Faces[f] {
				t.Errorf("face %d is %v, was %v", f, got.Faces[f], m.Faces[f])
			}
		}
		if !bytes.Equal(mesh.Pack(got), data) {
			t.Error("packing again gives other bytes")
		}
	}
}

func TestUnpack_Refuses(t *testing.T) {
	data := mesh.Pack(sheet(3, 2))
	huge := bytes.Clone(data)
	binary.LittleEndian.PutUint32(huge[8:], 1<<31)
	more := bytes.Clone(data)
	more[12]++
	wrong := mesh.Pack(mesh.Mesh{Points: make([]mesh.Vec, 2), Faces: []mesh.Face{{0, 1, 2}}})
	for name, c := range map[string]struct {
		data []byte
		kind fault.Kind
	}{
		"nothing": {nil, fault.Invalid}, "other": {[]byte("solid part with a long name"), fault.Invalid},
		"cut short": {data[:len(data)-9], fault.Invalid}, "one face more": {more, fault.Invalid},
		"huge": {huge, fault.TooLarge}, "missing point": {wrong, fault.Invalid},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := mesh.Unpack(c.data)
			kind(t, err, c.kind)
		})
	}
}

func FuzzUnpack(f *testing.F) {
	f.Add(mesh.Pack(sheet(2, 2)))
	f.Add(mesh.Pack(mesh.Mesh{}))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := mesh.Unpack(data)
		if err != nil {
			return
		}
		got, err := mesh.Unpack(mesh.Pack(m))
		if err != nil || len(got.Points) != len(m.Points) || len(got.Faces) != len(m.Faces) {
			t.Errorf("packing again: %v", err)
		}
	})
}
