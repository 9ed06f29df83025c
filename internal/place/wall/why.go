package wall

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/plan"
	"fettle/unit"
)

// whyOf answers about a day with the key "pedlar/2027-02-19".
func whyOf(shop *live.Shop) func(context.Context, string) (*plan.WhyNot, error) {
	return func(ctx context.Context, key string) (*plan.WhyNot, error) {
		build, text, _ := strings.Cut(key, "/")
		day, err := unit.ParseDate(text)
		if err != nil {
			return nil, err
		}
		x, _, err := shop.Why(ctx, build, day)
		return x, err
	}
}

// asking is what the page of a day asked about needs to know.
type asking struct {
	Build string
	Plan  *plan.Plan
	View  live.View
	By    unit.Date
	Sent  string // what was typed for the day
	Wrong field.Errors
	Why   *plan.WhyNot // nil while it is worked out
}

// whyHref is the page of a day; of 0, the promised one.
func whyHref(build string, by unit.Date) string {
	if by == 0 {
		return "/b/" + build + "/wall/why"
	}
	return "/b/" + build + "/wall/why?day=" + by.String()
}

// sooner is the last day that the bound rules out.
func sooner(p *plan.Plan) unit.Date { return max(p.Bound-1, p.Now.Date()) }

// asking reads the day asked about: the promised one when none is named.
func (p place) asking(r *web.Request, wait bool) (asking, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return asking{}, err
	}
	a := asking{Build: r.Build(), Plan: pl, View: view, By: pl.Promise.Ready, Sent: r.Query("day")}
	if a.Sent != "" {
		day, err := unit.ParseDate(a.Sent)
		if off := day - pl.Now.Date(); err != nil || off < -plan.WhyWithin || off > plan.WhyWithin {
			a.Wrong = field.Errors{{Field: "day", Msg: "is not within two years: please give one such as " + pl.Promise.Ready.String()}}
			return a, nil
		}
		a.By = day
	}
	key := a.Build + "/" + a.By.String()
	if wait || p.whys.known(key, view) {
		a.Why, err = p.whys.of(r.Context(), key, view)
	}
	return a, err
}

func (p place) showWhy(r *web.Request) error {
	as := r.As()
	a, err := p.asking(r, as != "page" || r.Query("now") != "")
	if err != nil {
		return err
	}
	sheet := web.Sheet{Place: "wall", Shown: "why not by " + a.By.Short()}
	switch {
	case len(a.Wrong) > 0:
		return r.Invalid(sheet, whyPage(a))
	case as == "csv":
		return r.CSV(a.Build+"-why-not-"+a.By.String()+".csv", helpTable(a).Records())
	case as == "json":
		return r.JSON(a.Why)
	}
	return p.desk.Page(r, sheet, whyPage(a))
}

func (p place) whyFound(r *web.Request) error {
	a, err := p.asking(r, true)
	if err != nil {
		return err
	}
	if len(a.Wrong) > 0 {
		return fault.New(fault.Invalid, "the day %s", a.Wrong.Of("day")).At("day")
	}
	return r.Fragment(whyShown(a))
}

// asked is the day as it stands in the field.
func (a asking) asked() string { return cmp.Or(a.Sent, a.By.String()) }

// margin is the working of the days to spare, with a name that begins a line.
func (a asking) margin() figure.Figure {
	f := a.Why.Margin
	f.Name = upper(f.Name)
	return f
}

// clashRow is one line of what cannot all hold.
type clashRow struct {
	plan.ClashLine
	Tasks [][]taskStep
}

// taskStep is a task by a name that is short enough to stand in a row of them.
type taskStep struct {
	ID   build.TaskID
	Name string
}

// clashRows are the lines of the clash with the tasks they name.
func (a asking) clashRows() []clashRow {
	var rows []clashRow
	for _, l := range a.Why.Clash {
		row := clashRow{ClashLine: l}
		for _, step := range l.Steps {
			var tasks []taskStep
			for _, id := range step {
				name, _, _ := strings.Cut(a.View.Build.Task(id).Name, ":")
				tasks = append(tasks, taskStep{id, name})
			}
			row.Tasks = append(row.Tasks, tasks)
		}
		rows = append(rows, row)
	}
	return rows
}

