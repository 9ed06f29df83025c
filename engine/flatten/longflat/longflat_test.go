package longflat_test

import (
	"encoding/json"
	"math"
	"testing"

	"fettle/engine/flatten"
	"fettle/engine/flatten/longflat"
	"fettle/geom/mesh"
)

// roof is a round cap over a grid of n by n squares, 300 mm wide, on a sphere
// of that radius.
func roof(n int, radius float64) mesh.Mesh {
	var m mesh.Mesh
	for j := range n + 1 {
		for i := range n + 1 {
			x, y := 300*(float64(i)/float64(n)-0.5), 300*(float64(j)/float64(n)-0.5)
			m.Points = append(m.Points, mesh.Vec{X: x, Y: y, Z: math.Sqrt(radius*radius - x*x - y*y)})
		}
	}
	for j := range n {
		for i := range n {
			a, b := int32(j*(n+1)+i), int32((j+1)*(n+1)+i)
			m.Faces = append(m.Faces, mesh.Face{a, a + 1, b + 1}, mesh.Face{a, b + 1, b})
		}
	}
	return m
}

func lay(t *testing.T, o longflat.Order) (longflat.Answer, []byte, int) {
	t.Helper()
	input, err := json.Marshal(o)
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	out, err := longflat.Lay(t.Context(), input, nil, func(best []byte) {
		if _, _, figure := longflat.Tell(best); figure != "" {
			told++
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	a, err := longflat.Read(out)
	if err != nil {
		t.Fatal(err)
	}
	return a, out, told
}

func TestLay_AsTheEngineDoes(t *testing.T) {
	leather := flatten.Leather()
	o := longflat.Order{Surface: mesh.Pack(roof(8, 400)), Material: &leather, Seed: 1}
	a, first, told := lay(t, o)
	p, err := o.Problem()
	if err != nil {
		t.Fatal(err)
	}
	want, err := flatten.Solve(t.Context(), p, flatten.Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if told == 0 || a.Result == nil || len(a.Result.Flat.Points) != 81 || a.Result.Material.Along != want.Material.Along {
		t.Errorf("told %d times, %+v, want %+v", told, a.Result, want.Material)
	}
	if _, again, _ := lay(t, o); string(again) != string(first) {
		t.Error("the same order gave other bytes")
	}
}

func TestLay_LooksForCuts(t *testing.T) {
	stiff := flatten.Leather()
	stiff.Tension = [2]float64{0.01, 0.01}
	a, _, _ := lay(t, longflat.Order{Surface: mesh.Pack(roof(10, 230)), Material: &stiff, Propose: true, Seed: 1})
	if len(a.Proposals) == 0 || len(a.Proposals[0]) == 0 || a.Proposals[0][0].Length <= 0 || a.Result != nil {
		t.Errorf("%d rounds of cuts for a cap that stiff leather does not go over", len(a.Proposals))
	}
}

func TestLay_Refuses(t *testing.T) {
	for what, input := range map[string]string{"no JSON": "x", "no mesh": `{"surface":"AAAA"}`, "no material to cut for": string(must(json.Marshal(longflat.Order{Surface: mesh.Pack(roof(3, 400)), Propose: true})))} {
		if _, err := longflat.Lay(t.Context(), []byte(input), nil, func([]byte) {}); err == nil {
			t.Errorf("%s: no fault", what)
		}
	}
	if _, err := longflat.Read([]byte("neither")); err == nil {
		t.Error("an answer that is none is read")
	}
	if done, of, figure := longflat.Tell(nil); done != 0 || of != 0 || figure != "" {
		t.Errorf("told %d of %d, %q", done, of, figure)
	}
}

func must(b []byte, _ error) []byte { return b }
