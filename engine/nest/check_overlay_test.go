package nest_test

import (
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
	"fettle/geom"
	"fettle/geom/overlay"
)

// These tests hold the checker to the library behind geom/overlay, which shares
// nothing with it: areas of intersections and differences say what overlaps and
// what sticks out. Slips of less than slip are left to the exact tests.
const slip = 1e-6

func common(t *testing.T, a, b geom.Polygon) float64 {
	t.Helper()
	return areaLeft(t)(overlay.Intersect([]geom.Polygon{a}, []geom.Polygon{b}))
}

func outside(t *testing.T, a, b geom.Polygon) float64 {
	t.Helper()
	return areaLeft(t)(overlay.Subtract([]geom.Polygon{a}, []geom.Polygon{b}))
}

func areaLeft(t *testing.T) func([]geom.Polygon, error) float64 {
	return func(list []geom.Polygon, err error) (sum float64) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range list {
			sum += p.Area()
		}
		return sum
	}
}

// holed is a star with a star cut out, where that fits.
func holed(rng *rand.Rand, inner, outer float64) geom.Polygon {
	p := geom.Polygon{Outer: star(rng, inner, outer)}
	with := geom.Polygon{Outer: p.Outer, Holes: [][]geom.Point{star(rng, inner/4, inner)}}
	if with.Check() == nil && rng.IntN(3) > 0 {
		return with
	}
	return p
}

func TestCheck_PairsAgreeWithOverlay(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	over, slips := 0, 0
	for n := range 3000 {
		p := nest.Problem{Kind: nest.Strip, Containers: []nest.Container{{ID: "roll", Height: 1000}}, Pieces: []nest.Piece{
			{ID: "a", Shape: holed(rng, 50, 100), Free: true}, {ID: "b", Shape: holed(rng, 8, 40), Free: true, Mirror: true},
		}}
		at := []nest.Placement{{X: 500, Y: 500, Rotation: 360 * rng.Float64()},
			{Piece: 1, X: 380 + 240*rng.Float64(), Y: 380 + 240*rng.Float64(), Rotation: 360 * rng.Float64(), Mirrored: rng.IntN(2) == 0}}
		_, err := nest.Check(p, at)
		area := common(t, at[0].Lay(p.Pieces[0].Shape), at[1].Lay(p.Pieces[1].Shape))
		switch {
		case area > 0 && area < slip:
			slips++
		case (err != nil) != (area > 0) || err != nil && !strings.Contains(err.Error(), "overlaps"):
			t.Fatalf("pair %d: %v, and %g is in both", n, err, area)
		case err != nil:
			over++
		}
	}
	if over < 600 || over > 2700 || slips > 3 {
		t.Errorf("%d of 3000 overlap, %d by a slip: the test sees one kind only", over, slips)
	}
}

// TestCheck_HidesAgreeWithOverlay throws pieces on made-up hides with holes.
func TestCheck_HidesAgreeWithOverlay(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 24))
	refused := 0
	for n := range 2000 {
		hide := geom.Polygon{Outer: star(rng, 250, 400)}
		for k := range 3 {
			at := nest.Placement{X: 110 * math.Cos(float64(2*k)), Y: 110 * math.Sin(float64(2*k))}
			hide.Holes = append(hide.Holes, at.Lay(geom.Polygon{Outer: star(rng, 5, 40)}).Outer)
		}
		if hide.Check() != nil {
			continue
		}
		refused += thrown(t, rng, nest.Container{ID: "hide", Outline: hide}, nest.Piece{ID: "p", Shape: holed(rng, 10, 60), Free: true}, n)
	}
	if refused < 400 || refused > 1600 {
		t.Errorf("%d of 2000 refused: the test sees one kind only", refused)
	}
}

