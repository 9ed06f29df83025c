package nest_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"

	"fettle/engine/nest"
	"fettle/geom"
)

// published reads one case of the public strip sets, which are test data of
// another place and not part of the program.
func published(tb testing.TB, name string) nest.Problem {
	tb.Helper()
	text, err := os.ReadFile(filepath.Join("../../../shared/data/nesting/strip", name+".json"))
	if err != nil {
		tb.Skip("the public strip sets are not here")
	}
	var file struct {
		Height float64 `json:"strip_height"`
		Items  []struct {
			ID     int
			Demand int
			Turns  []float64 `json:"allowed_orientations"`
			Shape  struct{ Data [][2]float64 }
		}
	}
	if err := json.Unmarshal(text, &file); err != nil {
		tb.Fatal(err)
	}
	p := nest.Problem{Containers: []nest.Container{{Height: file.Height}}}
	for _, it := range file.Items {
		var ring []geom.Point
		for _, q := range it.Shape.Data {
			ring = append(ring, geom.Point{X: q[0], Y: q[1]})
		}
		p.Pieces = append(p.Pieces, nest.Piece{
			ID: strconv.Itoa(it.ID), Count: it.Demand, Rotations: it.Turns, Free: len(it.Turns) == 0,
			Shape: geom.Polygon{Outer: geom.Ring(ring).Tidy()},
		})
	}
	return p
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
