package cli

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"time"

	"fettle/engine/flatten"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// solveFlattenCmd lays a curved surface flat.
type solveFlattenCmd struct {
	File      string    `arg:"" name:"mesh" help:"A surface of triangles (docs/engine/mesh-file.md)." type:"existingfile"`
	Material  string    `help:"What is laid over the surface: leather, vinyl, cloth or steel; without one the pattern is as near to the surface's own lengths as can be." enum:",leather,vinyl,cloth,steel" default:""`
	Tension   []float64 `help:"Most it is pulled, percent along and across, as a strip of it showed." placeholder:"8,12"`
	Squeeze   []float64 `help:"Most it is pushed together before it wrinkles, percent along and across." placeholder:"1,1"`
	Glued     bool      `help:"The cover is glued or steamed and takes up more shortening than a sewn one."`
	Grade     string    `help:"Of steel: DC01, DC03, DC04, DC05 or DC06." default:"DC04"`
	Thickness float64   `help:"Of steel, millimetres." default:"0.8"`
	Cut       []string  `help:"A cut along edges, from vertex to vertex by the shortest way; may be given again. Vertices count from 0." sep:"none" placeholder:"12,40,7"`
	Grain     string    `help:"Two vertices: laid flat, the step from the first to the second is the direction along the material." placeholder:"FROM,TO"`
	Propose   bool      `help:"Propose darts and seams that would bring the material nearer its limits; none is made."`
	Weld      bool      `help:"Points at one place become one, which closes slits too."`
	Unit      string    `help:"Of the file's lengths, where it does not say: mm, cm, m or in."`
	Steps     int       `help:"Budget of each pass, in steps; 0 is enough for any surface of the trade." default:"0"`
	Seed      uint64    `help:"Same file, same seed, same budget: the same pattern." default:"1"`
	JSON      bool      `name:"json" help:"Print one JSON document (docs/engine/flatten-output.md)."`
	DXF       string    `name:"dxf" help:"Write the outline into this file, in millimetres." type:"path"`
	DXFForm   string    `name:"dxf-form" help:"r2000, or r12, which does not say that 1 is a millimetre." enum:"r2000,r12" default:"r2000"`
	SVG       string    `name:"svg" help:"Draw the outline into this file at true size, with a bar of 100 mm." type:"path"`
}

// mostFlattenSteps is the largest budget.
const mostFlattenSteps = 100_000

// flattenSolved is what solve flatten prints. Lengths are in the unit of the
// file; stretches are ratios less one, of the surface over the pattern.
type flattenSolved struct {
	Name      string    `json:"name"`
	Status    string    `json:"status"`
	Material  string    `json:"material,omitempty"`
	UnitMM    float64   `json:"unit_mm"` // millimetres in one unit of the file
	UnitKnown string    `json:"unit_known"`
	Vertices  int       `json:"vertices"`
	Faces     int       `json:"faces"`
	Notes     []string  `json:"notes,omitempty"` // what was put right, and what there is to know of the surface
	Cuts      [][]int32 `json:"cuts,omitempty"`  // vertices of the file, those asked for first
	Verified  bool      `json:"verified"`        // by the checker, from the surface as it was read
	flattenStrain
	Angles     *flattenStrain      `json:"conformal"` // of the start, which keeps angles
	Lengths    *flattenStrain      `json:"isometric"` // before the material had its say
	Estimate   *flattenEstimate    `json:"estimate,omitempty"`
	Proposals  [][]flattenProposal `json:"proposals,omitempty"` // by round, the best first; the next round builds on it
	Forming    *sheetForming       `json:"forming,omitempty"`
	Area       float64             `json:"area"`      // of the surface
	FlatArea   float64             `json:"flat_area"` // of the pattern
	Outline    [][][2]float64      `json:"outline"`   // the ring around the pattern, then the holes that stay open
	Steps      int                 `json:"steps"`
	Factors    int                 `json:"factors"`
	Seconds    float64             `json:"seconds"`
	CPUSeconds float64             `json:"cpu_seconds"`
	Flat       flatPattern         `json:"flat"`
}

// flattenStrain is the strain of a pass.
type flattenStrain struct {
	Flips     int             `json:"flips"`
	Overlaps  int             `json:"overlaps"`            // places where the outline crosses itself
	Dirichlet finite          `json:"symmetric_dirichlet"` // by area; 4 is an isometry
	Quasi     finite          `json:"quasi_conformal"`     // mean by area of the larger stretch over the smaller
	AreaRMS   finite          `json:"area_log_rms"`
	Outside   finite          `json:"share_outside_limits"`
	Stretch   mountingStretch `json:"mounting_stretch"`
}

// finite is a number, null where it is none.
type finite float64

// MarshalJSON writes it.
func (v finite) MarshalJSON() ([]byte, error) { return json.Marshal(numberOf(float64(v))) }

// mountingStretch is what the pattern is stretched by on the surface.
type mountingStretch struct {
	P1     finite    `json:"p1"`    // the lesser stretch, which 1 % of the area is below
	P99    finite    `json:"p99"`   // the greater, which 99 % is below
	Most   finite    `json:"max"`   // in size
	Along  [2]finite `json:"along"` // least and most
	Across [2]finite `json:"across"`
}

