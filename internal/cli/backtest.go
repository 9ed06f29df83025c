package cli

import (
	"context"
	"fmt"
	"io"
	"text/tabwriter"

	"fettle/internal/live"
)

// backtestCmd sets earlier forecasts beside what came.
type backtestCmd struct {
	storeFlags
	Builds []string `arg:"" help:"Short names of the builds; the forecasts of several are pooled."`
	Every  string   `help:"How often a forecast is made: day or week." enum:"day,week" default:"week"`
	JSON   bool     `name:"json" help:"Print one JSON document."`
}

// backtested is what backtest prints as JSON.
type backtested struct {
	Builds []live.Tested `json:"builds"`
	Whole  live.Verdict  `json:"verdict"`      // on the finishes of finished builds
	Tasks  live.Verdict  `json:"task_verdict"` // on the finishes of finished tasks
}

// Run replays every build and scores what was forecast on the way.
func (c *backtestCmd) Run(ctx context.Context, s streams) error {
	shop, err := c.open(ctx, false)
	if err != nil {
		return err
	}
	defer shop.Close()
	var doc backtested
	var whole, tasks []live.Made
	for _, name := range c.Builds {
		t, err := shop.Backtest(ctx, name, c.Every == "week")
		if err != nil {
			return err
		}
		doc.Builds = append(doc.Builds, t)
		whole, tasks = append(whole, t.Whole...), append(tasks, t.Tasks...)
	}
	doc.Whole, doc.Tasks = live.VerdictOn(whole), live.VerdictOn(tasks)
	if c.JSON {
		return printJSON(s, doc)
	}
	return printBacktest(s, doc)
}

func printBacktest(s streams, doc backtested) error {
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', 0)
	for _, t := range doc.Builds {
		printTested(w, t)
	}
	printVerdict(w, "the finish of the build", doc.Whole)
	printVerdict(w, "the finish of a task", doc.Tasks)
	return w.Flush()
}

// printTested prints the forecasts of one build: of its finish where it is
// finished, else the first one of each finished task.
func printTested(w io.Writer, t live.Tested) {
	list, what := t.Whole, "with the facts at the opening of"
	if t.Finished != 0 {
		fmt.Fprintf(w, "%s, finished %s\n", t.Title, t.Finished.Long())
	} else {
		fmt.Fprintf(w, "%s is not finished: %d tasks are open. The first forecast of each task that is finished:\n", t.Title, t.Open)
		list, what = firsts(t.Tasks), "task, forecast on"
	}
	fmt.Fprintf(w, "%s\thalf by\t4 in 5 by\t9 in 10 by\todds of the promised day\tfinished\t4 in 5 held\tworking days after half\n", what)
	for _, m := range list {
		row, odds, held := m.Day.Long(), "", "no"
		if m.Task != "" {
			row = string(m.Task) + ", " + row
		} else {
			odds = fmt.Sprintf("%.0f %% of %s", 100*m.Ready, m.Promised.Short())
		}
		if m.Held {
			held = "yes"
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%+d\n", row, orNone(m.P50), orNone(m.P80), orNone(m.P90), odds, m.Finished.Long(), held, m.Error)
	}
	fmt.Fprint(w, "\nhours of finished tasks\ttasks\tplanned at first\tplanned with all that was found\tbooked\tbooked ÷ planned\n")
	for _, k := range t.Hours {
		fmt.Fprintf(w, "%s\t%d\t%s\t%s\t%s\t%.2f\n", k.Kind, k.Tasks, k.First, k.Last, k.Booked, k.Booked.H()/k.Last.H())
	}
	fmt.Fprintln(w)
}

// firsts keeps the first forecast of each task.
func firsts(list []live.Made) []live.Made {
	seen := map[string]bool{}
	var kept []live.Made
	for _, m := range list {
		if !seen[string(m.Task)] {
			seen[string(m.Task)] = true
			kept = append(kept, m)
		}
	}
	return kept
}

func printVerdict(w io.Writer, what string, v live.Verdict) {
	if v.Forecasts == 0 {
		return
	}
	fmt.Fprintf(w, "%d forecasts of %s\theld\tgiven\tpinball loss, working days\n", v.Forecasts, what)
	for i, h := range v.Held {
		given := ""
		if h.Said > 0 {
			given = fmt.Sprintf("%.0f %%", 100*h.Said)
		}
		fmt.Fprintf(w, "%s\t%.0f %%\t%s\t%.1f\n", [...]string{"half", "4 in 5", "9 in 10"}[i], 100*h.Part, given, h.Loss)
	}
	if v.Promised > 0 {
		fmt.Fprintf(w, "Brier score of the promise\t%.3f\n", v.Brier)
	}
	fmt.Fprintf(w, "%s\n\n", v.Says)
}
