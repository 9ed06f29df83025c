package plan

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/unit"
)

// ClashLine is one of the lines that cannot all hold: facts of a kind put
// together.
type ClashLine struct {
	Kind   string           `json:"kind"` // order, work, begun, parts, hours, away, place, habit or fixed
	Head   string           `json:"head"`
	Says   string           `json:"says,omitempty"`
	Steps  [][]build.TaskID `json:"steps,omitempty"` // of an order: tasks side by side, one step after the other
	Hours  unit.Effort      `json:"hours,omitempty"` // of an order
	Waits  int              `json:"waits,omitempty"` // working days, of an order
	Done   unit.Date        `json:"done,omitzero"`   // of an order: over then if nothing else were to be done
	Facts  int              `json:"facts"`
	Figure figure.Figure    `json:"working,omitzero"`
}

// mostOrders is how many lines the order of the work is folded into.
const mostOrders = 5

// folding puts the facts of a clash together.
type folding struct {
	*why
	facts []schedule.Fact
	after map[build.TaskID][]build.TaskID // links between tasks
	does  map[build.TaskID][]int          // activities that the facts name
	done  map[build.TaskID]schedule.Minute
}

// lines folds the facts that cannot all hold.
func (x *why) lines(ctx context.Context, facts []schedule.Fact) ([]ClashLine, error) {
	f := &folding{why: x, facts: facts, after: map[build.TaskID][]build.TaskID{}, does: map[build.TaskID][]int{}}
	for _, one := range facts {
		if one.Kind == schedule.FactLink || one.Kind == schedule.FactMaxLag {
			l := x.problem.Links[one.Link]
			f.joins(l.From, l.To)
		} else if one.Activity >= 0 {
			f.joins(one.Activity, one.Activity)
		}
	}
	var err error
	if f.done, err = f.alone(ctx); err != nil {
		return nil, err
	}
	granted, err := f.granted(ctx)
	if err != nil {
		return nil, err
	}
	return slices.Concat(f.orders(), granted, f.begun(), f.parts(), f.hours(), f.away(), f.rest()), nil
}

func (f *folding) task(j int) build.TaskID { return build.TaskID(f.problem.Activities[j].Group) }

func (f *folding) joins(from, to int) {
	a, b := f.task(from), f.task(to)
	for _, j := range []int{from, to} {
		if id := f.task(j); !slices.Contains(f.does[id], j) {
			f.does[id] = append(f.does[id], j)
		}
	}
	if a != b && !slices.Contains(f.after[b], a) {
		f.after[b] = append(f.after[b], a)
	}
}

// steps are the tasks by how many of the others come before them on the longest
// way.
func (f *folding) steps() [][]build.TaskID {
	level := map[build.TaskID]int{}
	var depth func(id build.TaskID) int
	depth = func(id build.TaskID) int {
		if d, known := level[id]; known {
			return d
		}
		level[id] = 0 // a loop would have been refused
		d := 0
		for _, before := range f.after[id] {
			d = max(d, depth(before)+1)
		}
		level[id] = d
		return d
	}
	var list [][]build.TaskID
	for _, t := range f.build.Tasks {
		if len(f.does[t.ID]) == 0 {
			continue
		}
		d := depth(t.ID)
		for len(list) <= d {
			list = append(list, nil)
		}
		list[d] = append(list[d], t.ID)
	}
	return slices.DeleteFunc(list, func(s []build.TaskID) bool { return len(s) == 0 })
}

// orders are runs of steps of one stage; the shortest neighbours are put
// together until they are few.
func (f *folding) orders() []ClashLine {
	if len(f.after) == 0 {
		return nil
	}
	var runs [][][]build.TaskID
	stage := ""
	for _, s := range f.steps() {
		if own := f.stages([][]build.TaskID{s}); own != stage || len(runs) == 0 {
			runs, stage = append(runs, nil), own
		}
		runs[len(runs)-1] = append(runs[len(runs)-1], s)
	}
	for len(runs) > mostOrders {
		least := 0
		for i := range runs[:len(runs)-1] {
			if len(runs[i])+len(runs[i+1]) < len(runs[least])+len(runs[least+1]) {
				least = i
			}
		}
		runs[least] = append(runs[least], runs[least+1]...)
		runs = slices.Delete(runs, least+1, least+2)
	}
	var list []ClashLine
	for _, r := range runs {
		list = append(list, f.order(r))
	}
	return list
}

// stages names the stages of some steps, in the order of the work.
func (f *folding) stages(steps [][]build.TaskID) string {
	var names []string
	for _, id := range slices.Concat(steps...) {
		if s := f.build.Task(id).Stage; !slices.Contains(names, s) {
			names = append(names, s)
		}
	}
	return strings.Join(names, ", ")
}

