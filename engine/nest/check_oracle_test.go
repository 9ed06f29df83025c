package nest_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fettle/engine/nest"
	"fettle/geom"
)

// slabs says whether polygons have inner points in common that lie in none of
// out, in another way than the checker: between the heights of all corners and
// crossings the way a level line cuts them does not change, so one line a slab
// tells. What is narrower than thin escapes.
func slabs(thin float64, in []geom.Polygon, out ...geom.Polygon) bool {
	var edges [][][2]geom.Point
	for _, p := range append(slices.Clone(in), out...) {
		edges = append(edges, edgesOf(p))
	}
	heights := heightsOf(slices.Concat(edges...))
	for i := 1; i < len(heights); i++ {
		if heights[i]-heights[i-1] < max(thin, 1e-7) {
			continue
		}
		y := (heights[i] + heights[i-1]) / 2
		xs := cutAt(slices.Concat(edges...), y)
		for k := 1; k < len(xs); k++ {
			x, all := (xs[k]+xs[k-1])/2, xs[k]-xs[k-1] > max(thin, 1e-9)
			for n := range edges {
				left, _ := slices.BinarySearch(cutAt(edges[n], y), x)
				all = all && (left%2 == 1) == (n < len(in))
			}
			if all {
				return true
			}
		}
	}
	return false
}

// heightsOf returns those of all corners and crossings, in order.
func heightsOf(edges [][2]geom.Point) (list []float64) {
	for i, e := range edges {
		list = append(list, e[0].Y)
		for _, f := range edges[:i] {
			u, v := e[1].Sub(e[0]), f[1].Sub(f[0])
			if c := u.Cross(v); c != 0 {
				if t := f[0].Sub(e[0]).Cross(v) / c; t > 0 && t < 1 {
					list = append(list, e[0].Y+t*u.Y)
				}
			}
		}
	}
	slices.Sort(list)
	return list
}

func edgesOf(p geom.Polygon) (list [][2]geom.Point) {
	for _, r := range p.Rings() {
		for i, q := range r {
			list = append(list, [2]geom.Point{q, r[(i+1)%len(r)]})
		}
	}
	return list
}

func cutAt(edges [][2]geom.Point, y float64) (xs []float64) {
	for _, e := range edges {
		if (e[0].Y > y) != (e[1].Y > y) {
			xs = append(xs, e[0].X+(y-e[0].Y)/(e[1].Y-e[0].Y)*(e[1].X-e[0].X))
		}
	}
	slices.Sort(xs)
	return xs
}

// FuzzCheck_Overlap holds the checker to slabs on small polygons of whole
// numbers, which touch, share edges and lie in one another often.
func FuzzCheck_Overlap(f *testing.F) {
	f.Add([]byte{0, 0, 8, 0, 8, 8, 0, 8}, []byte{4, 4, 9, 4, 9, 9}, []byte{}, byte(0), byte(0))
	f.Add([]byte{0, 0, 8, 0, 8, 8, 4, 4, 0, 8}, []byte{2, 0, 4, 4, 6, 0}, []byte{1, 1, 3, 1, 1, 3}, byte(5), byte(1))
	f.Add([]byte{0, 0, 15, 0, 15, 15, 0, 15}, []byte{4, 4, 10, 4, 10, 10}, []byte{2, 2, 12, 2, 12, 12, 2, 12}, byte(0), byte(136))
	f.Fuzz(func(t *testing.T, a, b, hole []byte, turn, move byte) {
		p := nest.Problem{Kind: nest.Strip, Containers: []nest.Container{{ID: "roll", Height: 200}}, Pieces: []nest.Piece{
			{ID: "a", Shape: small(a)}, {ID: "b", Shape: small(b), Rotations: []float64{0, 90, 180, 270}, Mirror: true},
		}}
		if ring := (geom.Polygon{Outer: p.Pieces[0].Shape.Outer, Holes: [][]geom.Point{small(hole).Outer}}); ring.Check() == nil {
			p.Pieces[0].Shape = ring
		}
		if len(a)+len(b)+len(hole) > 60 || p.Pieces[0].Shape.Check() != nil || p.Pieces[1].Shape.Check() != nil {
			return
		}
		at := []nest.Placement{{X: 100, Y: 100}, {Piece: 1, X: 100 + float64(move&15) - 8, Y: 100 + float64(move>>4) - 8, Rotation: 90 * float64(turn&3), Mirrored: turn&4 != 0}}
		_, err := nest.Check(p, at)
		want := slabs(0, []geom.Polygon{at[0].Lay(p.Pieces[0].Shape), at[1].Lay(p.Pieces[1].Shape)})
		if (err != nil) != want || err != nil && !strings.Contains(err.Error(), "overlaps") {
			t.Fatalf("%v\n%v\nat %v: %v, want an overlap: %v", p.Pieces[0].Shape, p.Pieces[1].Shape, at, err, want)
		}
	})
}

