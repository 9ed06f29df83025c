package colour

// matrix turns three numbers of a colour into three others, row by row.
type matrix [3][3]float64

func (m *matrix) at(x, y, z float64) (float64, float64, float64) {
	return m[0][0]*x + m[0][1]*y + m[0][2]*z,
		m[1][0]*x + m[1][1]*y + m[1][2]*z,
		m[2][0]*x + m[2][1]*y + m[2][2]*z
}

// of returns the matrix that does n first and then m.
func (m matrix) of(n matrix) matrix {
	var p matrix
	for j := range 3 {
		p[0][j], p[1][j], p[2][j] = m.at(n[0][j], n[1][j], n[2][j])
	}
	return p
}

// inverse returns the matrix that undoes m, by cofactors.
func (m matrix) inverse() matrix {
	var c matrix
	for i := range 3 {
		for j := range 3 {
			a, b, p, q := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
			c[j][i] = m[a][p]*m[b][q] - m[a][q]*m[b][p]
		}
	}
	det := m[0][0]*c[0][0] + m[0][1]*c[1][0] + m[0][2]*c[2][0]
	for i := range 3 {
		for j := range 3 {
			c[i][j] /= det
		}
	}
	return c
}

// scale returns the matrix that multiplies each number by its own factor.
func scale(x, y, z float64) matrix { return matrix{{x}, {0, y}, {0, 0, z}} }
