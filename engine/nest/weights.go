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
	for _, v := range l.loss {
		most = max(most, v)
	}
	for i, v := range l.loss {
		if v > 0 {
			l.weight[i] *= weightLeast + float64((weightMost-weightLeast)*(v/most))
		} else {
			l.weight[i] = max(1, l.weight[i]*weightForget)
		}
	}
}

// forget makes all pairs weigh the same.
func (l *layout) forget() {
	for i := range l.weight {
		l.weight[i] = 1
	}
}
