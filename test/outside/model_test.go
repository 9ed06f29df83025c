package outside

import (
	"fmt"
	"slices"
	"strings"

	"fettle/engine/schedule"
)

// model writes a small problem as a MiniZinc model, in hours, from the raw
// problem: its windows become open hours and their running totals, and a span
// on a calendar is a difference of two totals. It knows no facts, pins,
// remedies or overtime.
func model(p *schedule.Problem) string {
	m := &modelText{p: p}
	m.calendars()
	for j := range p.Activities {
		m.activity(j)
	}
	for i := range p.Links {
		m.link(i)
	}
	m.hands()
	m.place()
	for _, k := range p.Clashes {
		m.clash(k)
	}
	m.objective()
	return m.b.String()
}

type modelText struct {
	p     *schedule.Problem
	b     strings.Builder
	overs []string
}

func (m *modelText) line(format string, args ...any) { fmt.Fprintf(&m.b, format+"\n", args...) }

// calendars numbers them from 0; the last is the wall clock.
func (m *modelText) calendars() {
	m.line(`include "cumulative.mzn";`)
	m.line("int: H = %d;", horizon)
	var rows []string
	for c, windows := range append(slices.Clone(m.p.Calendars), schedule.Calendar{{From: 0, To: horizon * hour}}) {
		for _, w := range windows {
			rows = append(rows, fmt.Sprintf("%d, %d, %d", c, w.From/hour, w.To/hour))
		}
	}
	m.line("array[1..%d, 1..3] of int: window = [|%s|];", len(rows), strings.Join(rows, "|"))
	m.line("array[0..%d, 0..H] of int: open = array2d(0..%d, 0..H, [bool2int(exists(w in index_set_1of2(window))(window[w,1] = c /\\ window[w,2] <= t /\\ t < window[w,3])) | c in 0..%d, t in 0..H]);",
		len(m.p.Calendars), len(m.p.Calendars), len(m.p.Calendars))
	m.line("array[0..%d, 0..H] of int: total = array2d(0..%d, 0..H, [sum(u in 0..t-1)(open[c,u]) | c in 0..%d, t in 0..H]);",
		len(m.p.Calendars), len(m.p.Calendars), len(m.p.Calendars))
	m.line("array[0..%d, 0..H] of int: before = array2d(0..%d, 0..H, [if t = 0 then 0 else open[c,t-1] endif | c in 0..%d, t in 0..H]);",
		len(m.p.Calendars), len(m.p.Calendars), len(m.p.Calendars))
}

func (m *modelText) clock(c int) int {
	if c < 0 {
		return len(m.p.Calendars)
	}
	return c
}

// spans says that so much time on a calendar passes from one variable to another.
func (m *modelText) spans(c int, from, to string, work schedule.Minute) string {
	if work == 0 {
		return fmt.Sprintf("%s = %s", to, from)
	}
	return fmt.Sprintf("(total[%d,%s] - total[%d,%s] = %d /\\ before[%d,%s] = 1)", c, to, c, from, work/hour, c, to)
}

// passed says that at least so much time lies between two variables.
func (m *modelText) passed(c int, from, to string, lag schedule.Minute) string {
	return fmt.Sprintf("(%s >= %s /\\ total[%d,%s] - total[%d,%s] >= %d)", to, from, c, to, c, from, lag/hour)
}

