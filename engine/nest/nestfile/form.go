package nestfile

import (
	"fettle/engine/nest"
	"fettle/geom"
)

// File is a problem with its name and its unit.
type File struct {
	Name    string
	Unit    string // of all lengths: mm, cm, m or in; empty where the file does not say
	Problem nest.Problem
}

// units are the millimetres of one.
var units = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4}

// Millimetres returns those of one unit of the file. A unit that is not said is
// a fault of kind Invalid.
func (f File) Millimetres() (float64, error) {
	if k, ok := units[f.Unit]; ok {
		return k, nil
	}
	if f.Unit == "" {
		return 0, wrong("unit", "the file does not say in which unit its lengths are").WithHint(`say "unit": "mm" in it, or cm, m or in`)
	}
	return 0, wrong("unit", "%.20q is no unit of length here", f.Unit).WithHint("mm, cm, m or in")
}

// form is our own file as it stands; its names are those of the JSON.
type form struct {
	Form      string         `json:"form"`
	Name      string         `json:"name,omitempty"`
	Unit      string         `json:"unit,omitempty"`
	Kind      string         `json:"kind"`
	Clearance float64        `json:"clearance,omitempty"`
	Kerf      float64        `json:"kerf,omitempty"`
	Materials []materialForm `json:"materials"`
	Pieces    []pieceForm    `json:"pieces"`
}

type ring []xy

type xy [2]float64

// shapeForm is a polygon.
type shapeForm struct {
	Outline ring   `json:"outline,omitempty"`
	Holes   []ring `json:"holes,omitempty"`
}

type zoneForm struct {
	Quality int `json:"quality"`
	shapeForm
}

type materialForm struct {
	ID    string  `json:"id"`
	Width float64 `json:"width,omitempty"`
	shapeForm
	Zones   []zoneForm    `json:"zones,omitempty"`
	KeepOut []shapeForm   `json:"keep_out,omitempty"`
	Margin  float64       `json:"margin,omitempty"`
	Grain   []headingForm `json:"grain,omitempty"`
	Repeat  *repeatForm   `json:"repeat,omitempty"`
	Cost    float64       `json:"cost,omitempty"`
	Count   int           `json:"count,omitempty"`
}

type headingForm struct {
	At    xy      `json:"at"`
	Angle float64 `json:"angle_deg"`
}

// repeatForm is a pattern and a place where it begins.
type repeatForm struct {
	X  float64 `json:"x,omitempty"`
	Y  float64 `json:"y,omitempty"`
	At xy      `json:"at,omitzero"`
}

type matchForm struct {
	Anchor xy   `json:"anchor,omitzero"`
	X      bool `json:"x,omitempty"`
	Y      bool `json:"y,omitempty"`
}

type pieceForm struct {
	ID string `json:"id"`
	shapeForm
	Count     int          `json:"count,omitempty"`
	Rotations []float64    `json:"rotations_deg,omitempty"`
	Free      bool         `json:"free,omitempty"`
	Mirror    bool         `json:"mirror,omitempty"`
	FaceDown  bool         `json:"face_down,omitempty"`
	Quality   int          `json:"quality,omitempty"`
	Zones     []zoneForm   `json:"zones,omitempty"`
	Axis      *axisForm    `json:"axis,omitempty"`
	Match     *matchForm   `json:"match,omitempty"`
	Pair      string       `json:"pair,omitempty"`
	Group     string       `json:"group,omitempty"`
	Value     float64      `json:"value,omitempty"`
	Locked    []lockedForm `json:"locked,omitempty"`
}

type axisForm struct {
	Angle     float64 `json:"angle_deg"`
	Tolerance float64 `json:"tolerance_deg"`
	OneWay    bool    `json:"one_way,omitempty"`
}

// lockedForm is a copy that stays; sheets count from 1.
type lockedForm struct {
	Material string  `json:"material"`
	Sheet    int     `json:"sheet,omitempty"`
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Rotation float64 `json:"rotation_deg,omitempty"`
	Mirrored bool    `json:"mirrored,omitempty"`
}

var kinds = [...]string{nest.Strip: "strip", nest.Bins: "bins", nest.Knapsack: "knapsack"}

// points returns a ring without a repeated first point at its end, and without
// points that repeat the one before.
func (r ring) points() []geom.Point {
	out := make(geom.Ring, len(r))
	for i, p := range r {
		out[i] = geom.Point{X: p[0], Y: p[1]}
	}
	return out.Tidy()
}

func (s shapeForm) polygon() geom.Polygon {
	p := geom.Polygon{Outer: s.Outline.points()}
	for _, h := range s.Holes {
		p.Holes = append(p.Holes, h.points())
	}
	return p
}

func shapeOf(p geom.Polygon) (s shapeForm) {
	s.Outline = ringOf(p.Outer)
	for _, h := range p.Holes {
		s.Holes = append(s.Holes, ringOf(h))
	}
	return s
}

func ringOf(points []geom.Point) (r ring) {
	for _, p := range points {
		r = append(r, xy{p.X, p.Y})
	}
	return r
}
