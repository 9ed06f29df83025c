package circles

import "math"

// relax moves all circles and the radius at once to lower
// price·R² + Σ overlap², at one price after the other.
func (p *packer) relax(rounds int, prices ...float64) {
	n := len(p.r)
	R := 0.0
	for i, r := range p.r {
		R = max(R, math.Hypot(p.x[2*i], p.x[2*i+1])+r)
	}
	p.x[2*n] = R
	p.neighbours(p.x)
	for _, price := range prices {
		p.minimise(p.x, rounds, func(x, grad []float64) float64 { return p.energy(x, grad, price) })
	}
}

// neighbours lists the pairs that can overlap until one of them has moved by
// half the skin.
func (p *packer) neighbours(x []float64) {
	p.pairs = p.pairs[:0]
	copy(p.from, x)
	n, sum := len(p.r), 0.0
	for _, r := range p.r {
		sum += r
	}
	p.skin = 0.6 * sum / float64(n)
	if n <= 16 {
		p.skin = math.Inf(1)
	}
	for i := range n {
		xi, yi, ri := x[2*i], x[2*i+1], p.r[i]+p.skin
		for j := range i {
			dx, dy, s := x[2*j]-xi, x[2*j+1]-yi, ri+p.r[j]
			if float64(dx*dx)+float64(dy*dy) < s*s {
				p.pairs = append(p.pairs, [2]int32{int32(i), int32(j)})
			}
		}
	}
}

// stale reports whether a circle has moved so far that a pair may be missing.
func (p *packer) stale(x []float64) bool {
	most := p.skin * p.skin / 4
	for i := 0; i < len(p.from); i += 2 {
		dx, dy := x[i]-p.from[i], x[i+1]-p.from[i+1]
		if float64(dx*dx)+float64(dy*dy) > most {
			return true
		}
	}
	return false
}

// energy is what relax lowers, with its slope.
func (p *packer) energy(x, grad []float64, price float64) float64 {
	n := len(p.r)
	if p.stale(x) {
		p.neighbours(x)
	}
	R := x[2*n]
	clear(grad)
	e := price * R * R
	grad[2*n] = 2 * price * R
	for _, q := range p.pairs {
		i, j := 2*q[0], 2*q[1]
		dx, dy, s := x[i]-x[j], x[i+1]-x[j+1], p.r[q[0]]+p.r[q[1]]
		d2 := float64(dx*dx) + float64(dy*dy)
		if d2 >= s*s {
			continue
		}
		d := math.Sqrt(d2)
		if d == 0 {
			d, dx = 1e-12, 1e-12
		}
		in := s - d
		e += float64(in * in)
		f := -2 * in / d
		grad[i] += float64(f * dx)
		grad[i+1] += float64(f * dy)
		grad[j] -= float64(f * dx)
		grad[j+1] -= float64(f * dy)
	}
	for i, r := range p.r {
		dx, dy := x[2*i], x[2*i+1]
		d := math.Sqrt(float64(dx*dx) + float64(dy*dy))
		if out := d + r - R; out > 0 {
			e += float64(out * out)
			if d > 0 {
				grad[2*i] += 2 * out * dx / d
				grad[2*i+1] += 2 * out * dy / d
			}
			grad[2*n] -= float64(2 * out)
		}
	}
	return e
}

// keep takes the overlap out of x by spreading the centres, and remembers the
// outcome when it is the smallest yet.
func (p *packer) keep() {
	spread := 1.0
	for i := range p.r {
		for j := range i {
			dx, dy, s := p.x[2*i]-p.x[2*j], p.x[2*i+1]-p.x[2*j+1], p.r[i]+p.r[j]
			if d2 := float64(dx*dx) + float64(dy*dy); d2*spread*spread < s*s {
				spread = s / math.Sqrt(d2)
			}
		}
	}
	R := 0.0
	for i, r := range p.r {
		R = max(R, float64(spread*math.Hypot(p.x[2*i], p.x[2*i+1]))+r)
	}
	if R < p.bestR {
		p.bestR = R
		for i := range p.best {
			p.best[i] = spread * p.x[i]
		}
	}
}
