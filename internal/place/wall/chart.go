package wall

import (
	"fmt"
	"strconv"

	"fettle/build"
	"fettle/internal/live"
	"fettle/plan"
	"fettle/unit"
)

// The measures of a chart, in units of its view box; one is a pixel on a
// tablet held level.
const (
	chartWide = 1064.0
	nameWide  = 128.0
	headHigh  = 74.0
	personRow = 54.0
	laneRow   = 30.0
	rowGap    = 8.0
	letter    = 6.2 // mean width of a letter on a bar
)

// drawing is a drawn wall chart.
type drawing struct {
	Title     string
	High      float64
	Foot      float64 // y of the last row's end
	Days      []day
	Months    []flag
	Shut      []shade
	Rows      []row
	Today     float64 // x, 0 when not on the sheet
	Promised  float64
	PromiseOn string
	Chances   []flag // the days of 50, 80 and 90 %
}

// day is a column of a chart.
type day struct {
	X, W    float64
	Number  string
	Monday  bool
	Weekend bool
}

// flag is a word at a place along the chart.
type flag struct {
	X    float64
	Text string
}

// shade is a hatched rectangle: a closure or an absence.
type shade struct {
	X, Y, W, H float64
	Why        string
}

// row is one person, the outside shops, or the waits.
type row struct {
	ID, Code, Name string
	Y, H           float64
	Bars           []bar
	Away           []shade
	Ghosts         []shade // where bars stood before
}

// bar is one run as it is drawn.
type bar struct {
	run
	X, Y, W, H float64
	Href       string
	Label      string
	Second     string
	Turned     bool // the label stands upright
}

// chartOf draws the runs of a window.
func chartOf(buildID string, p *plan.Plan, v live.View, runs []run, w window) drawing {
	s := scaleOf(&v.Build, w, nameWide, chartWide-nameWide)
	c := drawing{Title: "Wall chart, " + w.says()}
	c.head(s)
	y := headHigh
	for _, who := range v.Build.People {
		own := ofRow(runs, string(who.ID), s)
		if who.Helps && len(own) == 0 {
			continue
		}
		r := row{ID: string(who.ID), Code: string(who.ID), Name: who.Name, Y: y, H: personRow}
		for _, one := range own {
			r.Bars = append(r.Bars, barOf(buildID, s, one, y+5, personRow-10))
		}
		r.Away = absences(&v.Build, s, who.ID, y, personRow)
		c.Rows = append(c.Rows, r)
		y += personRow
	}
	for _, extra := range []row{{ID: awayRow, Code: "Away", Name: "outside shops"}, {ID: waitRow, Code: "Waits", Name: "cure and dry"}} {
		y += rowGap
		extra.Y = y
		extra.Bars, extra.H = lanes(buildID, s, ofRow(runs, extra.ID, s), y)
		c.Rows = append(c.Rows, extra)
		y += extra.H
	}
	c.Foot, c.High = y, y+34
	c.shut(&v.Build, s)
	c.marks(p, s)
	return c
}

func ofRow(runs []run, id string, s scale) []run {
	var own []run
	for _, r := range runs {
		if r.Row == id && s.shows(r.From, r.To) && s.x(r.To) > s.x(r.From) {
			own = append(own, r)
		}
	}
	return own
}

// head lays out days and months.
func (c *drawing) head(s scale) {
	for d := s.first; d <= s.last(); d++ {
		i := int(d - s.first)
		one := day{X: s.edge[i], W: s.edge[i+1] - s.edge[i], Monday: d == d.Monday(), Weekend: weekend(d)}
		if one.W >= 14 || one.Monday {
			one.Number = strconv.Itoa(d.Time().Day())
		}
		c.Days = append(c.Days, one)
		if one.Monday && (d == s.first && (d+7).Time().Day() > 7 || d.Time().Day() <= 7) {
			c.Months = append(c.Months, flag{one.X + 4, d.Time().Format("January 2006")})
		}
	}
}

// shut hatches the shop's closures.
func (c *drawing) shut(b *build.Build, s scale) {
	for _, one := range b.Closures {
		from, to := one.First.At(0, 0), one.Last.At(23, 59)
		if s.shows(from, to) {
			c.Shut = append(c.Shut, shade{X: s.x(from), Y: headHigh, W: s.x(to) - s.x(from), H: c.Foot - headHigh, Why: one.Why})
		}
	}
}

// marks sets today's line, the promised day and the days of the odds.
func (c *drawing) marks(p *plan.Plan, s scale) {
	at := func(d unit.Date) float64 {
		if d < s.first || d > s.last() {
			return 0
		}
		return s.edge[int(d-s.first)+1]
	}
	if at(p.Now.Date()) > 0 {
		c.Today = s.x(p.Now)
	}
	c.Promised, c.PromiseOn = at(p.Promise.Ready), "promised "+dayMonth(p.Promise.Ready)
	for _, one := range []struct {
		day  unit.Date
		text string
	}{{p.Dates.P50, "50 %"}, {p.Dates.P80, "80 %"}, {p.Dates.P90, "90 %"}} {
		if x := at(one.day); x > 0 {
			c.Chances = append(c.Chances, flag{x, one.text})
		}
	}
}

func px(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

func (c drawing) box() string { return fmt.Sprintf("0 0 %.0f %.0f", chartWide, c.High) }
