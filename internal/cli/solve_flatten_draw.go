package cli

import (
	"fmt"
	"io"

	"fettle/engine/flatten"
	"fettle/geom"
	"fettle/geom/dxf"
	"fettle/geom/outline"
	"fettle/geom/svg"
)

// Layers of a drawn pattern.
const (
	layerFlatOutline = "outline"
	layerFlatGrain   = "grain"
)

// draw writes the drawings that are asked for.
func (c *solveFlattenCmd) draw(in flattenInput, r flatten.Result) error {
	plan := in.plan(r)
	if c.DXF != "" {
		form := dxf.R2000
		if c.DXFForm == "r12" {
			form = dxf.R12
		}
		if err := intoFile(c.DXF, "--dxf", func(w io.Writer) error { return dxf.Write(w, plan, form) }); err != nil {
			return err
		}
	}
	if c.SVG == "" {
		return nil
	}
	return intoFile(c.SVG, "--svg", func(w io.Writer) error { return svg.Write(w, plan, svg.Paper{Margin: 10, CheckBar: true}) })
}

// plan is the outline of a pattern in millimetres, with an arrow along the
// material in the middle where one was chosen.
func (in flattenInput) plan(r flatten.Result) outline.Plan {
	var p outline.Plan
	for _, ring := range r.Flat.Outline().Rings() {
		p.Outlines = append(p.Outlines, outline.Outline{Layer: layerFlatOutline, Closed: true, Points: ring})
	}
	box, err := p.Box()
	if in.problem.Material == nil || err != nil {
		return p // what is wrong with it, its writer says
	}
	middle, half := box.Min.Add(box.Max).Scale(0.5), min(box.Width(), box.Height())/8
	head := geom.Point{X: middle.X + half, Y: middle.Y}
	for _, line := range [][]geom.Point{
		{{X: middle.X - half, Y: middle.Y}, head},
		{{X: head.X - half/4, Y: head.Y + half/8}, head, {X: head.X - half/4, Y: head.Y - half/8}},
	} {
		p.Outlines = append(p.Outlines, outline.Outline{Layer: layerFlatGrain, Points: line})
	}
	return p
}

func (one flattenSolved) print(w io.Writer) {
	fmt.Fprintf(w, "%s\t%s\t%d vertices, %d faces", one.Name, one.Status, one.Vertices, one.Faces)
	if one.Verified {
		fmt.Fprint(w, "\tverified")
	}
	fmt.Fprintln(w)
	for _, text := range one.Notes {
		fmt.Fprintf(w, "\t%s\n", text)
	}
	for _, cut := range one.Cuts {
		fmt.Fprintf(w, "\tcut from vertex %d to %d, %d edges\n", cut[0], cut[len(cut)-1], len(cut)-1)
	}
	if n := len(one.Outline) - 1; n > 0 {
		fmt.Fprintf(w, "\tholes that stay open: %d\n", n)
	}
	one.flattenStrain.print(w, "pattern")
	if one.Material != "" {
		fmt.Fprintf(w, "\t%s\tstretch along %+.2f to %+.2f %%\tacross %+.2f to %+.2f %%\t%.2f %% of the area outside its limits\n", one.Material,
			100*one.Stretch.Along[0], 100*one.Stretch.Along[1], 100*one.Stretch.Across[0], 100*one.Stretch.Across[1], 100*one.Outside)
		one.Lengths.print(w, "without material")
	}
	one.Angles.print(w, "angles kept")
	one.printProposals(w)
	if f := one.Forming; f != nil {
		fmt.Fprintf(w, "\tforming\tthickness %+.1f to %+.1f %%\t%.1f %% of the area stretched, %.1f %% shrunk\tworst at %.2f of the forming limit\n",
			100*f.Thinnest, 100*f.Thickest, 100*f.Stretched, 100*f.Shrunk, f.Worst)
	}
	fmt.Fprintf(w, "\tarea %.6g of the surface, %.6g flat\t%d steps, %d factors\t%.2f s\t%.2f s of processor\n", one.Area, one.FlatArea, one.Steps, one.Factors, one.Seconds, one.CPUSeconds)
}

func (s flattenStrain) print(w io.Writer, what string) {
	fmt.Fprintf(w, "\t%s\tsymmetric Dirichlet %.6f\t%d turned over, %d crossings\tstretch %+.2f %% at 1 %% of the area, %+.2f at 99, %+.2f at most\n",
		what, s.Dirichlet, s.Flips, s.Overlaps, 100*s.Stretch.P1, 100*s.Stretch.P99, 100*s.Stretch.Most)
}
