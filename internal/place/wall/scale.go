package wall

import (
	"slices"

	"fettle/build"
	"fettle/unit"
)

// scale places moments along a chart: working days have equal room, days on
// which nobody works are narrow.
type scale struct {
	first    unit.Date
	from, to int       // minutes of the day at which the shop's day begins and ends
	edge     []float64 // x of the beginning of each day, and of the end of the last
}

// How wide a day is, as parts of a working day.
const (
	weekendPart = 0.34
	closurePart = 0.42
)

// scaleOf lays the days of a window over a width that begins at x.
func scaleOf(b *build.Build, w window, x, width float64) scale {
	s := scale{first: w.First, from: 8 * 60, to: 16 * 60}
	for _, p := range b.People {
		if begins, err := build.ParseClock(p.Starts); err == nil && !p.Helps {
			s.from, s.to = min(s.from, begins), max(s.to, begins+int(slices.Max(p.Week[:])))
		}
	}
	parts := make([]float64, 7*w.Weeks)
	sum := 0.0
	for i := range parts {
		parts[i] = partOf(b, w.First+unit.Date(i))
		sum += parts[i]
	}
	for _, part := range parts {
		s.edge = append(s.edge, x)
		x += part / sum * width
	}
	s.edge = append(s.edge, x)
	return s
}

func partOf(b *build.Build, d unit.Date) float64 {
	switch {
	case slices.ContainsFunc(b.Overtime, func(o build.Overtime) bool { return o.Day == d }):
		return 0.8
	case weekend(d):
		return weekendPart
	case closure(b, d) != nil:
		return closurePart
	}
	return 1
}

// x is where a moment lies; moments outside the chart lie on its edge.
func (s scale) x(m unit.Moment) float64 {
	i := int(m.Date() - s.first)
	if i < 0 {
		return s.edge[0]
	}
	if i >= len(s.edge)-1 {
		return s.edge[len(s.edge)-1]
	}
	part := float64(m.Minutes()-s.from) / float64(s.to-s.from)
	return s.edge[i] + min(max(part, 0), 1)*(s.edge[i+1]-s.edge[i])
}

// shows reports whether any of the time from one moment to another is drawn.
func (s scale) shows(from, to unit.Moment) bool {
	return to > s.first.At(0, 0) && from < (s.first+unit.Date(len(s.edge)-1)).At(0, 0)
}

func (s scale) last() unit.Date { return s.first + unit.Date(len(s.edge)-2) }

func weekend(d unit.Date) bool { return int(d-d.Monday()) >= 5 }

func closure(b *build.Build, d unit.Date) *build.Closure {
	for i, c := range b.Closures {
		if c.First <= d && d <= c.Last {
			return &b.Closures[i]
		}
	}
	return nil
}
