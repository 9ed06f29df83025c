package trim

import (
	"fmt"
	"math"

	"fettle/geom"
)

func at(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func square(x, y, w, h float64) geom.Polygon {
	return geom.Polygon{Outer: []geom.Point{at(x, y), at(x+w, y), at(x+w, y+h), at(x, y+h)}}
}

// round is a regular polygon.
func round(x, y, r float64, n int) geom.Polygon {
	var p geom.Polygon
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		p.Outer = append(p.Outer, at(x+r*cos, y+r*sin))
	}
	return p
}

// hide is half a metre of legs around a body of 2.2 × 1.7 m, with a hole.
func hide() editSheet {
	outer := []geom.Point{
		at(150, 260), at(420, 60), at(640, 240), at(1100, 180), at(1600, 240), at(1850, 60), at(2120, 250), at(2060, 520),
		at(2240, 850), at(2060, 1180), at(2120, 1450), at(1850, 1640), at(1600, 1460), at(1100, 1520), at(640, 1460), at(420, 1640), at(150, 1440), at(230, 1150), at(20, 850), at(230, 550),
	}
	return editSheet{
		ID: "H1", Name: "Hide H1", Outline: geom.Polygon{Outer: outer}, Margin: 6,
		Zones: []editZone{
			{square(200, 240, 300, 300), 2, "belly B"}, {square(1780, 1240, 260, 220), 1, "shank C"}, {round(1250, 900, 45, 24), 0, "hole"},
		},
		Headings: []editHeading{{at(500, 850), 0}, {at(1100, 850), 0}, {at(1800, 850), 10}, {at(400, 300), 60}},
	}
}

// bench lays a few pieces of a seat on two hides.
func bench() *editor {
	second := hide()
	second.ID, second.Name, second.Zones = "H2", "Hide H2", nil
	e := &editor{Title: "Tan leather by hand", At: "/b/pedlar/bench", Draft: "pedlar/tan", Base: "1", Clearance: 4, Sheets: []editSheet{hide(), second}, Crew: true}
	axis := &editAxis{Angle: 90, Tolerance: 10}
	add := func(key, name, grade string, quality int, shape geom.Polygon, place editPlace) {
		e.Copies = append(e.Copies, editCopy{Key: key, Name: name, Grade: grade, Shape: shape, Quality: quality, Free: true, Axis: axis, Place: place})
	}
	cushion := geom.Polygon{Outer: []geom.Point{at(0, 0), at(470, 0), at(470, 400), at(400, 480), at(70, 480), at(0, 400)}}
	add("T01", "driver cushion centre", "A", 3, cushion, editPlace{Sheet: "H1", X: 1050, Y: 300, Turn: 90})
	add("T02.1", "driver cushion side", "A", 3, square(0, 0, 480, 150), editPlace{Sheet: "H1", X: 1500, Y: 600, Turn: 90})
	add("T02.2", "driver cushion side", "A", 3, square(0, 0, 480, 150), editPlace{})
	add("T06", "driver back rear", "B", 2, square(0, 0, 480, 600), editPlace{})
	add("T29", "engine cover top", "B", 2, square(0, 0, 620, 540), editPlace{Sheet: "H2", X: 1100, Y: 500, Turn: 90, Lock: true})
	e.Together = [][]string{{"T02.1", "T02.2"}}
	e.Copies[4].Axis, e.Copies[4].Free, e.Copies[4].Rotations = nil, false, []float64{0, 90, 180, 270}
	return e
}

// many is a hide with a hundred pieces of forty corners on it.
func many() *editor {
	e := bench()
	e.Copies = nil
	for i := range 100 {
		e.Copies = append(e.Copies, editCopy{Key: fmt.Sprintf("P%02d", i), Name: "patch", Grade: "B", Shape: round(0, 0, 62, 40), Quality: 2, Free: true,
			Place: editPlace{Sheet: "H1", X: 560 + 128*float64(i%10), Y: 330 + 128*float64(i/10)}})
	}
	return e
}
