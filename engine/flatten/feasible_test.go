package flatten

import (
	"math"
	"testing"

	"fettle/geom/mesh"
)

func TestEstimate_Verdicts(t *testing.T) {
	for _, c := range []struct {
		name    string
		tension float64
		want    Verdict
	}{
		{"cylinder", 0.08, Bears},
		{"headliner", 0.08, Bears},
		{"sphere_cap20", 0.08, Bears},
		{"seat_cushion", 0.12, Close},
		{"seat_cushion", 0.08, Fails},
		{"rim_sector", 0.12, Fails},
		{"sphere_cap60", 0.12, Fails},
	} {
		e, err := EstimateOf(Problem{Surface: shared(t, "analytic/"+c.name+".obj"), Material: even(c.tension)})
		if err != nil {
			t.Fatal(err)
		}
		if e.Verdict != c.want {
			t.Errorf("%s at %g: %+v", c.name, c.tension, e)
		}
	}
}

func TestEstimate_CapAndTubeAreKnown(t *testing.T) {
	e, err := EstimateOf(Problem{Surface: shared(t, "analytic/sphere_cap60.obj"), Material: even(0.12)})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(e.Needed-0.2092) > 0.01 || math.Abs(e.Domed-math.Pi) > 0.1 {
		t.Errorf("cap: %+v", e)
	}
	e, err = EstimateOf(Problem{Surface: shared(t, "analytic/rim_sector.obj"), Material: even(0.12)})
	if err != nil {
		t.Fatal(err)
	}
	if want := 200.0/170 - 1; math.Abs(e.Needed-want) > 0.01 {
		t.Errorf("tube needs %.4f, want %.4f", e.Needed, want)
	}
}

func TestEstimate_TubeOfOurOwn(t *testing.T) {
	e, err := EstimateOf(Problem{Surface: tube(40, 24, 100, 10, 2), Material: even(0.1)})
	if err != nil {
		t.Fatal(err)
	}
	if want := 110.0/90 - 1; math.Abs(e.Long-want) > 0.015 || e.Verdict != Fails || e.Relief <= 0 {
		t.Errorf("want %.4f: %+v", want, e)
	}
}

// A tube is pulled along its length: with a free grain the direction of vinyl
// that gives more is laid there.
func TestEstimate_LongPieceTakesTheBetterDirection(t *testing.T) {
	vinyl := Vinyl()
	free := Problem{Surface: tube(40, 24, 185, 15, 2), Material: &vinyl}
	e, err := EstimateOf(free)
	if err != nil || e.Verdict != Close || math.Abs(e.Allowed-(1.15/0.99-1)) > 1e-12 {
		t.Errorf("%+v, %v", e, err)
	}
	held := free
	held.Grain = Grain{0, 24}
	if e, err := EstimateOf(held); err != nil || e.Verdict != Fails {
		t.Errorf("%+v, %v", e, err)
	}
}

func TestEstimate_ClothShearsFurtherThanItStretches(t *testing.T) {
	m, cloth := dome(12, 400, 0.7), Cloth()
	stiff := cloth
	stiff.Lock = 0
	e, err := EstimateOf(Problem{Surface: m, Material: &cloth})
	if err != nil {
		t.Fatal(err)
	}
	f, err := EstimateOf(Problem{Surface: m, Material: &stiff})
	if err != nil || e.Verdict != Bears || f.Verdict != Fails {
		t.Errorf("%+v, without shear %+v, %v", e, f, err)
	}
}

func TestEstimate_Bad(t *testing.T) {
	if _, err := EstimateOf(Problem{}); err == nil {
		t.Error("an empty surface passed")
	}
	bad := even(-1)
	flat := mesh.Mesh{Points: []mesh.Vec{{}, {X: 1}, {Y: 1}}, Faces: []mesh.Face{{0, 1, 2}}}
	if _, err := EstimateOf(Problem{Surface: flat, Material: bad}); err == nil {
		t.Error("negative tension passed")
	}
	if e, err := EstimateOf(Problem{Surface: flat, Material: even(0.1)}); err != nil || e.Verdict != Bears || e.Needed != 0 {
		t.Errorf("one face: %+v, %v", e, err)
	}
}