// thrown lays a piece anywhere about a hide and compares; 1 where it is refused.
func thrown(t *testing.T, rng *rand.Rand, m nest.Container, piece nest.Piece, n int) int {
	t.Helper()
	m.Count, m.Margin, piece.Count, piece.Zones, piece.Axis, piece.Pair, piece.Group = 1, 0, 1, nil, nil, "", ""
	b := m.Outline.Bounds()
	at := nest.Placement{X: b.Min.X + b.Width()*rng.Float64(), Y: b.Min.Y + b.Height()*rng.Float64()}
	if piece.Free {
		at.Rotation = 360 * rng.Float64()
	}
	_, err := nest.Check(nest.Problem{Kind: nest.Bins, Containers: []nest.Container{m}, Pieces: []nest.Piece{piece}}, []nest.Placement{at})
	shape := at.Lay(piece.Shape)
	bad := outside(t, shape, m.Outline)
	for _, k := range m.KeepOut {
		bad = max(bad, common(t, shape, k))
	}
	for _, z := range m.Zones {
		if z.Quality == 0 || piece.Quality == 0 || z.Quality < piece.Quality {
			bad = max(bad, common(t, shape, z.Shape))
		}
	}
	if (bad == 0 || bad > slip) && (err != nil) != (bad > 0) {
		t.Errorf("piece %s on hide %s, case %d at %+v: %v, and %g lies wrong", piece.ID, m.ID, n, at, err, bad)
	}
	if err != nil {
		return 1
	}
	return 0
}

// TestCheck_LeatherAgreesWithOverlay throws the pieces of the public hide cases
// on their hides, with holes and zones.
func TestCheck_LeatherAgreesWithOverlay(t *testing.T) {
	files, _ := filepath.Glob("../../../shared/data/nesting/leather/*.json")
	if len(files) == 0 {
		t.Skip("the public hides are not there: ../shared/data/nesting/leather")
	}
	rng := rand.New(rand.NewPCG(25, 26))
	for _, path := range files {
		p := readProblem(t, path)
		refused, all := 0, 0
		for k, m := range p.Containers {
			for n := range 15 {
				refused += thrown(t, rng, m, p.Pieces[rng.IntN(len(p.Pieces))], 1000*k+n)
				all++
			}
		}
		t.Logf("%s: %d of %d refused, alike", filepath.Base(path), refused, all)
	}
}

func readProblem(t *testing.T, path string) nest.Problem {
	t.Helper()
	in, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	f, err := nestfile.Read(in)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return f.Problem
}

// TestCheck_RecordsAgreeWithOverlay adds up what the pieces of the published
// best layouts have in common, and what of them lies off the strip.
func TestCheck_RecordsAgreeWithOverlay(t *testing.T) {
	const sets = "../../../shared/data/nesting"
	files, _ := filepath.Glob(sets + "/records/*.svg")
	if len(files) == 0 {
		t.Skip("the published layouts are not there: ../shared/data/nesting/records")
	}
	for _, path := range files {
		name := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(path), "final_best_"), ".svg")
		p := readProblem(t, filepath.Join(sets, "strip", name+".json"))
		placements := record(t, path, p)
		r, err := nest.Check(p, placements)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		strip := box(0, 0, r.Length, p.Containers[0].Height)
		var laid []geom.Polygon
		sum := 0.0
		for i, at := range placements {
			shape := at.Lay(p.Pieces[at.Piece].Shape)
			if off := outside(t, shape, strip); off > slip*strip.Area() {
				t.Errorf("%s: %g of copy %d lies off the strip", name, off, i)
			}
			laid, sum = append(laid, shape), sum+shape.Area()
		}
		if lost := sum - areaLeft(t)(overlay.Union(laid...)); math.Abs(lost) > 1e-9*sum {
			t.Errorf("%s: pieces of %g cover %g less", name, sum, lost)
		} else {
			t.Logf("%s: %d pieces cover the sum of their areas to within %.1e of it", name, len(laid), math.Abs(lost)/sum)
		}
	}
}
