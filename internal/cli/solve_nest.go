package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
	"fettle/fault"
)

// solveNestCmd lays pieces out.
type solveNestCmd struct {
	File    string `arg:"" help:"A layout problem (docs/engine/nest-file.md)." type:"existingfile"`
	Steps   int    `help:"Budget; a step is 1024 places judged." default:"2000"`
	Seed    uint64 `help:"Same file, same seed, same budget, same workers: the same layout." default:"1"`
	Workers int    `help:"Searches side by side in each round, 1 to 16." default:"1"`
	JSON    bool   `name:"json" help:"Print one JSON document."`
	SVG     string `name:"svg" help:"Draw the layout into this file." type:"path"`
	DXF     string `name:"dxf" help:"Write the layout to cut by into this file, in millimetres." type:"path"`
	DXFForm string `name:"dxf-form" help:"r2000, or r12, which does not say that 1 is a millimetre." enum:"r2000,r12" default:"r2000"`
	PDF     string `name:"pdf" help:"Write the layout one to one into this file, to print and cut by." type:"path"`
	Paper   string `help:"Paper of --pdf: a4, a3-wide, letter, 914x1200 (mm), or one for a page of true size." default:"a4"`
	Unit    string `help:"Of the file's lengths, where it does not say: mm, cm, m or in."`
}

// nestSolved is what solve nest prints.
type nestSolved struct {
	Name        string       `json:"name"`
	Status      string       `json:"status"`
	Reason      string       `json:"reason,omitempty"`     // why it is incomplete
	Bound       *float64     `json:"bound,omitempty"`      // a cost of bins that no layout goes below, or a value of a knapsack that none passes
	Density     float64      `json:"density"`              // area of the pieces over that of the material used, 0 to 1
	Length      *float64     `json:"length,omitempty"`     // of a strip, in the unit of the file
	HidesUsed   *int         `json:"hides_used,omitempty"` // of hides and sheets
	Verified    bool         `json:"verified"`             // by the checker, which shares nothing with the search
	SmallestGap *float64     `json:"smallest_gap"`         // null where nothing lies beside anything
	Nearest     string       `json:"nearest,omitempty"`
	Seconds     float64      `json:"seconds"`
	CPUSeconds  float64      `json:"cpu_seconds"`
	Steps       int          `json:"steps"`
	Evaluations int          `json:"evaluations"`
	Placements  []nestPlaced `json:"placements"`
	Remnants    []nestLeft   `json:"remnants,omitempty"` // of hides and sheets
}

// nestLeft is the largest rectangle that is left of a sheet.
type nestLeft struct {
	Container string        `json:"container"`
	Sheet     int           `json:"sheet"`
	Length    float64       `json:"length"`
	Width     float64       `json:"width"`
	Corners   [4][2]float64 `json:"corners"`
}

// nestPlaced is where a copy lies; copies and sheets count from 1.
type nestPlaced struct {
	Item      string  `json:"item"`
	Copy      int     `json:"copy"`
	Container string  `json:"container"`
	Sheet     int     `json:"sheet"`
	X         float64 `json:"x"`
	Y         float64 `json:"y"`
	Rotation  float64 `json:"rotation_deg"`
	Mirrored  bool    `json:"mirrored"`
}

// The most steps and workers.
const (
	mostNestSteps   = 100_000_000
	mostNestWorkers = 16
)

// Run lays the pieces out, holds the layout to the checker and prints it. A
// layout that the checker refuses is never printed.
func (c *solveNestCmd) Run(ctx context.Context, s streams) error {
	if c.Steps < 0 || c.Steps > mostNestSteps {
		return fault.New(fault.Invalid, "%d: 0 to %d are wanted", c.Steps, mostNestSteps).At("--steps")
	}
	if c.Workers < 1 || c.Workers > mostNestWorkers {
		return fault.New(fault.Invalid, "%d: 1 to %d are wanted", c.Workers, mostNestWorkers).At("--workers")
	}
	f, err := c.read()
	if err != nil {
		return within(err, c.File)
	}
	paper, err := c.drawings(&f)
	if err != nil {
		return err
	}
	began, used := time.Now(), cpuSeconds()
	r, err := nest.Solve(ctx, f.Problem, nest.Options{Seed: c.Seed, Steps: c.Steps, Workers: c.Workers})
	if err != nil {
		return within(err, c.File)
	}
	one := solvedNest(f.Problem, r)
	one.Seconds, one.CPUSeconds = time.Since(began).Seconds(), cpuSeconds()-used
	if one.Name = f.Name; one.Name == "" {
		one.Name = filepath.Base(c.File)
	}
	if err := one.verify(f.Problem, r); err != nil {
		return err
	}
	if err := c.draw(f, r, paper); err != nil {
		return err
	}
	if c.JSON {
		if err := printJSON(s, one); err != nil {
			return err
		}
	} else {
		one.print(s.out)
	}
	return ctx.Err()
}