// small makes a ring of coordinates from 0 to 15.
func small(data []byte) geom.Polygon {
	var r geom.Ring
	for i := 0; i+1 < len(data); i += 2 {
		r = append(r, geom.Point{X: float64(data[i] & 15), Y: float64(data[i+1] & 15)})
	}
	return geom.Polygon{Outer: r.Tidy()}
}

// star is a random ring about the origin between two radii.
func star(rng *rand.Rand, inner, outer float64) geom.Ring {
	r := make(geom.Ring, 5+rng.IntN(20))
	for i := range r {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.6*rng.Float64()) / float64(len(r)))
		radius := inner + (outer-inner)*rng.Float64()
		r[i] = geom.Point{X: radius * c, Y: radius * s}
	}
	return r
}

// sound returns a layout without fault of 12 stars in the cells of a sheet
// with a hole, a zone and a keep-out in cells of their own.
func sound(rng *rand.Rand) (nest.Problem, []nest.Placement) {
	const cell = 100
	sheet := nest.Container{ID: "sheet", Outline: box(0, 0, 5*cell, 3*cell), Margin: 2,
		Zones:   []nest.Zone{{Shape: box(4*cell+5, 5, cell-10, cell-10), Quality: 1}},
		KeepOut: []geom.Polygon{box(4*cell+5, 2*cell+5, cell-10, cell-10)},
	}
	sheet.Outline.Holes = [][]geom.Point{box(4*cell+5, cell+5, cell-10, cell-10).Outer}
	p := nest.Problem{Kind: nest.Bins, Clearance: 2, Kerf: 1, Containers: []nest.Container{sheet}}
	var at []nest.Placement
	for i := range 12 {
		angle := float64(rng.IntN(8)) * 45
		p.Pieces = append(p.Pieces, nest.Piece{ID: string(rune('a' + i)), Shape: geom.Polygon{Outer: star(rng, 20, 48)}, Rotations: []float64{angle}})
		at = append(at, nest.Placement{Piece: i, X: cell * (float64(i%4) + 0.5), Y: cell * (float64(i/4) + 0.5), Rotation: angle})
	}
	return p, at
}

