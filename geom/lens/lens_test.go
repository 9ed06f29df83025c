package lens_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/lens"
)

// frame is a rectangle of 2400 by 2800 mm on the floor, around the hide.
func frame(h hand, c camera, tape float64) []lens.Mark {
	return h.marks(c, box(2400, 2800), geom.Point{X: -1200, Y: -1400}, 0, tape)
}

// TestFit_Exact finds what the camera is where nothing is off.
func TestFit_Exact(t *testing.T) {
	c := above(geom.Point{X: 60, Y: -40}, 4200, 0.35, -0.2, 0.3)
	c.k1, c.k2 = 0.08, -0.02
	h := hand{rand.New(rand.NewPCG(1, 1)), 0}
	v, err := lens.Fit(lens.Scene{Width: c.w, Height: c.h, Patches: [][]lens.Mark{frame(h, c, 0)}, Lines: straights(c), Noise: 1e-4})
	if err != nil {
		t.Fatal(err)
	}
	if k1, k2 := v.Bend(); math.Abs(k1-c.k1) > 1e-4 || math.Abs(k2-c.k2) > 1e-4 {
		t.Errorf("the bend is %g, %g; want %g, %g", k1, k2, c.k1, c.k2)
	}
	tr, err := v.Trace(c.all(hide(200)))
	if err != nil {
		t.Fatal(err)
	}
	if want := math.Abs(geom.RingArea(hide(200))); math.Abs(tr.Area/want-1) > 1e-6 {
		t.Errorf("area %.1f mm², want %.1f", tr.Area, want)
	}
	for i, p := range hide(200) {
		if d := tr.Ring[i].Distance(p.Add(geom.Point{X: 1200, Y: 1400})); d > 0.01 {
			t.Fatalf("point %d is off by %g mm", i, d)
		}
	}
	if mm, _, err := v.Between(c.sees(geom.Point{X: -500, Y: 200}), c.sees(geom.Point{X: 700, Y: -300})); err != nil || math.Abs(mm-1300) > 0.01 {
		t.Errorf("measured back %.3f mm, want 1300: %v", mm, err)
	}
}

// tried is one way to take a photo and mark it, drawn anew for each photo from
// what the judgements say.
type tried struct {
	name string
	make func(h *hand) (camera, lens.Scene)
}

func (h hand) angle(sd float64) float64 { return sd * h.NormFloat64() }

// someCamera hangs over the hide, tilted up to about 20°, as high as it must
// for everything to be seen.
func (h hand) someCamera() camera {
	at, x, y, turn := geom.Point{X: h.angle(60), Y: h.angle(60)}, h.angle(0.15), h.angle(0.15), h.angle(0.1)
	for height := 4500.0; ; height += 250 {
		if c := above(at, height, x, y, turn); c.shows(append(box(3200, 3600), geom.Point{X: 1600})) {
			return c
		}
	}
}

// shows tells whether points of a rectangle around the origin are in the picture.
func (c camera) shows(points []geom.Point) bool {
	c.k1 = 0 // what bends inwards is farther in
	for _, p := range points {
		if q := c.sees(p.Sub(geom.Point{X: 1600, Y: 1800})); !(q.X > 0 && q.Y > 0 && q.X < c.w && q.Y < c.h) {
			return false
		}
	}
	return true
}

// judged draws the noise of a tap as the judgement says: a scaled inverse
// chi-square of four records.
func (h *hand) judged(c camera) {
	sum := 0.0
	for range 4 {
		sum += math.Pow(h.NormFloat64(), 2)
	}
	h.noise = lens.Usual(c.w, c.h) * math.Sqrt(4/sum)
}

