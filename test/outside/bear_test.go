package outside

import (
	"context"
	"math"
	"testing"

	"fettle/engine/flatten"
	"fettle/geom/mesh"
)

// bearing is the energy of a cover on its surface, written anew from its
// description, and found the least of by a slow way that shares nothing with the
// engine's: the places of all vertices, moved down differences of the energy.
type bearing struct {
	m     mesh.Mesh
	by    flatten.Material
	hold  [2]int // the step between these lies along x
	faces [][3][3]float64
	area  []float64
}

func newBearing(m mesh.Mesh, by flatten.Material, hold [2]int) *bearing {
	b := &bearing{m: m, by: by, hold: hold}
	for _, f := range m.Faces {
		var p [3][3]float64
		for k, v := range f {
			p[k] = [3]float64{m.Points[v].X, m.Points[v].Y, m.Points[v].Z}
		}
		b.faces = append(b.faces, p)
	}
	b.area = m.FaceAreas()
	return b
}

// face is the energy of a face: C has the products of what the pattern's axes
// become on the surface.
func (b *bearing) face(f int, q [3][2]float64) float64 {
	p := b.faces[f]
	x1, y1, x2, y2 := q[1][0]-q[0][0], q[1][1]-q[0][1], q[2][0]-q[0][0], q[2][1]-q[0][1]
	det := x1*y2 - y1*x2
	if det <= 0 {
		return math.Inf(1)
	}
	var xx, yy, xy float64
	for k := range 3 {
		u, w := p[1][k]-p[0][k], p[2][k]-p[0][k]
		alongX, alongY := (u*y2-w*y1)/det, (w*x1-u*x2)/det
		xx, yy, xy = xx+alongX*alongX, yy+alongY*alongY, xy+alongX*alongY
	}
	if b.by.Lock > 0 {
		return b.area[f] * b.threads(xx, yy, xy)
	}
	return b.area[f] * b.sheet(xx, yy, xy)
}

// wall is the energy beyond a limit: a force of five times the stiffness, come up
// with the square of the way from 0.003 before the limit to 0.0005 behind it.
func (b *bearing) wall(x float64) float64 {
	const width = 0.0035
	y := (x + 0.003) / width
	force := 5 * max(b.by.Stiffness[0], b.by.Stiffness[1])
	return force * width * (math.Pow(min(max(y, 0), 1), 3)/3 + max(y-1, 0))
}

// both returns the eigenvalues of a symmetric matrix, and the cosine and sine of
// the direction of the greater.
func both(xx, yy, xy float64) (high, low, c, s float64) {
	turn := math.Atan2(2*xy, xx-yy) / 2
	s, c = math.Sincos(turn)
	return c*c*xx + 2*c*s*xy + s*s*yy, s*s*xx - 2*c*s*xy + c*c*yy, c, s
}

// sheet is leather or vinyl.
func (b *bearing) sheet(xx, yy, xy float64) float64 {
	high, low, c, s := both(xx, yy, xy)
	high, low = math.Log(high)/2, math.Log(low)/2
	quadratic := func(high, low float64) float64 {
		hx, hy, hxy := c*c*high+s*s*low, s*s*high+c*c*low, c*s*(high-low)
		e1, e2 := b.by.Stiffness[0], b.by.Stiffness[1]
		return (e1*hx*hx+e2*hy*hy+4*b.by.Shear*e1*hxy*hxy)/2 + b.by.Poisson*math.Sqrt(e1*e2)*hx*hy
	}
	w := b.by.Slack*quadratic(high, low) + (1-b.by.Slack)*quadratic(max(high, 0), max(low, 0))
	hx, hy, hxy := c*c*high+s*s*low, s*s*high+c*c*low, c*s*(high-low)
	more, less, _, _ := both(hx-math.Log1p(b.by.Tension[0]), hy-math.Log1p(b.by.Tension[1]), hxy)
	w += b.wall(more) + b.wall(less)
	more, less, _, _ = both(math.Log1p(-b.by.Squeeze[0])-hx, math.Log1p(-b.by.Squeeze[1])-hy, -hxy)
	return w + b.wall(more) + b.wall(less)
}

// threads is woven cloth.
func (b *bearing) threads(xx, yy, xy float64) float64 {
	shear := math.Asin(xy / math.Sqrt(xx*yy))
	w := b.by.Shear*b.by.Stiffness[0]*shear*shear/2 + b.wall(shear-b.by.Lock) + b.wall(-shear-b.by.Lock)
	for i, c := range [2]float64{xx, yy} {
		h, k := math.Log(c)/2, b.by.Stiffness[i]
		if h < 0 {
			k *= b.by.Slack
		}
		w += k*h*h/2 + b.wall(h-math.Log1p(b.by.Tension[i])) + b.wall(math.Log1p(-b.by.Squeeze[i])-h)
	}
	return w
}

// of is the energy of a whole pattern, x and y of each vertex in turn.
func (b *bearing) of(at []float64) (sum float64) {
	for f := range b.faces {
		sum += b.face(f, b.corners(f, at))
	}
	return sum
}

func (b *bearing) corners(f int, at []float64) (q [3][2]float64) {
	for k, v := range b.m.Faces[f] {
		q[k] = [2]float64{at[2*v], at[2*v+1]}
	}
	return q
}

// slope is the derivative by differences; what is held takes no part.
func (b *bearing) slope(at []float64) []float64 {
	g := make([]float64, len(at))
	const step = 1e-5
	for f, face := range b.m.Faces {
		q := b.corners(f, at)
		for k, v := range face {
			for i := range 2 {
				was := q[k][i]
				q[k][i] = was + step
				up := b.face(f, q)
				q[k][i] = was - step
				g[2*int(v)+i] += (up - b.face(f, q)) / (2 * step)
				q[k][i] = was
			}
		}
	}
	from, to := 2*b.hold[0]+1, 2*b.hold[1]+1
	g[from] = (g[from] + g[to]) / 2
	g[to] = g[from]
	return g
}

