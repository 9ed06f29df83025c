package wall

import (
	"slices"

	"fettle/build"
	"fettle/unit"
)

// lanes packs runs that overlap into as few lanes as they need.
func lanes(buildID string, s scale, runs []run, y float64) ([]bar, float64) {
	var ends []unit.Moment
	var bars []bar
	for _, r := range runs {
		i := slices.IndexFunc(ends, func(end unit.Moment) bool { return end <= r.From })
		if i < 0 {
			i = len(ends)
			ends = append(ends, 0)
		}
		ends[i] = r.To
		bars = append(bars, barOf(buildID, s, r, y+3+float64(i)*laneRow, laneRow-6))
	}
	return bars, float64(max(len(ends), 1)) * laneRow
}

// barOf places a run and finds the longest label that has room on it.
func barOf(buildID string, s scale, r run, y, h float64) bar {
	from, to := s.x(r.From), s.x(r.To)
	b := bar{run: r, X: from, Y: y, W: max(to-from-1, 1), H: h, Href: "/b/" + buildID + "/wall/task/" + string(r.Task)}
	room := int((b.W - 10) / letter)
	number := string(r.Task)
	switch {
	case room >= len(number)+6:
		b.Label = fitted(number+" "+r.Name, room)
		if h > 40 && room >= len(r.Under) {
			b.Second = r.Under
		}
	case room >= len(number):
		b.Label = number
	case b.W >= 11.5 && h > 36:
		b.Label, b.Turned = number, true
	}
	return b
}

// ghosts outlines where open legs stand that the chart has moved.
func (c *drawing) ghosts(s scale, before []run) {
	for i, row := range c.Rows {
		for _, r := range ofRow(before, row.ID, s) {
			stays := slices.ContainsFunc(row.Bars, func(b bar) bool { return b.Task == r.Task && b.From == r.From && b.To == r.To })
			if r.Done || stays || row.ID == awayRow || row.ID == waitRow {
				continue
			}
			c.Rows[i].Ghosts = append(c.Rows[i].Ghosts, shade{X: s.x(r.From), Y: row.Y + 2, W: s.x(r.To) - s.x(r.From), H: row.H - 4, Why: "was " + r.Spoken})
		}
	}
}

func absences(b *build.Build, s scale, who build.PersonID, y, h float64) []shade {
	var all []shade
	for _, a := range b.Absences {
		from, to := a.First.At(0, 0), a.Last.At(23, 59)
		if a.Person == who && s.shows(from, to) {
			all = append(all, shade{X: s.x(from), Y: y + 1, W: s.x(to) - s.x(from), H: h - 2, Why: a.Why})
		}
	}
	return all
}

// fill is the pattern of a run.
func (b bar) fill() string {
	if b.Done || b.Row == waitRow {
		return "none"
	}
	return "url(#wall-" + b.Stage + ")"
}

func (b bar) class() string {
	class := "wall-bar"
	if b.Done {
		class += " wall-done"
	}
	if b.Row == waitRow {
		class += " wall-wait"
	}
	if b.Sets {
		class += " wall-sets"
	}
	return class
}