var ways = []tried{
	{"four corners, plain lens", func(h *hand) (camera, lens.Scene) {
		c := h.someCamera()
		c.k1, c.k2 = h.angle(0.02), h.angle(0.01)
		h.judged(c)
		return c, lens.Scene{Patches: [][]lens.Mark{frame(*h, c, 1.5)}, Tape: 1.5}
	}},
	{"four corners and lines, bent lens", func(h *hand) (camera, lens.Scene) {
		c := h.someCamera()
		c.k1, c.k2 = 0.15*h.Float64(), 0.06*(h.Float64()-0.5)
		h.noise = 1 + 3*h.Float64()
		lines := straights(c)
		for i := range lines {
			lines[i] = h.taps(lines[i])
		}
		return c, lens.Scene{Patches: [][]lens.Mark{frame(*h, c, 1)}, Lines: lines, Tape: 1}
	}},
	{"grid of 16, bent lens", func(h *hand) (camera, lens.Scene) {
		c := h.someCamera()
		c.k1, c.k2 = 0.15*h.Float64(), 0.06*(h.Float64()-0.5)
		h.noise = 1 + 3*h.Float64()
		var grid []geom.Point
		for i := range 16 {
			grid = append(grid, geom.Point{X: 800 * float64(i%4), Y: 900 * float64(i/4)})
		}
		return c, lens.Scene{Patches: [][]lens.Mark{h.marks(c, grid, geom.Point{X: -1200, Y: -1350}, 0, 1)}, Tape: 1}
	}},
	{"six sheets of paper anywhere", func(h *hand) (camera, lens.Scene) {
		c := h.someCamera()
		c.k1, c.k2 = h.angle(0.02), h.angle(0.01)
		h.noise = 1 + h.Float64()
		s := lens.Scene{Tape: 0.3}
		for _, at := range []geom.Point{{X: -1300, Y: -1500}, {X: 1000, Y: -1500}, {X: 1100, Y: 1300}, {X: -1300, Y: 1300}, {X: -1400}, {X: 1250}} {
			s.Patches = append(s.Patches, h.marks(c, box(297, 420), at, h.angle(0.5), 0.3))
		}
		return c, s
	}},
	{"a stick, square on", func(h *hand) (camera, lens.Scene) {
		c := above(geom.Point{}, 6200, h.angle(0.052), h.angle(0.052), 0)
		c.k1, c.k2 = h.angle(0.02), h.angle(0.01)
		h.judged(c)
		from, to := geom.Point{X: -1000, Y: -1450}, geom.Point{X: 1000, Y: -1450 + h.angle(30)}
		return c, lens.Scene{Patches: [][]lens.Mark{lens.Stick(h.tap(c.sees(from)), h.tap(c.sees(to)), from.Distance(to)+h.angle(1.4))}, SquareOn: true, Tape: 1}
	}},
}

// TestTrace_Covers holds the stated error to what it says: the worst place of
// the outline, and the area, are within it in about 95 of 100 photos.
func TestTrace_Covers(t *testing.T) {
	const photos = 400
	truth := hide(60)
	area := math.Abs(geom.RingArea(truth))
	for _, w := range ways {
		t.Run(w.name, func(t *testing.T) {
			var place, areas int
			var errs, offs float64
			for n := range photos {
				h := hand{rand.New(rand.NewPCG(7, uint64(n))), 0}
				c, s := w.make(&h)
				s.Width, s.Height = c.w, c.h
				v, err := lens.Fit(s)
				if err != nil {
					t.Fatalf("photo %d: %v", n, err)
				}
				tr, err := v.Trace(h.taps(c.all(truth)))
				if err != nil {
					t.Fatalf("photo %d: %v", n, err)
				}
				laid := over(tr.Ring, truth)
				if laid[tr.Worst].Distance(truth[tr.Worst]) <= tr.Error {
					place++
				}
				if math.Abs(tr.Area-area) <= tr.Off {
					areas++
				}
				errs, offs = errs+tr.Error/photos, offs+tr.Off/area/photos
			}
			t.Logf("the worst place within the stated error in %.1f of 100, the area in %.1f; stated %.1f mm, %.2f %% of the area",
				100*float64(place)/photos, 100*float64(areas)/photos, errs, 100*offs)
			// Of 400 at 95 of 100, all but one in a thousand lie within 3.6 of it.
			for _, got := range []float64{100 * float64(place) / photos, 100 * float64(areas) / photos} {
				if got < 91.4 || got > 99.2 {
					t.Errorf("%.1f of 100 are within the stated error, want about 95", got)
				}
			}
		})
	}
}

