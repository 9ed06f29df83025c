package cli

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"

	"fettle/engine/flatten"
	"fettle/fault"
	"fettle/geom/meshfile"
)

// benchFlattenCmd lays a folder of surfaces flat.
type benchFlattenCmd struct {
	Dir      string   `arg:"" help:"Folder of surfaces, with the folders in it." type:"existingdir"`
	Cases    []string `help:"Only these, by name of file without its ending."`
	Material string   `help:"Lay each under this as well: leather, vinyl or cloth." enum:",leather,vinyl,cloth" default:""`
	Repeat   int      `help:"Runs of each; the least time counts, as machines are shared." default:"3"`
	Seed     uint64   `help:"One seed for all." default:"1"`
	Peers    string   `help:"Table of others' figures, tab-separated with the columns mesh, peer, cpu_s, iters, flips and symDirichlet; peer_results.tsv in the folder or the one above where nothing is said and there is one." type:"existingfile"`
	JSON     bool     `name:"json" help:"Print one JSON document."`
}

// benchedFlatten is what bench flatten prints of a surface. Times are processor
// seconds of the whole process, from the mesh in memory.
type benchedFlatten struct {
	Mesh         string        `json:"mesh"`
	Vertices     int           `json:"vertices"`
	Faces        int           `json:"faces"`
	Why          string        `json:"why,omitempty"` // it could not be laid flat
	Cuts         int           `json:"cuts"`          // that it needed
	ConformalCPU float64       `json:"conformal_cpu_seconds"`
	Conformal    finite        `json:"conformal_symmetric_dirichlet"`
	CPU          float64       `json:"cpu_seconds"` // with the conformal start
	Dirichlet    finite        `json:"symmetric_dirichlet"`
	Flips        int           `json:"flips"`
	Overlaps     int           `json:"overlaps"`
	MaterialCPU  float64       `json:"material_cpu_seconds,omitempty"` // all passes
	Outside      float64       `json:"share_outside_limits,omitempty"`
	MaterialWhy  string        `json:"material_why,omitempty"` // it could not be laid flat under the material
	Peers        *flattenPeers `json:"peers,omitempty"`
}

// Run lays every surface flat and prints the table.
func (c *benchFlattenCmd) Run(ctx context.Context, s streams) error {
	if c.Repeat < 1 || c.Repeat > 100 {
		return fault.New(fault.Invalid, "%d: 1 to 100 are wanted", c.Repeat).At("--repeat")
	}
	paths, err := c.paths()
	if err != nil {
		return err
	}
	peers, err := readFlattenPeers(c.Dir, c.Peers)
	if err != nil {
		return err
	}
	var table []benchedFlatten
	for _, path := range paths {
		one, err := c.bench(ctx, path)
		if err != nil {
			return within(err, path)
		}
		if p, known := peers[one.Mesh]; known {
			one.Peers = &p
		}
		table = append(table, one)
		if !c.JSON {
			fmt.Fprintf(s.err, "%s\t%.6f\n", one.Mesh, one.Dirichlet)
		}
	}
	if c.JSON {
		return printJSON(s, table)
	}
	return printFlattenTable(s.out, table)
}

// paths lists the surfaces asked for, by name.
func (c *benchFlattenCmd) paths() ([]string, error) {
	var all []string
	err := filepath.WalkDir(c.Dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && slices.Contains(meshfile.Endings, strings.ToLower(filepath.Ext(path))) {
			all = append(all, path)
		}
		return err
	})
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "the folder cannot be read")
	}
	if len(c.Cases) == 0 {
		return all, nil
	}
	var list []string
	for _, name := range c.Cases {
		at := slices.IndexFunc(all, func(path string) bool { return meshName(path) == name })
		if at < 0 {
			return nil, fault.New(fault.NotFound, "%s: no such surface in %s", name, c.Dir).At("--cases")
		}
		list = append(list, all[at])
	}
	return list, nil
}

func meshName(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
}

