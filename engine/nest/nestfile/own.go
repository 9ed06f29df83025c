package nestfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"slices"

	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

const ownForm = "fettle nest"

func readOwn(data []byte) (File, error) {
	var in form
	if err := decode(data, &in, true); err != nil {
		return File{}, err
	}
	if in.Form != ownForm {
		return File{}, wrong("form", "%q is not this form", in.Form).WithHint(`begin with "form": "fettle nest"`)
	}
	kind := slices.Index(kinds[:], in.Kind)
	if kind < 0 {
		return File{}, wrong("kind", "%q is not known", in.Kind).WithHint("strip, bins or knapsack")
	}
	p := nest.Problem{Kind: nest.Kind(kind), Clearance: in.Clearance, Kerf: in.Kerf}
	for i, m := range in.Materials {
		if (p.Kind == nest.Strip) != (m.Outline == nil) || m.Width != 0 && p.Kind != nest.Strip {
			return File{}, wrong(fmt.Sprintf("materials[%d] %s", i, m.ID), "a strip has a width, hides and sheets have an outline")
		}
		if m.Repeat != nil && m.Repeat.X == 0 && m.Repeat.Y == 0 {
			return File{}, wrong(fmt.Sprintf("materials[%d] %s, repeat", i, m.ID), "a pattern that never comes again").WithHint("say x, along the material, or y, across it, or leave it out")
		}
		p.Containers = append(p.Containers, m.container())
	}
	for i, one := range in.Pieces {
		piece, err := one.piece(p.Containers)
		if err != nil {
			return File{}, fault.Within(err, fmt.Sprintf("pieces[%d] %s", i, one.ID))
		}
		for k := range piece.Locked {
			piece.Locked[k].Piece, piece.Locked[k].Copy = i, k
		}
		p.Pieces = append(p.Pieces, piece)
	}
	f := File{in.Name, in.Unit, p}
	if in.Unit == "" {
		return f, nil
	}
	_, err := f.Millimetres()
	return f, err
}

func (m materialForm) container() nest.Container {
	c := nest.Container{
		ID: m.ID, Height: m.Width, Zones: zonesOf(m.Zones),
		Margin: m.Margin, Cost: m.Cost, Count: m.Count,
	}
	if m.Outline != nil {
		c.Outline = m.polygon()
	}
	if r := m.Repeat; r != nil {
		c.Repeat = nest.Repeat{X: r.X, Y: r.Y, Phase: geom.Point{X: r.At[0], Y: r.At[1]}}
	}
	for _, k := range m.KeepOut {
		c.KeepOut = append(c.KeepOut, k.polygon())
	}
	for _, h := range m.Grain {
		c.Grain = append(c.Grain, nest.Heading{At: geom.Point{X: h.At[0], Y: h.At[1]}, Angle: h.Angle})
	}
	return c
}

func zonesOf(list []zoneForm) (out []nest.Zone) {
	for _, z := range list {
		out = append(out, nest.Zone{Shape: z.polygon(), Quality: z.Quality})
	}
	return out
}

func (one pieceForm) piece(materials []nest.Container) (nest.Piece, error) {
	p := nest.Piece{
		ID: one.ID, Shape: one.polygon(), Count: one.Count, Rotations: one.Rotations, Free: one.Free, Mirror: one.Mirror, FaceDown: one.FaceDown,
		Quality: one.Quality, Zones: zonesOf(one.Zones), Pair: one.Pair, Group: one.Group, Value: one.Value,
	}
	if one.Axis != nil {
		p.Axis = &nest.Axis{Angle: one.Axis.Angle, Tolerance: one.Axis.Tolerance, OneWay: one.Axis.OneWay}
	}
	if m := one.Match; m != nil {
		p.Match = &nest.Match{Anchor: geom.Point{X: m.Anchor[0], Y: m.Anchor[1]}, X: m.X, Y: m.Y}
	}
	for i, l := range one.Locked {
		where := fmt.Sprintf("locked[%d]", i)
		m := slices.IndexFunc(materials, func(c nest.Container) bool { return c.ID == l.Material })
		if m < 0 {
			return p, wrong(where, "there is no material %q", l.Material)
		}
		if l.Sheet < 0 || l.Sheet > max(materials[m].Count, 1) {
			return p, wrong(where, "there is no sheet %d", l.Sheet)
		}
		p.Locked = append(p.Locked, nest.Placement{Container: m, Sheet: max(l.Sheet, 1) - 1, X: l.X, Y: l.Y, Rotation: l.Rotation, Mirrored: l.Mirrored})
	}
	return p, nil
}

