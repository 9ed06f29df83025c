package flatten

import (
	"math"
	"testing"

	"fettle/geom/mesh"
)

// cup is a flat bottom of a radius with a wall of a height that leans out by an
// angle; its round surface has radius() at share r of the way along it.
type cup struct{ bottom, wall, lean float64 }

func (c cup) at(s float64) (radius, height float64) {
	if s <= c.bottom {
		return s, 0
	}
	sin, cos := math.Sincos(c.lean)
	return c.bottom + (s-c.bottom)*sin, (s - c.bottom) * cos
}

func (c cup) mesh(rings int) mesh.Mesh {
	return disk(rings, func(r, angle float64) mesh.Vec {
		radius, height := c.at(r * (c.bottom + c.wall))
		y, x := math.Sincos(angle)
		return mesh.Vec{X: radius * x, Y: radius * y, Z: -height}
	})
}

// blank returns the least work per area and the radius of the blank when the
// cup is taken as round: rings of the surface, each with its own place on the
// blank, found by coordinate descent.
func (c cup) blank(l law, rings int) (radius float64) {
	long := (c.bottom + c.wall) / float64(rings)
	at := make([]float64, rings+1)
	for k := range at {
		at[k] = float64(k) * long
	}
	cost := func(k int, from, to float64) float64 { // of the ring between k-1 and k
		in, _ := c.at(float64(k-1) * long)
		out, _ := c.at(float64(k) * long)
		if to <= from {
			return math.Inf(1)
		}
		w := l.value(math.Log(long/(to-from)), math.Log((in+out)/(from+to)), axes{cos2: 1})
		return w * (in + out) * long
	}
	for range 500 {
		for k := 1; k <= rings; k++ {
			both := func(x float64) float64 {
				w := cost(k, at[k-1], x)
				if k < rings {
					w += cost(k+1, x, at[k+1])
				}
				return w
			}
			low, high := at[k-1]+1e-9, at[k]+2*long
			if k < rings {
				high = at[k+1] - 1e-9
			}
			for range 40 { // golden section
				a, b := high-(high-low)*0.618, low+(high-low)*0.618
				if both(a) < both(b) {
					high = b
				} else {
					low = a
				}
			}
			at[k] = (low + high) / 2
		}
	}
	return at[rings]
}

// A drawn cup's blank is that of the round model, which knows nothing of faces;
// and a sheet that does not thin keeps its area.
func TestMetal_CupHasTheBlankOfTheRoundModel(t *testing.T) {
	c := cup{bottom: 50, wall: 20, lean: 0.5}
	steel, err := Sheet("DC04", 0.8)
	if err != nil {
		t.Fatal(err)
	}
	r := lay(t, Problem{Surface: c.mesh(14), Material: &steel})
	var got float64
	middle := r.Flat.Points[0]
	for _, p := range r.Flat.Points {
		got = max(got, p.Distance(middle))
	}
	want := c.blank(plasticLaw(*steel.Metal), 14)
	if math.Abs(got-want) > 0.005*want {
		t.Errorf("radius of the blank %.3f, round model %.3f", got, want)
	}
	m := c.mesh(14)
	f := Formed(*steel.Metal, r.Faces, m.FaceAreas())
	if f.Shrunk+f.Stretched == 0 || f.Thick < 0 || f.Near > 0 {
		t.Errorf("%+v", f)
	}
	t.Logf("blank %.2f (round model %.2f), %+v", got, want, f)
}

func TestMetal_SheetThatCannotThinKeepsItsArea(t *testing.T) {
	c := cup{bottom: 50, wall: 20, lean: 0.5}
	m := c.mesh(12)
	steel := Material{Name: "stiff in thickness", Metal: &Metal{Thickness: 1, R: 10, N: 0.2, K: 500}}
	r := lay(t, Problem{Surface: m, Material: &steel})
	f := Formed(*steel.Metal, r.Faces, m.FaceAreas())
	if math.Abs(f.Ratio-1) > 0.005 {
		t.Errorf("area of the cup over that of the blank is %.4f", f.Ratio)
	}
}

func TestMetal_CylinderIsOnlyBent(t *testing.T) {
	m := patch(10, 6, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(u)
		return mesh.Vec{X: 200 * s, Y: 150 * v, Z: 200 * c}
	})
	steel, err := Sheet("DC01", 1)
	if err != nil {
		t.Fatal(err)
	}
	r := lay(t, Problem{Surface: m, Material: &steel})
	for i, f := range r.Faces {
		if math.Abs(f.Thick) > 1e-6 {
			t.Fatalf("face %d: thickness changes by %g", i, f.Thick)
		}
	}
}
