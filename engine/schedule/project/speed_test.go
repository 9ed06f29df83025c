package project_test

import (
	"os"
	"testing"

	"fettle/engine/schedule/project"
	"fettle/engine/schedule/psplib"
)

// BenchmarkSerial_Public generates schedules of the public projects of 120
// activities, all files in turn, from lists drawn at random: the bare pass,
// without search. One goroutine: schedules/s are those of one CPU. To beat:
// 75,000.
func BenchmarkSerial_Public(b *testing.B) {
	const dir, file, lists = "../../../../shared/data/rcpsp", "j120.tar.gz", 8
	if _, err := os.Stat(dir); err != nil {
		b.Skip("skipped: the public test set j120 is not beside the checkout")
	}
	set, err := psplib.Open(os.DirFS(dir), file)
	if err != nil {
		b.Fatal(err)
	}
	passes := make([]func(int) int32, len(set))
	for i, in := range set {
		path, err := project.LongestPath(in.Problem)
		if err != nil {
			b.Fatal(err)
		}
		if passes[i], err = project.SerialPasses(in.Problem, uint64(i), lists); err != nil {
			b.Fatal(err)
		}
		if last := passes[i](0); last < path {
			b.Fatalf("%s: makespan %d below the critical path %d", in.Name, last, path)
		}
	}
	b.ReportAllocs()
	at := 0
	for b.Loop() {
		passes[at%len(set)](at / len(set) % lists)
		at++
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "schedules/s")
}
