package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"fettle/engine/schedule/lags"
	"fettle/engine/schedule/project"
	"fettle/engine/schedule/psplib"
	"fettle/fault"
)

// solveCmd runs an engine alone, on files.
type solveCmd struct {
	Schedule solveScheduleCmd `cmd:"" help:"Plan a shop's work, or find short schedules for project files of the public test sets."`
	Film     solveFilmCmd     `cmd:"" help:"Work out how paint films over a ground look, and how many coats hide it."`
	Nest     solveNestCmd     `cmd:"" help:"Lay pieces out on a roll, hides or sheets, with as little of it as can be."`
	Flatten  solveFlattenCmd  `cmd:"" help:"Lay a curved surface flat, with as little strain as can be, or with strain that the material bears."`
	Loom     solveLoomCmd     `cmd:"" help:"Work out the wires of a vehicle: section, fuse, drop, short circuit, what is wrong."`
}

// solveScheduleCmd solves project files.
type solveScheduleCmd struct {
	Files     []string `arg:"" help:"Files, all of one form." type:"existingfile"`
	Format    string   `help:"Form of the files: fettle (docs/engine/schedule-file.md), psplib (.sm), or psplib-max (.sch, with maximum lags)." enum:"fettle,psplib,psplib-max" default:"psplib"`
	Schedules int      `help:"Budget of generated schedules; of decisions and conflicts for psplib-max." default:"5000"`
	Seed      uint64   `help:"Same file, same seed, same budget: the same schedule." default:"1"`
	Workers   int      `help:"Islands that search side by side, 1 or 2." default:"1"`
	Runs      int      `help:"Play the plan so often for its odds; form fettle only."`
	Why       bool     `help:"Say what sets the last date, what would help, and which facts clash where the goal cannot be met; form fettle only."`
	JSON      bool     `name:"json" help:"Print one JSON document."`
}

// solved is what solve schedule prints of a file.
type solved struct {
	File       string `json:"file"`
	Status     string `json:"status"`
	Makespan   int    `json:"makespan"`    // slots; 0 without a schedule
	LowerBound int    `json:"lower_bound"` // slots
	Schedules  int    `json:"schedules"`   // generated; decisions and conflicts for psplib-max
	Starts     []int  `json:"starts"`      // slot of each activity, in the order of the file
	Why        string `json:"why,omitempty"`
}

// Run solves every file. A result that the engine's own checker refuses is
// never printed.
func (c *solveScheduleCmd) Run(ctx context.Context, s streams) error {
	if c.Runs > mostRuns {
		return fault.New(fault.Invalid, "at most %d runs", mostRuns).At("--runs")
	}
	if c.Format != "fettle" {
		if err := c.plainOnly(); err != nil {
			return err
		}
	}
	list := make([]printable, 0, len(c.Files))
	for _, path := range c.Files {
		one, err := c.solve(ctx, path)
		if err != nil {
			return within(err, path)
		}
		list = append(list, one)
		if !c.JSON {
			one.print(s.out)
		}
	}
	if c.JSON {
		return printJSON(s, list)
	}
	return nil
}

// plainOnly refuses what only a shop's problem can be asked.
func (c *solveScheduleCmd) plainOnly() error {
	for _, one := range []struct {
		flag string
		said bool
	}{{"--why", c.Why}, {"--runs", c.Runs > 0}} {
		if one.said {
			return fault.New(fault.Invalid, "a file of the form %s has no answer to that", c.Format).At(one.flag).WithHint("say --format fettle, with a file of that form")
		}
	}
	return nil
}

// printable is an answer that can be written for a person.
type printable interface{ print(io.Writer) }

func (one solved) print(w io.Writer) {
	fmt.Fprintf(w, "%s\t%s\t%d\tbound %d\t%s\n", one.File, one.Status, one.Makespan, one.LowerBound, one.Why)
}

func (c *solveScheduleCmd) solve(ctx context.Context, path string) (printable, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fault.New(fault.NotFound, "cannot be opened: %v", err)
	}
	defer f.Close()
	name := filepath.Base(path)
	switch c.Format {
	case "fettle":
		return c.shop(ctx, f, name)
	case "psplib-max":
		return c.withLags(ctx, f, solved{File: name})
	}
	return c.plain(ctx, f, solved{File: name})
}

func (c *solveScheduleCmd) plain(ctx context.Context, f *os.File, one solved) (solved, error) {
	p, err := psplib.ReadSM(f)
	if err != nil {
		return one, err
	}
	r, err := project.Solve(ctx, p, project.Options{Seed: c.Seed, Schedules: c.Schedules, Workers: c.Workers})
	if err != nil {
		return one, err
	}
	if err := project.Check(p, r.Starts); err != nil {
		return one, fault.Wrap(fault.Internal, err, "the schedule failed its own check")
	}
	one.Status, one.Makespan, one.LowerBound, one.Schedules = r.Status.String(), int(r.Makespan), int(r.LowerBound), r.Stats.Schedules
	for _, at := range r.Starts {
		one.Starts = append(one.Starts, int(at))
	}
	return one, ctx.Err()
}

func (c *solveScheduleCmd) withLags(ctx context.Context, f *os.File, one solved) (solved, error) {
	p, err := lags.Read(f)
	if err != nil {
		return one, err
	}
	r, err := lags.Solve(ctx, p, lags.Options{Seed: c.Seed, Steps: c.Schedules})
	if err != nil {
		return one, err
	}
	one.Status = [...]string{lags.Unknown: "unknown", lags.Feasible: "best found", lags.ProvedBest: "proved best", lags.Infeasible: "infeasible"}[r.Status]
	one.Makespan, one.LowerBound, one.Schedules, one.Starts = r.Makespan, r.LowerBound, r.Stats.Steps, r.Starts
	if r.Starts != nil {
		if err := lags.Check(p, r.Starts); err != nil {
			return one, fault.Wrap(fault.Internal, err, "the schedule failed its own check")
		}
	}
	if r.Status == lags.Infeasible {
		one.Why = whyNone(p, r.Why)
	}
	return one, ctx.Err()
}

// whyNone says how it is known that there is no schedule.
func whyNone(p lags.Problem, w lags.Why) string {
	switch w.Proof {
	case lags.Overload:
		return fmt.Sprintf("activity %d asks for more of resource %d than there is", w.Pair[0], w.Pair[1])
	case lags.Cycle:
		text := "lags go round and add up to more than nothing:"
		for _, i := range w.Cycle {
			text += fmt.Sprintf(" %d→%d (%d)", p.Lags[i].From, p.Lags[i].To, p.Lags[i].Min)
		}
		return text
	case lags.Clash:
		return fmt.Sprintf("activities %d and %d cannot overlap, and lags bar either order", w.Pair[0], w.Pair[1])
	}
	return "every possibility was ruled out"
}
