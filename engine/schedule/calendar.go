package schedule

// limit bounds every moment and span of the input, so that sums of a few of
// them stay far inside an int32: about 510 years of minutes.
const limit Minute = 1 << 28

// clock answers the two questions of a calendar in O(log n) by prefix sums:
// which open minute comes next, and when an amount of open time has passed.
type clock struct {
	win []Window
	sum []Minute // open minutes before win[i]
}

func newClock(c Calendar) clock {
	k := clock{win: make([]Window, 0, len(c)), sum: make([]Minute, 0, len(c))}
	for _, w := range c {
		k.add(w)
	}
	return k
}

// wall is the clock that is always open.
func wall() clock { return newClock(Calendar{{From: -limit, To: Never}}) }

func (k *clock) add(w Window) {
	total := Minute(0)
	if n := len(k.win); n > 0 {
		total = k.sum[n-1] + k.win[n-1].To - k.win[n-1].From
	}
	k.win, k.sum = append(k.win, w), append(k.sum, total)
}

// index is the first window that ends after t, or len(win).
func (k *clock) index(t Minute) int {
	lo, hi := 0, len(k.win)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		if k.win[mid].To > t {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
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
	hi := len(k.win)
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