// bench lays one surface flat so often as is asked. What cannot be laid flat is
// a line of the table, not the end of it.
func (c *benchFlattenCmd) bench(ctx context.Context, path string) (benchedFlatten, error) {
	in, err := readSurface(path, 0, false)
	one := benchedFlatten{Mesh: meshName(path), Vertices: len(in.problem.Surface.Points), Faces: len(in.problem.Surface.Faces)}
	if err != nil {
		return one, err
	}
	var r flatten.Result
	for run := range c.Repeat {
		var conformal, all float64
		if conformal, all, r, err = timedFlatten(ctx, in.problem, c.Seed); err != nil {
			one.Why = err.Error()
			return one, ctx.Err()
		}
		if run == 0 {
			if _, err := flatten.Check(in.problem, r); err != nil {
				one.Why = "the pattern failed its own check: " + err.Error()
				return one, ctx.Err()
			}
			one.ConformalCPU, one.CPU = conformal, all
		}
		one.ConformalCPU, one.CPU = min(one.ConformalCPU, conformal), min(one.CPU, all)
		one.Cuts, one.Flips, one.Overlaps = len(r.Cuts), r.Isometric.Flips, r.Isometric.Overlaps
		one.Dirichlet, one.Conformal = finite(r.Isometric.Dirichlet), finite(r.Conformal.Dirichlet)
	}
	if c.Material == "" {
		return one, ctx.Err()
	}
	cover := solveFlattenCmd{Material: c.Material}
	if in.problem.Material, err = cover.material(); err != nil {
		return one, err
	}
	if _, one.MaterialCPU, r, err = timedFlatten(ctx, in.problem, c.Seed); err == nil {
		_, err = flatten.Check(in.problem, r)
	}
	if err != nil {
		one.MaterialWhy = err.Error()
	}
	one.Outside = r.Material.Outside
	return one, ctx.Err()
}

// timedFlatten lays a surface flat and says how long that took to the conformal
// start and altogether.
func timedFlatten(ctx context.Context, p flatten.Problem, seed uint64) (conformal, all float64, r flatten.Result, err error) {
	before := cpuSeconds()
	r, err = flatten.Solve(ctx, p, flatten.Options{Seed: seed, Progress: func(at flatten.Progress) {
		if at.Stage == "isometric" && conformal == 0 {
			conformal = cpuSeconds() - before
		}
	}})
	return conformal, cpuSeconds() - before, r, err
}

// printFlattenTable prints a line a surface, the peers' figures beside ours.
func printFlattenTable(out io.Writer, table []benchedFlatten) error {
	w := tabwriter.NewWriter(out, 0, 4, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "mesh\tvertices\tcuts\tturned over\tcrossings\tconformal SD\tCPU s\tpeers' best\tfastest s\tnear-isometric SD\tCPU s\tpeers' best\tslowest s\tmaterial CPU s\toutside %\t")
	for _, b := range table {
		if b.Why != "" {
			fmt.Fprintf(w, "%s\t%d\t\n", b.Mesh, b.Vertices)
			continue
		}
		p := flattenPeers{}
		if b.Peers != nil {
			p = *b.Peers
		}
		fmt.Fprintf(w, "%s\t%d\t%d\t%d\t%d\t%.5f\t%.3f\t%s\t%s\t%.5f\t%.3f\t%s\t%s\t", b.Mesh, b.Vertices, b.Cuts, b.Flips, b.Overlaps,
			b.Conformal, b.ConformalCPU, known("%.5f", p.ConformalBest), known("%.3f", p.ConformalFastest),
			b.Dirichlet, b.CPU, known("%.5f", p.IsometricBest), known("%.3f", p.IsometricSlowest))
		switch {
		case b.MaterialWhy != "":
			fmt.Fprint(w, "none\t\t\n")
		case b.MaterialCPU > 0:
			fmt.Fprintf(w, "%.3f\t%.2f\t\n", b.MaterialCPU, 100*b.Outside)
		default:
			fmt.Fprint(w, "\t\t\n")
		}
	}
	if err := w.Flush(); err != nil {
		return err
	}
	for _, b := range table {
		if why := b.Why + b.MaterialWhy; why != "" { // never both
			fmt.Fprintf(out, "%s: %s\n", b.Mesh, why)
		}
	}
	return nil
}

// known is a figure, or nothing where there is none.
func known(format string, v float64) string {
	if v == 0 {
		return ""
	}
	return fmt.Sprintf(format, v)
}
