package flatten

import "math"

// woven is cloth of two threads, along x and y of the pattern: each is pulled
// with its own stiffness and pushed with the share slack of it; the angle
// between them gives way for little until they lock. Limits are those of the
// threads and of the lock: what is pulled askew between them is shear, and
// bears it.
//
// With r and s the rows of J and d its determinant, the threads' stretches are
// |s| ÷ d and |r| ÷ d, and the sine of the shear is −r·s ÷ |r||s|.
type woven struct {
	stiff       [2]float64
	shear       float64
	slack, wall float64
	most, least [2]float64
	lock        float64
}

func wovenOf(m Material) woven {
	w := woven{stiff: m.Stiffness, shear: m.Shear * m.Stiffness[0], slack: m.Slack,
		wall: wallForce * max(m.Stiffness[0], m.Stiffness[1]), lock: m.Lock}
	w.most, w.least = m.limits()
	return w
}

// threads returns the log strains of the threads and their shear, radians.
func (j jacobian) threads() (q [3]float64) {
	r, s := math.Hypot(j.XX, j.XY), math.Hypot(j.YX, j.YY)
	d := j.det()
	sine := -(float64(j.XX*j.YX) + float64(j.XY*j.YY)) / float64(r*s)
	return [3]float64{math.Log(s / d), math.Log(r / d), math.Asin(max(-1, min(1, sine)))}
}

// excess returns how far a face is beyond a limit, the worst of them.
func (w woven) excess(j jacobian) float64 {
	q := j.threads()
	return max(0, q[0]-w.most[0], w.least[0]-q[0], q[1]-w.most[1], w.least[1]-q[1], math.Abs(q[2])-w.lock)
}

func (w woven) value(_ int, j jacobian) float64 {
	if !(j.det() > 0) {
		return math.Inf(1)
	}
	var sum float64
	for i, q := range j.threads() {
		v, _, _ := w.of(i, q)
		sum += v
	}
	return sum
}

// of returns the energy, slope and a bend above nothing of one of the threads'
// strains or of the shear.
func (w woven) of(i int, q float64) (v, d, dd float64) {
	if i == 2 {
		v, d, dd = float64(w.shear*float64(q*q))/2, w.shear*q, w.shear
		above, da, dda := wallAt(w.wall, q-w.lock)
		below, db, ddb := wallAt(w.wall, -w.lock-q)
		return v + above + below, d + da - db, dd + dda + ddb
	}
	k := w.stiff[i]
	if q < 0 {
		k *= w.slack
	}
	v, d, dd = float64(k*float64(q*q))/2, k*q, w.stiff[i] // full, so that no step overshoots
	above, da, dda := wallAt(w.wall, q-w.most[i])
	below, db, ddb := wallAt(w.wall, w.least[i]-q)
	return v + above + below, d + da - db, dd + dda + ddb
}

func (w woven) derive(_ int, j jacobian, g *slope, h *bend) {
	q, moves := j.threads(), j.threadsMove()
	*g, *h = slope{}, bend{}
	for i := range q {
		_, d, dd := w.of(i, q[i])
		for k := range 4 {
			g[k] += float64(d * moves[i][k])
			for n := range 4 {
				h[k][n] += float64(dd * float64(moves[i][k]*moves[i][n]))
			}
		}
	}
}

// threadsMove returns how threads follows the entries of J.
func (j jacobian) threadsMove() [3]slope {
	rr, ss := float64(j.XX*j.XX)+float64(j.XY*j.XY), float64(j.YX*j.YX)+float64(j.YY*j.YY)
	dot, d := float64(j.XX*j.YX)+float64(j.XY*j.YY), j.det()
	long := math.Sqrt(rr * ss)
	sine := -dot / long
	cosine := math.Sqrt(max(1e-12, 1-float64(sine*sine)))
	det := slope{j.YY / d, -j.YX / d, -j.XY / d, j.XX / d}
	r, s := slope{j.XX / rr, j.XY / rr, 0, 0}, slope{0, 0, j.YX / ss, j.YY / ss}
	across := slope{j.YX, j.YY, j.XX, j.XY} // of the dot product
	var out [3]slope
	for k := range 4 {
		out[0][k] = s[k] - det[k]
		out[1][k] = r[k] - det[k]
		out[2][k] = (-across[k]/long - float64(sine*(r[k]+s[k]))) / cosine
	}
	return out
}
