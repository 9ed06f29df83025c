package schedule

import (
	"context"
	"testing"
)

// BenchmarkIdeas leaves out one part of the search at a time: the public sets
// at 1,000 schedules, the demo at 200 (mean of five seeds), and 300 small
// problems of up to 13 activities at 1,000.
func BenchmarkIdeas(b *testing.B) {
	demos := newDemo(b, shop{after: true}).Problem
	for _, v := range []struct {
		name    string
		without idea
	}{
		{"none", 0}, {"rules", ruleLists}, {"way", wayGene}, {"peaks", peaks}, {"pushing", pushing},
		{"empty-end", emptyEnd}, {"windows", windows}, {"full", inFull},
	} {
		b.Run("without="+v.name, func(b *testing.B) {
			for range b.N {
				for _, set := range []string{"j30", "j60"} {
					b.ReportMetric(aboveWithout(b, set, v.without), set+"-%above")
				}
				days := 0.0
				for seed := range uint64(5) {
					days += float64(without(b, demos, Options{Schedules: 200, Seed: seed}, v.without).Makespan-demos.Now) / 1440 / 5
				}
				b.ReportMetric(days, "demo-days")
				proved := 0.0
				for seed := range 300 {
					p := smallProblem(uint64(seed), 12)
					if _, err := compile(p); err == nil && without(b, p, Options{Schedules: 1000, Seed: uint64(seed)}, v.without).Status == ProvedBest {
						proved++
					}
				}
				b.ReportMetric(proved, "small-proved")
			}
		})
	}
}

func aboveWithout(b *testing.B, set string, leave idea) float64 {
	names, problems := library(b, set, *every)
	best, sum := known(b, set), 0.0
	for _, name := range names {
		for seed := range uint64(2) {
			res := without(b, problems[name], Options{Schedules: 1000, Seed: seed + 1}, leave)
			from := best[name][1]
			if set == "j30" {
				from = best[name][0]
			}
			sum += float64(res.Makespan)/float64(from) - 1
		}
	}
	return 50 * sum / float64(len(names))
}

func without(b *testing.B, p Problem, o Options, leave idea) Result {
	n, err := compile(p)
	if err != nil {
		b.Fatal(err)
	}
	s := newSearch(n, o)
	s.islands[0].without = leave
	s.improve(context.Background())
	return s.result()
}
