package cli

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"fettle/engine/schedule"
	"fettle/engine/schedule/shopfile"
)

// shopWhy is what solve schedule --why adds to a plan.
type shopWhy struct {
	Helps  []shopHelp  `json:"helps"`
	Untold int         `json:"untold,omitempty"`
	Limits []shopLimit `json:"limits,omitempty"`
	Margin string      `json:"margin,omitempty"`
	Clash  *shopClash  `json:"clash,omitempty"`
}

type shopHelp struct {
	What   []string `json:"what"`
	Sooner string   `json:"sooner,omitempty"`
	AtMost string   `json:"at_most,omitempty"`
	Late   string   `json:"less_late,omitempty"`
	Dated  bool     `json:"finds_date,omitempty"`
	Chance *float64 `json:"chance,omitempty"`
	StdErr *float64 `json:"std_error,omitempty"`
	Price  int64    `json:"price,omitempty"`
}

type shopLimit struct {
	ID    string `json:"id"`
	After string `json:"after,omitempty"`
	Waits string `json:"waits"`
}

// why asks what would help and, where the plan misses the goal or finds no
// date, which facts are in the way.
func (c *solveScheduleCmd) why(ctx context.Context, f shopfile.File, res schedule.Result) (*shopWhy, error) {
	p := &f.Problem
	helped, err := schedule.Helps(ctx, *p, schedule.Options{Seed: c.Seed, Schedules: c.Schedules, Workers: c.Workers},
		schedule.HelpOptions{Runs: c.Runs, Seed: c.Seed, Workers: c.Workers, Pairs: true})
	if err != nil {
		return nil, err
	}
	w := &shopWhy{Helps: []shopHelp{}, Untold: helped.Untold}
	for _, h := range helped.Telling() {
		w.Helps = append(w.Helps, c.help(f, helped, h))
	}
	for _, l := range helped.Limits {
		limit := shopLimit{ID: p.Activities[l.Activity].ID, Waits: spoken(l.Length)}
		if l.Link >= 0 {
			limit.After = p.Activities[p.Links[l.Link].From].ID
		}
		w.Limits = append(w.Limits, limit)
	}
	switch dateless := res.Makespan >= schedule.Never; {
	case res.Lateness > 0 || dateless:
		w.Clash, err = clashOf(ctx, f)
	case p.Goal > 0:
		w.Margin = spoken(p.Goal - res.Makespan)
	}
	return w, err
}

func (c *solveScheduleCmd) help(f shopfile.File, all schedule.Helped, h schedule.Help) shopHelp {
	one := shopHelp{Price: h.Price}
	for _, r := range h.Of {
		one.What = append(one.What, loosening(f, r))
	}
	if all.Plan.Makespan >= schedule.Never {
		one.Dated = h.Sooner > 0
	} else {
		one.Sooner, one.AtMost, one.Late = some(h.Sooner), some(h.Most), some(h.Late)
	}
	if c.Runs > 0 && f.Problem.Goal > 0 {
		one.Chance, one.StdErr = &h.Chance, &h.StdErr
	}
	return one
}

// loosening says what is otherwise, by the names of the file.
func loosening(f shopfile.File, r schedule.Relaxation) string {
	from := f.Moment(r.Window.From) + " to " + f.Moment(r.Window.To)
	switch r.Kind {
	case schedule.OneMoreLike:
		return "one more like " + r.ID
	case schedule.LongerDays:
		return r.ID + " works " + spoken(r.By) + " longer every day"
	case schedule.ExtraDay:
		return r.ID + " works also from " + from
	case schedule.MoreRoom:
		return "one more " + r.ID
	case schedule.EarlierPart:
		return r.ID + " may begin " + spoken(r.By) + " sooner"
	case schedule.PinLetGo:
		return r.ID + " is not held to its date"
	}
	return "overtime of " + r.ID + " from " + from
}

// spoken is a span of the wall clock in words of a file: "2d", "6h30m".
func spoken(m schedule.Minute) string {
	text := ""
	for _, u := range []struct {
		size schedule.Minute
		name string
	}{{1440, "d"}, {60, "h"}, {1, "m"}} {
		if m >= u.size {
			text += fmt.Sprint(int(m/u.size)) + u.name
			m %= u.size
		}
	}
	return cmp.Or(text, "0m")
}

// some is a span, or nothing for none.
func some(m schedule.Minute) string {
	if m == 0 {
		return ""
	}
	return spoken(m)
}

// print writes the chain, the helps and the clash for a person.
func (w *shopWhy) print(out io.Writer, chain []shopStep) {
	for _, s := range chain {
		fmt.Fprintf(out, "\twhy\t%s\t%s\n", s.Start, s.says())
	}
	for i, h := range w.Helps {
		fmt.Fprintf(out, "\thelp %d\t%s\n", i+1, h.says())
	}
	if w.Untold > 0 {
		fmt.Fprintf(out, "\thelp\t%d more were not tried\n", w.Untold)
	}
	for _, l := range w.Limits {
		fmt.Fprintf(out, "\tlimit\t%s\n", l.says())
	}
	if w.Margin != "" {
		fmt.Fprintf(out, "\tgoal\tmet with %s to spare\n", w.Margin)
	}
	if w.Clash != nil {
		w.Clash.print(out)
	}
}

func (s shopStep) says() string {
	switch {
	case s.Of == "":
		return s.ID + ": " + s.Because
	case strings.HasSuffix(s.Because, "that"):
		return s.ID + ": after " + s.Of + ", " + s.Because
	}
	return s.ID + ": " + s.Because + " " + s.Of
}

func (h shopHelp) says() string {
	text := strings.Join(h.What, " and ") + ": "
	switch {
	case h.Dated:
		text += "a date is found"
	case h.Sooner == "" && h.AtMost == "":
		text += "wins nothing"
	case h.Sooner == "":
		text += "the search wins nothing, no plan more than " + h.AtMost
	case h.Sooner == h.AtMost:
		text += h.Sooner + " sooner, and no plan wins more"
	default:
		text += h.Sooner + " sooner found, no plan wins more than " + h.AtMost
	}
	if h.Late != "" && h.Late != h.Sooner {
		text += "; " + h.Late + " less late"
	}
	if h.Chance != nil {
		text += fmt.Sprintf("; chance %+.0f points ± %.0f", 100**h.Chance, math.Ceil(100**h.StdErr))
	}
	if h.Price > 0 {
		text += fmt.Sprintf("; for %d", h.Price)
	}
	return text
}

func (l shopLimit) says() string {
	if l.After == "" {
		return l.ID + " takes " + l.Waits + ", and is not offered to be cut"
	}
	return l.ID + " waits " + l.Waits + " after " + l.After + ", and that is not offered to be cut"
}