func (m *modelText) activity(j int) {
	a := &m.p.Activities[j]
	m.line("var 0..H: s%d; var 0..H: f%d;", j, j)
	m.line("constraint s%d >= %d;", j, max(m.p.Now, a.Release)/hour)
	switch a.Kind {
	case schedule.Milestone:
		m.line("constraint f%d = s%d;", j, j)
		return
	case schedule.Passive:
		m.line("constraint %s;", m.spans(m.clock(a.Calendar), fmt.Sprint("s", j), fmt.Sprint("f", j), a.Work))
		return
	}
	var chosen, ends []string
	for _, h := range a.Who {
		x, e, c := fmt.Sprintf("x%d_%d", j, h), fmt.Sprintf("e%d_%d", j, h), m.p.People[h].Calendar
		chosen, ends = append(chosen, "bool2int("+x+")"), append(ends, e)
		m.line("var bool: %s; var 0..H: %s;", x, e)
		m.line("constraint %s -> open[%d,s%d] = 1 /\\ %s;", x, c, j, m.spans(c, fmt.Sprint("s", j), e, a.Work))
		m.line("constraint not %s -> %s = s%d;", x, e, j)
		if a.Kind == schedule.Session {
			m.line("constraint %s -> %s = s%d + %d;", x, e, j, a.Work/hour)
		}
	}
	m.line("constraint %s = %d;", strings.Join(chosen, " + "), max(1, a.Heads))
	m.line("constraint f%d = max([%s]);", j, strings.Join(ends, ", "))
}

func (m *modelText) link(i int) {
	l := &m.p.Links[i]
	from, to, c := fmt.Sprint("f", l.From), fmt.Sprint("s", l.To), m.clock(l.Calendar)
	if l.FromStart {
		from = fmt.Sprint("s", l.From)
	}
	if !l.Max {
		m.line("constraint %s;", m.passed(c, from, to, l.Lag))
		return
	}
	m.line("var 0..H: a%d; var 0..H: o%d;", i, i)
	m.line("constraint %s;", m.spans(c, from, fmt.Sprint("a", i), l.Lag))
	m.line("constraint o%d = max(0, %s - a%d);", i, to, i)
	m.overs = append(m.overs, fmt.Sprint("o", i))
}

// hands keeps people at one thing at a time, and crews together.
func (m *modelText) hands() {
	for j := range m.p.Activities {
		for i := range j {
			a, b := &m.p.Activities[i], &m.p.Activities[j]
			for h := range m.p.People {
				if !slices.Contains(a.Who, h) || !slices.Contains(b.Who, h) {
					continue
				}
				m.line("constraint x%d_%d /\\ x%d_%d -> e%d_%d <= s%d \\/ e%d_%d <= s%d;", i, h, j, h, i, h, j, j, h, i)
				if a.Crew != "" && a.Crew == b.Crew {
					m.line("constraint x%d_%d = x%d_%d;", i, h, j, h)
				}
			}
		}
	}
}

func (m *modelText) place() {
	var starts, longs, units []string
	for j, a := range m.p.Activities {
		for _, u := range a.Uses {
			m.line("var 0..H: d%d; constraint d%d = f%d - s%d;", j, j, j, j)
			starts, longs, units = append(starts, fmt.Sprint("s", j)), append(longs, fmt.Sprint("d", j)), append(units, fmt.Sprint(u.Units))
		}
	}
	if len(starts) > 0 {
		m.line("constraint cumulative([%s], [%s], [%s], %d);", strings.Join(starts, ", "), strings.Join(longs, ", "), strings.Join(units, ", "), m.p.Places[0].Units)
	}
}

func (m *modelText) clash(k schedule.Clash) {
	d, q := k.Dirty[0], k.Clean[0]
	m.line("constraint f%d <= s%d \\/ %s;", q, d, m.passed(m.clock(k.Calendar), fmt.Sprint("f", d), fmt.Sprint("s", q), k.Settle))
}

// objective puts lateness before missed windows before length in one number
// that fits into 32 bits.
func (m *modelText) objective() {
	ends := []string{fmt.Sprint(m.p.Now / hour)}
	for j := range m.p.Activities {
		ends = append(ends, fmt.Sprint("f", j))
	}
	m.line("var 0..H: last; var 0..H: late; var 0..999: missed;")
	m.line("constraint last = max([%s]);", strings.Join(ends, ", "))
	late := "0"
	if m.p.Goal > 0 {
		late = fmt.Sprintf("max(0, last - %d)", m.p.Goal/hour)
	}
	m.line("constraint late = %s;", late)
	m.line("constraint missed = %s;", strings.Join(append(m.overs, "0"), " + "))
	m.line("solve minimize 300000*late + 300*missed + last;")
}
