package circles

import (
	"math"
	"math/rand/v2"
)

// packer works on circles sorted by size, largest first. Coordinates lie as
// x0, y0, x1, y1, …
type packer struct {
	r     []float64
	x     []float64 // of the start at hand, and its radius behind them
	best  []float64
	bestR float64
	pairs [][2]int32
	from  []float64 // where the circles lay when the pairs were listed
	skin  float64   // how much further apart than touching pairs are listed
	lbfgs
}

func newPacker(r []float64) *packer {
	return &packer{r: r, x: make([]float64, 2*len(r)+1), best: make([]float64, 2*len(r)), from: make([]float64, 2*len(r)), bestR: math.Inf(1)}
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
	o = o.filled(p.r)
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
	p.hop(o)
	copy(p.x, p.best)
	p.relax(o.Rounds, 0.0005)
	p.keep()
}

// hop takes the best so far and lets two circles of different sizes change
// places, or throws one elsewhere, then relaxes again: what unlike circles need,
// whose packings have many bottoms.
func (p *packer) hop(o Options) {
	n := len(p.r)
	rng := rand.New(rand.NewPCG(uint64(n), 1<<32))
	for k := range o.Hops {
		copy(p.x, p.best)
		i, j := rng.IntN(n), rng.IntN(n)
		if k%3 > 0 && p.r[i] != p.r[j] {
			p.x[2*i], p.x[2*j] = p.x[2*j], p.x[2*i]
			p.x[2*i+1], p.x[2*j+1] = p.x[2*j+1], p.x[2*i+1]
		} else {
			turn, out := 2*math.Pi*rng.Float64(), p.bestR*math.Sqrt(rng.Float64())
			p.x[2*i], p.x[2*i+1] = out*math.Cos(turn), out*math.Sin(turn)
		}
		p.relax(o.Rounds, 0.02, 0.003)
		p.keep()
	}
}

// filled puts defaults in. Equal circles have the best packings that a single
// start misses; with unlike ones a second start gains less than 1 %.
func (o Options) filled(r []float64) Options {
	n := len(r)
	switch {
	case o.Starts > 0:
	case n <= 24 && r[0] == r[n-1]:
		o.Starts = 8
	case n <= 12:
		o.Starts = 2
	default:
		o.Starts = 1
	}
	if o.Rounds == 0 {
		o.Rounds = 30
	}
	switch {
	case o.Hops < 0 || r[0] == r[n-1] && o.Hops == 0:
		o.Hops = 0
	case o.Hops > 0:
	case n <= 12:
		o.Hops = 12
	case n <= 24:
		o.Hops = 8
	}
	return o
}

// three packs three circles: the two largest side by side where the third fits
// between them and the circle round them, that is where c ≤ ab(a+b)÷(a²+ab+b²);
// else all touching, inside the circle that touches all [Soddy1936].
func (p *packer) three() {
	a, b, c := p.r[0], p.r[1], p.r[2]
	if c <= a*b*(a+b)/(float64(a*a)+float64(a*b)+float64(b*b)) {
		// The third lies beside the two largest, touching both.
		p.bestR = a + b
		p.best[0], p.best[1], p.best[2], p.best[3] = -b, 0, a, 0
		along, off := corner(a+b, a+c, b+c, 1)
		p.best[4], p.best[5] = along-b, off
		return
	}
	k := 1/a + 1/b + 1/c - 2*math.Sqrt(1/(a*b)+1/(b*c)+1/(c*a))
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
	x = (float64(base*base) + float64(fromOrigin*fromOrigin) - float64(fromEnd*fromEnd)) / (2 * base)
	return x, side * math.Sqrt(max(float64(fromOrigin*fromOrigin)-float64(x*x), 0))
}

// strew throws the circles into a disc smaller than they need, which the price
// of overlap then lets swell.
func (p *packer) strew(start int) {
	rng := rand.New(rand.NewPCG(uint64(len(p.r)), uint64(start)))
	area := 0.0
	for _, r := range p.r {
		area += float64(r * r)
	}
	for i := range p.r {
		turn, out := 2*math.Pi*rng.Float64(), math.Sqrt(area*rng.Float64())/2
		p.x[2*i], p.x[2*i+1] = out*math.Cos(turn), out*math.Sin(turn)
	}
}
