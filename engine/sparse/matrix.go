package sparse

// Matrix is a symmetric matrix by its lower triangle in compressed columns:
// rows of column j are Row[Start[j]:Start[j+1]], ascending, the diagonal first
// and always there; Value stands beside Row.
type Matrix struct {
	N     int
	Start []int32
	Row   []int32
	Value []float64
}
