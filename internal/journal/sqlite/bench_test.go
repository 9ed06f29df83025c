package sqlite

import (
	"fmt"
	"strings"
	"testing"

	"fettle/internal/journal"
)

// BenchmarkAppend keeps n entries of about 300 bytes in one transaction,
// synchronised with the disk.
func BenchmarkAppend(b *testing.B) {
	for _, n := range []int{1, 100} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			s := fresh(b)
			for b.Loop() {
				if _, err := s.Append(b.Context(), "pedlar", journal.AnySeq, samples(n)); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "entries/s")
		})
	}
}

// BenchmarkEntries reads a build of n entries, as a replay without a snapshot does.
func BenchmarkEntries(b *testing.B) {
	for _, n := range []int{2000} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			s := fresh(b)
			if _, err := s.Append(b.Context(), "pedlar", 0, samples(n)); err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				list, err := s.Entries(b.Context(), "pedlar", 0, 0)
				if err != nil || len(list) != n {
					b.Fatalf("%d entries, %v", len(list), err)
				}
			}
		})
	}
}

// BenchmarkCheck checks a store of 2,000 entries.
func BenchmarkCheck(b *testing.B) {
	s := fresh(b)
	if _, err := s.Append(b.Context(), "pedlar", 0, samples(2000)); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if problems, err := s.Check(b.Context()); err != nil || len(problems) > 0 {
			b.Fatal(problems, err)
		}
	}
}

func samples(n int) []journal.Entry {
	list := make([]journal.Entry, n)
	for i := range list {
		list[i] = sample(strings.Repeat("x", 280))
	}
	return list
}
