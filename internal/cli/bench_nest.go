package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
	"fettle/fault"
)

// benchNestCmd solves a folder of layout problems under one budget of
// processor time.
type benchNestCmd struct {
	Dir       string   `arg:"" help:"Folder of layout problems, one .json file each (docs/engine/nest-file.md)." type:"existingdir"`
	Seconds   float64  `help:"Budget of each run: processor seconds of this process for each worker, as machines are shared. A short run measures how fast the case goes; then the budget is a number of steps, so that a run can be repeated." default:"60"`
	Seeds     []uint64 `help:"One run of each case for each of them." default:"1"`
	Workers   int      `help:"Searches side by side in each round, 1 to 16." default:"1"`
	Cases     []string `help:"Only these, by name of file without .json."`
	Published string   `help:"Table of published densities in percent, CSV; published.csv beside the folder where nothing is said and there is one." type:"existingfile"`
	JSON      bool     `name:"json" help:"Print one JSON document."`
}

// benchedNest is what bench nest prints of a case.
type benchedNest struct {
	Case        string             `json:"case"`
	Pieces      int                `json:"pieces"`
	Mean        float64            `json:"density_mean_percent"`
	Least       float64            `json:"density_least_percent"`
	Most        float64            `json:"density_most_percent"`
	Runs        []nestRun          `json:"runs"`
	CPUSeconds  float64            `json:"cpu_seconds_mean"`
	Evaluations float64            `json:"evaluations_a_cpu_second"`
	Preparing   float64            `json:"preparing_cpu_seconds"`
	PeakMB      float64            `json:"peak_memory_mb"` // of the process so far
	Published   map[string]float64 `json:"published,omitempty"`
}

// nestRun is one run of a case.
type nestRun struct {
	Seed        uint64  `json:"seed"`
	Steps       int     `json:"steps"`
	Density     float64 `json:"density_percent"`
	Length      float64 `json:"length"`
	CPUSeconds  float64 `json:"cpu_seconds"`
	evaluations int
}

// Run solves every case with every seed and prints the table.
func (c *benchNestCmd) Run(ctx context.Context, s streams) error {
	if c.Seconds <= 0 || c.Workers < 1 || c.Workers > mostNestWorkers || len(c.Seeds) == 0 {
		return fault.New(fault.Invalid, "more than 0 seconds, 1 to %d workers and one seed at least are wanted", mostNestWorkers)
	}
	paths, err := c.paths()
	if err != nil {
		return err
	}
	known, err := c.published()
	if err != nil {
		return err
	}
	var table []benchedNest
	for _, path := range paths {
		one, err := c.bench(ctx, path)
		if err != nil {
			return within(err, path)
		}
		one.Published = known.of(one.Case)
		table = append(table, one)
		if !c.JSON {
			fmt.Fprintf(s.err, "%s\t%.2f %%\n", one.Case, one.Mean)
		}
	}
	if c.JSON {
		return printJSON(s, table)
	}
	return printNestTable(s.out, table, known.columns)
}

// paths lists the files of the cases asked for.
func (c *benchNestCmd) paths() ([]string, error) {
	all, err := filepath.Glob(filepath.Join(c.Dir, "*.json"))
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "the folder cannot be read")
	}
	if len(c.Cases) == 0 {
		return all, nil
	}
	var list []string
	for _, name := range c.Cases {
		path := filepath.Join(c.Dir, name+".json")
		if !slices.Contains(all, path) {
			return nil, fault.New(fault.NotFound, "%s: no such file", path).At("--cases")
		}
		list = append(list, path)
	}
	return list, nil
}

func (c *benchNestCmd) bench(ctx context.Context, path string) (benchedNest, error) {
	in, err := os.Open(path)
	if err != nil {
		return benchedNest{}, fault.New(fault.NotFound, "cannot be opened: %v", err)
	}
	defer in.Close()
	f, err := nestfile.Read(in)
	if err != nil {
		return benchedNest{}, err
	}
	one := benchedNest{Case: strings.TrimSuffix(filepath.Base(path), ".json")}
	for _, p := range f.Problem.Pieces {
		one.Pieces += max(p.Count, 1)
	}
	return one, c.runs(ctx, &one, f.Problem)
}

// runs solves one case with every seed. How many steps a second makes is taken
// from a run of a tenth of the budget, then from those before.
func (c *benchNestCmd) runs(ctx context.Context, one *benchedNest, p nest.Problem) error {
	idle, err := c.run(ctx, p, c.Seeds[0], 0)
	if err != nil {
		return err
	}
	one.Preparing = idle.CPUSeconds
	rate := 0.0
	for steps := 100; ; steps *= 4 {
		r, err := c.run(ctx, p, c.Seeds[0], steps)
		if err != nil {
			return err
		}
		if spent := r.CPUSeconds - one.Preparing; spent >= c.Seconds/10*float64(c.Workers) || ctx.Err() != nil || steps > mostNestSteps {
			rate = float64(r.Steps) / spent
			break
		}
	}
	one.Least = 100
	evaluations, searching := 0, 0.0
	for _, seed := range c.Seeds {
		r, err := c.timed(ctx, p, seed, rate, one.Preparing)
		if err != nil {
			return err
		}
		one.Runs = append(one.Runs, r)
		one.Mean += r.Density / float64(len(c.Seeds))
		one.Least, one.Most = min(one.Least, r.Density), max(one.Most, r.Density)
		one.CPUSeconds += r.CPUSeconds / float64(len(c.Seeds))
		evaluations += r.evaluations
		searching += r.CPUSeconds - one.Preparing
		rate = float64(evaluations) / nest.StepEvaluations / searching
	}
	one.Evaluations, one.PeakMB = float64(evaluations)/searching, peakMemory()/1e6
	return ctx.Err()
}

// timed is one run of the budget at a rate of steps a second; where the rate was
// far off, it is run again at that which came out.
func (c *benchNestCmd) timed(ctx context.Context, p nest.Problem, seed uint64, rate, preparing float64) (nestRun, error) {
	budget := max(0, c.Seconds*float64(c.Workers)-preparing)
	for again := 2; ; again-- {
		r, err := c.run(ctx, p, seed, int(rate*budget))
		spent := r.CPUSeconds - preparing
		if err != nil || again == 0 || ctx.Err() != nil || spent > rateLeast*budget && spent < rateMost*budget || r.Steps+1 < int(rate*budget) {
			return r, err
		}
		rate = float64(r.Steps) / spent
	}
}

// Between which shares of the budget a run is good.
const rateLeast, rateMost = 0.85, 1.1

func (c *benchNestCmd) run(ctx context.Context, p nest.Problem, seed uint64, steps int) (nestRun, error) {
	before := cpuSeconds()
	r, err := nest.Solve(ctx, p, nest.Options{Seed: seed, Steps: steps, Workers: c.Workers})
	return nestRun{seed, r.Stats.Steps, 100 * r.Density, r.Length, cpuSeconds() - before, r.Stats.Evaluations}, err
}
