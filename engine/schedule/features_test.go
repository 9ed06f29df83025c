package schedule

import "testing"

// generated is the plan of one generation, checked, without search.
func generated(t testing.TB, p Problem, order []int, serial bool) Result {
	t.Helper()
	n, err := compile(p)
	if err != nil {
		t.Fatal(err)
	}
	s := newSearch(n, Options{Order: order, Serial: serial})
	i := s.islands[0]
	c := newCandidate(n)
	if copy(c.order, natural(len(p.Activities))); order != nil {
		copy(c.order, order)
	}
	c.serial = serial
	for w := range c.bought {
		c.bought[w] = true
	}
	i.limit, i.cut = i.used+1, false
	if !i.generate(c) {
		t.Fatal("no budget")
	}
	i.best.copy(c)
	res := s.result()
	if err := Check(p, res); err != nil {
		t.Fatalf("serial %v: %v", serial, err)
	}
	return res
}
