package circles

import "math"

// seats are places where a circle touches two placed ones and overlaps none.
type seats struct {
	r    float64      // the radius that they were found for; smaller circles fit too
	at   [][2]float64 // in the order found
	near []int        // scratch
}

// greedy puts the circles one by one, the largest first, on the seat nearest
// the middle of what lies there. Seats are found anew where a circle is placed,
// and everywhere when circles have become a tenth smaller.
func (p *packer) greedy() {
	n, x := len(p.r), p.x
	x[0], x[1] = 0, 0
	x[2], x[3] = p.r[0]+p.r[1], 0
	var s seats
	area, mx, my := float64(p.r[0]*p.r[0])+float64(p.r[1]*p.r[1]), x[2]*p.r[1]*p.r[1], 0.0
	for k := 2; k < n; k++ {
		r := p.r[k]
		if k == 2 || r < 0.9*s.r {
			s.r, s.at = r, s.at[:0]
			for i := range k {
				p.seek(&s, i, k, i)
			}
		}
		x[2*k], x[2*k+1] = p.take(&s, k, mx/area, my/area)
		area += float64(r * r)
		mx += float64(r * r * x[2*k])
		my += float64(r * r * x[2*k+1])
		p.seek(&s, k, k+1, k)
	}
	for i := range n {
		x[2*i] -= mx / area
		x[2*i+1] -= my / area
	}
}

// take returns the seat nearest the middle for circle k, and drops all that it
// covers. A circle that finds none is put beside all others.
func (p *packer) take(s *seats, k int, mx, my float64) (x, y float64) {
	best := math.Inf(1)
	for _, c := range s.at {
		if d := float64((c[0]-mx)*(c[0]-mx)) + float64((c[1]-my)*(c[1]-my)); d < best {
			best, x, y = d, c[0], c[1]
		}
	}
	if len(s.at) == 0 {
		for i := range k {
			x = max(x, p.x[2*i]+p.r[i]+p.r[k])
		}
		return x, 0
	}
	kept, reach := s.at[:0], (p.r[k]+s.r)*(p.r[k]+s.r)*(1-1e-9)
	for _, c := range s.at {
		if float64((c[0]-x)*(c[0]-x))+float64((c[1]-y)*(c[1]-y)) >= reach {
			kept = append(kept, c)
		}
	}
	s.at = kept
	return x, y
}

// seek adds the seats between circle i and each of the first `before` others;
// what can be in their way is one of the first k that lie near i.
func (p *packer) seek(s *seats, i, k, before int) {
	s.near = s.near[:0]
	for j := range k {
		dx, dy, reach := p.x[2*j]-p.x[2*i], p.x[2*j+1]-p.x[2*i+1], p.r[i]+p.r[j]+2*s.r
		if j != i && float64(dx*dx)+float64(dy*dy) <= reach*reach {
			s.near = append(s.near, j)
		}
	}
	for _, j := range s.near {
		if j >= before {
			break
		}
		for _, side := range [2]float64{1, -1} {
			if x, y, ok := p.tangent(i, j, s.r, side); ok && p.free(x, y, s.r, s.near, i, j) {
				s.at = append(s.at, [2]float64{x, y})
			}
		}
	}
}

// tangent is the place of a circle that touches two others, on one side.
func (p *packer) tangent(i, j int, r, side float64) (x, y float64, ok bool) {
	xi, yi := p.x[2*i], p.x[2*i+1]
	dx, dy := p.x[2*j]-xi, p.x[2*j+1]-yi
	a, b := p.r[i]+r, p.r[j]+r
	d2 := float64(dx*dx) + float64(dy*dy)
	if d2 == 0 || d2 > (a+b)*(a+b) || d2 < (a-b)*(a-b) {
		return 0, 0, false
	}
	d := math.Sqrt(d2)
	along, off := corner(d, a, b, side)
	return xi + (float64(along*dx)-float64(off*dy))/d, yi + (float64(along*dy)+float64(off*dx))/d, true
}

// free reports whether a circle overlaps none of those near, but the two that
// it touches.
func (p *packer) free(x, y, r float64, near []int, i, j int) bool {
	for _, k := range near {
		dx, dy, s := p.x[2*k]-x, p.x[2*k+1]-y, p.r[k]+r
		if k != i && k != j && float64(dx*dx)+float64(dy*dy) < s*s*(1-1e-9) {
			return false
		}
	}
	return true
}