// clashTable lists what cannot all hold.
func clashTable(a asking) table.Table {
	t := table.Table{ID: "why-clash", Caption: "What cannot all hold",
		Columns: []table.Column{{Head: "", Wide: true}, {Head: "Hours", Unit: "h", Number: true}, {Head: "Waits", Unit: "days", Number: true}, {Head: "By itself over on", Number: true}}}
	t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Show("", wish(a)), {}, {}, {}}})
	for i, l := range a.clashRows() {
		cells := []table.Cell{table.Show(l.Head, clashSays(a.Build, l, i)), {}, {}, {}}
		if l.Hours > 0 {
			f := l.Figure
			f.Text = hours(l.Hours)
			cells[1] = table.Show(hours(l.Hours), figureCell(fmt.Sprintf("clash-%d", i), f))
		}
		if l.Waits > 0 {
			cells[2] = waitsCell(l, i)
		}
		if l.Done != 0 {
			cells[3] = table.Text(weekDay(l.Done))
			if l.Done > a.By {
				cells[3] = table.Show(weekDay(l.Done), pastIt(l.Done))
			}
		}
		t.Rows = append(t.Rows, table.Row{Cells: cells})
	}
	if !slices.ContainsFunc(a.Why.Clash, func(l plan.ClashLine) bool { return l.Kind == "order" }) {
		t.Columns = t.Columns[:1] // nothing has hours
	}
	return t
}

// waitsCell is the waits of a line, with their working where no hours have it.
func waitsCell(l clashRow, i int) table.Cell {
	f := l.Figure
	f.Text = fmt.Sprint(l.Waits)
	if l.Hours > 0 {
		return table.Text(f.Text)
	}
	return table.Show(f.Text, figureCell(fmt.Sprintf("clash-%d", i), f))
}

// clashNote says how the lines came about.
func clashNote(x *plan.WhyNot) string {
	how := "none of them can be left out"
	if x.Least {
		how = "no smaller set is known to clash"
	}
	text := fmt.Sprintf("%d facts that cannot all hold, put together; %s. Change one and these rule the day out no more; others still may.", x.Facts, how)
	if x.Facts == len(x.Clash)+1 {
		text = strings.Replace(text, ", put together", "", 1)
	}
	for _, l := range x.Clash {
		if l.Done != 0 {
			return text + " “By itself over on” is the work of these lines planned alone, with nothing else in its way."
		}
	}
	return text
}

// helpTable lists what would help, single things first.
func helpTable(a asking) table.Table {
	t := table.Table{ID: "why-helps", Caption: "What would help", Self: whyHref(a.Build, a.By), Empty: "Nothing that was tried wins a day or a chance: one more person, longer days, more room, earlier parts, what is offered.",
		Columns: []table.Column{{Head: "If this were otherwise", Wide: true}, {Head: "Won", Unit: "days", Number: true}, {Head: "At most", Unit: "days", Number: true},
			{Head: "Finished on", Number: true}, {Head: "Odds", Unit: "%", Number: true}, {Head: "Gain", Unit: "points", Number: true}, {Head: "±", Unit: "points", Number: true},
			{Head: "Price", Unit: a.View.Build.Currency.Symbol, Number: true}, {Head: "Offered"}}}
	if a.Why == nil {
		return t
	}
	for i, h := range a.Why.Helps {
		price, offered := table.Text("not known"), table.Text("no")
		if h.Offered {
			price = table.Text(strings.TrimPrefix(a.View.Build.Currency.Format(h.Price), a.View.Build.Currency.Symbol))
			offered = table.Link("yes: ways out", "/b/"+a.Build+"/wall/ways")
		}
		f := h.Figure
		f.Text = fmt.Sprint(h.Won)
		row := table.Row{Group: "One thing", Cells: []table.Cell{table.Text(h.Name), table.Show(f.Text, figureCell(fmt.Sprintf("help-%d", i), f)), table.Text(fmt.Sprint(h.Most)),
			dateCell(h.Plain), table.Show(fmt.Sprintf("%.1f", 100*h.Ready), oddsCell(h)), table.Text(signed(100 * h.Gain)), table.Text(fmt.Sprintf("%.1f", 100*h.StdErr)), price, offered}}
		if h.Pair {
			row.Group = "Two together, the best"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func dateCell(d unit.Date) table.Cell {
	if d == 0 {
		return table.Text("no date")
	}
	return day2(d)
}

// waitsSay sums up the waits that set the date.
func (a asking) waitsSay() string {
	var list []string
	sum := 0
	for _, w := range a.Why.Waits {
		list = append(list, fmt.Sprintf("%s %d", w.Task, w.Days))
		sum += w.Days
	}
	if sum == 0 {
		return ""
	}
	return fmt.Sprintf("Of the way to the date, %s are waits (%s). How long a coat cures or an outside shop takes is not ours to cut: the maker's sheet and their word hold, so no wait is among what would help.",
		plan.WorkingDays(sum), strings.Join(list, ", "))
}