// over lays a ring over another, point by point, by the best shift and turn.
func over(ring, truth []geom.Point) []geom.Point {
	n := float64(len(ring))
	var a, b geom.Point
	for i := range ring {
		a, b = a.Add(ring[i].Scale(1/n)), b.Add(truth[i].Scale(1/n))
	}
	dot, cross := 0.0, 0.0
	for i := range ring {
		p, q := ring[i].Sub(a), truth[i].Sub(b)
		dot, cross = dot+p.X*q.X+p.Y*q.Y, cross+p.Cross(q)
	}
	sin, cos := math.Sincos(math.Atan2(cross, dot))
	out := make([]geom.Point, len(ring))
	for i := range ring {
		p := ring[i].Sub(a)
		out[i] = b.Add(geom.Point{X: cos*p.X - sin*p.Y, Y: sin*p.X + cos*p.Y})
	}
	return out
}

func TestFit_Refuses(t *testing.T) {
	c := above(geom.Point{}, 4200, 0.2, 0.1, 0)
	h := hand{rand.New(rand.NewPCG(3, 3)), 0}
	good := frame(h, c, 0)
	scene := func(marks ...lens.Mark) lens.Scene {
		return lens.Scene{Width: c.w, Height: c.h, Patches: [][]lens.Mark{marks}}
	}
	off := scene(h.marks(c, append(box(2400, 2800), geom.Point{X: 1200}, geom.Point{X: 1200, Y: 2800}), geom.Point{X: -1200, Y: -1400}, 0, 0)...)
	off.Patches[0][4].At.Y += 90
	short := scene(good...)
	short.Lines = [][]geom.Point{{{X: 10, Y: 10}, {X: 40, Y: 12}, {X: 90, Y: 20}}}
	row := h.marks(c, []geom.Point{{}, {X: 500}, {X: 1000}, {X: 1500}, {X: 2000}}, geom.Point{X: -1000}, 0, 0)
	for _, x := range []struct {
		name string
		s    lens.Scene
		want string
	}{
		{"three in line", scene(good[0], good[1], lens.Mark{At: c.sees(geom.Point{Y: -1400}), Is: geom.Point{X: 1200}}, good[2]), "marks 1, 2 and 3 lie nearly on one line"},
		{"five in line", scene(row...), "lie nearly on one line"},
		{"three marks", scene(good[:3]...), "3 marks"},
		{"the same place", scene(good[0], good[1], good[2], good[2]), "mark 4"},
		{"clockwise", scene(lens.Rectangle([4]geom.Point{good[3].At, good[2].At, good[1].At, good[0].At}, 2400, 2800)...), "wrong way round"},
		{"two swapped", scene(lens.Rectangle([4]geom.Point{good[0].At, good[2].At, good[1].At, good[3].At}, 2400, 2800)...), "may be swapped"},
		{"one off", off, "mark 5"},
		{"a short line", short, "straight line 1"},
		{"outside", scene(lens.Mark{At: geom.Point{X: -50}}, good[1], good[2], good[3]), "outside the picture"},
		{"tiny", scene(h.marks(c, box(12, 12), geom.Point{}, 0, 0)...), "too small in the picture"},
		{"no picture", lens.Scene{}, "0 by 0"},
	} {
		_, err := lens.Fit(x.s)
		if err == nil || fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), x.want) {
			t.Errorf("%s: got %v, want a fault with %q", x.name, err, x.want)
		}
	}
}

// TestTrust says of each trace that is too far off what would help.
func TestTrust(t *testing.T) {
	h := hand{rand.New(rand.NewPCG(5, 5)), 0.5}
	c := above(geom.Point{}, 4200, 0.2, 0.1, 0)
	for _, x := range []struct {
		name string
		s    lens.Scene
		want string
	}{
		{"a small reference", lens.Scene{Patches: [][]lens.Mark{h.marks(c, box(420, 297), geom.Point{X: -200}, 0, 0)}}, "the reference is small"},
		{"an unknown lens", lens.Scene{Patches: [][]lens.Mark{frame(h, c, 0)}, Wide: true}, "the bend of the lens"},
		{"a coarse picture", lens.Scene{Patches: [][]lens.Mark{frame(h, c, 0)}, Lines: straights(c), Noise: 8}, "a pixel is large"},
	} {
		x.s.Width, x.s.Height = c.w, c.h
		v, err := lens.Fit(x.s)
		if err != nil {
			t.Errorf("%s: %v", x.name, err)
			continue
		}
		tr, err := v.Trace(c.all(hide(40)))
		if err != nil {
			t.Errorf("%s: %v", x.name, err)
			continue
		}
		if err := tr.Trust(10); err == nil || !strings.Contains(err.Error(), x.want) {
			t.Errorf("%s: %v, want %q; stated %.1f mm, %s", x.name, err, x.want, tr.Error, tr.Why)
		}
	}
}

