package stl_test

import (
	"bytes"
	"encoding/binary"
	"math"
	"slices"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/geom/stl"
)

// wave is a sheet of n by n squares.
func wave(n int) mesh.Mesh {
	var m mesh.Mesh
	for j := range n + 1 {
		for i := range n + 1 {
			m.Points = append(m.Points, mesh.Vec{X: float64(i), Y: float64(j), Z: math.Sin(float64(i))})
		}
	}
	for j := range n {
		for i := range n {
			v := int32(j*(n+1) + i)
			w := v + int32(n) + 1
			m.Faces = append(m.Faces, mesh.Face{v, v + 1, w + 1}, mesh.Face{v, w + 1, w})
		}
	}
	return m
}

func binaryOf(t testing.TB, m mesh.Mesh) []byte {
	var out bytes.Buffer
	if err := stl.Write(&out, m); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func textOf(t testing.TB, m mesh.Mesh) []byte {
	var out bytes.Buffer
	if err := stl.WriteText(&out, m); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestRoundTrip(t *testing.T) {
	for _, m := range []mesh.Mesh{{}, wave(1), wave(7)} {
		for name, data := range map[string][]byte{"binary": binaryOf(t, m), "text": textOf(t, m)} {
			got, err := stl.Read(data, mesh.Limits{})
			if err != nil || !stl.Is(data) || len(got.Mesh.Points) != len(m.Points) || len(got.Mesh.Faces) != len(m.Faces) || got.Unit != 0 {
				t.Fatalf("%s: %d points, %d faces, %v; want %d, %d", name, len(got.Mesh.Points), len(got.Mesh.Faces), err, len(m.Points), len(m.Faces))
			}
			if math.Abs(got.Mesh.Area()-m.Area()) > 1e-5 {
				t.Errorf("%s: area %g, want %g", name, got.Mesh.Area(), m.Area())
			}
			for f, face := range got.Mesh.Faces {
				for k, v := range face {
					if d := got.Mesh.Points[v].Sub(m.Points[m.Faces[f][k]]).Length(); d > 1e-6 {
						t.Errorf("%s: corner %d of face %d is %g away", name, k, f, d)
					}
				}
			}
		}
	}
}

const face = `facet normal 0 0 1
outer loop
vertex 0 0 0
vertex 1 0 0
vertex 0 1 0
endloop
endfacet
`

func TestRead_Text(t *testing.T) {
	for _, text := range []string{
		"solid\n" + face + "endsolid", "  SOLID a part\r\n" + strings.ReplaceAll(strings.ToUpper(face), "\n", "\r\n") + "ENDSOLID a part\r\n",
		"solid a\n" + face + "endsolid\nsolid b\nendsolid b\n\n",
	} {
		m, err := stl.Read([]byte(text), mesh.Limits{})
		if err != nil || !stl.Is([]byte(text)) || len(m.Mesh.Faces) != 1 || m.Mesh.Area() != 0.5 {
			t.Errorf("%q: %+v, %v", text, m, err)
		}
	}
}

// TestRead_BinarySolid reads a binary file whose header says solid.
func TestRead_BinarySolid(t *testing.T) {
	data := binaryOf(t, wave(2))
	copy(data, "solid of a program that does not mind                                           ")
	if m, err := stl.Read(data, mesh.Limits{}); err != nil || len(m.Mesh.Faces) != 8 {
		t.Errorf("%d faces, %v", len(m.Mesh.Faces), err)
	}
	if m, err := stl.Read(append(data, "behind"...), mesh.Limits{}); err != nil || len(m.Left) != 1 {
		t.Errorf("bytes behind: left %v, %v", m.Left, err)
	}
}

func TestRead_Refuses(t *testing.T) {
	whole := binaryOf(t, wave(2))
	broken := slices.Clone(whole)
	binary.LittleEndian.PutUint32(broken[84+50+12+16:], math.Float32bits(float32(math.NaN())))
	huge := slices.Clone(whole)
	binary.LittleEndian.PutUint32(huge[80:], math.MaxUint32)
	for _, c := range []struct {
		name string
		data []byte
		says string
	}{
		{"empty", nil, "0 bytes"},
		{"short", []byte("anything"), "8 bytes"},
		{"cut off", whole[:84+3*50-1], "byte 233: the file says it has 8 faces and ends within face 3"},
		{"broken number", broken, "byte 158: a coordinate is NaN"},
		{"huge", huge, "ends within face 9"},
		{"text cut off", []byte("solid\n" + face[:55]), "line 5: the file ends where \"vertex\" is due"},
		{"wrong word", []byte("solid\n" + strings.Replace(face, "outer", "inner", 1)), `line 3: "inner" stands where "outer" is due`},
		{"wrong number", []byte("solid\n" + strings.Replace(face, "1 0 0", "1 0,5 0", 1)), `line 5: "0,5" is not a number`},
	} {
		_, err := stl.Read(c.data, mesh.Limits{})
		if err == nil || fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %s", c.name, err, c.says)
		}
	}
	for _, data := range [][]byte{whole, textOf(t, wave(2))} {
		for _, l := range []mesh.Limits{{Bytes: 50}, {Points: 5}, {Faces: 7}} {
			if _, err := stl.Read(data, l); fault.KindOf(err) != fault.TooLarge {
				t.Errorf("%+v: %v, want too large", l, err)
			}
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(binaryOf(f, wave(1)))
	f.Add(textOf(f, wave(1)))
	f.Add([]byte("solid\n" + face))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := stl.Read(data, mesh.Limits{Bytes: 1 << 16})
		if err != nil {
			return
		}
		for _, again := range [][]byte{binaryOf(t, m.Mesh), textOf(t, m.Mesh)} {
			if got, err := stl.Read(again, mesh.Limits{}); err != nil || len(got.Mesh.Faces) != len(m.Mesh.Faces) {
				t.Errorf("reads back differently: %v", err)
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	for name, data := range map[string][]byte{"binary": binaryOf(b, wave(224)), "text": textOf(b, wave(224))} {
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			for b.Loop() {
				m, err := stl.Read(data, mesh.Limits{})
				if err != nil || len(m.Mesh.Faces) != 2*224*224 {
					b.Fatal(err)
				}
			}
		})
	}
}
