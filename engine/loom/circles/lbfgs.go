package circles

// memory is how many steps the quasi-Newton method remembers.
const memory = 6

// lbfgs is the scratch of the quasi-Newton method.
type lbfgs struct {
	grad, next, slope, dir []float64
	s, y                   [memory][]float64
	rho                    [memory]float64
}

// minimise lowers f from x, in at most so many steps.
func (l *lbfgs) minimise(x []float64, rounds int, f func(x, grad []float64) float64) {
	n := len(x)
	if len(l.grad) != n {
		l.grad, l.next, l.slope, l.dir = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		for k := range memory {
			l.s[k], l.y[k] = make([]float64, n), make([]float64, n)
		}
	}
	e := f(x, l.grad)
	for k, kept := 0, 0; k < rounds; k++ {
		l.direction(kept, k)
		down := dot(l.dir, l.grad)
		if down >= 0 {
			kept = 0
			for i, g := range l.grad {
				l.dir[i] = -g
			}
			down = -dot(l.grad, l.grad)
		}
		if down > -1e-22 {
			return
		}
		step, took := 1.0, false
		if kept == 0 {
			step = 0.25
		}
		for range 12 {
			for i := range x {
				l.next[i] = x[i] + float64(step*l.dir[i])
			}
			if en := f(l.next, l.slope); en <= e+float64(1e-4*step*down) {
				took = true
				e = en
				break
			}
			step *= 0.5
		}
		if !took {
			return
		}
		kept = l.learn(x, k, kept)
	}
}

// learn remembers the step from x to next, and takes it.
func (l *lbfgs) learn(x []float64, k, kept int) int {
	s, y := l.s[k%memory], l.y[k%memory]
	for i := range x {
		s[i], y[i] = l.next[i]-x[i], l.slope[i]-l.grad[i]
	}
	copy(x, l.next)
	copy(l.grad, l.slope)
	sy := dot(s, y)
	if sy <= 1e-10*dot(y, y) {
		return 0
	}
	l.rho[k%memory] = 1 / sy
	return min(kept+1, memory)
}

// direction is minus the slope, bent by what the remembered steps tell of the
// curvature: the two-loop recursion.
func (l *lbfgs) direction(kept, k int) {
	for i, g := range l.grad {
		l.dir[i] = -g
	}
	if kept == 0 {
		return
	}
	var alpha [memory]float64
	for j := 1; j <= kept; j++ {
		m := (k - j) % memory
		alpha[m] = l.rho[m] * dot(l.s[m], l.dir)
		add(l.dir, l.y[m], -alpha[m])
	}
	last := (k - 1) % memory
	scale := 1 / (l.rho[last] * dot(l.y[last], l.y[last]))
	for i := range l.dir {
		l.dir[i] *= scale
	}
	for j := kept; j >= 1; j-- {
		m := (k - j) % memory
		add(l.dir, l.s[m], alpha[m]-float64(l.rho[m]*dot(l.y[m], l.dir)))
	}
}

// dot sums in four parts side by side, so that no sum waits for the one before.
func dot(a, b []float64) float64 {
	var s0, s1, s2, s3 float64
	for len(a) >= 4 && len(b) >= 4 {
		s0 += float64(a[0] * b[0])
		s1 += float64(a[1] * b[1])
		s2 += float64(a[2] * b[2])
		s3 += float64(a[3] * b[3])
		a, b = a[4:], b[4:]
	}
	for i := range a {
		s0 += float64(a[i] * b[i])
	}
	return (s0 + s1) + (s2 + s3)
}

func add(a, b []float64, f float64) {
	for i := range a {
		a[i] += float64(f * b[i])
	}
}
