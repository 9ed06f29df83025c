package flatten

import (
	"math"

	"fettle/geom"
	"fettle/geom/mesh"
)

// strain is a symmetric 2×2 matrix: log strain from flat to formed, x along
// the material, y across.
type strain struct{ xx, yy, xy float64 }

// extremes returns both eigenvalues, the lesser first.
func (s strain) extremes() (low, high float64) {
	mid, half := (s.xx+s.yy)/2, math.Hypot((s.xx-s.yy)/2, s.xy)
	return mid - half, mid + half
}

// angle returns the direction of the greater eigenvalue, radians from x.
func (s strain) angle() float64 { return math.Atan2(2*s.xy, s.xx-s.yy) / 2 }

// in returns the matrix in axes turned by the angle of cosine c and sine d.
func (s strain) in(c, d float64) strain {
	cc, dd, cd := float64(c*c), float64(d*d), float64(c*d)
	return strain{
		xx: float64(cc*s.xx) + float64(dd*s.yy) + float64(2*cd*s.xy),
		yy: float64(dd*s.xx) + float64(cc*s.yy) - float64(2*cd*s.xy),
		xy: float64(cd*(s.yy-s.xx)) + float64((cc-dd)*s.xy),
	}
}

// positive returns the part of s with its negative eigenvalues left out, and
// how that part moves with s, by the components xx, yy, xy of both.
func (s strain) positive() (strain, [3][3]float64) {
	low, high := s.extremes()
	switch {
	case low >= 0:
		return s, [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	case high <= 0:
		return strain{}, [3][3]float64{}
	}
	d, c := math.Sincos(s.angle())
	part := strain{xx: high}.in(c, -d)
	share := high / (high - low) // of a shear between the eigenvectors
	to, back := turning(c, d), turning(c, -d)
	var out [3][3]float64
	for i := range 3 {
		for j := range 3 {
			out[i][j] = float64(back[i][0]*to[0][j]) + float64(share*float64(back[i][2]*to[2][j]))
		}
	}
	return part, out
}

// turning returns strain.in as a matrix on the components xx, yy, xy.
func turning(c, d float64) [3][3]float64 {
	cc, dd, cd := float64(c*c), float64(d*d), float64(c*d)
	return [3][3]float64{{cc, dd, 2 * cd}, {dd, cc, -2 * cd}, {-cd, cd, cc - dd}}
}

// metric is what a face of the surface is in its own plane: the squares of two
// edges and their product, which no turning changes.
type metric struct{ uu, vv, uv float64 }

// metricOf returns the metric of a face from its corners in space.
func metricOf(a, b, c mesh.Vec) metric {
	u, v := b.Sub(a), c.Sub(a)
	return metric{u.Dot(u), v.Dot(v), u.Dot(v)}
}

// area returns the face's area.
func (m metric) area() float64 {
	return math.Sqrt(max(0, float64(m.uu*m.vv)-float64(m.uv*m.uv))) / 2
}

// stretching is a flat face brought onto its surface: C = FᵀF by its
// eigenvalues, the greater first, and their axes; and the gradients of the
// corners' hat functions in these axes.
type stretching struct {
	c1, c2   float64
	cos, sin float64
	grad     [3][2]float64
}

// stretched returns how the flat face p, q, r is stretched onto the surface;
// false where the flat face is turned over or has no area.
func (m metric) stretched(p, q, r geom.Point) (stretching, bool) {
	ux, uy, vx, vy := q.X-p.X, q.Y-p.Y, r.X-p.X, r.Y-p.Y
	det := float64(ux*vy) - float64(uy*vx)
	if !(det > 0) {
		return stretching{}, false
	}
	// Rows of the inverse of [u v]: the gradients of q's and r's functions.
	gq, gr := [2]float64{vy / det, -vx / det}, [2]float64{-uy / det, ux / det}
	pair := func(i, j int) float64 {
		return float64(m.uu*float64(gq[i]*gq[j])) + float64(m.vv*float64(gr[i]*gr[j])) +
			float64(m.uv*(float64(gq[i]*gr[j])+float64(gr[i]*gq[j])))
	}
	c := strain{pair(0, 0), pair(1, 1), pair(0, 1)}
	s := stretching{}
	s.c2, s.c1 = c.extremes()
	if !(s.c2 > 0) || math.IsInf(s.c1, 1) {
		return s, false
	}
	s.sin, s.cos = math.Sincos(c.angle())
	for i, g := range [3][2]float64{{-gq[0] - gr[0], -gq[1] - gr[1]}, gq, gr} {
		s.grad[i] = s.into(g)
	}
	return s, true
}

// into returns a vector of the plane in the axes of s.
func (s stretching) into(v [2]float64) [2]float64 {
	return [2]float64{float64(s.cos*v[0]) + float64(s.sin*v[1]), float64(s.cos*v[1]) - float64(s.sin*v[0])}
}

// log returns the log strain.
func (s stretching) log() strain {
	return strain{xx: math.Log(s.c1) / 2, yy: math.Log(s.c2) / 2}.in(s.cos, -s.sin)
}

// moves returns how the log strain, in the axes of s, follows the flat corners:
// rows xx, yy, xy; columns x and y of each corner in the plane's own axes.
//
// With M the gradient of the corners' movement, dC = −(MᵀC + C M), and a
// function of C moves by its divided differences in C's axes.
func (s stretching) moves() [3][6]float64 {
	slope := 1 / s.c1 // of the logarithm between both eigenvalues
	if d := (s.c1 - s.c2) / s.c2; d > 1e-6 {
		slope = math.Log1p(d) / (s.c1 - s.c2)
	}
	a, b := slope*s.c1/2, slope*s.c2/2
	var out [3][6]float64
	for k, g := range s.grad {
		rows := [3][2]float64{{-g[0], 0}, {0, -g[1]}, {-float64(a * g[1]), -float64(b * g[0])}}
		for i, w := range rows { // back to the plane's axes
			out[i][2*k] = float64(w[0]*s.cos) - float64(w[1]*s.sin)
			out[i][2*k+1] = float64(w[0]*s.sin) + float64(w[1]*s.cos)
		}
	}
	return out
}
