package schedule

import (
	"context"
	"testing"
)

// A child by a window is its mother before and after one stretch of the list,
// no longer than the longest window.
func TestWindow_LeavesTheRest(t *testing.T) {
	n, err := compile(busy(t))
	if err != nil {
		t.Fatal(err)
	}
	s := newSearch(n, Options{Schedules: 200, Seed: 1})
	s.improve(context.Background())
	i, c := s.islands[0], newCandidate(n)
	drawn := 0
	for range 200 {
		mother := i.pop[i.tournament()]
		i.window(mother, c)
		first, last := -1, -1
		for at, j := range c.order {
			if j != mother.heir[at] {
				if last = at; first < 0 {
					first = at
				}
			}
		}
		if first >= 0 {
			drawn++
		}
		if long := last - first + 1; float64(long) > max(2, windowLong*float64(len(c.order))) {
			t.Fatalf("%v of %v: %d activities changed place", c.order, mother.heir, long)
		}
	}
	if drawn < 50 {
		t.Errorf("%d of 200 windows changed anything", drawn)
	}
}