// ways to spoil a layout that holds, for copy i.
var ways = []struct {
	name  string
	spoil func(rng *rand.Rand, p nest.Problem, at []nest.Placement, i int) []nest.Placement
	want  string
}{
	{"onto another", func(_ *rand.Rand, _ nest.Problem, at []nest.Placement, i int) []nest.Placement {
		j := (i + 1) % len(at)
		at[i].X, at[i].Y = at[j].X, at[j].Y
		return at
	}, "overlaps"},
	{"a corner into another", func(_ *rand.Rand, p nest.Problem, at []nest.Placement, i int) []nest.Placement {
		j := (i + 5) % len(at)
		a, b := at[i].Lay(p.Pieces[i].Shape).Outer[0], at[j].Lay(p.Pieces[j].Shape).Outer[0]
		into := geom.Point{X: at[j].X, Y: at[j].Y}.Sub(b).Scale(1e-4) // a ten-thousandth of the way to its middle
		at[i].X, at[i].Y = at[i].X+b.X-a.X+into.X, at[i].Y+b.Y-a.Y+into.Y
		return at
	}, ""},
	{"over the edge", func(rng *rand.Rand, p nest.Problem, at []nest.Placement, i int) []nest.Placement {
		low := at[i].Lay(p.Pieces[i].Shape).Bounds().Min
		at[i].X -= low.X + 1e-5 + rng.Float64()
		return at
	}, ""},
	{"too near the edge", func(rng *rand.Rand, p nest.Problem, at []nest.Placement, i int) []nest.Placement {
		low := at[i].Lay(p.Pieces[i].Shape).Bounds().Min
		at[i].Y -= low.Y - 1.99*rng.Float64()
		return at
	}, ""},
	{"on the zone", moved(450, 50), "zone 1"},
	{"in the hole", moved(450, 150), "hole 1"},
	{"on the keep-out", moved(450, 250), "keep-out 1"},
	{"turned", func(rng *rand.Rand, _ nest.Problem, at []nest.Placement, i int) []nest.Placement {
		at[i].Rotation += 1e-6 + 300*rng.Float64()
		return at
	}, "turned"},
	{"mirrored", func(_ *rand.Rand, _ nest.Problem, at []nest.Placement, i int) []nest.Placement {
		at[i].Mirrored = true
		return at
	}, "mirrored"},
	{"left out", func(_ *rand.Rand, _ nest.Problem, at []nest.Placement, i int) []nest.Placement {
		return slices.Delete(at, i, i+1)
	}, "nowhere"},
	{"twice", func(_ *rand.Rand, _ nest.Problem, at []nest.Placement, i int) []nest.Placement {
		return append(at, at[i])
	}, "twice"},
	{"no sheet", func(_ *rand.Rand, _ nest.Problem, at []nest.Placement, i int) []nest.Placement {
		at[i].Sheet = 1
		return at
	}, "no sheet"},
}

func moved(x, y float64) func(*rand.Rand, nest.Problem, []nest.Placement, int) []nest.Placement {
	return func(_ *rand.Rand, _ nest.Problem, at []nest.Placement, i int) []nest.Placement {
		at[i].X, at[i].Y = x, y
		return at
	}
}

// TestCheck_Spoilt refuses a thousand layouts that were sound until one copy
// was moved.
func TestCheck_Spoilt(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	for n := range 1000 {
		p, at := sound(rng)
		if r, err := nest.Check(p, at); err != nil || !(r.SmallestGap >= 2) {
			t.Fatalf("layout %d: gap %v, %v", n, r.SmallestGap, err)
		}
		way := ways[n%len(ways)]
		at = way.spoil(rng, p, at, rng.IntN(len(at)))
		if _, err := nest.Check(p, at); err == nil || !strings.Contains(err.Error(), way.want) {
			t.Errorf("layout %d, %s: %v, want %q", n, way.name, err, way.want)
		}
	}
}

// TestCheck_AgreesWithSlabs lays stars at any angle near each other.
func TestCheck_AgreesWithSlabs(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	over := 0
	for n := range 3000 {
		p := nest.Problem{Kind: nest.Strip, Containers: []nest.Container{{ID: "roll", Height: 1000}}, Pieces: []nest.Piece{
			{ID: "a", Shape: geom.Polygon{Outer: star(rng, 20, 100)}, Free: true}, {ID: "b", Shape: geom.Polygon{Outer: star(rng, 5, 40)}, Free: true, Mirror: true},
		}}
		ring := geom.Polygon{Outer: star(rng, 70, 100), Holes: [][]geom.Point{star(rng, 30, 60)}}
		if ring.Check() == nil { // it may hold b
			p.Pieces[0].Shape = ring
		}
		at := []nest.Placement{{X: 500, Y: 500, Rotation: 360 * rng.Float64()},
			{Piece: 1, X: 380 + 240*rng.Float64(), Y: 380 + 240*rng.Float64(), Rotation: 360 * rng.Float64(), Mirrored: rng.IntN(2) == 0}}
		r, err := nest.Check(p, at)
		want := slabs(0, []geom.Polygon{at[0].Lay(p.Pieces[0].Shape), at[1].Lay(p.Pieces[1].Shape)})
		if (err != nil) != want {
			t.Fatalf("pair %d: %v, gap %v; want an overlap: %v", n, err, r.SmallestGap, want)
		}
		if want {
			over++
		}
	}
	if over < 600 || over > 2700 {
		t.Errorf("%d of 3000 overlap: the test sees one kind only", over)
	}
}

