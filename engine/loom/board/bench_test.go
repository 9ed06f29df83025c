//go:build unix

package board_test

import (
	"context"
	"fmt"
	"syscall"
	"testing"
	"time"

	"fettle/engine/loom/board"
	"fettle/engine/loom/route"
)

// spent is the processor time of this process.
func spent() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkLoom routes, packs and lays a whole loom.
func BenchmarkLoom(b *testing.B) {
	for _, bb := range []struct{ connectors, wires int }{{25, 40}, {110, 400}} {
		b.Run(fmt.Sprintf("wires=%d", bb.wires), func(b *testing.B) {
			p := vehicle(bb.connectors, bb.wires)
			b.ReportAllocs()
			var laid board.Result
			var routed route.Result
			at := spent()
			for b.Loop() {
				var err error
				if routed, err = route.Solve(context.Background(), p, route.Options{}); err != nil {
					b.Fatal(err)
				}
				q := board.Problem{Loom: p, Routed: routed}
				if laid, err = board.Solve(context.Background(), q); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64((spent()-at).Milliseconds())/float64(b.N), "cpu-ms/op")
			b.ReportMetric(100*routed.Tree.Gap, "%gap")
			b.ReportMetric(float64(len(laid.Branches)), "branches")
			b.ReportMetric(laid.Angle, "least-deg")
			b.ReportMetric(laid.Gap, "least-mm")
		})
	}
}

// FuzzSolve lays trees as they come, on boards as they come.
func FuzzSolve(f *testing.F) {
	f.Add(uint64(1), 12, 3, 1500.0, 900.0)
	f.Add(uint64(9), 40, 40, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, seed uint64, n, reach int, width, height float64) {
		if n < 2 || n > 60 || reach < 1 || reach > 60 {
			return
		}
		p := tree(seed, n, reach)
		r, err := route.Solve(context.Background(), p, route.Options{Starts: 1})
		if err != nil {
			t.Fatal(err)
		}
		b := board.Problem{Loom: p, Routed: r, Rules: board.Rules{Width: width, Height: height}}
		got, err := board.Solve(context.Background(), b)
		if err != nil {
			return
		}
		if err := board.Check(b, got); err != nil {
			t.Fatal(err)
		}
	})
}
