package dxf

import (
	"math"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

const (
	deepest     = 16
	mostInserts = outline.MaxVertices
)

// block is a named part of a drawing.
type block struct {
	base   geom.Point
	shapes []shape
}

// insert draws a block, in rows and columns if asked.
type insert struct {
	kin
	block      string
	at         outline.Affine // from the block, its base at the origin
	cols, rows int
	step       geom.Point
}

func readInsert(e entity) (shape, error) {
	k, err := e.kin()
	if err != nil {
		return nil, err
	}
	v, err := e.numbers(10, 20, 50, 44, 45)
	if err != nil {
		return nil, err
	}
	sx, err := e.number(41, 1)
	if err != nil {
		return nil, err
	}
	sy, err := e.number(42, 1)
	if err != nil {
		return nil, err
	}
	if sx == 0 || sy == 0 {
		return nil, e.fault("a scale of 0")
	}
	cols, err := e.flag(70)
	if err != nil {
		return nil, err
	}
	rows, err := e.flag(71)
	if err != nil {
		return nil, err
	}
	place := outline.Move(geom.Point{X: v[0], Y: v[1]}).After(outline.Turn(v[2] * math.Pi / 180))
	k.own = k.own.After(place)
	return insert{k, e.name(2), outline.Scale(sx, sy), max(cols, 1), max(rows, 1), geom.Point{X: v[3], Y: v[4]}}, nil
}

// placer draws shapes into a drawing, blocks spread out.
type placer struct {
	*outline.Collector
	blocks map[string]*block
	layer  string // what layer 0 stands for
	depth  int
	placed int
}

func (p *placer) draw(k kin, closed bool, line []geom.Point) error {
	if k.layer == "0" && p.layer != "" {
		k.layer = p.layer
	}
	return p.Add(outline.Outline{Layer: k.layer, Closed: closed, Points: line, Line: k.line})
}

func (s insert) place(p *placer, m outline.Affine) error {
	e := entity{kind: "INSERT", line: s.line}
	b := p.blocks[s.block]
	if b == nil {
		return e.fault("there is no block %.40q", s.block)
	}
	if p.depth == deepest {
		return e.fault("blocks are nested more than %d deep; is %.40q inside itself?", deepest, s.block)
	}
	outer := p.layer
	if s.layer != "0" {
		p.layer = s.layer
	}
	p.depth++
	defer func() { p.depth--; p.layer = outer }()
	m = m.After(s.own)
	for row := range s.rows {
		for col := range s.cols {
			step := geom.Point{X: s.step.X * float64(col), Y: s.step.Y * float64(row)}
			spot := m.After(outline.Move(step)).After(s.at).After(outline.Move(b.base.Scale(-1)))
			if p.placed++; p.placed > mostInserts {
				return fault.New(fault.TooLarge, "the drawing inserts more than %d blocks", mostInserts).At(at(s.line))
			}
			for _, inner := range b.shapes {
				if err := inner.place(p, spot); err != nil {
					return err
				}
			}
		}
	}
	return nil
}
