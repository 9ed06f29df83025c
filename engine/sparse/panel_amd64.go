package sparse

import "golang.org/x/sys/cpu"

//go:noescape
func lessProductsAVX(c *float64, cBy int, a *float64, aBy, n, w int, keep bool)

//go:noescape
func solve4AVX(p *float64, h, n int, by *[10]float64)

// lessProducts is lessProductsPlain, eight rows at once where the processor has
// the registers. There are strip rows at least, and one column.
func lessProducts(c []float64, cBy int, a []float64, aBy, n, w int, keep bool) {
	if !cpu.X86.HasAVX {
		lessProductsPlain(c, cBy, a, aBy, n, w, keep)
		return
	}
	_, _ = c[3*cBy+n-1], a[(w-1)*aBy+n-1]
	lessProductsAVX(&c[0], cBy, &a[0], aBy, n, w, keep)
}

// solve4 is solve4Plain, four rows at once.
func solve4(p []float64, h, n int) {
	if !cpu.X86.HasAVX || n == strip {
		solve4Plain(p, h, n)
		return
	}
	a, b, c, d := p[:n], p[h:][:n], p[2*h:][:n], p[3*h:][:n]
	solve4AVX(&a[strip], h, n-strip, &[10]float64{1 / a[0], 1 / b[1], 1 / c[2], 1 / d[3], a[1], a[2], a[3], b[2], b[3], c[3]})
}