// Write writes a file in our own form, one material or piece a line.
func Write(w io.Writer, f File) error {
	if int(f.Problem.Kind) >= len(kinds) {
		return fault.New(fault.Invalid, "a problem of kind %d", f.Problem.Kind)
	}
	var b bytes.Buffer
	b.WriteString("{\n")
	entry := func(name string, v any) error {
		text, err := json.Marshal(v)
		fmt.Fprintf(&b, "  %q: %s,\n", name, text)
		return err
	}
	for _, err := range []error{
		entry("form", ownForm), entry("name", f.Name), entry("unit", f.Unit), entry("kind", kinds[f.Problem.Kind]),
		entry("clearance", f.Problem.Clearance), entry("kerf", f.Problem.Kerf),
	} {
		if err != nil {
			return fault.Wrap(fault.Invalid, err, "write the layout problem")
		}
	}
	var materials, pieces []any
	for _, c := range f.Problem.Containers {
		materials = append(materials, formOfMaterial(c))
	}
	for i, p := range f.Problem.Pieces {
		for k, at := range p.Locked {
			if at.Container < 0 || at.Container >= len(f.Problem.Containers) {
				return wrong(fmt.Sprintf("pieces[%d] %s, locked[%d]", i, p.ID, k), "there is no material %d", at.Container)
			}
		}
		pieces = append(pieces, formOfPiece(p, f.Problem.Containers))
	}
	if err := lines(&b, "materials", materials); err != nil {
		return err
	}
	b.WriteString(",\n")
	if err := lines(&b, "pieces", pieces); err != nil {
		return err
	}
	b.WriteString("\n}\n")
	_, err := w.Write(b.Bytes())
	return err
}

func lines(b *bytes.Buffer, name string, list []any) error {
	fmt.Fprintf(b, "  %q: [", name)
	comma := "\n    "
	for _, v := range list {
		text, err := json.Marshal(v)
		if err != nil {
			return fault.Wrap(fault.Invalid, err, "write "+name)
		}
		b.WriteString(comma)
		b.Write(text)
		comma = ",\n    "
	}
	b.WriteString("\n  ]")
	return nil
}

func formOfMaterial(c nest.Container) materialForm {
	m := materialForm{
		ID: c.ID, Width: c.Height, shapeForm: shapeOf(c.Outline), Zones: formOfZones(c.Zones),
		Margin: c.Margin, Cost: c.Cost, Count: c.Count,
	}
	for _, k := range c.KeepOut {
		m.KeepOut = append(m.KeepOut, shapeOf(k))
	}
	if r := c.Repeat; r != (nest.Repeat{}) {
		m.Repeat = &repeatForm{r.X, r.Y, xy{r.Phase.X, r.Phase.Y}}
	}
	for _, h := range c.Grain {
		m.Grain = append(m.Grain, headingForm{xy{h.At.X, h.At.Y}, h.Angle})
	}
	return m
}

func formOfZones(list []nest.Zone) (out []zoneForm) {
	for _, z := range list {
		out = append(out, zoneForm{z.Quality, shapeOf(z.Shape)})
	}
	return out
}

func formOfPiece(p nest.Piece, materials []nest.Container) pieceForm {
	one := pieceForm{
		ID: p.ID, shapeForm: shapeOf(p.Shape), Count: p.Count, Rotations: p.Rotations, Free: p.Free, Mirror: p.Mirror, FaceDown: p.FaceDown,
		Quality: p.Quality, Zones: formOfZones(p.Zones), Pair: p.Pair, Group: p.Group, Value: p.Value,
	}
	if p.Axis != nil {
		one.Axis = &axisForm{p.Axis.Angle, p.Axis.Tolerance, p.Axis.OneWay}
	}
	if m := p.Match; m != nil {
		one.Match = &matchForm{xy{m.Anchor.X, m.Anchor.Y}, m.X, m.Y}
	}
	for _, at := range p.Locked {
		one.Locked = append(one.Locked, lockedForm{materials[at.Container].ID, at.Sheet + 1, at.X, at.Y, at.Rotation, at.Mirrored})
	}
	return one
}
