package nestfile

import (
	"encoding/json"
	"fmt"
	"strings"

	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

// setShape is a shape of the public sets: a list of points, or an outer ring
// with inner ones.
type setShape struct {
	Type string          `json:"type"`
	Data json.RawMessage `json:"data"`
}

func (s setShape) polygon() (geom.Polygon, error) {
	switch strings.ReplaceAll(strings.ToLower(s.Type), "_", "") {
	case "simplepolygon":
		var outer ring
		if err := decode(s.Data, &outer, false); err != nil {
			return geom.Polygon{}, err
		}
		return geom.Polygon{Outer: mended(outer.points())}, nil
	case "polygon":
		var rings struct {
			Outer ring   `json:"outer"`
			Inner []ring `json:"inner"`
		}
		if err := decode(s.Data, &rings, false); err != nil {
			return geom.Polygon{}, err
		}
		p := geom.Polygon{Outer: mended(rings.Outer.points())}
		for _, h := range rings.Inner {
			p.Holes = append(p.Holes, mended(h.points()))
		}
		return p, nil
	}
	return geom.Polygon{}, wrong("type", "a shape of type %q is not read", s.Type).WithHint("simple_polygon or polygon")
}

type setZone struct {
	Quality *int     `json:"quality"`
	Shape   setShape `json:"shape"`
}

func zonesOfSet(list []setZone) (out []nest.Zone, err error) {
	for i, z := range list {
		where := fmt.Sprintf("zones[%d]", i)
		if z.Quality == nil {
			return nil, wrong(where, "it has no quality")
		}
		shape, err := z.Shape.polygon()
		if err != nil {
			return nil, fault.Within(err, where+", shape")
		}
		out = append(out, nest.Zone{Shape: shape, Quality: *z.Quality})
	}
	return out, nil
}

// setItem is a piece of the strips and the hides; the names of the hides come
// in two ways.
type setItem struct {
	ID           json.Number `json:"id"`
	Demand       *int        `json:"demand"`
	Orientations []float64   `json:"allowed_orientations"`
	BaseQuality  *int        `json:"BaseQuality"`
	MinQuality   *int        `json:"min_quality"`
	Zones        []setZone   `json:"zones"`
	Shape        setShape    `json:"shape"`
}

func (it setItem) piece(i int) (p nest.Piece, err error) {
	p.ID, p.Count = it.ID.String(), 1
	if p.ID == "" {
		p.ID = fmt.Sprint(i)
	}
	if it.Demand != nil {
		if p.Count = *it.Demand; p.Count < 1 {
			return p, wrong("demand", "%d: from 1", p.Count)
		}
	}
	p.Rotations, p.Free = it.Orientations, it.Orientations == nil
	if q := it.BaseQuality; q != nil {
		p.Quality = *q
	}
	if q := it.MinQuality; q != nil {
		p.Quality = *q
	}
	if p.Shape, err = it.Shape.polygon(); err != nil {
		return p, fault.Within(err, "shape")
	}
	p.Zones, err = zonesOfSet(it.Zones)
	return p, err
}

func piecesOfSet(list []setItem) (pieces []nest.Piece, err error) {
	for i, it := range list {
		p, err := it.piece(i)
		if err != nil {
			return nil, fault.Within(err, fmt.Sprintf("items[%d]", i))
		}
		pieces = append(pieces, p)
	}
	return pieces, nil
}

// readStrip reads items for one strip.
func readStrip(data []byte) (File, error) {
	var in struct {
		Name   string    `json:"name"`
		Height float64   `json:"strip_height"`
		Items  []setItem `json:"items"`
	}
	if err := decode(data, &in, false); err != nil {
		return File{}, err
	}
	pieces, err := piecesOfSet(in.Items)
	return File{Name: in.Name, Problem: nest.Problem{Kind: nest.Strip, Pieces: pieces, Containers: []nest.Container{{ID: "strip", Height: in.Height}}}}, err
}

// sorted leaves those holes in a hide that lie inside it and apart. The rest
// reach its edge or one another, as cuts and tears do: they are kept out.
func sorted(hide geom.Polygon) (whole geom.Polygon, rest []geom.Polygon) {
	if hide.Check() == nil || (geom.Polygon{Outer: hide.Outer}).Check() != nil {
		return hide, nil
	}
	whole.Outer = hide.Outer
	for _, h := range hide.Holes {
		whole.Holes = append(whole.Holes, h)
		if whole.Check() != nil {
			whole.Holes = whole.Holes[:len(whole.Holes)-1]
			rest = append(rest, geom.Polygon{Outer: h})
		}
	}
	return whole, rest
}

// readHides reads items for hides, which are called bins or Objects.
func readHides(data []byte) (File, error) {
	type hide struct {
		Cost  float64   `json:"cost"`
		Stock *int      `json:"stock"`
		Zones []setZone `json:"zones"`
		Shape setShape  `json:"shape"`
	}
	var in struct {
		Name    string    `json:"name"`
		Items   []setItem `json:"items"`
		Objects []hide    `json:"Objects"`
		Bins    []hide    `json:"bins"`
	}
	if err := decode(data, &in, false); err != nil {
		return File{}, err
	}
	f := File{Name: in.Name, Problem: nest.Problem{Kind: nest.Bins}}
	var err error
	if f.Problem.Pieces, err = piecesOfSet(in.Items); err != nil {
		return f, err
	}
	for i, h := range append(in.Objects, in.Bins...) {
		where := fmt.Sprintf("bins[%d]", i)
		c := nest.Container{ID: fmt.Sprint(i), Cost: h.Cost, Count: 1}
		if h.Stock != nil {
			if c.Count = *h.Stock; c.Count < 1 {
				return f, wrong(where+", stock", "%d: from 1", c.Count)
			}
		}
		outline, err := h.Shape.polygon()
		if err != nil {
			return f, fault.Within(err, where+", shape")
		}
		c.Outline, c.KeepOut = sorted(outline)
		if c.Zones, err = zonesOfSet(h.Zones); err != nil {
			return f, fault.Within(err, where)
		}
		f.Problem.Containers = append(f.Problem.Containers, c)
	}
	return f, nil
}
