package schedule

import (
	"context"
	"flag"
	"testing"
)

var every = flag.Int("every", 1, "of the public sets, every nth project")

// BenchmarkLibrary is the public sets as shop problems, by budget: percent above
// the best known (j30) or the critical path (j60), how many meet the best known
// and how many are proved.
func BenchmarkLibrary(b *testing.B) {
	for _, set := range []string{"j30", "j60"} {
		names, problems := library(b, set, *every)
		best := known(b, set)
		for _, budget := range []int{200, 1000, 5000} {
			b.Run(set+"/schedules="+itoa(budget), func(b *testing.B) {
				for range b.N {
					var above, met, proved float64
					for _, name := range names {
						res, err := Solve(context.Background(), problems[name], Options{Schedules: budget, Seed: 1})
						if err != nil {
							b.Fatal(name, err)
						}
						ub, from := best[name][0], best[name][1]
						if set == "j30" {
							from = ub
						}
						above += float64(res.Makespan)/float64(from) - 1
						if res.Makespan <= ub {
							met++
						}
						if res.Status == ProvedBest {
							proved++
						}
					}
					b.ReportMetric(100*above/float64(len(names)), "%above")
					b.ReportMetric(met, "met")
					b.ReportMetric(proved, "proved")
				}
			})
		}
	}
}
