package cli

import (
	"bytes"
	"io"
	"os"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
	"fettle/fault"
	"fettle/geom/dxf"
	"fettle/geom/pdf"
)

// drawings holds what is asked for to what the file says, before any work: a
// drawing to cut by needs a unit, and a print a paper.
func (c *solveNestCmd) drawings(f *nestfile.File) (pdf.Paper, error) {
	if c.Unit != "" {
		if f.Unit != "" && f.Unit != c.Unit {
			return pdf.Paper{}, fault.New(fault.Invalid, "%.20q, but %s says %s", c.Unit, c.File, f.Unit).At("--unit")
		}
		f.Unit = c.Unit
		if _, err := f.Millimetres(); err != nil {
			return pdf.Paper{}, fault.New(fault.Invalid, "%.20q is no unit of length here", c.Unit).At("--unit").WithHint("mm, cm, m or in")
		}
	}
	if c.DXF == "" && c.PDF == "" {
		return pdf.Paper{}, nil
	}
	if _, err := f.Millimetres(); err != nil {
		return pdf.Paper{}, within(err, c.File)
	}
	paper, err := pdf.ParsePaper(c.Paper)
	if err != nil {
		return paper, within(err, "--paper")
	}
	paper.Pens = map[string]pdf.Pen{nestfile.LayerOutline: {Width: 0.5}, nestfile.LayerPieces: {Width: 0.3}, nestfile.LayerMarks: {Width: 0.2, Dash: 2}}
	return paper, nil
}

// draw writes the drawings that are asked for.
func (c *solveNestCmd) draw(f nestfile.File, r nest.Result, paper pdf.Paper) error {
	if c.SVG != "" {
		if err := intoFile(c.SVG, "--svg", func(w io.Writer) error { return nestfile.WriteSVG(w, f.Problem, r.Placements, r.Length) }); err != nil {
			return err
		}
	}
	if c.DXF == "" && c.PDF == "" {
		return nil
	}
	plans, err := nestfile.Plans(f, r.Placements, r.Length)
	if err != nil {
		return err
	}
	if c.DXF != "" {
		form := dxf.R2000
		if c.DXFForm == "r12" {
			form = dxf.R12
		}
		if err := intoFile(c.DXF, "--dxf", func(w io.Writer) error { return dxf.Write(w, nestfile.Abreast(plans), form) }); err != nil {
			return err
		}
	}
	if c.PDF == "" {
		return nil
	}
	var sheets []pdf.Sheet
	for _, p := range plans {
		sheets = append(sheets, pdf.Sheet{Title: p.Name, Plan: p.Plan})
	}
	return intoFile(c.PDF, "--pdf", func(w io.Writer) error { return pdf.Write(w, sheets, paper) })
}

// intoFile writes a file whole, or says by the flag why not.
func intoFile(path, flag string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return within(err, flag)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		return fault.New(fault.Invalid, "cannot be written: %v", err).At(flag)
	}
	return nil
}
