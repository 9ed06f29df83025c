package sparse

import "math"

// Panels are dense, by columns. All sums run in the order of the columns, term
// by term and without fusing, so that any way of grouping rows and columns gives
// the same bits.

// strip is how many columns are worked on at once.
const strip = 4

// factorPanel makes L of the lower triangle in a panel of w columns and h rows
// and solves the rows under it. It returns the first column whose pivot is not
// above its limit, or -1.
func factorPanel(p []float64, w, h int, limit []float64) int {
	for j, to := 0, w%strip; j < w; j, to = to, to+strip {
		if j > 0 {
			lessProducts(p[j+j*h:], h, p[j:], h, h-j, j, true)
		}
		if bad := factorStrip(p[j+j*h:], to-j, h, h-j, limit[j:]); bad >= 0 {
			return j + bad
		}
	}
	return -1
}

// factorStrip is factorPanel for at most strip columns, n rows of a panel
// whose columns are h apart.
func factorStrip(p []float64, w, h, n int, limit []float64) int {
	for j := range w {
		col := p[j*h:][:n]
		if !good(col[j], limit[j]) {
			return j
		}
		root := math.Sqrt(col[j])
		col[j] = root
		for i := j + 1; i < w; i++ {
			col[i] /= root
		}
		for k := j + 1; k < w; k++ {
			to := p[k*h:][:w]
			for i := k; i < w; i++ {
				to[i] -= float64(col[i] * col[k])
			}
		}
	}
	switch w {
	case 1:
		solve1(p[:n])
	case 2:
		solve2(p, h, n)
	case 3:
		solve3(p, h, n)
	case strip:
		solve4(p, h, n)
	}
	return -1
}

// solve1 divides the rows under the first by it.
func solve1(a []float64) {
	r := 1 / a[0]
	for i := 1; i < len(a); i++ {
		a[i] *= r
	}
}

// solve2 solves the rows from the third on by the triangle of the first two.
func solve2(p []float64, h, n int) {
	a, b := p[:n], p[h:][:n]
	ra, rb, ba := 1/a[0], 1/b[1], a[1]
	for i := 2; i < n; i++ {
		x := a[i] * ra
		a[i] = x
		b[i] = (b[i] - float64(x*ba)) * rb
	}
}

// solve3 is solve2 for three.
func solve3(p []float64, h, n int) {
	a, b, c := p[:n], p[h:][:n], p[2*h:][:n]
	ra, rb, rc, ba, ca, cb := 1/a[0], 1/b[1], 1/c[2], a[1], a[2], b[2]
	for i := 3; i < n; i++ {
		x := a[i] * ra
		y := (b[i] - float64(x*ba)) * rb
		a[i], b[i] = x, y
		c[i] = (c[i] - float64(x*ca) - float64(y*cb)) * rc
	}
}

// solve4Plain is solve2 for four.
func solve4Plain(p []float64, h, n int) {
	a, b, c, d := p[:n], p[h:][:n], p[2*h:][:n], p[3*h:][:n]
	ra, rb, rc, rd := 1/a[0], 1/b[1], 1/c[2], 1/d[3]
	ba, ca, da, cb, db, dc := a[1], a[2], a[3], b[2], b[3], c[3]
	for i := strip; i < n; i++ {
		x := a[i] * ra
		y := (b[i] - float64(x*ba)) * rb
		z := (c[i] - float64(x*ca) - float64(y*cb)) * rc
		a[i], b[i], c[i] = x, y, z
		d[i] = (d[i] - float64(x*da) - float64(y*db) - float64(z*dc)) * rd
	}
}

// passOn sets the lower triangle of to, n rows, to less than nothing: minus the
// rows of a (w columns, h apart) times themselves.
func passOn(to, a []float64, n, w, h int) {
	if n < strip {
		for j := range n {
			for i := j; i < n; i++ {
				sum := 0.0
				for k := range w {
					sum += float64(a[i+k*h] * a[j+k*h])
				}
				to[i+j*n] = -sum
			}
		}
		return
	}
	for j := 0; ; j += strip {
		j = min(j, n-strip) // the last strip may begin in the one before
		lessProducts(to[j+j*n:], n, a[j:], h, n-j, w, false)
		if j == n-strip {
			return
		}
	}
}

// lessProductsPlain takes from strip columns of c, n rows and apart by cBy, the
// rows of a, w columns apart by aBy, times its first rows: c[i][j] -= Σ a[i][k]
// a[j][k]. Where keep is not said, c is 0 before.
func lessProductsPlain(c []float64, cBy int, a []float64, aBy, n, w int, keep bool) {
	c0, c1, c2, c3 := c[:n], c[cBy:][:n], c[2*cBy:][:n], c[3*cBy:][:n]
	if !keep {
		clear(c0)
		clear(c1)
		clear(c2)
		clear(c3)
	}
	i := 0
	for ; i+1 < n; i += 2 {
		var p0, p1, p2, p3, q0, q1, q2, q3 float64
		for k := 0; k < w*aBy; k += aBy {
			b := a[k : k+strip : k+strip]
			x, y := a[k+i], a[k+i+1]
			p0 += float64(x * b[0])
			p1 += float64(x * b[1])
			p2 += float64(x * b[2])
			p3 += float64(x * b[3])
			q0 += float64(y * b[0])
			q1 += float64(y * b[1])
			q2 += float64(y * b[2])
			q3 += float64(y * b[3])
		}
		c0[i], c1[i], c2[i], c3[i] = c0[i]-p0, c1[i]-p1, c2[i]-p2, c3[i]-p3
		c0[i+1], c1[i+1], c2[i+1], c3[i+1] = c0[i+1]-q0, c1[i+1]-q1, c2[i+1]-q2, c3[i+1]-q3
	}
	for ; i < n; i++ {
		var p0, p1, p2, p3 float64
		for k := 0; k < w*aBy; k += aBy {
			b := a[k : k+strip : k+strip]
			x := a[k+i]
			p0 += float64(x * b[0])
			p1 += float64(x * b[1])
			p2 += float64(x * b[2])
			p3 += float64(x * b[3])
		}
		c0[i], c1[i], c2[i], c3[i] = c0[i]-p0, c1[i]-p1, c2[i]-p2, c3[i]-p3
	}
}
