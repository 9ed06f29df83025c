package schedule

import (
	"context"
	"flag"
	"testing"
	"time"
)

var minute = flag.Bool("minute", false, "run the sixty-second searches too")

// BenchmarkLadder is the demo network by budget: what more schedules win.
func BenchmarkLadder(b *testing.B) {
	for _, state := range []struct {
		name  string
		after bool
	}{{"before", false}, {"after", true}} {
		p := newDemo(b, shop{after: state.after}).Problem
		for _, budget := range []int{0, 200, 500, 1000, 2000, 10000, 50000} {
			b.Run(state.name+"/budget="+itoa(budget), func(b *testing.B) {
				for range b.N {
					res, err := Solve(context.Background(), p, Options{Schedules: budget, Seed: 1})
					if err != nil {
						b.Fatal(err)
					}
					b.ReportMetric(float64(res.Makespan-p.Now)/1440, "days")
					b.ReportMetric(float64(res.LowerBound-p.Now)/1440, "bound-days")
				}
			})
		}
		b.Run(state.name+"/sixty-seconds", func(b *testing.B) {
			if !*minute {
				b.Skip("sixty seconds: with -minute")
			}
			for range b.N {
				ctx, stop := context.WithTimeout(context.Background(), time.Minute)
				res, err := Solve(ctx, p, Options{Schedules: 1 << 30, Seed: 1})
				stop()
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(res.Makespan-p.Now)/1440, "days")
			}
		})
	}
}
