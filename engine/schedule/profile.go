package schedule

// profile is how many units of a place are taken from each moment on: levels
// in order of time, the first before all time, the last with nothing taken.
type profile []level

type level struct {
	at   Minute
	used int
}

func (p profile) clear() profile { return append(p[:0], level{at: -Never}) }

// index is the level that holds at t.
func (p profile) index(t Minute) int {
	lo, hi := 0, len(p)
	for lo+1 < hi {
		if mid := int(uint(lo+hi) >> 1); p[mid].at <= t {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// room returns t when never more than most units are taken from t until end,
// or the first moment after the last of those at which they are.
func (p profile) room(t, end Minute, most int) Minute {
	from := p.index(t)
	for i := p.index(max(t, end-1)); i >= from; i-- {
		if p[i].used > most && end > t {
			return p[i+1].at
		}
	}
	return t
}

// add takes units from one moment until another.
func (p profile) add(from, to Minute, units int) profile {
	p, i := p.cut(from)
	p, k := p.cut(to)
	for ; i < k; i++ {
		p[i].used += units
	}
	return p
}

// cut makes a level begin at t and returns its index.
func (p profile) cut(t Minute) (profile, int) {
	i := p.index(t)
	if p[i].at == t {
		return p, i
	}
	p = append(p, level{})
	copy(p[i+2:], p[i+1:])
	p[i+1] = level{at: t, used: p[i].used}
	return p, i + 1
}
