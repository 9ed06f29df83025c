package schedule

import "sort"

// A bound walks calendars both ways. These are the questions of a clock seen
// from the end: how much is open before a moment, what is the latest beginning.

// longAgo is earlier than every moment of a problem: what has to begin then
// does not fit.
const longAgo = -limit

// opened counts the open minutes before t.
func (k *clock) opened(t Minute) Minute {
	i := k.index(t)
	if i < len(k.win) {
		return k.sum[i] + max(0, t-k.win[i].From)
	}
	if i == 0 {
		return 0
	}
	return k.sum[i-1] + k.win[i-1].To - k.win[i-1].From
}

// before is the latest moment from which work open minutes pass by t.
func (k *clock) before(t, work Minute) Minute {
	if work == 0 || t <= longAgo {
		return t
	}
	target := k.opened(t) - work
	if target < 0 {
		return longAgo
	}
	i := sort.Search(len(k.sum), func(i int) bool { return k.sum[i] > target }) - 1
	return k.win[i].From + target - k.sum[i]
}

// since is the earliest moment from which work open minutes pass at t or later.
func (k *clock) since(t, work Minute) Minute {
	if work == 0 {
		return t
	}
	target := k.opened(t-1) - work + 1
	if target <= 0 {
		return longAgo
	}
	return k.after(k.win[0].From, target)
}

// fitBefore is the latest moment from which work minutes run unbroken inside
// one window and are over by t.
func (k *clock) fitBefore(t, work Minute) Minute {
	if work == 0 {
		return t
	}
	for i := min(k.index(t), len(k.win)-1); i >= 0; i-- {
		if from := min(t, k.win[i].To) - work; from >= k.win[i].From {
			return from
		}
	}
	return longAgo
}

// shortest is the least time on the wall in which work open minutes pass, from
// now on. The best stretch begins where a window does or ends where one does.
func (k *clock) shortest(now, work Minute) Minute {
	if work == 0 {
		return 0
	}
	best := Never
	for i := k.index(now); i < len(k.win); i++ {
		from := max(now, k.win[i].From)
		if end := k.after(from, work); end < Never {
			best = min(best, end-from)
		}
		if from = k.before(k.win[i].To, work); from >= now {
			best = min(best, k.win[i].To-from)
		}
		if best == work {
			break
		}
	}
	return best
}
