package flatten

import (
	"math"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

// A square of threads pushed askew by 20° keeps their length: cloth bears it,
// what has no threads does not.
func TestWoven_ShearIsBorne(t *testing.T) {
	s, c := math.Sincos(20 * math.Pi / 180)
	// From flat to formed x stays and y leans; J goes the other way.
	lean := jacobian{XX: 1, XY: -s / c, YX: 0, YY: 1 / c}
	q := lean.threads()
	for i, want := range [3]float64{0, 0, 20 * math.Pi / 180} {
		if math.Abs(q[i]-want) > 1e-12 {
			t.Errorf("%d: %g, want %g", i, q[i], want)
		}
	}
	if over := Cloth().beyond(lean); over > 0 {
		t.Errorf("cloth is %g beyond its limits", over)
	}
	if over := Leather().beyond(lean); over < 0.02 {
		t.Errorf("leather is only %g beyond its limits", over)
	}
	plain := Cloth()
	plain.Lock = 15 * math.Pi / 180
	if over := plain.beyond(lean); math.Abs(over-5*math.Pi/180) > 1e-12 {
		t.Errorf("threads that lock at 15° are %g beyond", over)
	}
}

// Threads drape over a dome that needs several times what they stretch.
func TestWoven_DrapesByShear(t *testing.T) {
	m := dome(12, 400, 0.7)
	cloth := Cloth()
	r := lay(t, Problem{Surface: m, Material: &cloth})
	stiff := cloth
	stiff.Lock = 0
	without := lay(t, Problem{Surface: m, Material: &stiff})
	if r.Material.Outside > 0.02 || without.Material.Outside < 0.1 {
		t.Errorf("%.3f outside, %.3f where shear is limited like stretch", r.Material.Outside, without.Material.Outside)
	}
}

func TestWoven_UniformStretchIsRead(t *testing.T) {
	m := patch(4, 4, func(u, v float64) mesh.Vec { return mesh.Vec{X: 100 * u, Y: 80 * v} })
	d, err := open(Problem{Surface: m})
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSheet(d.mesh)
	if err != nil {
		t.Fatal(err)
	}
	at := make([]geom.Point, len(m.Points))
	for v, p := range m.Points { // cut 2 % and 5 % under size
		at[v] = geom.Point{X: p.X / 1.02, Y: p.Y / 1.05}
	}
	for _, f := range faceStrains(s, at) {
		if math.Abs(f.Along-0.02) > 1e-12 || math.Abs(f.Across-0.05) > 1e-12 {
			t.Fatalf("%+v", f)
		}
	}
	if got := s.outsideOf(Cloth(), at); math.Abs(got-1) > 1e-12 {
		t.Errorf("%g outside at 5 %% across", got)
	}
	if got := s.outsideOf(Leather(), at); got != 0 {
		t.Errorf("%g outside on leather", got)
	}
}
