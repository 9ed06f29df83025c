// Package chart draws curves and bars as SVG that prints in black, passes the
// content policy, and says in words what it shows.
package chart

import (
	"strconv"
	"strings"

	"fettle/unit"
)

// Chance is how likely a day is kept or beaten.
type Chance struct {
	Day   unit.Date
	Share float64 // 0 to 1, rising with the day
}

// Odds is a curve of chances.
type Odds struct {
	Title    string
	Points   []Chance // in order of days, at least two
	Promised unit.Date
	Before   []Chance // a second, thinner curve to compare with; may be empty
}

// Bar is one week.
type Bar struct {
	Label string
	Value float64
	Text  string // the value as written on it
	Over  bool   // beyond a bound: drawn hatched and marked
}

// Bars are values by week.
type Bars struct {
	Title string
	Unit  string
	All   []Bar
	Line  float64 // a bound drawn across, 0 for none
	Says  string  // what the line is
}

// The drawing area of a curve, in units of the view box.
const (
	wide, high             = 560.0, 300.0
	left, right, top, foot = 56.0, 24.0, 26.0, 56.0
)

func (o Odds) span() (first, last unit.Date) {
	first, last = o.Points[0].Day, o.Points[len(o.Points)-1].Day
	if len(o.Before) > 0 {
		first, last = min(first, o.Before[0].Day), max(last, o.Before[len(o.Before)-1].Day)
	}
	if o.Promised != 0 {
		first, last = min(first, o.Promised), max(last, o.Promised)
	}
	if first == last {
		last++
	}
	return first, last
}

// x places a day, y a share of one.
func (o Odds) x(d unit.Date) float64 {
	first, last := o.span()
	return left + float64(d-first)/float64(last-first)*(wide-left-right)
}

func y(share float64) float64 { return high - foot - share*(high-top-foot) }

// path draws the curve as steps, since a day is kept or it is not.
func (o Odds) path(points []Chance) string {
	var b strings.Builder
	for i, p := range points {
		if i == 0 {
			b.WriteString("M" + px(o.x(p.Day)) + " " + px(y(p.Share)))
			continue
		}
		b.WriteString("H" + px(o.x(p.Day)) + "V" + px(y(p.Share)))
	}
	return b.String()
}

// day is the first on which the chance reaches share; 0 when it never does.
func (o Odds) day(share float64) unit.Date {
	for _, p := range o.Points {
		if p.Share >= share {
			return p.Day
		}
	}
	return 0
}

// at is the chance of a day: that of the last point not after it.
func (o Odds) at(d unit.Date) float64 {
	share := 0.0
	for _, p := range o.Points {
		if p.Day > d {
			break
		}
		share = p.Share
	}
	return share
}

// mondays are the ticks along the foot, thinned to at most seven.
func (o Odds) mondays() []unit.Date {
	first, last := o.span()
	step := unit.Date(7)
	for (last-first)/step > 6 {
		step += 7
	}
	var out []unit.Date
	for d := first.Monday() + 7; d <= last; d += step {
		out = append(out, d)
	}
	return out
}

func px(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

func percent(share float64) string { return strconv.Itoa(int(share*100+0.5)) + " %" }

// readings are the chances a person is told, and how they are said.
var readings = [...]struct {
	share float64
	words string
}{{0.5, "Even chance"}, {0.8, "8 in 10"}, {0.9, "9 in 10"}}

// says describes the curve in a sentence.
func (o Odds) says() string {
	if len(o.Points) == 0 {
		return "No dates yet."
	}
	var parts []string
	for _, r := range readings {
		if d := o.day(r.share); d != 0 {
			parts = append(parts, r.words+" by "+d.Short())
		}
	}
	text := "No even chance within these days."
	if len(parts) > 0 {
		text = strings.Join(parts, ", ") + "."
	}
	if o.Promised != 0 {
		text += " The promised day, " + o.Promised.Short() + ", is kept with " + percent(o.at(o.Promised)) + "."
	}
	return text
}
