package sparse

// Solve sets x to the solution of A x = b. x and b may be one slice.
func (f *Factor) Solve(x, b []float64) { f.SolveMany([][]float64{x}, [][]float64{b}) }

// SolveMany is Solve for several right sides, which go through the factor
// together.
func (f *Factor) SolveMany(x, b [][]float64) {
	tall := 0
	for k := range f.height {
		tall = max(tall, f.beyond(int32(k)))
	}
	if need := tall + len(b)*f.n; len(f.spare) < need {
		f.spare = make([]float64, need)
	}
	spare := f.spare[:tall]
	y := make([][]float64, len(b))
	for r := range b {
		y[r] = f.spare[tall+r*f.n:][:f.n]
		for k, i := range f.perm {
			y[r][k] = b[r][i]
		}
	}
	for k := range int32(len(f.height)) {
		for _, v := range y {
			f.forward(k, v, spare)
		}
	}
	for k := int32(len(f.height)) - 1; k >= 0; k-- {
		for _, v := range y {
			f.back(k, v, spare)
		}
	}
	for r := range x {
		for k, i := range f.perm {
			x[r][i] = y[r][k]
		}
	}
}

// forward solves L y = y by one block.
func (f *Factor) forward(k int32, y, spare []float64) {
	w, h := int(f.first[k+1]-f.first[k]), int(f.height[k])
	panel, own := f.panels[f.panelAt[k]:f.panelAt[k+1]], y[f.first[k]:f.first[k+1]]
	rows := f.rows[f.rowsAt[k]:f.rowsAt[k+1]]
	for j := range w {
		col := panel[j*h:][:w]
		v := own[j] / col[j]
		own[j] = v
		for i := j + 1; i < w; i++ {
			own[i] -= float64(col[i] * v)
		}
	}
	sum := spare[:len(rows)]
	clear(sum)
	under := panel[w:]
	for ; len(own) >= strip; own, under = own[strip:], under[min(strip*h, len(under)):] {
		addProducts4(sum, under, h, own)
	}
	for j, v := range own {
		for i, l := range under[j*h:][:len(sum)] {
			sum[i] += float64(l * v)
		}
	}
	for i, row := range rows {
		y[row] -= sum[i]
	}
}

// addProducts4 adds to sum the first four columns of a, h apart, times v.
func addProducts4(sum, a []float64, h int, v []float64) {
	n := len(sum)
	p, q, r, s := a[:n], a[h:][:n], a[2*h:][:n], a[3*h:][:n]
	vp, vq, vr, vs := v[0], v[1], v[2], v[3]
	for i, t := range sum {
		sum[i] = t + float64(p[i]*vp) + float64(q[i]*vq) + float64(r[i]*vr) + float64(s[i]*vs)
	}
}

// back solves Lᵀ y = y by one block.
func (f *Factor) back(k int32, y, spare []float64) {
	w, h := int(f.first[k+1]-f.first[k]), int(f.height[k])
	panel, own := f.panels[f.panelAt[k]:f.panelAt[k+1]], y[f.first[k]:f.first[k+1]]
	rows := f.rows[f.rowsAt[k]:f.rowsAt[k+1]]
	known := spare[:len(rows)]
	for i, row := range rows {
		known[i] = y[row]
	}
	j := 0
	for ; j+strip <= w; j += strip {
		lessSums4(own[j:], panel[j*h+w:], h, known)
	}
	for ; j < w; j++ {
		v := own[j]
		for i, l := range panel[j*h+w:][:len(known)] {
			v -= float64(l * known[i])
		}
		own[j] = v
	}
	for j := w - 1; j >= 0; j-- {
		col := panel[j*h:][:w]
		v := own[j]
		for i := j + 1; i < w; i++ {
			v -= float64(col[i] * own[i])
		}
		own[j] = v / col[j]
	}
}

// lessSums4 takes from v the first four columns of a, h apart, times known.
func lessSums4(v, a []float64, h int, known []float64) {
	n := len(known)
	p, q, r, s := a[:n], a[h:][:n], a[2*h:][:n], a[3*h:][:n]
	vp, vq, vr, vs := v[0], v[1], v[2], v[3]
	for i, x := range known {
		vp -= float64(p[i] * x)
		vq -= float64(q[i] * x)
		vr -= float64(r[i] * x)
		vs -= float64(s[i] * x)
	}
	v[0], v[1], v[2], v[3] = vp, vq, vr, vs
}

// Refine makes x, about the solution of A x = b, better by one more solve with
// what is left of b. It returns the most that was left in size, before.
func (f *Factor) Refine(m *Matrix, x, b []float64) float64 {
	left := make([]float64, f.n)
	m.Mul(left, x)
	most := 0.0
	for i := range left {
		left[i] = b[i] - left[i]
		most = max(most, left[i], -left[i])
	}
	f.Solve(left, left)
	for i := range left {
		x[i] += left[i]
	}
	return most
}
