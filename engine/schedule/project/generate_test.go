package project

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Children that are generated from where their list leaves the mother's are the
// schedules of their whole lists, and only those that cannot be taken are cut.
func TestRear_IsTheScheduleOfTheList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 30)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		i, d, want := newIsland(n, rapid.Uint64().Draw(t, "seed"), 0, 1000), newDecoder(n), newPlan(n.n)
		for len(i.pop[0].plans) < i.size || len(i.pop[1].plans) < i.size {
			i.seed()
		}
		for range 40 {
			k := i.side
			a, b := i.pop[k].plans[i.pop[k].best()], i.pop[k].plans[i.tournament(k)] // one mother, many children
			i.breed.child(k, a, b, i.list)
			parallel, limit, used := i.breed.gene(a), i.pop[1-k].limit(), i.used
			if parallel {
				want.last, _ = d.parallel(&n.sides[1-k], i.list, want.finish, noLimit)
			} else {
				want.last, _ = d.serial(&n.sides[1-k], i.list, want.finish, 0, noLimit)
			}
			got := i.rear(1-k, a, parallel)
			if got.last == tooLong && want.last <= limit || got.last != tooLong && !slices.Equal(got.finish, want.finish) {
				t.Fatalf("makespan %d, want %d, limit %d: %+v", got.last, want.last, limit, p)
			}
			if starts := i.used - used; starts < 0 || starts > n.n {
				t.Fatalf("%d starts counted for %d activities", starts, n.n)
			}
			i.side = 1 - k
			i.out = got
		}
	})
}

// Of one score the population keeps one plan, the latest.
func TestOffer_OnePlaceAScore(t *testing.T) {
	q := population{}
	for _, s := range []uint64{5, 9, 7} {
		q.add(&plan{score: s, hash: s})
	}
	for _, c := range []struct {
		score, hash uint64
		taken       bool
		want        []uint64
	}{
		{7, 70, true, []uint64{5, 9, 70}},  // in the place of its like
		{7, 70, false, []uint64{5, 9, 70}}, // there already
		{10, 10, false, []uint64{5, 9, 70}},
		{6, 6, true, []uint64{5, 6, 70}}, // in the place of the worst
	} {
		if _, taken := q.offer(&plan{score: c.score, hash: c.hash}); taken != c.taken || !slices.Equal(q.hashes, c.want) {
			t.Errorf("score %d: taken %v, plans %v; want %v, %v", c.score, taken, q.hashes, c.taken, c.want)
		}
	}
}

// Children keep precedence: every list decodes without an activity being
// placed before what it waits for.
func TestChild_KeepsPrecedence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 20)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		i := newIsland(n, rapid.Uint64().Draw(t, "seed"), 0, 100)
		k := rapid.IntRange(0, 1).Draw(t, "side")
		var parents [2]*plan
		for w := range parents {
			i.rules.List(n.sides[k].graph, n.rule[k], i.rng, i.list)
			parents[w] = i.generate(k, i.list, false)
		}
		i.breed.child(k, parents[0], parents[1], i.list)
		at := make([]int, n.n)
		for x, j := range i.list {
			at[j] += x + 1
		}
		for j := range int32(n.n) {
			for _, q := range n.sides[1-k].pred.of(j) {
				if at[q] >= at[j] || at[q] == 0 {
					t.Fatalf("%d does not come before %d in %v", q, j, i.list)
				}
			}
		}
	})
}