func (c *solveNestCmd) read() (nestfile.File, error) {
	in, err := os.Open(c.File)
	if err != nil {
		return nestfile.File{}, fault.New(fault.NotFound, "cannot be opened: %v", err)
	}
	defer in.Close()
	return nestfile.Read(in)
}

func solvedNest(p nest.Problem, r nest.Result) nestSolved {
	one := nestSolved{
		Reason: r.Reason, Density: r.Density, Steps: r.Stats.Steps, Evaluations: r.Stats.Evaluations, Placements: []nestPlaced{},
		Status: [...]string{nest.BestFound: "best found", nest.Interrupted: "interrupted", nest.Incomplete: "incomplete"}[r.Status],
	}
	if p.Kind == nest.Strip {
		one.Length = &r.Length
	} else {
		used := 0
		for _, n := range r.Used {
			used += n
		}
		one.HidesUsed = &used
		if r.Bound > 0 {
			one.Bound = numberOf(r.Bound)
		}
	}
	for _, at := range r.Placements {
		one.Placements = append(one.Placements, nestPlaced{
			Item: p.Pieces[at.Piece].ID, Copy: at.Copy + 1, Container: p.Containers[at.Container].ID, Sheet: at.Sheet + 1,
			X: at.X, Y: at.Y, Rotation: at.Rotation, Mirrored: at.Mirrored,
		})
	}
	return one
}

// verify holds the layout to the checker once more, whoever made it.
func (one *nestSolved) verify(p nest.Problem, r nest.Result) error {
	check := nest.Check
	if r.Status != nest.BestFound {
		check = nest.CheckPart
	}
	report, err := check(p, r.Placements)
	if err != nil {
		return fault.Wrap(fault.Internal, err, "the layout failed its own check")
	}
	one.Verified, one.SmallestGap, one.Nearest = true, numberOf(report.SmallestGap), report.Nearest
	return one.left(p, r)
}

// left asks what the layout leaves.
func (one *nestSolved) left(p nest.Problem, r nest.Result) error {
	list, err := nest.Remnants(p, r.Placements)
	for _, l := range list {
		left := nestLeft{Container: p.Containers[l.Container].ID, Sheet: l.Sheet + 1, Length: l.Length, Width: l.Width}
		for i, q := range l.Corners {
			left.Corners[i] = [2]float64{q.X, q.Y}
		}
		one.Remnants = append(one.Remnants, left)
	}
	return err
}

func (one nestSolved) print(w io.Writer) {
	fmt.Fprintf(w, "%s\t%s\tdensity %.2f %%", one.Name, one.Status, 100*one.Density)
	if one.Length != nil {
		fmt.Fprintf(w, "\tlength %.3f", *one.Length)
	}
	if one.HidesUsed != nil {
		fmt.Fprintf(w, "\t%d used", *one.HidesUsed)
	}
	if one.Verified {
		fmt.Fprint(w, "\tverified")
	}
	if one.SmallestGap != nil {
		fmt.Fprintf(w, ", smallest gap %.3g between %s", *one.SmallestGap, one.Nearest)
	}
	if one.Reason != "" {
		fmt.Fprintf(w, "\n\t%s", one.Reason)
	}
	fmt.Fprintf(w, "\n\t%d steps\t%d places judged\t%.1f s\t%.1f s of processor\n", one.Steps, one.Evaluations, one.Seconds, one.CPUSeconds)
	for _, at := range one.Placements {
		fmt.Fprintf(w, "\t%s\tcopy %d\t%s %d\tx %.4f\ty %.4f\t%g°", at.Item, at.Copy, at.Container, at.Sheet, at.X, at.Y, at.Rotation)
		if at.Mirrored {
			fmt.Fprint(w, "\tmirrored")
		}
		fmt.Fprintln(w)
	}
	for _, l := range one.Remnants {
		fmt.Fprintf(w, "\tleft of %s %d\t%.2f × %.2f\n", l.Container, l.Sheet, l.Length, l.Width)
	}
}
