package circles

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// packer works on circles sorted by size, largest first. Coordinates lie as
// x0, y0, x1, y1, …
type packer struct {
	r     []float64
	x     []float64 // of the start at hand, and its radius behind them
	best  []float64
	bestR float64
	ring  []int     // scratch of greedy
	turn  []float64 // and angles or distances of circles from the middle
	pairs [][2]int32
	from  []float64 // where the circles lay when the pairs were listed
	skin  float64   // how much further apart than touching pairs are listed
	lbfgs
}

func newPacker(r []float64) *packer {
	return &packer{r: r, x: make([]float64, 2*len(r)+1), best: make([]float64, 2*len(r)), turn: make([]float64, len(r)), from: make([]float64, 2*len(r)), bestR: math.Inf(1)}
}

// pack fills best and bestR.
func (p *packer) pack(o Options) {
	n := len(p.r)
	switch n {
	case 0:
		p.bestR = 0
		return
	case 1:
		p.bestR = p.r[0]
		return
	case 2:
		p.bestR = p.r[0] + p.r[1]
		p.best[0], p.best[2] = -p.r[1], p.r[0]
		return
	case 3:
		p.three()
		return
	}
	o = o.filled(n)
	p.greedy()
	p.keep()
	for s := range o.Starts {
		prices := []float64{0.1, 0.02, 0.003}
		if s > 0 {
			prices = []float64{0.6, 0.1, 0.02, 0.003}
			p.strew(s)
		}
		p.relax(o.Rounds, prices...)
		p.keep()
	}
	copy(p.x, p.best)
	p.relax(2*o.Rounds, 0.0005)
	p.keep()
}

// filled puts defaults in.
func (o Options) filled(n int) Options {
	switch {
	case o.Starts > 0:
	case n <= 24:
		o.Starts = 8
	case n <= 60:
		o.Starts = 2
	default:
		o.Starts = 1
	}
	if o.Rounds == 0 {
		o.Rounds = 30
	}
	return o
}

// three packs three circles: the two largest side by side where the third fits
// beside them, else all touching, inside the circle that touches all [Soddy1936].
func (p *packer) three() {
	a, b, c := p.r[0], p.r[1], p.r[2]
	k := 1/a + 1/b + 1/c - 2*math.Sqrt(1/(a*b)+1/(b*c)+1/(c*a))
	if k >= 0 || -1/k <= a+b {
		// The third lies beside the two largest, touching both.
		p.bestR = a + b
		p.best[0], p.best[1], p.best[2], p.best[3] = -b, 0, a, 0
		along, off := corner(a+b, a+c, b+c, 1)
		p.best[4], p.best[5] = along-b, off
		return
	}
	R := -1 / k
	// Centres by their distances: |a| = R−a, |b| = R−b, a to b = a+b, and so on.
	p.bestR = R
	p.best[0], p.best[1] = R-a, 0
	p.best[2], p.best[3] = corner(R-a, R-b, a+b, 1)
	p.best[4], p.best[5] = corner(R-a, R-c, a+c, -1)
}

// corner is the third corner of a triangle on the x axis from the origin to
// base, that far from the origin and that far from the base's end.
func corner(base, fromOrigin, fromEnd, side float64) (x, y float64) {
	if base <= 0 {
		return fromOrigin, 0
	}
	x = (base*base + fromOrigin*fromOrigin - fromEnd*fromEnd) / (2 * base)
	return x, side * math.Sqrt(max(fromOrigin*fromOrigin-x*x, 0))
}

// greedy puts each circle where it touches two placed ones and lies nearest
// the middle of what lies there.
func (p *packer) greedy() {
	n := len(p.r)
	x := p.x
	x[0], x[1] = 0, 0
	x[2], x[3] = p.r[0]+p.r[1], 0
	mx, my := p.middle(2)
	for k := 2; k < n; k++ {
		bestD, bx, by := math.Inf(1), 0.0, 0.0
		near, reach := p.outer(k, mx, my)
		for ii, i := range near {
			for jj := range reach {
				j := near[(ii+jj+1)%len(near)]
				for _, side := range [2]float64{1, -1} {
					px, py, ok := p.tangent(i, j, p.r[k], side)
					if !ok {
						continue
					}
					if d := math.Hypot(px-mx, py-my) + p.r[k]; d < bestD && p.free(px, py, p.r[k], k) {
						bestD, bx, by = d, px, py
					}
				}
			}
		}
		x[2*k], x[2*k+1] = bx, by
		mx, my = p.middle(k + 1)
	}
	for i := range n {
		x[2*i] -= mx
		x[2*i+1] -= my
	}
}

// outer returns the placed circles that a new one may touch, and how many that
// follow one may be touched together with it: all of few, else those with room
// outside, by angle, and the next six.
func (p *packer) outer(k int, mx, my float64) (near []int, reach int) {
	const few = 24
	p.ring = p.ring[:0]
	edge := 0.0
	for i := range k {
		p.turn[i] = math.Hypot(p.x[2*i]-mx, p.x[2*i+1]-my) + p.r[i]
		edge = max(edge, p.turn[i])
	}
	for i := range k {
		if k <= few || p.turn[i]+p.r[i]+2*p.r[k] > edge {
			p.ring = append(p.ring, i)
		}
	}
	if k <= few {
		return p.ring, k - 1
	}
	for _, i := range p.ring {
		p.turn[i] = math.Atan2(p.x[2*i+1]-my, p.x[2*i]-mx)
	}
	slices.SortFunc(p.ring, func(i, j int) int {
		return cmp.Or(cmp.Compare(p.turn[i], p.turn[j]), i-j)
	})
	return p.ring, min(6, len(p.ring)-1)
}

// middle is the centre of area of the first k circles.
func (p *packer) middle(k int) (x, y float64) {
	sum := 0.0
	for i := range k {
		a := p.r[i] * p.r[i]
		sum += a
		x += float64(a * p.x[2*i])
		y += float64(a * p.x[2*i+1])
	}
	return x / sum, y / sum
}

// tangent is the place of a circle that touches two others, on one side.
func (p *packer) tangent(i, j int, r, side float64) (x, y float64, ok bool) {
	xi, yi := p.x[2*i], p.x[2*i+1]
	dx, dy := p.x[2*j]-xi, p.x[2*j+1]-yi
	a, b := p.r[i]+r, p.r[j]+r
	d2 := dx*dx + dy*dy
	if d2 == 0 || d2 > (a+b)*(a+b) || d2 < (a-b)*(a-b) {
		return 0, 0, false
	}
	d := math.Sqrt(d2)
	along, off := corner(d, a, b, side)
	return xi + (along*dx-off*dy)/d, yi + (along*dy+off*dx)/d, true
}

// free reports whether a circle overlaps none of the first k.
func (p *packer) free(x, y, r float64, k int) bool {
	for i := range k {
		dx, dy, s := p.x[2*i]-x, p.x[2*i+1]-y, p.r[i]+r
		if dx*dx+dy*dy < s*s*(1-1e-9) {
			return false
		}
	}
	return true
}

// strew throws the circles into a disc smaller than they need, which the price
// of overlap then lets swell.
func (p *packer) strew(start int) {
	rng := rand.New(rand.NewPCG(uint64(len(p.r)), uint64(start)))
	area := 0.0
	for _, r := range p.r {
		area += r * r
	}
	for i := range p.r {
		turn, out := 2*math.Pi*rng.Float64(), math.Sqrt(area*rng.Float64())/2
		p.x[2*i], p.x[2*i+1] = out*math.Cos(turn), out*math.Sin(turn)
	}
}
