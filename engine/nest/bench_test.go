package nest_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
)

// published reads one case of the public strip sets, which are test data of
// another place and not part of the program. A skip is said aloud: without -v
// a skipped benchmark leaves no line.
func published(b *testing.B, name string) nest.Problem {
	b.Helper()
	in, err := os.Open(filepath.Join("../../../shared/data/nesting/strip", name+".json"))
	if err != nil {
		fmt.Fprintf(os.Stderr, "%s skipped, a public strip set is not here: %v\n", b.Name(), err)
		b.SkipNow()
	}
	defer in.Close()
	f, err := nestfile.Read(in)
	if err != nil {
		b.Fatal(err)
	}
	return f.Problem
}

// cpuSeconds is what the process has used so far.
func cpuSeconds(tb testing.TB) float64 {
	tb.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		tb.Fatal(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}

// BenchmarkEvaluations measures the search on a case of our own.
func BenchmarkEvaluations(b *testing.B) {
	judged, cpu := 0, cpuSeconds(b)
	for seed := uint64(1); b.Loop(); seed++ {
		r, err := nest.Solve(context.Background(), mixed(), nest.Options{Seed: seed, Steps: 200})
		if err != nil {
			b.Fatal(err)
		}
		judged += r.Stats.Evaluations
	}
	b.ReportMetric(float64(judged)/(cpuSeconds(b)-cpu), "evaluations/CPU-s")
}

// BenchmarkStrip solves the public cases for as many steps as FETTLE_NEST_STEPS
// says, and reports density in percent and evaluations per second
// of processor time. FETTLE_NEST_STEPS=55000 is about a minute of one core.
func BenchmarkStrip(b *testing.B) {
	steps := 2000
	if v, err := strconv.Atoi(os.Getenv("FETTLE_NEST_STEPS")); err == nil {
		steps = v
	}
	for _, name := range []string{"albano", "marques", "shirts", "dagli", "gardeyn6"} {
		b.Run(name, func(b *testing.B) {
			p := published(b, name)
			var r nest.Result
			judged, cpu := 0, cpuSeconds(b)
			for seed := uint64(1); b.Loop(); seed++ {
				var err error
				if r, err = nest.Solve(context.Background(), p, nest.Options{Seed: seed, Steps: steps}); err != nil {
					b.Fatal(err)
				}
				judged += r.Stats.Evaluations
			}
			cpu = cpuSeconds(b) - cpu
			b.ReportMetric(100*r.Density, "%density")
			b.ReportMetric(cpu, "CPU-s")
			b.ReportMetric(float64(judged)/cpu, "evaluations/CPU-s")
			b.Logf("%+v length %.3f", r.Stats, r.Length)
		})
	}
}
