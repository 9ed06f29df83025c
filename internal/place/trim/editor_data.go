package trim

import (
	"slices"

	"fettle/geom"
)

// The editor's script reads these from the page; island/layout/facts.ts is the
// other side.
type (
	dataPoint [2]float64
	dataShape struct {
		Outer []dataPoint   `json:"outer"`
		Holes [][]dataPoint `json:"holes,omitempty"`
	}
	dataZone struct {
		dataShape
		Quality int    `json:"quality"`
		Label   string `json:"label"`
	}
	dataHeading struct {
		X     float64 `json:"x"`
		Y     float64 `json:"y"`
		Angle float64 `json:"angle"`
	}
	dataSheet struct {
		ID       string        `json:"id"`
		Name     string        `json:"name"`
		Outline  dataShape     `json:"outline"`
		Area     float64       `json:"area"` // mm², of the whole
		Zones    []dataZone    `json:"zones"`
		Headings []dataHeading `json:"headings"`
		Margin   float64       `json:"margin"`
	}
	dataAxis struct {
		Angle     float64 `json:"angle"`
		Tolerance float64 `json:"tolerance"`
		OneWay    bool    `json:"oneWay"`
	}
	dataPiece struct {
		Name      string    `json:"name"`
		Keys      []string  `json:"keys"`
		Shape     dataShape `json:"shape"`
		Quality   int       `json:"quality"`
		Rotations []float64 `json:"rotations"`
		Free      bool      `json:"free"`
		Axis      *dataAxis `json:"axis"`
	}
	data struct {
		Unit      string      `json:"unit"`
		Clearance float64     `json:"clearance"`
		Sheets    []dataSheet `json:"sheets"`
		Pieces    []dataPiece `json:"pieces"`
		Together  [][]string  `json:"together"`
	}
)

// data is what the script knows beside the fields of the form.
func (e *editor) data() data {
	d := data{Unit: "mm", Clearance: e.Clearance, Sheets: []dataSheet{}, Pieces: []dataPiece{}, Together: append([][]string{}, e.Together...)}
	for _, s := range e.Sheets {
		out := dataSheet{ID: s.ID, Name: s.Name, Outline: shapeData(s.line()), Area: s.Outline.Area(), Zones: []dataZone{}, Headings: []dataHeading{}, Margin: s.Margin}
		for _, z := range s.Zones {
			out.Zones = append(out.Zones, dataZone{shapeData(z.Shape), z.Quality, z.Label})
		}
		for _, h := range s.Headings {
			out.Headings = append(out.Headings, dataHeading{h.At.X, h.At.Y, h.Angle})
		}
		d.Sheets = append(d.Sheets, out)
	}
	for i, c := range e.Copies {
		// Copies that follow each other and have one shape are said once.
		if i > 0 && c.like(e.Copies[i-1]) {
			last := &d.Pieces[len(d.Pieces)-1]
			last.Keys = append(last.Keys, c.Key)
			continue
		}
		p := dataPiece{Name: c.Name, Keys: []string{c.Key}, Shape: shapeData(c.Shape), Quality: c.Quality, Rotations: c.Rotations, Free: c.Free}
		if c.Axis != nil {
			p.Axis = &dataAxis{c.Axis.Angle, c.Axis.Tolerance, c.Axis.OneWay}
		}
		d.Pieces = append(d.Pieces, p)
	}
	return d
}

// like tells whether two copies are cut from one pattern.
func (c editCopy) like(o editCopy) bool {
	return c.Name == o.Name && slices.Equal(c.Shape.Outer, o.Shape.Outer) && c.Quality == o.Quality
}

func shapeData(p geom.Polygon) dataShape {
	s := dataShape{Outer: ringData(p.Outer)}
	for _, h := range p.Holes {
		s.Holes = append(s.Holes, ringData(h))
	}
	return s
}

func ringData(ring []geom.Point) []dataPoint {
	list := make([]dataPoint, len(ring))
	for i, p := range ring {
		list[i] = dataPoint{p.X, p.Y}
	}
	return list
}
