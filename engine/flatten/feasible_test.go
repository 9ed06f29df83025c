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
