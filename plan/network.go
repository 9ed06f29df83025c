package plan

import (
	"slices"
	"strconv"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// net is the engine's problem and the way back from it to the build.
type net struct {
	clock
	build    *build.Build
	now      unit.Moment
	problem  schedule.Problem
	week     [7]bool                // weekdays on which the shop works
	legs     []leg                  // labour activities, in order
	ends     map[build.TaskID]int   // the activity at whose finish a task is over
	joins    map[build.TaskID]int   // the activity at whose finish its hours are done
	starts   map[build.TaskID][]int // the activities that wait for what comes before
	work     map[build.TaskID][]takeoff.Work
	parts    map[build.TaskID]arrivals
	past     []rates.Past // earlier builds of the shop
	kinds    []learned    // of work
	late     []lateness   // of suppliers
	hands    []hand       // by person; nil where it is not judged how they differ
	events   []event      // what may happen yet
	shopDays int          // index of the working-day calendar
}

// leg is the labour of one trade in one task.
type leg struct {
	activity int
	task     build.TaskID
	work     takeoff.Work
}

// Network returns the engine's problem of a build as the shop's list gives it,
// and the day from whose midnight its minutes count.
func Network(b *build.Build, r rates.Rates, now unit.Moment) (schedule.Problem, unit.Date) {
	n := network(b, takeOffs(b, r), r.Past, now)
	return n.problem, n.origin
}

// network lays out the tasks that are not finished. Each trade of a task is a
// labour activity; a milestone joins them; a wait is time on the working-day
// calendar after it.
func network(b *build.Build, lists []takeoff.List, past []rates.Past, now unit.Moment) *net {
	n := &net{clock: clock{now.Date()}, build: b, now: now, week: workweek(b), past: past,
		ends: map[build.TaskID]int{}, joins: map[build.TaskID]int{}, starts: map[build.TaskID][]int{},
		work: workOf(lists), parts: map[build.TaskID]arrivals{}}
	// After the promised day the question is whether everything is finished by now.
	n.problem.Now, n.problem.Goal = n.minute(now), max(n.endOf(b.Promise.Ready), n.minute(now))
	n.problem.Absence = b.Risk.Absence
	n.people()
	for _, list := range lists {
		for _, w := range list.Wants {
			n.want(w)
		}
	}
	for _, y := range b.Bays {
		n.problem.Places = append(n.problem.Places, schedule.Place{ID: y.ID, Units: y.Units})
	}
	for _, t := range b.Tasks {
		if t.State != build.Finished {
			n.task(t)
		}
	}
	n.links()
	n.paces()
	return n
}

// workOf sorts lines of work by task.
func workOf(lists []takeoff.List) map[build.TaskID][]takeoff.Work {
	work := map[build.TaskID][]takeoff.Work{}
	for _, list := range lists {
		for _, w := range list.Work {
			work[w.Task] = append(work[w.Task], w)
		}
	}
	return work
}

// people adds everybody's hours, then the shop's working days and evenings.
func (n *net) people() {
	for i, p := range n.build.People {
		own := hoursOf(n.build, p, n.clock)
		if len(own) == 0 {
			own = schedule.Calendar{{From: span*1440 - 1, To: span * 1440}} // work of somebody who is away for good gets no date
		}
		n.problem.Calendars = append(n.problem.Calendars, own)
		n.problem.People = append(n.problem.People, schedule.Person{ID: string(p.ID), Calendar: i})
	}
	n.shopDays = len(n.problem.Calendars)
	n.problem.Calendars = append(n.problem.Calendars, shopDays(n.build, n.clock), evenings())
}

// who lists the people of a trade: those whose own trade it is, else those who know it.
func (n *net) who(t build.TradeID) []int {
	var own, able []int
	for i, p := range n.build.People {
		switch {
		case p.Helps || !p.Does(t):
		case p.Trades[0] == t:
			own = append(own, i)
		default:
			able = append(able, i)
		}
	}
	if len(own) > 0 {
		return own
	}
	return able
}

// add appends an activity and returns its index.
func (n *net) add(a schedule.Activity) int {
	n.problem.Activities = append(n.problem.Activities, a)
	return len(n.problem.Activities) - 1
}

// task lays out one task.
func (n *net) task(t build.Task) {
	id := string(t.ID)
	var begin []int
	holder := n.holder(t.ID)
	r, kept := n.reserve(t.ID)
	hold := n.parts[t.ID].begin.plain()
	if t.NoEarly != 0 {
		hold = max(hold, n.endOf(t.NoEarly-1)+dayFrom)
	}
	for _, w := range n.work[t.ID] {
		over := n.runsOver(t, w)
		if w.Left <= 0 && !over {
			continue
		}
		a := schedule.Activity{ID: id + "/" + string(w.Trade), Group: id, Kind: schedule.Labour,
			Work: schedule.Minute(w.Left), Who: n.who(w.Trade), Release: hold}
		n.spread(&a, t.Risk, t.Stage, w.Pace, t.LeftSaid)
		if w.Begun > 0 {
			a.Begun = schedule.Begun{Planned: schedule.Minute(w.Open), Spent: schedule.Minute(w.Begun)}
		}
		if kept && r.Trade == w.Trade {
			a.Extra, kept = minutes(r.Hours), false
		}
		if t.Bay != "" && w.Trade == holder {
			a.Uses = []schedule.Use{{Place: slices.IndexFunc(n.build.Bays, func(y build.Bay) bool { return y.ID == t.Bay }), Units: 1}}
		}
		i := n.add(a)
		begin = append(begin, i)
		n.legs = append(n.legs, leg{i, t.ID, w})
	}
	if kept { // no open hours of its trade carry it
		begin = append(begin, n.add(schedule.Activity{ID: id + "/reserve", Group: id, Kind: schedule.Labour,
			Who: n.who(r.Trade), Release: hold, Extra: minutes(r.Hours)}))
	}
	release := n.parts[t.ID].end.plain()
	if len(begin) == 0 && t.State == build.NotBegun {
		release = max(release, hold) // a task without hours is kept back here
	}
	join := n.add(schedule.Activity{ID: id, Group: id, Kind: schedule.Milestone, Release: release})
	for _, i := range begin {
		n.handOver(i, join)
	}
	n.starts[t.ID], n.joins[t.ID], n.ends[t.ID] = append(begin, join), join, join
	n.gates(t, begin, join)
	n.sublets(t, join)
	if wait, begun := n.wait(t); wait > 0 || begun.Spent > 0 {
		end := schedule.Activity{ID: id + "/wait", Group: id, Kind: schedule.Passive, Work: wait, Calendar: n.shopDays}
		if t.Outwork != "" {
			n.spread(&end, outwork, t.Stage, 1, n.heard(t))
			end.Begun = begun
		}
		n.ends[t.ID] = n.add(end)
		n.link(join, n.ends[t.ID])
	}
	n.mayHappen(t, holder)
}

// holder returns the trade that holds the task's bay: the one with most to do.
func (n *net) holder(id build.TaskID) build.TradeID {
	var most takeoff.Work
	for _, w := range n.work[id] {
		if w.Left > most.Left {
			most = w
		}
	}
	return most.Trade
}

// sublets lets the task end only when what was sent out is back. What is sent
// out leaves when the task begins.
func (n *net) sublets(t build.Task, join int) {
	for i, s := range n.build.Sublets {
		if s.Task != t.ID || s.Days == 0 {
			continue
		}
		away := n.rest(s.Days, t.Began)
		if away == 0 {
			continue
		}
		a := schedule.Activity{ID: "sublet/" + string(t.ID) + "/" + strconv.Itoa(i+1), Group: string(t.ID),
			Kind: schedule.Passive, Work: away, Calendar: n.shopDays}
		n.spread(&a, outwork, t.Stage, 1, false)
		out := n.add(a)
		n.starts[t.ID] = append(n.starts[t.ID], out)
		n.link(out, join)
	}
}

// heard tells that the outside shop has named a day for a load.
func (n *net) heard(t build.Task) bool { return n.build.Load(t.Outwork).Likely > 0 }

// wait returns the minutes of working days still to wait after a task's hours,
// and how far a load that is away is beside the days planned for it. What the
// outside shop has last said counts from now on, unless it has passed.
func (n *net) wait(t build.Task) (schedule.Minute, schedule.Begun) {
	began := n.lastHours(t)
	if n.left(t.ID) > 0 {
		began = 0 // it waits for hours still to do
	}
	o := n.build.Load(t.Outwork)
	if o == nil {
		return n.rest(n.build.WaitOf(t), began), schedule.Begun{}
	}
	if o.Returned != 0 {
		return 0, schedule.Begun{}
	}
	days := n.build.WaitOf(t)
	if o.Likely > 0 {
		days = o.Likely
	}
	if o.Sent == 0 {
		return n.rest(days, began), schedule.Begun{}
	}
	left := n.rest(days, leaves(t, o))
	if n.heard(t) && left > 0 {
		return left, schedule.Begun{}
	}
	return left, schedule.Begun{Planned: schedule.Minute(days * dayLong), Spent: n.passed(leaves(t, o))}
}

// leaves returns the day from whose end on the turn-round of a load counts.
func leaves(t build.Task, o *build.Outwork) unit.Date {
	if len(t.Legs) > 0 {
		return o.Sent // packed and driven that day: the turn-round begins the morning after
	}
	return o.Sent - 1 // gone first thing: the day counts
}

// rest returns what is left now of a wait of so many working days that runs
// from the morning after a day; from no day, it has not begun.
func (n *net) rest(days int, began unit.Date) schedule.Minute {
	wait := schedule.Minute(days * dayLong)
	if began == 0 {
		return wait
	}
	return max(wait-n.passed(began), 0)
}

// passed returns how much of a wait has passed now that runs from the morning
// after a day.
func (n *net) passed(began unit.Date) schedule.Minute {
	passed := schedule.Minute(n.daysBetween(began, n.now.Date()-1) * dayLong)
	if n.works(n.now.Date()) && began < n.now.Date() {
		passed += min(max(n.problem.Now-dayFrom, 0), dayLong)
	}
	return passed
}

// lastHours returns the last day on which somebody worked on a begun task.
func (n *net) lastHours(t build.Task) unit.Date {
	if t.State != build.Begun {
		return 0
	}
	last := t.Began
	for _, h := range n.build.Hours {
		if h.Task == t.ID {
			last = max(last, h.Start.Date())
		}
	}
	return last
}

// left returns the hours a task still needs.
func (n *net) left(id build.TaskID) unit.Effort {
	var sum unit.Effort
	for _, w := range n.work[id] {
		sum += w.Left
	}
	return sum
}

// handOver joins hours to what follows them: at once, or, where the shop takes
// up the morning after what was handed on, on the evening of the same day.
func (n *net) handOver(from, to int) {
	if !n.build.Shop.NextMorning {
		n.link(from, to)
		return
	}
	n.problem.Links = append(n.problem.Links, schedule.Link{From: from, To: to, Lag: 1, Calendar: n.shopDays + 1})
}

func (n *net) link(from, to int) {
	n.problem.Links = append(n.problem.Links, schedule.Link{From: from, To: to, Calendar: -1})
}

// links makes every task wait for those it comes after.
func (n *net) links() {
	for _, t := range n.build.Tasks {
		for _, before := range t.After {
			end, open := n.ends[before]
			if !open {
				continue
			}
			for _, i := range n.starts[t.ID] {
				n.link(end, i)
			}
		}
	}
}
