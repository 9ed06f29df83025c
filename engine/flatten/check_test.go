package flatten

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// spoilt is a result that shares nothing with another, to be spoilt.
func spoilt(r Result) Result {
	r.Flat = Flat{Points: slices.Clone(r.Flat.Points), Faces: slices.Clone(r.Flat.Faces), Source: slices.Clone(r.Flat.Source)}
	r.Cuts = slices.Clone(r.Cuts)
	return r
}

// The checker measures by metrics what the search measures by maps: on any
// pattern, however strained, both find the same.
func TestCheck_MeasuresWhatTheSearchDoes(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	for name, m := range map[string]mesh.Mesh{"dome": dome(7, 100, 1), "holed": holed(4), "saddle": saddled()} {
		d, err := open(Problem{Surface: m})
		if err != nil {
			t.Fatal(err)
		}
		s := mustSheet(t, d.mesh)
		l, err := d.free(t.Context(), Options{Steps: 50}, &Stats{})
		if err != nil {
			t.Fatal(err)
		}
		for range 20 {
			a, b, c := rng.NormFloat64(), rng.NormFloat64(), 1+rng.Float64()
			at := mapped(l.at, func(p geom.Point) geom.Point { return geom.Point{X: 3 + c*p.X + a*p.Y, Y: (1+b*b)*p.Y - 2} })
			r := Result{Flat: Flat{Points: at, Faces: s.faces, Source: d.source}}
			r.Material = sumUp(s, at, faceStrains(s, at), d.border)
			got, err := Check(Problem{Surface: m}, r)
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
			for i, pair := range [][2]float64{{got.Along[0], r.Material.Along[0]}, {got.Along[1], r.Material.Along[1]}, {got.Across[0], r.Material.Across[0]}, {got.Across[1], r.Material.Across[1]}} {
				if math.Abs(pair[0]-pair[1]) > 1e-9*(1+math.Abs(pair[0])) {
					t.Errorf("%s: figure %d is %g and %g", name, i, pair[0], pair[1])
				}
			}
		}
	}
}

