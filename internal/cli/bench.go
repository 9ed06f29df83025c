package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"text/tabwriter"

	"fettle/engine/schedule/project"
	"fettle/engine/schedule/psplib"
	"fettle/fault"
)

// benchCmd measures an engine on a set.
type benchCmd struct {
	Schedule benchScheduleCmd `cmd:"" help:"Solve a whole set of project files and print the table that papers print."`
	Nest     benchNestCmd     `cmd:"" help:"Lay out a folder of layout problems under a budget of processor time, beside published densities."`
	Flatten  benchFlattenCmd  `cmd:"" help:"Lay a folder of surfaces flat, beside others' figures where there is a table of them."`
}

// benchScheduleCmd solves a set of .sm files.
type benchScheduleCmd struct {
	Set       string `arg:"" help:"Folder of .sm files, or a .tar.gz of them." type:"path"`
	BestKnown string `name:"best-known" help:"Table of best known makespans, CSV." type:"existingfile"`
	Schedules int    `help:"Budget of generated schedules for each file." default:"1000"`
	Seed      uint64 `help:"One seed for the whole set." default:"1"`
	Workers   int    `help:"Islands that search side by side, 1 or 2." default:"1"`
	JSON      bool   `name:"json" help:"Print one JSON document."`
}

// benched is the line that bench schedule prints.
type benched struct {
	Files      int     `json:"files"`
	Budget     int     `json:"schedules"`
	Seed       uint64  `json:"seed"`
	AbovePath  float64 `json:"percent_above_critical_path"`
	AboveBest  float64 `json:"percent_above_best_known"`
	Met        int     `json:"at_or_below_best_known"`
	Proved     int     `json:"proved_best"`
	CPUSeconds float64 `json:"cpu_seconds"`
}

// Run solves the set and prints its line.
func (c *benchScheduleCmd) Run(ctx context.Context, s streams) error {
	set, err := psplib.Open(os.DirFS(filepath.Dir(c.Set)), filepath.Base(c.Set))
	if err != nil {
		return err
	}
	known, err := c.known()
	if err != nil {
		return err
	}
	before := cpuSeconds()
	t, err := psplib.Bench(ctx, set, known, project.Options{Seed: c.Seed, Schedules: c.Schedules, Workers: c.Workers})
	if err != nil {
		return err
	}
	line := benched{len(t.Rows), c.Schedules, c.Seed, t.AbovePath, t.AboveBest, t.Met, t.Proved, cpuSeconds() - before}
	if c.JSON {
		return printJSON(s, line)
	}
	w := tabwriter.NewWriter(s.out, 0, 4, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "files\tschedules\tabove critical path %\tabove best known %\tat best known\tproved\tCPU s\t")
	fmt.Fprintf(w, "%d\t%d\t%.2f\t%.2f\t%d\t%d\t%.1f\t\n", line.Files, line.Budget, line.AbovePath, line.AboveBest, line.Met, line.Proved, line.CPUSeconds)
	return w.Flush()
}

func (c *benchScheduleCmd) known() (map[string]psplib.Known, error) {
	if c.BestKnown == "" {
		return nil, nil
	}
	f, err := os.Open(c.BestKnown)
	if err != nil {
		return nil, fault.New(fault.NotFound, "cannot be opened: %v", err).At("--best-known")
	}
	defer f.Close()
	return psplib.ReadKnown(f)
}