// least goes down from a start until nothing more comes of it: slopes of the last
// steps bend the way (L-BFGS), and the way is halved until it helps.
func (b *bearing) least(at []float64) float64 {
	dot := func(a, c []float64) (sum float64) {
		for i := range a {
			sum += a[i] * c[i]
		}
		return sum
	}
	type pair struct{ s, y []float64 }
	var past []pair
	now, g := b.of(at), b.slope(at)
	for quiet, round := 0, 0; quiet < 20 && round < 20_000; round++ {
		way := append([]float64(nil), g...)
		share := make([]float64, len(past))
		for i := len(past) - 1; i >= 0; i-- {
			share[i] = dot(past[i].s, way) / dot(past[i].s, past[i].y)
			for k := range way {
				way[k] -= share[i] * past[i].y[k]
			}
		}
		if n := len(past); n > 0 {
			scale := dot(past[n-1].s, past[n-1].y) / dot(past[n-1].y, past[n-1].y)
			for k := range way {
				way[k] *= scale
			}
		}
		for i, p := range past {
			back := dot(p.y, way) / dot(p.s, p.y)
			for k := range way {
				way[k] += (share[i] - back) * p.s[k]
			}
		}
		next, then, t := make([]float64, len(at)), math.Inf(1), 1.0
		for ; t > 1e-12; t /= 2 {
			for k := range at {
				next[k] = at[k] - t*way[k]
			}
			if then = b.of(next); then < now-1e-4*t*dot(way, g) {
				break
			}
		}
		if !(then < now) {
			if past == nil {
				break
			}
			past = nil
			continue
		}
		if now-then < 1e-9*now {
			quiet++
		} else {
			quiet = 0
		}
		h := b.slope(next)
		p := pair{make([]float64, len(at)), make([]float64, len(at))}
		for k := range at {
			p.s[k], p.y[k] = next[k]-at[k], h[k]-g[k]
		}
		if dot(p.s, p.y) > 0 {
			past = append(past[max(0, len(past)-19):], p)
		}
		copy(at, next)
		now, g = then, h
	}
	return now
}

// heights are surfaces over a square of 300 mm that every cover must give for.
var heights = []struct {
	name string
	z    func(u, v float64) float64
}{
	{"bowl", func(u, v float64) float64 { return 60 * (u*u + v*v) }},
	{"saddle", func(u, v float64) float64 { return 70 * (u*u - v*v) }},
	{"bolster", func(u, v float64) float64 { return 60*math.Exp(-4*u*u)*(1-v*v) + 20*u*v }},
}

// stops is how much above the least energy a pass may end, as a share: it stops
// when four steps bring less than a hundredth (docs/engine/flatten-material.md).
var stops = map[string]float64{"leather": 0.02, "vinyl": 0.02, "cloth": 1e-4}

// TestBear_SlowWay lays patches of 100 vertices flat under each material and
// holds the energy of the engine's pattern to the least that the slow way finds
// from a start of its own, the shadow of the surface, and from the engine's
// pattern itself.
func TestBear_SlowWay(t *testing.T) {
	list := heights
	if testing.Short() {
		list = list[:1]
	}
	for _, h := range list {
		var m mesh.Mesh
		const n = 10
		for j := range n {
			for i := range n {
				u, v := 2*float64(i)/(n-1)-1, 2*float64(j)/(n-1)-1
				m.Points = append(m.Points, mesh.Vec{X: 150 * u, Y: 150 * v, Z: h.z(u, v)})
				if k := int32(j*n + i); i < n-1 && j < n-1 {
					m.Faces = append(m.Faces, mesh.Face{k, k + 1, k + n + 1}, mesh.Face{k, k + n + 1, k + n})
				}
			}
		}
		hold := [2]int{5 * n, 5*n + n - 1}
		for _, by := range []flatten.Material{flatten.Leather(), flatten.Vinyl(), flatten.Cloth()} {
			r, err := flatten.Solve(context.Background(), flatten.Problem{Surface: m, Material: &by, Grain: flatten.Grain{From: int32(hold[0]), To: int32(hold[1])}}, flatten.Options{})
			if err != nil || r.Status != flatten.Settled {
				t.Fatal(h.name, by.Name, r.Status, err)
			}
			b := newBearing(m, by, hold)
			ours, shadow := make([]float64, 2*len(m.Points)), make([]float64, 2*len(m.Points))
			for i, v := range r.Flat.Source {
				ours[2*v], ours[2*v+1] = r.Flat.Points[i].X, r.Flat.Points[i].Y
			}
			for v, p := range m.Points {
				shadow[2*v], shadow[2*v+1] = p.X, p.Y
			}
			got := b.of(ours)
			own, from := b.least(shadow), b.least(ours)
			least := min(own, from)
			t.Logf("%s under %s: %.6g after %d steps, %.3f %% over the least; the slow way finds %.6g from the shadow, %.6g from the pattern", h.name, by.Name, got, r.Stats.Steps, 100*(got/least-1), own, from)
			if math.Abs(own-from) > 1e-4*least {
				t.Errorf("%s under %s: the slow way finds two leasts, %.6g and %.6g", h.name, by.Name, own, from)
			}
			if got > least*(1+stops[by.Name]) {
				t.Errorf("%s under %s: %.6g is more than %g over the least, %.6g", h.name, by.Name, got, stops[by.Name], least)
			}
		}
	}
}
