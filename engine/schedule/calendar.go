package schedule

import "sort"

// limit bounds every moment and span of the input, so that sums of a few of
// them stay far inside an int32: about 510 years of minutes.
const limit Minute = 1 << 28

// clock answers the two questions of a calendar by prefix sums: which open
// minute comes next, in O(1) where windows are some days apart, and when an
// amount of open time has passed, in O(log n).
type clock struct {
	win  []Window
	sum  []Minute // open minutes before win[i]
	days []int32  // by day from the first window on: the first window that ends after the day begins; may be empty
	base *clock   // the clock this one was cut from; may be nil
	kept []int32  // windows kept of those before window i of base
}

func newClock(c Calendar) clock {
	k := clock{win: c, sum: make([]Minute, 0, len(c))}
	k.tabulate()
	return k
}

// tabulate makes the tables of a clock from its windows, in the room it has.
func (k *clock) tabulate() {
	c := k.win
	k.sum, k.days = k.sum[:0], k.days[:0]
	sum := Minute(0)
	for _, w := range c {
		k.sum = append(k.sum, sum)
		sum += w.To - w.From
	}
	if len(c) == 0 || int(c[len(c)-1].To-c[0].From)/1440 > 64+16*len(c) {
		return // a table of mostly empty days is not worth its room
	}
	i := int32(0)
	for t := c[0].From; t < c[len(c)-1].To; t += 1440 {
		for c[i].To <= t {
			i++
		}
		k.days = append(k.days, i)
	}
}

// wall is the clock that is always open.
func wall() clock { return newClock(Calendar{{From: -limit, To: Never}}) }

// index is the first window that ends after t, or len(win).
func (k *clock) index(t Minute) int {
	if k.base != nil {
		return int(k.kept[k.base.index(t)])
	}
	if len(k.days) == 0 {
		return sort.Search(len(k.win), func(i int) bool { return k.win[i].To > t })
	}
	day := int(t-k.win[0].From) / 1440
	if t < k.win[0].From {
		return 0
	}
	if day >= len(k.days) {
		return len(k.win)
	}
	i := int(k.days[day])
	for i < len(k.win) && k.win[i].To <= t {
		i++
	}
	return i
}

// open is the first open minute at or after t, or Never.
func (k *clock) open(t Minute) Minute {
	i := k.index(t)
	if i == len(k.win) {
		return Never
	}
	return max(t, k.win[i].From)
}

// after is the moment at which work open minutes have passed since t. No work
// passes at once; what does not fit before the calendar ends is Never.
func (k *clock) after(t, work Minute) Minute {
	if work == 0 || t >= Never {
		return t
	}
	i := k.index(t)
	if i == len(k.win) {
		return Never
	}
	target := k.sum[i] + max(0, t-k.win[i].From) + work
	hi := i + 1
	for step := 1; hi < len(k.win) && k.sum[hi] < target; step *= 2 { // most work is short: gallop
		i, hi = hi, hi+step
	}
	hi = min(hi, len(k.win))
	for i+1 < hi { // the last window whose running total lies below target
		mid := int(uint(i+hi) >> 1)
		if k.sum[mid] < target {
			i = mid
		} else {
			hi = mid
		}
	}
	return k.within(i, target)
}

// within is the moment in window i at which the running total is target.
func (k *clock) within(i int, target Minute) Minute {
	end := k.win[i].From + target - k.sum[i]
	if end > k.win[i].To {
		return Never
	}
	return end
}

// fit is the first moment at or after t from which work minutes run unbroken
// inside one window, or Never.
func (k *clock) fit(t, work Minute) Minute {
	for i := k.index(t); i < len(k.win); i++ {
		if from := max(t, k.win[i].From); from+work <= k.win[i].To {
			return from
		}
	}
	return Never
}