// sheetForming is what forming the panel asks of the metal.
type sheetForming struct {
	AreaRatio float64 `json:"area_ratio"` // surface over blank
	Stretched float64 `json:"share_stretched"`
	Shrunk    float64 `json:"share_shrunk"`
	Thinnest  float64 `json:"thickness_least"` // over that before, less one
	Thickest  float64 `json:"thickness_most"`
	Near      float64 `json:"share_near_limit"`
	Worst     float64 `json:"worst_over_limit"`
}

// flatPattern is the pattern itself; source is by flat vertex that of the file.
type flatPattern struct {
	Vertices [][2]float64 `json:"vertices"`
	Faces    []mesh.Face  `json:"faces"`
	Source   []int32      `json:"source"`
}

// Run lays the surface flat, holds the pattern to the checker and prints it. A
// pattern that the checker refuses is never printed.
func (c *solveFlattenCmd) Run(ctx context.Context, s streams) error {
	if c.Steps < 0 || c.Steps > mostFlattenSteps {
		return fault.New(fault.Invalid, "%d: 0 to %d are wanted", c.Steps, mostFlattenSteps).At("--steps")
	}
	in, err := c.read()
	if err != nil {
		return err
	}
	began, used := time.Now(), cpuSeconds()
	o := flatten.Options{Seed: c.Seed, Steps: c.Steps}
	r, err := flatten.Solve(ctx, in.problem, o)
	if err != nil {
		for _, n := range in.notes { // what was put right may be why
			fmt.Fprintln(s.err, n)
		}
		return within(err, c.File)
	}
	one := in.solved(r)
	one.Name, one.Material = filepath.Base(c.File), c.Material
	one.Seconds, one.CPUSeconds = time.Since(began).Seconds(), cpuSeconds()-used
	if _, err := flatten.Check(in.problem, r); err != nil {
		return fault.Wrap(fault.Internal, err, "the pattern failed its own check")
	}
	one.Verified = true
	if err := c.advise(ctx, in, o, &one); err != nil {
		return within(err, c.File)
	}
	if err := c.draw(in, r); err != nil {
		return err
	}
	if !c.JSON {
		one.print(s.out)
		return ctx.Err()
	}
	if err := json.NewEncoder(s.out).Encode(one); err != nil { // on one line: there are many numbers
		return err
	}
	return ctx.Err()
}

// advise adds what is known before and what might be cut.
func (c *solveFlattenCmd) advise(ctx context.Context, in flattenInput, o flatten.Options, one *flattenSolved) (err error) {
	if in.problem.Material != nil {
		if one.Estimate, err = in.estimate(); err != nil {
			return err
		}
	}
	if c.Propose {
		one.Proposals, err = in.propose(ctx, o)
	}
	return err
}

// solved says what came of a surface, in the unit and the vertices of its file.
func (in flattenInput) solved(r flatten.Result) flattenSolved {
	m, scale := in.problem.Surface, in.unit
	one := flattenSolved{
		Status: flattenStatus(r.Status), Vertices: len(m.Points), Faces: len(m.Faces), UnitMM: in.unit, UnitKnown: in.known.String(),
		Notes: in.notes, flattenStrain: strainOf(r.Material),
		Area: m.Area() / (scale * scale), Steps: r.Stats.Steps, Factors: r.Stats.Factors,
		Flat: flatPattern{Faces: r.Flat.Faces},
	}
	angles, lengths := strainOf(r.Conformal), strainOf(r.Isometric)
	one.Angles, one.Lengths = &angles, &lengths
	for _, cut := range r.Cuts {
		one.Cuts = append(one.Cuts, in.named(cut))
	}
	if sheet := in.problem.Material; sheet != nil && sheet.Metal != nil {
		f := flatten.Formed(*sheet.Metal, r.Faces, m.FaceAreas())
		one.Forming = &sheetForming{f.Ratio, f.Stretched, f.Shrunk, f.Thin, f.Thick, f.Near, f.Worst}
	}
	one.FlatArea = flatMesh(r.Flat).Area() / (scale * scale)
	place := func(p geom.Point) [2]float64 { return [2]float64{p.X / scale, p.Y / scale} }
	for _, p := range r.Flat.Points {
		one.Flat.Vertices = append(one.Flat.Vertices, place(p))
	}
	one.Flat.Source = in.named(r.Flat.Source)
	for _, ring := range r.Flat.Outline().Rings() {
		var places [][2]float64
		for _, p := range ring {
			places = append(places, place(p))
		}
		one.Outline = append(one.Outline, places)
	}
	return one
}

func flattenStatus(s flatten.Status) string {
	return [...]string{flatten.Settled: "settled", flatten.OutOfSteps: "out of steps", flatten.Interrupted: "interrupted"}[s]
}

func strainOf(s flatten.Strain) flattenStrain {
	pair := func(p [2]float64) [2]finite { return [2]finite{finite(p[0]), finite(p[1])} }
	return flattenStrain{
		s.Flips, s.Overlaps, finite(s.Dirichlet), finite(s.Quasi), finite(s.AreaRMS), finite(s.Outside),
		mountingStretch{finite(s.Stretch[1]), finite(s.Stretch[0]), finite(s.Stretch[2]), pair(s.Along), pair(s.Across)},
	}
}

// flatMesh is the pattern as a mesh in the plane.
func flatMesh(f flatten.Flat) mesh.Mesh {
	m := mesh.Mesh{Points: make([]mesh.Vec, len(f.Points)), Faces: f.Faces}
	for i, p := range f.Points {
		m.Points[i] = mesh.Vec{X: p.X, Y: p.Y}
	}
	return m
}
