package nest_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
)

// BenchmarkOneHide gets the most out of the first hide of a public case, and
// reports its fill and evaluations per second of processor time. The case is
// test data of another place: without it the benchmark says so and skips.
func BenchmarkOneHide(b *testing.B) {
	steps := 1500
	if v, err := strconv.Atoi(os.Getenv("FETTLE_NEST_STEPS")); err == nil {
		steps = v
	}
	in, err := os.Open(filepath.Join("../../../shared/data/nesting/leather/baldacci_test1.json"))
	if err != nil {
		fmt.Fprintf(os.Stderr, "%s skipped, a public hide case is not here: %v\n", b.Name(), err)
		b.SkipNow()
	}
	f, err := nestfile.Read(in)
	in.Close()
	if err != nil {
		b.Fatal(err)
	}
	p := f.Problem
	p.Kind, p.Containers = nest.Knapsack, p.Containers[:1]
	p.Containers[0].Count = 1
	var r nest.Result
	judged, cpu := 0, cpuSeconds(b)
	for b.Loop() {
		if r, err = nest.Solve(context.Background(), p, nest.Options{Seed: 1, Steps: steps}); err != nil {
			b.Fatal(err)
		}
		judged += r.Stats.Evaluations
	}
	cpu = cpuSeconds(b) - cpu
	b.ReportMetric(100*r.Density, "%fill")
	b.ReportMetric(cpu, "CPU-s")
	b.ReportMetric(float64(judged)/cpu, "evaluations/CPU-s")
	b.Logf("%d copies, %+v", len(r.Placements), r.Stats)
}
