package lens

import (
	"fmt"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// What is not measured is judged to be so, as standard deviations; the reasons
// stand in docs/lens.md.
const (
	plainBend   = 0.02  // k1 and half of it k2, of a phone's or camera's ordinary lens
	wideBend    = 0.3   // the same where straight lines, or many marks, will tell
	squareTilt  = 0.04  // depth at half a diagonal of a photo taken square on: 3° at 75° of sight
	squareShape = 0.003 // how a square seems no square then
	tapRecords  = 4     // taps that the judged noise of one counts for
	worstNoise  = 6     // times the judged noise: the marks do not fit the sizes
	manyMarks   = 12    // of one patch, which then tell the bend of the lens
	mostSteps   = 200
)

// fit is a scene while its parameters are sought.
type fit struct {
	scene   Scene
	half    float64 // half the diagonal, in pixels
	patches []patch
	lines   []plumb
	theta   []float64
	hold    []float64 // one over the square of what is judged of each parameter; 0 is nothing
	noise   float64   // of a tap, in pixels
	count   int       // of rows
}

func (f *fit) q(p geom.Point) geom.Point {
	return geom.Point{X: (p.X - f.scene.Width/2) / f.half, Y: (f.scene.Height/2 - p.Y) / f.half}
}

func (f *fit) qs(list []geom.Point) []geom.Point {
	out := make([]geom.Point, len(list))
	for i, p := range list {
		out[i] = f.q(p)
	}
	return out
}

// begin lays out the parameters of a checked scene; the largest patch in the
// picture carries the axes of the table.
func begin(s Scene) *fit {
	f := &fit{scene: s, half: math.Hypot(s.Width, s.Height) / 2, noise: s.Noise}
	if f.noise == 0 {
		f.noise = Usual(s.Width, s.Height)
	}
	for i, marks := range s.Patches {
		p := patch{name: patchName(i, len(s.Patches))}
		for _, m := range marks {
			p.q, p.is = append(p.q, f.q(m.At)), append(p.is, m.Is)
		}
		f.count += 2 * len(p.q)
		f.patches = append(f.patches, p)
	}
	largest := 0
	for i, p := range f.patches {
		if extent(p.q) > extent(f.patches[largest].q) {
			largest = i
		}
	}
	f.patches[0], f.patches[largest] = f.patches[largest], f.patches[0]
	n := size
	for i := range f.patches[1:] {
		f.patches[i+1].own, n = n, n+3
	}
	for i, l := range s.Lines {
		f.lines = append(f.lines, plumb{q: f.qs(l), own: n, name: fmt.Sprintf("straight line %d", i+1)})
		f.count, n = f.count+len(l), n+2
	}
	f.theta, f.hold = make([]float64, n), make([]float64, n)
	bend := plainBend
	if s.Wide || len(s.Lines) > 0 || slices.ContainsFunc(f.patches, func(p patch) bool { return len(p.q) >= manyMarks }) {
		bend = wideBend
	}
	f.hold[pK1], f.hold[pK2] = 1/(bend*bend), 4/(bend*bend)
	return f
}

func extent(p []geom.Point) float64 {
	return math.Abs(geom.RingArea(geom.Hull(p)))
}

// square judges the shape and tilt of a photo that was taken square on. The
// judgement is one of what is seen in the middle of the picture, so the axes of
// the table begin there.
func (f *fit) square(from *model) {
	if !f.scene.SquareOn {
		return
	}
	for i, p := range f.patches[0].is {
		f.patches[0].is[i] = p.Sub(geom.Point{X: from[pX], Y: from[pY]})
	}
	from[pX], from[pY] = 0, 0
	scale := squareShape * math.Hypot(from[pA], from[pB])
	f.hold[pC], f.hold[pD] = 1/(scale*scale), 1/(scale*scale)
	f.hold[pG], f.hold[pH] = 1/(squareTilt*squareTilt), 1/(squareTilt*squareTilt)
}

// place sets the parameters to a model, with every patch and line where it
// seems to be under it.
func (f *fit) place(m model) {
	copy(f.theta, m[:])
	for _, p := range f.patches[1:] {
		var x []geom.Point
		for _, q := range p.q {
			x = append(x, m.image(q).at)
		}
		s := similar(p.is, x)
		f.theta[p.own], f.theta[p.own+1], f.theta[p.own+2] = s[pX], s[pY], math.Atan2(s[pB], s[pA])
	}
	for _, l := range f.lines {
		n := normalOf(l.q)
		var xx, xy, yy float64
		for _, q := range l.q {
			d := q.Sub(n.mid)
			xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
		}
		angle := math.Atan2(2*xy, xx-yy)/2 + math.Pi/2
		f.theta[l.own], f.theta[l.own+1] = angle, math.Cos(angle)*n.mid.X+math.Sin(angle)*n.mid.Y
	}
}

// normals are the normal equations in units of the noise, and what they cost.
type normals struct {
	m    matrix
	b    []float64
	cost float64
}

func (f *fit) normals(rows []row, theta []float64) normals {
	n := normals{m: newMatrix(len(theta)), b: make([]float64, len(theta))}
	w := 1 / (f.noise * f.noise)
	for _, r := range rows {
		n.cost += w * r.off * r.off
		for i, v := range r.by {
			if v == 0 {
				continue
			}
			n.b[i] -= w * v * r.off
			for j := range i + 1 {
				n.m[i][j] += w * v * r.by[j]
			}
		}
	}
	for i, h := range f.hold {
		n.cost += h * theta[i] * theta[i]
		n.b[i] -= h * theta[i]
		n.m[i][i] += h
		for j := range i {
			n.m[j][i] = n.m[i][j]
		}
	}
	return n
}

// descend takes damped Gauss-Newton steps [Marquardt1963] until one gains less
// than a billionth. It returns the cost, infinite where nothing could be seen.
func (f *fit) descend() float64 {
	rows, ok := f.rows(f.theta)
	if !ok {
		return math.Inf(1)
	}
	now := f.normals(rows, f.theta)
	for step, damp := 0, 1e-3; step < mostSteps && damp < 1e12; step++ {
		m := newMatrix(len(f.theta))
		for i := range m {
			copy(m[i], now.m[i])
			m[i][i] += damp * now.m[i][i]
		}
		damp *= 10
		low, ok := cholesky(m)
		if !ok {
			continue
		}
		next := low.solve(now.b)
		for i := range next {
			next[i] += f.theta[i]
		}
		rows, ok := f.rows(next)
		if !ok {
			continue
		}
		then := f.normals(rows, next)
		if !(then.cost <= now.cost) {
			continue
		}
		small := now.cost-then.cost <= 1e-9*now.cost+1e-12
		f.theta, now, damp = next, then, damp/100
		if small {
			break
		}
	}
	return now.cost
}

// Fit finds how the photo shows the table. A fault of kind Invalid says what
// in the scene does not tell enough, or does not fit.
func Fit(s Scene) (*View, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	f := begin(s)
	if err := f.find(); err != nil {
		return nil, err
	}
	v := &View{fit: f, model: model(f.theta[:size])}
	for range 3 {
		if err := v.weigh(); err != nil {
			return nil, err
		}
		f.noise = v.noise
		f.descend()
		v.model = model(f.theta[:size])
	}
	if err := v.weigh(); err != nil {
		return nil, err
	}
	return v, v.doubt()
}

// find descends from a direct solution and from a photo without tilt, and
// keeps the better end.
func (f *fit) find() error {
	first := f.patches[0]
	starts := []model{similar(first.q, first.is)}
	f.square(&starts[0])
	if len(first.q) >= 4 {
		if m, ok := direct(first.q, first.is); ok {
			starts = append(starts, m)
		}
	}
	best, cost := []float64(nil), math.Inf(1)
	for _, m := range starts {
		f.place(m)
		if c := f.descend(); c < cost {
			best, cost = f.theta, c
		}
		f.theta = make([]float64, len(f.theta))
	}
	if best == nil || math.IsInf(cost, 1) || math.IsNaN(cost) {
		return swapped(first.name)
	}
	f.theta = best
	m := model(best[:size])
	for _, p := range f.patches {
		for i, q := range p.q {
			if im := m.image(q); !im.seen || im.byQ.det() <= 0 {
				return fault.Within(swapped(markName(i)), p.name)
			}
		}
	}
	return nil
}

func swapped(at string) error {
	return invalid("the marks do not show the reference from above: two may be swapped, or they run the wrong way round").At(at).
		WithHint("Mark the corners anticlockwise as seen in the photo, from the lower left one.")
}
