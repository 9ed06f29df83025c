package loom

// pulls are the least newtons of a crimp by mm², the commercial column of a
// terminal maker's table (AWG 22 to 2/0).
var pulls = [][2]float64{{0.326, 35.6}, {0.518, 57.9}, {0.823, 89}, {1.31, 133.5}, {2.08, 222.5}, {3.31, 311.5}, {5.26, 356}, {8.37, 400.5}, {13.3, 445}, {21.2, 623}, {33.6, 801}, {53.5, 1112.5}, {67.4, 1235}}

// LeastPull returns the newtons that a crimp on a section in mm² must hold, on
// straight lines between the sizes of the table.
func LeastPull(mm2 float64) float64 {
	for i, x := range pulls {
		if mm2 > x[0] {
			continue
		}
		if i == 0 {
			return x[1] * mm2 / x[0]
		}
		w := pulls[i-1]
		return w[1] + (x[1]-w[1])*(mm2-w[0])/(x[0]-w[0])
	}
	return pulls[len(pulls)-1][1]
}
