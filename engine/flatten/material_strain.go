package flatten

import "math"

// strain is a symmetric 2×2 matrix: log strain from flat to formed, x along
// the material, y across.
type strain struct{ xx, yy, xy float64 }

// extremes returns both eigenvalues, the lesser first.
func (s strain) extremes() (low, high float64) {
	mid, half := (s.xx+s.yy)/2, math.Hypot((s.xx-s.yy)/2, s.xy)
	return mid - half, mid + half
}

// axes are two directions at a right angle, kept as cosine and sine of twice
// the angle from x to the first: all that a symmetric matrix needs to be turned.
type axes struct{ cos2, sin2 float64 }

// axes returns those of the eigenvalues, the greater first.
func (s strain) axes() axes {
	half := math.Hypot((s.xx-s.yy)/2, s.xy)
	if half == 0 {
		return axes{cos2: 1}
	}
	return axes{(s.xx - s.yy) / 2 / half, s.xy / half}
}

// angle returns the direction of the first axis, radians from x.
func (a axes) angle() float64 { return math.Atan2(a.sin2, a.cos2) / 2 }

// back returns the axes in which x is what it was before a turn into a.
func (a axes) back() axes { return axes{a.cos2, -a.sin2} }

// turning returns, by the components xx, yy, xy, how a symmetric matrix goes
// over into the axes.
func (a axes) turning() [3][3]float64 {
	cc, dd, cd := (1+a.cos2)/2, (1-a.cos2)/2, a.sin2/2
	return [3][3]float64{{cc, dd, a.sin2}, {dd, cc, -a.sin2}, {-cd, cd, a.cos2}}
}

// in returns the matrix in the axes.
func (s strain) in(a axes) strain {
	mid, half := (s.xx+s.yy)/2, (s.xx-s.yy)/2
	off := float64(a.cos2*half) + float64(a.sin2*s.xy)
	return strain{mid + off, mid - off, float64(a.cos2*s.xy) - float64(a.sin2*half)}
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
	a := s.axes()
	part := strain{xx: high}.in(a.back())
	share := high / (high - low) // of a shear between the eigenvectors
	to, back := a.turning(), a.back().turning()
	var out [3][3]float64
	for i := range 3 {
		for j := range 3 {
			out[i][j] = float64(back[i][0]*to[0][j]) + float64(share*float64(back[i][2]*to[2][j]))
		}
	}
	return part, out
}

// stretching is a face of the pattern brought onto its surface, by its
// principal stretches: their squares, the greater first, and their axes in the
// pattern.
type stretching struct {
	c1, c2 float64
	axes   axes
}

// stretching returns what mounting does to a face, J being how the surface was
// laid flat: C = FᵀF = (J Jᵀ)⁻¹ with F from flat to surface.
func (j jacobian) stretching() stretching {
	b := strain{
		xx: float64(j.XX*j.XX) + float64(j.XY*j.XY),
		yy: float64(j.YX*j.YX) + float64(j.YY*j.YY),
		xy: float64(j.XX*j.YX) + float64(j.XY*j.YY),
	}
	_, high := b.extremes()
	low := float64(j.det()*j.det()) / high // without the loss of a difference
	a := b.axes()
	return stretching{c1: 1 / low, c2: 1 / high, axes: axes{-a.cos2, -a.sin2}}
}

// log returns the log strain, x along the material.
func (s stretching) log() strain {
	return strain{xx: math.Log(s.c1) / 2, yy: math.Log(s.c2) / 2}.in(s.axes.back())
}

// moves returns how the log strain follows J: rows xx, yy, xy; columns by the
// order of slope.
//
// With M = dJ J⁻¹, dC = −(MᵀC + C M); in C's axes a function of C moves by its
// divided differences.
func (s stretching) moves(j jacobian) [3][4]float64 {
	between := 1 / s.c1 // slope of the logarithm between both eigenvalues
	if d := (s.c1 - s.c2) / s.c2; d > 1e-6 {
		between = math.Log1p(d) / (s.c1 - s.c2)
	}
	a, b := between*s.c1/2, between*s.c2/2
	angle := s.axes.angle()
	sin, cos := math.Sincos(angle)
	det := j.det()
	back := s.axes.back().turning()
	var out [3][4]float64
	for k, g := range [2][2]float64{{j.YY / det, -j.XY / det}, {-j.YX / det, j.XX / det}} { // rows of J⁻¹
		gx, gy := float64(cos*g[0])+float64(sin*g[1]), float64(cos*g[1])-float64(sin*g[0])
		rows := [3][2]float64{{-gx, 0}, {0, -gy}, {-float64(a * gy), -float64(b * gx)}}
		for i := range 3 {
			var u, v float64
			for m := range 3 {
				u, v = u+float64(back[i][m]*rows[m][0]), v+float64(back[i][m]*rows[m][1])
			}
			out[i][k] = float64(u*cos) - float64(v*sin)
			out[i][2+k] = float64(u*sin) + float64(v*cos)
		}
	}
	return out
}
