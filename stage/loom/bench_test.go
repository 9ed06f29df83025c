package loom_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/route"
	"fettle/rates"
	stage "fettle/stage/loom"
)

// times is the van with its circuits so many times over, behind fuses and
// between places of their own names.
func times(t testing.TB, n int) *build.Build {
	b := van(t, 0)
	own := b.Circuits
	fuses, boxes := b.Loom.Fuses, b.Loom.Boxes
	for k := 1; k < n; k++ {
		as := func(name string) string { return fmt.Sprintf("%s/%d", name, k) }
		for _, f := range fuses {
			f.Name, f.Box = as(f.Name), as(f.Box)
			b.Loom.Fuses = append(b.Loom.Fuses, f)
		}
		for _, x := range boxes {
			x.Name = as(x.Name)
			b.Loom.Boxes = append(b.Loom.Boxes, x)
		}
		for _, c := range own {
			c.ID = as(c.ID)
			if slices.ContainsFunc(fuses, func(f build.Fuse) bool { return f.Name == c.Fuse }) {
				c.Fuse = as(c.Fuse)
			}
			b.Circuits = append(b.Circuits, c)
		}
	}
	return b
}

// BenchmarkLoom is what a loom of 40 and of 400 circuits takes, and what of it
// is the net, the route and the board.
func BenchmarkLoom(bench *testing.B) {
	for _, n := range []int{1, 10} {
		b, ctx := times(bench, n), context.Background()
		s := work(bench, b)
		parts := []struct {
			name string
			do   func() error
		}{
			{"net", func() error {
				_, err := loom.Solve(ctx, stage.ProblemOf(b), loom.Options{})
				return err
			}},
			{"route", func() error {
				_, err := route.Solve(ctx, *s.Ways, route.Options{})
				return err
			}},
			{"board", func() error {
				_, _, err := stage.BoardOf(ctx, b, s)
				return err
			}},
			{"takeoff", func() error {
				stage.Stage{}.TakeOff(b, rates.Default())
				return nil
			}},
			{"work", func() error {
				_, err := stage.Work(ctx, b)
				return err
			}},
		}
		full := b.Clone()
		full.Loom.Settings.Rules = "in full"
		parts = append(parts, struct {
			name string
			do   func() error
		}{"work in full", func() error {
			_, err := stage.Work(ctx, &full)
			return err
		}})
		for _, part := range parts {
			bench.Run(fmt.Sprintf("%d/%s", len(b.Circuits), part.name), func(bench *testing.B) {
				for bench.Loop() {
					if err := part.do(); err != nil {
						bench.Fatal(err)
					}
				}
			})
		}
	}
}
