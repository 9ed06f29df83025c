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

// TestLay_PieceByPiece parts a roof across its middle.
func TestLay_PieceByPiece(t *testing.T) {
	leather := flatten.Leather()
	m := roof(12, 260)
	var cut []int32
	for i := range int32(13) { // straight across the middle, from rim to rim
		cut = append(cut, 6*13+i)
	}
	o := longflat.Order{Surface: mesh.Pack(m), Cuts: [][]int32{cut}, Material: &leather, Seed: 1}
	a, _, _ := lay(t, o)
	r := a.Result
	if r == nil || len(r.Faces) != len(m.Faces) || len(r.Flat.Points) != len(m.Points)+13 || a.Estimate.Needed <= 0 {
		t.Fatalf("not both pieces: %+v", a.Estimate)
	}
	// They lie apart, and each has the area of its half of the roof or nearly.
	low, high := 0.0, 0.0
	for i, f := range r.Flat.Faces {
		p, q, s := r.Flat.Points[f[0]], r.Flat.Points[f[1]], r.Flat.Points[f[2]]
		area := q.Sub(p).Cross(s.Sub(p)) / 2
		if area <= 0 {
			t.Fatalf("face %d is turned over", i)
		}
		if m.Points[m.Faces[i][0]].Y+m.Points[m.Faces[i][1]].Y+m.Points[m.Faces[i][2]].Y < 0 {
			low += area
		} else {
			high += area
		}
	}
	if math.Abs(low/high-1) > 0.02 || math.Abs((low+high)/m.Area()-1) > 0.05 {
		t.Errorf("the halves have %.0f and %.0f mm²", low, high)
	}
	o.Grain = flatten.Grain{From: 1, To: 2} // on the first piece alone
	if b, _, _ := lay(t, o); b.Result == nil || b.Result.Material.Outside < 0 {
		t.Error("a grain on one piece alone is not taken")
	}
}

func TestLay_LooksForCutsPieceByPiece(t *testing.T) {
	stiff := flatten.Leather()
	stiff.Tension = [2]float64{0.01, 0.01}
	m := roof(10, 230)
	var cut []int32
	for i := range int32(11) {
		cut = append(cut, 5*11+i)
	}
	a, _, _ := lay(t, longflat.Order{Surface: mesh.Pack(m), Cuts: [][]int32{cut}, Material: &stiff, Propose: true, Seed: 1})
	sides := [2]int{}
	last := 1.0
	for _, round := range a.Proposals {
		for _, c := range round {
			for i, v := range c.Path {
				if int(v) >= len(m.Points) {
					t.Fatalf("a path through vertex %d", v)
				}
				if i > 0 && m.EdgeLength(v, c.Path[i-1]) > 60 {
					t.Fatalf("a path that leaves the edges at %d", v)
				}
			}
			if y := m.Points[c.Path[0]].Y; y < 0 {
				sides[0]++
			} else {
				sides[1]++
			}
		}
		if round[0].Outside > last+1e-9 {
			t.Errorf("%.4f is outside after a further cut, %.4f before", round[0].Outside, last)
		}
		last = round[0].Outside
	}
	if sides[0] == 0 || sides[1] == 0 {
		t.Errorf("cuts on the two pieces: %v", sides)
	}
}