// TestCheck_ZonesAgreeWithSlabs lays a piece with a lenient and a strict part
// over a zone.
func TestCheck_ZonesAgreeWithSlabs(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 9))
	refused := 0
	for n := range 1500 {
		near := func(reach, inner, outer float64) geom.Polygon {
			at := nest.Placement{X: reach * (rng.Float64() - 0.5), Y: reach * (rng.Float64() - 0.5)}
			return at.Lay(geom.Polygon{Outer: star(rng, inner, outer)})
		}
		piece := nest.Piece{ID: "p", Shape: near(0, 60, 100), Free: true, Quality: 2 * rng.IntN(2), Zones: []nest.Zone{{Shape: near(100, 30, 60), Quality: 1}, {Shape: near(200, 10, 20), Quality: 3}}}
		for slabs(0, []geom.Polygon{piece.Zones[0].Shape, piece.Zones[1].Shape}) {
			piece.Zones[1].Shape = near(300, 10, 20) // whose part it is must be plain
		}
		zone := nest.Zone{Shape: nest.Placement{X: 500, Y: 500}.Lay(near(250, 10, 40)), Quality: 1 + rng.IntN(3)}
		p := nest.Problem{Kind: nest.Strip, Pieces: []nest.Piece{piece}, Containers: []nest.Container{{ID: "roll", Height: 1000, Zones: []nest.Zone{zone}}}}
		at := nest.Placement{X: 500, Y: 500, Rotation: 360 * rng.Float64()}
		shape, lenient, strict := at.Lay(piece.Shape), at.Lay(piece.Zones[0].Shape), at.Lay(piece.Zones[1].Shape)
		wrong := func(thin float64) bool {
			bad := zone.Quality < 3 && slabs(thin, []geom.Polygon{shape, zone.Shape, strict})
			rest := piece.Quality == 0 || zone.Quality < piece.Quality
			return bad || rest && slabs(thin, []geom.Polygon{shape, zone.Shape}, lenient, strict)
		}
		_, err := nest.Check(p, []nest.Placement{at})
		if err != nil && !wrong(0) || err == nil && wrong(0.01) {
			t.Fatalf("layout %d: %v, want a fault: %v", n, err, wrong(0))
		}
		if err != nil {
			refused++
		}
	}
	if refused < 300 || refused > 1200 {
		t.Errorf("%d of 1500 refused: the test sees one kind only", refused)
	}
}

func BenchmarkCheck(b *testing.B) {
	p, at := sound(rand.New(rand.NewPCG(7, 11)))
	for b.Loop() {
		if _, err := nest.Check(p, at); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleCheck() {
	roll := nest.Problem{Kind: nest.Strip, Clearance: 1, Containers: []nest.Container{{ID: "roll", Height: 50, Margin: 1}}, Pieces: []nest.Piece{
		{ID: "flap", Count: 2, Shape: geom.Polygon{Outer: []geom.Point{{}, {X: 40}, {X: 40, Y: 30}, {Y: 20}}}},
	}}
	r, err := nest.Check(roll, []nest.Placement{{X: 2, Y: 3}, {Copy: 1, X: 45, Y: 3}})
	fmt.Println(r.Length, r.SmallestGap, r.Nearest, err)
	_, err = nest.Check(roll, []nest.Placement{{X: 2, Y: 3}, {Copy: 1, X: 42.5, Y: 3}})
	fmt.Println(err)
	// Output:
	// 86 2 piece flap, copy 1 and the edge of material roll <nil>
	// piece flap, copy 2: it lies 0.5 from piece flap, copy 1 on material roll, less than the 1 of clearance and kerf
}
