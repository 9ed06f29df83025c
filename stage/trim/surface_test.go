package trim_test

import (
	"fmt"
	"math"
	"testing"

	"fettle/build"
	"fettle/figure"
	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/stage/trim"
	"fettle/unit"
)

// half is half a tube of 200 mm radius and 300 mm length: 628 × 300 mm flat.
func half(t *testing.T) mesh.Mesh {
	t.Helper()
	const n, long = 40, 10
	var m mesh.Mesh
	for j := range long + 1 {
		for i := range n + 1 {
			sin, cos := math.Sincos(math.Pi * float64(i) / n)
			m.Points = append(m.Points, mesh.Vec{X: -200 * cos, Y: 300 * float64(j) / long, Z: 200 * sin})
		}
	}
	for j := range int32(long) {
		for i := range int32(n) {
			a, b := j*(n+1)+i, (j+1)*(n+1)+i
			m.Faces = append(m.Faces, mesh.Face{a, a + 1, b + 1}, mesh.Face{a, b + 1, b})
		}
	}
	return m
}

func TestFlatten_ATubeUnrolls(t *testing.T) {
	f, err := trim.Flatten(t.Context(), half(t), trim.FlatAsk{Material: "vinyl"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	if f.Result.Material.Outside != 0 || len(f.Places(3)) != 0 || len(f.Sides()) != 0 {
		t.Errorf("outside %g, places %v", f.Result.Material.Outside, f.Places(3))
	}
	parts := f.Parts()
	if len(parts) != 1 || len(parts[0].Corners) != 4 {
		t.Fatalf("%d parts", len(parts))
	}
	if got, want := geom.RingArea(parts[0].Line), 40*2*200*math.Sin(math.Pi/80)*300; math.Abs(got/want-1) > 1e-6 {
		t.Errorf("%.1f mm² flat, want %.1f", got, want)
	}
}

// A hole stays a hole of the pattern: nothing is cut to it.
func TestFlatten_AHoleStays(t *testing.T) {
	m := half(t)
	m.Faces = append(m.Faces[:2*40*5+38:2*40*5+38], m.Faces[2*40*5+42:]...) // two cells at the top, halfway
	f, err := trim.Flatten(t.Context(), m, trim.FlatAsk{Material: "leather"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	parts := f.Parts()
	if len(f.Result.Cuts) != 0 || len(parts) != 1 || len(parts[0].Holes) != 1 {
		t.Fatalf("%d cuts, %d parts", len(f.Result.Cuts), len(parts))
	}
	if got, want := -geom.RingArea(parts[0].Holes[0]), 2*math.Pi*200/40*30; math.Abs(got/want-1) > 0.01 {
		t.Errorf("the hole has %.1f mm², want %.1f", got, want)
	}
}

func TestFlatten_ASeamAcrossPartsIt(t *testing.T) {
	const across = 20 // the vertex at the top of the near end
	f, err := trim.Flatten(t.Context(), half(t), trim.FlatAsk{Material: "leather", Cuts: [][]int32{{across, 10*41 + across}}}, 0)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(f.Parts()); n != 2 {
		t.Fatalf("%d parts, want 2", n)
	}
	s := f.Sides()[0]
	if !s.Asked || math.Abs(s.On-300) > 1e-6 || math.Abs(s.Sides[0]-300) > 0.01 || math.Abs(s.Ease) > 1e-4 || len(s.Intervals) != 2 {
		t.Errorf("%+v", s)
	}
}

// Parts come the largest first, each with its own line.
func TestFlattened_PartsHoldTheirOwnLines(t *testing.T) {
	for _, across := range []int32{2, 20, 38} {
		f, err := trim.Flatten(t.Context(), half(t), trim.FlatAsk{Material: "vinyl", Cuts: [][]int32{{across, 10*41 + across}}}, 0)
		if err != nil {
			t.Fatal(err)
		}
		share := float64(max(across, 40-across)) / 40
		for i, p := range f.Parts() {
			if want := share * math.Pi * 200 * 300; math.Abs(geom.RingArea(p.Line)/want-1) > 0.01 || len(p.Holes) > 0 {
				t.Errorf("cut at %d, part %d holds %.0f mm², want %.0f, with %d holes", across, i, geom.RingArea(p.Line), want, len(p.Holes))
			}
			share = 1 - share
		}
	}
}

func TestFlatProblem_Refuses(t *testing.T) {
	for what, a := range map[string]trim.FlatAsk{
		"material": {Material: "glass"}, "vertex": {Cuts: [][]int32{{0, 90_000}}}, "short": {Cuts: [][]int32{{3}}}, "grain": {Grain: [2]int32{0, -4}},
	} {
		if _, err := trim.FlatProblem(half(t), a); err == nil {
			t.Errorf("%s: no fault", what)
		}
	}
	two := half(t)
	two.Points = append(two.Points, mesh.Vec{X: 900}, mesh.Vec{X: 990}, mesh.Vec{X: 900, Y: 90})
	two.Faces = append(two.Faces, mesh.Face{451, 452, 453})
	if _, err := trim.FlatProblem(two, trim.FlatAsk{Cuts: [][]int32{{0, 452}}}); err == nil {
		t.Error("a seam from one part to another is taken")
	}
}

func TestFlatPattern_CutsThePiece(t *testing.T) {
	b := build.Build{Pieces: []build.Piece{{ID: "T01", Name: "roll cover", Quantity: 1, Material: "vinyl", Grade: "A", Width: 1, Height: 1}}}
	f, err := trim.Flatten(t.Context(), half(t), trim.FlatAsk{Material: "vinyl"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	p, err := trim.FlatPattern(&b, "T01", f.Parts()[0], build.Plain)
	if err != nil {
		t.Fatal(err)
	}
	w, h := 40*2*200*math.Sin(math.Pi/80)+24, 324.0
	got := p.Cut.Polygon().Bounds()
	// It lies as the engine turns it: one side or the other along x.
	if off := math.Min(math.Hypot(got.Width()-w, got.Height()-h), math.Hypot(got.Width()-h, got.Height()-w)); off > 0.5 || len(p.Edges) != 4 || p.Revision != 1 {
		t.Errorf("cut %.1f × %.1f mm, want %.1f × %.1f with the seam; %d edges", got.Width(), got.Height(), w, h, len(p.Edges))
	}
	next := p
	next.Edges = append([]build.PatternEdge{}, p.Edges...)
	next.Edges[0].Allowance = 20 * unit.Millimetre
	if err := trim.WorkCut(&b, &next); err != nil || trim.Steps(p, next) == trim.Steps(p, p) {
		t.Errorf("%v, %s", err, trim.Steps(p, next))
	}
}

// TestFigures_SayHowTheyCame holds the numbers of a laid surface to what they
// are worked out from.
func TestFigures_SayHowTheyCame(t *testing.T) {
	m := half(t)
	for i, at := range m.Points { // barrelled, so that it does not unroll
		m.Points[i].Z *= 1 - 0.2*math.Pow((at.Y-150)/150, 2)
	}
	f, err := trim.Flatten(t.Context(), m, trim.FlatAsk{Material: "leather"}, 0)
	if err != nil {
		t.Fatal(err)
	}
	var laid float64
	points, faces := f.Flatten()
	for _, c := range faces {
		laid += points[c[1]].Sub(points[c[0]]).Cross(points[c[2]].Sub(points[c[0]])) / 2e6
	}
	figs := f.Figures()
	if figs[0].Text != fmt.Sprintf("%.4f m²", laid) {
		t.Errorf("the pattern is %.4f m², its figure says %s", laid, figs[0].Text)
	}
	for _, fig := range append(figs, f.Stretch("stretch", 0.05, 0), trim.EaseOf("ease", 200, 206, 0.03)) {
		if fig.Name == "" || fig.Formula == "" || fig.With == "" || len(fig.Inputs) == 0 {
			t.Errorf("no working: %+v", fig)
		}
	}
	if s := figs[1].Inputs[1]; s.Source != figure.TradeDefault {
		t.Errorf("the habit of leather is said to be %s", s.Source)
	}
	if f, err = trim.Flatten(t.Context(), m, trim.FlatAsk{Material: "leather", Pull: [2]float64{0.05, 0.1}}, 0); err != nil || f.Figures()[1].Inputs[1].Source != figure.Measured {
		t.Errorf("a pulled strip counts as a habit: %v", err)
	}
}

func TestEaseOf_HasASignOnlyWhereThereIsEase(t *testing.T) {
	for _, c := range []struct {
		ease float64
		want string
	}{{0.0214, "+2.1 %"}, {-0.0214, "−2.1 %"}, {0.0002, "0.0 %"}, {-0.0002, "0.0 %"}, {0, "0.0 %"}} {
		if got := trim.EaseOf("ease", 100, 100*(1+c.ease), c.ease).Text; got != c.want {
			t.Errorf("ease of %g reads %q, want %q", c.ease, got, c.want)
		}
	}
}