func (f *folding) order(steps [][]build.TaskID) ClashLine {
	l := ClashLine{Kind: "order", Head: upper(f.stages(steps)), Steps: steps, Figure: figure.Figure{Formula: "hours left of these tasks, and days of waiting in them"}}
	if len(steps) > 1 {
		l.Head += ", in order"
	}
	var done schedule.Minute
	var sum []string
	waits := schedule.Minute(0)
	for _, id := range slices.Concat(steps...) {
		for _, j := range f.does[id] {
			a := f.problem.Activities[j]
			if a.Work == 0 {
				continue
			}
			in := figure.Input{Name: f.taskLabel(j), Source: figure.Worked, Link: "task/" + string(id)}
			if a.Kind == schedule.Passive {
				waits += a.Work
				in.Value, in.Note = WorkingDays(waitDays(a.Work)), "of waiting"
			} else {
				l.Hours += unit.Effort(a.Work)
				in.Value, in.Note = unit.Effort(a.Work).String(), "left, by "+f.hands(a)
				sum = append(sum, unit.Effort(a.Work).String())
			}
			l.Figure.Inputs = append(l.Figure.Inputs, in)
		}
		done = max(done, f.done[id])
	}
	for _, one := range f.facts {
		if one.Kind == schedule.FactLink && slices.Contains(slices.Concat(steps...), f.task(one.Activity)) {
			l.Facts++
		}
	}
	l.Waits, l.Done = waitDays(waits), f.day(done)
	l.Figure.Name, l.Figure.Text = "hours in order: "+strings.ToLower(f.stages(steps)), l.Hours.String()
	if l.Hours == 0 && l.Waits > 0 {
		l.Figure.Name, l.Figure.Text = "waits in order: "+strings.ToLower(f.stages(steps)), WorkingDays(l.Waits)
	}
	if len(sum) > 1 {
		sum = []string{strings.Join(sum, " + ") + " = " + l.Hours.String()}
	}
	if l.Waits > 0 {
		sum = append(sum, WorkingDays(l.Waits)+" of waiting")
	}
	l.Figure.With = strings.Join(sum, ", and ")
	if l.Done != 0 {
		l.Figure.Inputs = append(l.Figure.Inputs, figure.Input{Name: "by itself over on", Value: l.Done.Short(), Source: figure.Worked,
			Note: "the work that clashes planned with its links alone, by the same list and rules: the last of these tasks is over then"})
	}
	return l
}

// waitDays counts the working days of a wait.
func waitDays(m schedule.Minute) int { return int((m + dayLong/2) / dayLong) }

// hands names those who may do an activity.
func (f *folding) hands(a schedule.Activity) string {
	var names []string
	for _, p := range a.Who {
		names = append(names, f.build.People[p].Name)
	}
	return cmp.Or(strings.Join(names, " or "), "nobody")
}

// alone plans what the facts name as if nothing else were to be done, and gives
// the moment at which each task is over: past the day asked about, since the
// facts cannot all hold.
func (f *folding) alone(ctx context.Context) (map[build.TaskID]schedule.Minute, error) {
	done := map[build.TaskID]schedule.Minute{}
	times, err := f.only(ctx, func(j int) bool { return slices.Contains(f.does[f.task(j)], j) })
	for j, t := range times {
		done[f.task(j)] = max(done[f.task(j)], t.Finish)
	}
	return done, err
}

// only plans a part of the activities, with the links that the facts name, and
// gives their times.
func (f *folding) only(ctx context.Context, part func(int) bool) (map[int]schedule.Timing, error) {
	p := f.problem
	p.Activities, p.Links, p.Risks = nil, nil, nil
	at := map[int]int{}
	for j, a := range f.problem.Activities {
		if part(j) && !f.onlyIf(j) {
			if !slices.Contains(f.does[f.task(j)], j) {
				a.Release = 0 // its part is not among the facts
			}
			at[j] = len(p.Activities)
			p.Activities = append(p.Activities, a)
		}
	}
	for _, one := range f.facts {
		if one.Link < 0 {
			continue
		}
		l := f.problem.Links[one.Link]
		from, known := at[l.From]
		to, also := at[l.To]
		if l.From, l.To = from, to; known && also {
			p.Links = append(p.Links, l)
		}
	}
	res, err := schedule.Solve(ctx, p, schedule.Options{Seed: f.seed})
	if err != nil {
		return nil, err
	}
	times := map[int]schedule.Timing{}
	for j, i := range at {
		times[j] = res.Times[i]
	}
	return times, nil
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
