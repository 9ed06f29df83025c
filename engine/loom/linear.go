package loom

import (
	"math"

	"fettle/engine/sparse"
	"fettle/fault"
)

// fewNodes is how many nodes are solved as a full matrix; above, most places
// are zero and the order of elimination is worth its while.
const fewNodes = 24

// linear solves G v = i for conductances on the branches of one net. The
// pattern is that of all branches, open ones holding zero, so it is ordered once.
type linear struct {
	n       int
	ends    [][2]int32
	dense   []float64 // rows of the lower triangle, when n is small
	m       *sparse.Matrix
	slots   []int32 // of n diagonals, then one a branch
	factor  *sparse.Factor
	symbol  *sparse.Symbolic
	factors int
}

func newLinear(n *net) (*linear, error) {
	l := &linear{n: len(n.names), ends: make([][2]int32, len(n.branches))}
	for i := range n.branches {
		l.ends[i] = [2]int32{n.branches[i].a, n.branches[i].b}
	}
	if l.n <= fewNodes {
		l.dense = make([]float64, l.n*l.n)
		return l, nil
	}
	entries := make([]sparse.Entry, 0, l.n+len(l.ends))
	for i := range l.n {
		entries = append(entries, sparse.Entry{Row: int32(i), Col: int32(i), Value: 1})
	}
	for _, e := range l.ends {
		entries = append(entries, sparse.Entry{Row: max(e[0], e[1]), Col: min(e[0], e[1])})
	}
	var err error
	if l.m, l.slots, err = sparse.AssembleSlots(l.n, entries); err != nil {
		return nil, err
	}
	l.symbol, err = sparse.Analyse(l.m)
	return l, err
}

// refactor takes the conductance in siemens of every branch, and the nodes that
// are held at 0 V, one in every part of the net that hangs together.
func (l *linear) refactor(siemens []float64, held []int32) error {
	l.factors++
	if l.dense != nil {
		return l.refactorDense(siemens, held)
	}
	clear(l.m.Value)
	for k, e := range l.ends {
		g := siemens[k]
		if g == 0 || e[0] == e[1] {
			continue
		}
		l.m.Value[l.slots[e[0]]] += g
		l.m.Value[l.slots[e[1]]] += g
		l.m.Value[l.slots[l.n+k]] -= g
	}
	for _, i := range held {
		l.m.Value[l.slots[i]]++
	}
	if l.factor == nil {
		var err error
		l.factor, err = l.symbol.Factor(l.m)
		return err
	}
	return l.factor.Refactor(l.m)
}

func (l *linear) refactorDense(siemens []float64, held []int32) error {
	n, a := l.n, l.dense
	clear(a)
	for k, e := range l.ends {
		g := siemens[k]
		if g == 0 || e[0] == e[1] {
			continue
		}
		a[int(e[0])*n+int(e[0])] += g
		a[int(e[1])*n+int(e[1])] += g
		a[int(max(e[0], e[1]))*n+int(min(e[0], e[1]))] -= g
	}
	for _, i := range held {
		a[int(i)*n+int(i)]++
	}
	for j := range n {
		rj := a[j*n : j*n+j+1]
		before := rj[j]
		for k := range j {
			rj[j] -= float64(rj[k] * rj[k])
		}
		if !(rj[j] > 1e-14*before) {
			return fault.New(fault.Internal, "the net hangs loose at node %d", j)
		}
		rj[j] = math.Sqrt(rj[j])
		for i := j + 1; i < n; i++ {
			ri := a[i*n : i*n+j+1]
			s := ri[j]
			for k := range j {
				s -= float64(ri[k] * rj[k])
			}
			ri[j] = s / rj[j]
		}
	}
	return nil
}

// solve sets v to the volts that the injected amps bring about.
func (l *linear) solve(v, amps []float64) {
	if l.dense == nil {
		l.factor.Solve(v, amps)
		return
	}
	n, a := l.n, l.dense
	for i := range n {
		s := amps[i]
		for k := range i {
			s -= float64(a[i*n+k] * v[k])
		}
		v[i] = s / a[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		s := v[i]
		for k := i + 1; k < n; k++ {
			s -= float64(a[k*n+i] * v[k])
		}
		v[i] = s / a[i*n+i]
	}
}
