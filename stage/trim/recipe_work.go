package trim

import (
	"fmt"

	"fettle/engine/pattern"
)

// or is nothing where there is a fault.
func (m made) or(err error) (made, error) {
	if err != nil {
		return made{}, err
	}
	return m, nil
}

// band is a strip that is cut on its line: its allowances are in its width.
func band(id, name string, long, wide float64, count int) pattern.Piece {
	p := pattern.Piece{ID: id, Name: name, Quantity: count, Line: pattern.Line{{X: 0, Y: 0}, {X: long, Y: 0}, {X: long, Y: wide}, {X: 0, Y: wide}}}
	for i, edge := range []string{"side 1", "end 1", "side 2", "end 2"} {
		p.Edges = append(p.Edges, pattern.Edge{Name: edge, From: i, Kind: pattern.Raw})
	}
	return p
}

func wheel(m measures) (made, error) {
	one := pattern.Wheel{Rim: m.of("rim"), Grip: m.of("grip"), Stretch: m.of("stretch"), Pitch: m.of("pitch")}
	for _, at := range m.all("spokes") {
		one.Spokes = append(one.Spokes, at.Value)
	}
	w, err := one.Strip()
	out := made{amounts: []pattern.Amount{w.Length, w.Width, w.Wrinkle, w.Strain, w.Stitches}}
	for _, s := range w.Segments {
		if len(w.Segments) > 1 {
			out.amounts = append(out.amounts, s.Outer, s.Inner)
		}
		out.pieces = append(out.pieces, s.Piece)
	}
	return out.or(err)
}

func piping(m measures) (made, error) {
	p, err := pattern.Piping{Length: m.of("length"), Corners: m.of("corners"), Cord: m.of("cord"), Thickness: m.of("thickness"), Allowance: m.of("allowance"), Piece: m.of("piece")}.Strips()
	out := made{amounts: []pattern.Amount{p.Width, p.Length, p.Each, p.Count, p.Area}}
	if n := int(p.Count.Value); err == nil && n > 0 {
		out.pieces = []pattern.Piece{band("piping", "piping strip", p.Each.Value, p.Width.Value, n)}
	}
	return out.or(err)
}

func bias(m measures) (made, error) {
	each, err := pattern.Bias(m.of("roll"))
	if err != nil {
		return made{}, err
	}
	all, err := pattern.BiasYield(m.of("roll"), m.of("length"), m.of("strip"))
	if err != nil {
		return made{}, err
	}
	out := made{amounts: []pattern.Amount{each, all}}
	if n := int(all.Value * 1000 / each.Value); n > 0 {
		one := band("bias", "bias strip", each.Value, m.of("strip").Value, n)
		one.Arrow = pattern.Arrow{Kind: "grain", Angle: 45}
		out.pieces = []pattern.Piece{one}
	}
	return out, nil
}

func headliner(m measures) (made, error) {
	h, err := pattern.Headliner{Spans: m.all("spans"), Widths: m.all("widths"), Bow: m.of("bow"), Ease: m.of("ease"), Allowance: m.of("allowance"), Sides: m.of("sides")}.Panels()
	out := made{amounts: append([]pattern.Amount{h.Cloth, h.Sleeve}, h.Sleeves...), pieces: h.Panels, seams: h.Seams}
	for i, s := range h.Sleeves {
		out.pieces = append(out.pieces, band(fmt.Sprintf("sleeve-%d", i+1), fmt.Sprintf("sleeve of bow %d", i+1), s.Value, h.Sleeve.Value, 1))
	}
	return out.or(err)
}

func gluedBoard(m measures) (made, error) {
	a, err := pattern.GluedBoard(m.of("length"), m.of("width"), m.of("over"), m.of("hollow"))
	if err != nil {
		return made{}, err
	}
	over := 40.0 // the habit that the figure names
	if given := m.of("over"); given.Source != "" {
		over = given.Value
	}
	more := 1 + m.of("hollow").Value
	p := band("board", "cloth on the board", more*m.of("length").Value, more*m.of("width").Value, 1)
	for i := range p.Edges {
		p.Edges[i].Kind, p.Edges[i].Allowance = pattern.Wrapped, over
	}
	return made{amounts: []pattern.Amount{a}, pieces: []pattern.Piece{p}}, nil
}

func gaiter(m measures) (made, error) {
	g, err := pattern.Gaiter{Foot: m.of("foot"), Head: m.of("head"), Height: m.of("height"), Travel: m.of("travel"), Panels: int(m.of("panels").Value)}.Pattern()
	out := made{amounts: []pattern.Amount{g.Slant}, pieces: []pattern.Piece{g.Piece}}
	if g.Angle.Value != 0 {
		out.amounts = append(out.amounts, g.Angle)
	}
	return out.or(err)
}

func strap(m measures) (made, error) {
	a, err := pattern.Strap(m.of("width"), m.of("thickness"), m.of("turned"))
	out := made{amounts: []pattern.Amount{a}}
	if long := m.of("length").Value; long > 0 {
		out.pieces = []pattern.Piece{band("strap", "strap", long, a.Value, 1)}
	}
	return out.or(err)
}

func bolster(m measures) (made, error) {
	a, body, end, err := pattern.Bolster(m.of("length"), m.of("diameter"), m.of("under"), m.of("allowance"))
	return made{amounts: []pattern.Amount{a}, pieces: []pattern.Piece{body, end}}.or(err)
}