func TestCheck_FindsWhatIsWrongAboutHoles(t *testing.T) {
	p := Problem{Surface: pierced(funnel(60), vents)}
	good := lay(t, p)
	if _, err := Check(p, good); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*Result){
		"a hole closed by a face": func(r *Result) {
			r.Flat.Faces = append(r.Flat.Faces, mesh.Face{0, 1, 2})
		},
		"a cut not told":      func(r *Result) { r.Cuts = nil },
		"half a cut not told": func(r *Result) { r.Cuts[0] = r.Cuts[0][:len(r.Cuts[0])/2] },
		"overlaps told":       func(r *Result) { r.Material.Overlaps = 2 },
		"a slit that is none": func(r *Result) {
			// One corner of an inner face gets a vertex of its own.
			f := len(r.Flat.Faces) / 2
			v := r.Flat.Faces[f][0]
			r.Flat.Faces[f][0] = int32(len(r.Flat.Points))
			r.Flat.Points, r.Flat.Source = append(r.Flat.Points, r.Flat.Points[v]), append(r.Flat.Source, r.Flat.Source[v])
		},
		"a source off the surface": func(r *Result) { r.Flat.Source[3] = 99999 },
		"a point too many":         func(r *Result) { r.Flat.Points = append(r.Flat.Points, geom.Point{}) },
		"better than it is":        func(r *Result) { r.Material.Dirichlet -= 1e-4 },
		"quasi better":             func(r *Result) { r.Material.Quasi -= 1e-4 },
		"area better":              func(r *Result) { r.Material.AreaRMS += 1e-4 },
		"stretch better":           func(r *Result) { r.Material.Stretch[2] /= 2; r.Material.Stretch[2] += 0.1 },
		"along better":             func(r *Result) { r.Material.Along[1] -= 1e-4 },
		"across better":            func(r *Result) { r.Material.Across[0] += 1e-4 },
		"percentile better":        func(r *Result) { r.Material.Stretch[0] -= 0.01 },
	} {
		r := spoilt(good)
		spoil(&r)
		if _, err := Check(p, r); fault.KindOf(err) != fault.Invalid || err == nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A hole that goes through the rim is found, by the grid and by the sweep.
func TestOverlaps_BetweenRings(t *testing.T) {
	b := newBorder([]int32{0, 1, 2, 3}, []int32{4, 5, 6})
	for name, c := range map[string]struct {
		hole [3]geom.Point
		want int
	}{
		"inside":   {[3]geom.Point{{X: 1, Y: 1}, {X: 1, Y: 3}, {X: 3, Y: 1}}, 0},
		"outside":  {[3]geom.Point{{X: 11, Y: 1}, {X: 11, Y: 3}, {X: 13, Y: 1}}, 0},
		"through":  {[3]geom.Point{{X: 3, Y: 1}, {X: 3, Y: 3}, {X: 5, Y: 2}}, 2},
		"at a rim": {[3]geom.Point{{X: 1, Y: 1}, {X: 1, Y: 3}, {X: 4, Y: 2}}, 0},
	} {
		at := append([]geom.Point{{}, {X: 4}, {X: 4, Y: 4}, {Y: 4}}, c.hole[:]...)
		if got := (&sheet{vertices: 7}).overlaps(at, b); got != c.want {
			t.Errorf("%s: %d, want %d", name, got, c.want)
		}
		var sides [][2]geom.Point
		for i := range b.corners {
			from, to := b.at(at).side(i)
			sides = append(sides, [2]geom.Point{from, to})
		}
		if got := swept(sides, checkTouch); got != c.want {
			t.Errorf("%s: the checker finds %d, want %d", name, got, c.want)
		}
	}
}

// A fence keeps rings apart too, and knows no way between them.
func TestFence_BetweenRings(t *testing.T) {
	outer := []geom.Point{{}, {X: 10}, {X: 10, Y: 10}, {Y: 10}}
	last := 0.0
	for _, gap := range []float64{3, 1.5, 0.9, 0.5, 0.1, 1e-3} {
		hole := []geom.Point{{X: gap, Y: 4}, {X: gap, Y: 6}, {X: gap + 3, Y: 5}}
		_, b := ringed(outer, hole)
		f := &fence{sheet: &sheet{vertices: 7}, border: b, gone: []float64{0, 10, 20, 30, 0, 2, 5.2}, whole: []float64{40, 40, 40, 40, 8.4, 8.4, 8.4}, reach: 1, weight: 1}
		if way := f.between(0, 4); !math.IsInf(way, 1) {
			t.Errorf("%g along the outline from one ring to the other", way)
		}
		if way := f.between(0, 3); way != 10 {
			t.Errorf("%g from the first corner back to the last, want 10", way)
		}
		got := f.value(append(slices.Clone(outer), hole...))
		if gap > 1 && got != 0 || gap < 1 && !(got > last) {
			t.Errorf("a gap of %g costs %g after %g", gap, got, last)
		}
		last = got
	}
	hole := []geom.Point{{X: -1, Y: 4}, {X: 1, Y: 6}, {X: 3, Y: 5}}
	_, b := ringed(outer, hole)
	f := &fence{sheet: &sheet{vertices: 7}, border: b, gone: make([]float64, 7), whole: make([]float64, 7), reach: 1, weight: 1}
	if got := f.value(append(slices.Clone(outer), hole...)); !math.IsInf(got, 1) {
		t.Errorf("a hole through the rim costs %g", got)
	}
}

// The ways round a ring are those on the surface.
func TestNewFence_MeasuresEachRing(t *testing.T) {
	m := pierced(patch(10, 10, func(u, v float64) mesh.Vec { return mesh.Vec{X: 10 * u, Y: 10 * v} }), func(c mesh.Vec) bool { return c.X > 4 && c.X < 6 && c.Y > 3 && c.Y < 6 })
	d, err := open(Problem{Surface: m})
	if err != nil {
		t.Fatal(err)
	}
	f := newFence(mustSheet(t, d.mesh), d.border)
	for i := range d.border.corners {
		want := 40.0
		if d.border.ring[i] == 1 {
			want = 10
		}
		if math.Abs(f.whole[i]-want) > 1e-9 || f.gone[i] >= f.whole[i] {
			t.Errorf("corner %d: %g of %g, want %g", i, f.gone[i], f.whole[i], want)
		}
	}
	if want := fenceReach * 50 / 50; math.Abs(f.reach-want) > 1e-9 {
		t.Errorf("it reaches %g, want %g", f.reach, want)
	}
}
