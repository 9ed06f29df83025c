package pattern_test

import (
	"math"
	"strconv"
	"testing"

	"fettle/engine/pattern"
	"fettle/geom"
)

// petal is an outline of so many points, hollow and bulging in turn.
func petal(n int, deep float64) pattern.Piece {
	p := pattern.Piece{ID: "petal", Edges: []pattern.Edge{{Name: "a", Kind: pattern.Plain}, {Name: "b", From: n / 2, Kind: pattern.Plain, Allowance: 25}}}
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		s, c := math.Sincos(t)
		r := 300 + deep*math.Cos(9*t)
		p.Line = append(p.Line, geom.Point{X: r * c, Y: r * s})
	}
	return p
}

// BenchmarkPiece_Cut reports how far the worst place of the cut line is off.
// Gentle outlines are joined corner by corner; in deep ones allowances overlap
// and are united.
func BenchmarkPiece_Cut(b *testing.B) {
	for _, c := range []struct {
		name string
		deep float64
	}{{"gentle", 20}, {"deep", 90}} {
		for _, n := range []int{100, 400, 1600} {
			b.Run(c.name+"/"+strconv.Itoa(n), func(b *testing.B) {
				p, worst := petal(n, c.deep), 0.0
				for b.Loop() {
					cut, err := p.Cut(0)
					if err != nil {
						b.Fatal(err)
					}
					worst = max(worst, cut.Near, cut.Far)
				}
				b.ReportMetric(worst*1e6, "nm-off")
			})
		}
	}
}

func BenchmarkSet_Draw(b *testing.B) {
	s := cushion()
	strokes := 0
	for b.Loop() {
		drawn, _, err := s.Draw()
		if err != nil {
			b.Fatal(err)
		}
		strokes = len(drawn[2].Strokes)
	}
	b.ReportMetric(float64(strokes), "strokes")
}

func BenchmarkPole(b *testing.B) {
	line, deep := petal(400, 90).Line, 0.0
	for b.Loop() {
		_, deep = pattern.Pole(line)
	}
	b.ReportMetric(deep, "mm-deep")
}

func BenchmarkSet_Order(b *testing.B) {
	s := cushion()
	steps := 0
	for b.Loop() {
		o, err := s.Order()
		if err != nil {
			b.Fatal(err)
		}
		steps = len(o.Steps)
	}
	b.ReportMetric(float64(steps), "steps")
}
