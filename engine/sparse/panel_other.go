//go:build !amd64

package sparse

func lessProducts(c []float64, cBy int, a []float64, aBy, n, w int, keep bool) {
	lessProductsPlain(c, cBy, a, aBy, n, w, keep)
}

func solve4(p []float64, h, n int) { solve4Plain(p, h, n) }
