package loom

import (
	"fmt"
	"io"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	stage "fettle/stage/loom"
	"fettle/unit"
)

// wide is the demo build with its circuits so many times over, each time on
// fuses of their own.
func wide(b *testing.B, times int) build.Build {
	b.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		b.Fatal(err)
	}
	van, err := scenario.Replay(file, unit.Day(2026, 10, 13))
	if err != nil {
		b.Fatal(err)
	}
	first := van.Circuits
	for n := 1; n < times; n++ {
		for _, c := range first {
			c.ID = fmt.Sprintf("D%d%s", n, c.ID[1:])
			if van.Loom.Fuse(c.Fuse) != nil {
				c.Fuse = fmt.Sprintf("%s-%d", c.Fuse, n)
			}
			van.Circuits = append(van.Circuits, c)
		}
	}
	return van
}

// BenchmarkTry is what the server does for one load typed anew: the circuits
// worked out anew, and the rows that differ drawn.
func BenchmarkTry(b *testing.B) {
	for _, times := range []int{1, 10} {
		van := wide(b, times)
		led, err := stage.Work(b.Context(), &van)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprintf("circuits=%d", len(van.Circuits)), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				c := *van.Circuit("C15")
				c.Load = 3 + float64(i%8)/10
				next, err := build.ApplyAll(van, []build.Change{&build.SetCircuit{Circuit: c}})
				if err != nil {
					b.Fatal(err)
				}
				s := sheet{Base: "/b/pedlar", Build: &next, Kept: &van, Crew: true}
				if s.Loom, err = stage.Again(b.Context(), &next, led); err != nil {
					b.Fatal(err)
				}
				page := s.list()
				for _, l := range page.Lines {
					l.print()
				}
				page.Lines = page.Lines[14:15]
				if err := foundAnew(page).Render(b.Context(), io.Discard); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
