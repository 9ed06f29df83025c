package project

import (
	"math/rand/v2"

	"fettle/engine/schedule/activitylist"
)

// SerialPasses compiles a problem and returns a function that generates the
// schedule of one of so many lists, each drawn at random among those that keep
// precedence, and says its makespan. For benchmarks on files that this package
// does not read.
func SerialPasses(p Problem, seed uint64, lists int) (pass func(list int) int32, err error) {
	n, err := compile(&p)
	if err != nil {
		return nil, err
	}
	s, m, rng := &n.sides[0], activitylist.NewSampler[int32](n.n, bias), rand.New(rand.NewPCG(seed, 0))
	alike := make([]int32, n.n) // no rule: every activity in line is as likely
	orders := make([][]int32, lists)
	for i := range orders {
		orders[i] = make([]int32, n.n)
		m.List(s.graph, alike, rng, orders[i])
	}
	d, finish := newDecoder(n), make([]int32, n.n)
	return func(list int) int32 {
		last, _ := d.serial(s, orders[list], finish, 0, noLimit)
		return last * n.slot
	}, nil
}