// TestView_Horizon refuses what the photo cannot place.
func TestView_Horizon(t *testing.T) {
	c := above(geom.Point{}, 1500, 1.25, 0, 0)
	h := hand{rand.New(rand.NewPCG(6, 6)), 0}
	v, err := lens.Fit(lens.Scene{Width: c.w, Height: c.h, Patches: [][]lens.Mark{h.marks(c, box(1000, 1000), geom.Point{X: -500, Y: -500}, 0, 0)}})
	if err != nil {
		t.Fatal(err)
	}
	horizon := c.sees(geom.Point{Y: 1e7})
	if horizon.Y < 5 {
		t.Fatalf("the horizon is at %v, outside the picture", horizon)
	}
	if _, err := v.Trace([]geom.Point{{X: 2000, Y: 1500}, {X: 2100, Y: 1500}, {X: 2000, Y: 5}}); err == nil || !strings.Contains(err.Error(), "point 3") || !strings.Contains(err.Error(), "horizon") {
		t.Errorf("got %v, want point 3 at the horizon", err)
	}
	if p, err := v.At(geom.Point{X: 2000, Y: 1500}); err != nil || p.Error <= 0 {
		t.Errorf("the middle is at %v, %v", p, err)
	}
}

func FuzzFit(f *testing.F) {
	f.Add(uint64(1), 0.3, -0.1, 0.05, 3.0)
	f.Add(uint64(2), 1.4, 0.8, -0.4, 200.0)
	f.Fuzz(func(t *testing.T, seed uint64, tiltX, tiltY, bend, noise float64) {
		if !(math.Abs(tiltX) < 3 && math.Abs(tiltY) < 3 && math.Abs(bend) < 1 && noise >= 0 && noise < 1e4) {
			t.Skip()
		}
		c := above(geom.Point{}, 4200, tiltX, tiltY, 0)
		c.k1 = bend
		h := hand{rand.New(rand.NewPCG(seed, 0)), noise}
		v, err := lens.Fit(lens.Scene{Width: c.w, Height: c.h, Patches: [][]lens.Mark{frame(h, c, 1)}})
		if err != nil {
			return
		}
		tr, err := v.Trace(h.taps(c.all(hide(12))))
		if err == nil && !(tr.Error > 0 && tr.Off > 0 && !math.IsInf(tr.Area, 0)) {
			t.Errorf("a trace says %+v", tr)
		}
	})
}

func BenchmarkFit(b *testing.B) {
	c := above(geom.Point{}, 4200, 0.2, 0.1, 0)
	h := hand{rand.New(rand.NewPCG(8, 8)), 1.5}
	lines := straights(c)
	for i := range lines {
		lines[i] = h.taps(lines[i])
	}
	s := lens.Scene{Width: c.w, Height: c.h, Patches: [][]lens.Mark{frame(h, c, 1)}, Lines: lines, Tape: 1}
	for b.Loop() {
		if _, err := lens.Fit(s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTrace(b *testing.B) {
	c := above(geom.Point{}, 4200, 0.2, 0.1, 0)
	h := hand{rand.New(rand.NewPCG(8, 8)), 0}
	v, err := lens.Fit(lens.Scene{Width: c.w, Height: c.h, Patches: [][]lens.Mark{frame(h, c, 1)}, Tape: 1})
	if err != nil {
		b.Fatal(err)
	}
	ring := c.all(hide(400))
	for b.Loop() {
		if _, err := v.Trace(ring); err != nil {
			b.Fatal(err)
		}
	}
}
