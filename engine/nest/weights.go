package nest

// Guided weights [Gardeyn2025], one per pair: those in each other's way weigh
// more after each round, by the share their loss has in the largest; the
// others forget slowly.
const (
	weightLeast  = 1.2 // what a colliding pair's weight is multiplied by, at least
	weightMost   = 2.0 // and at most
	weightForget = 0.95
)

// learn changes the weights after a round.
func (l *layout) learn() {
	most := 0.0
	for _, list := range [2][]float64{l.loss, l.out} {
		for _, v := range list {
			most = max(most, v)
		}
	}
	grow(l.weight, l.loss, most)
	grow(l.pull, l.out, most)
}

// grow changes the weights that belong to some losses; most is the largest
// loss anywhere.
func grow(weights, losses []float64, most float64) {
	for i, v := range losses {
		if v > 0 {
			weights[i] *= weightLeast + float64((weightMost-weightLeast)*(v/most))
		} else {
			weights[i] = max(1, weights[i]*weightForget)
		}
	}
}

// forget makes all weigh the same.
func (l *layout) forget() {
	for _, list := range [2][]float64{l.weight, l.pull} {
		for i := range list {
			list[i] = 1
		}
	}
}
