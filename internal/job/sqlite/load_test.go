package sqlite

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"testing"
	"time"

	"fettle/internal/job"
	"fettle/internal/journal"
	sqlite "fettle/internal/journal/sqlite"
)

// restless reports 50 kB a thousand times a second until it is stopped.
func restless(ctx context.Context, _, _ []byte, report func([]byte)) ([]byte, error) {
	for ctx.Err() == nil {
		report(make([]byte, 50_000))
		time.Sleep(time.Millisecond)
	}
	return nil, nil
}

// BenchmarkAppend_WhileWorkReports is what a tablet waits for a kept entry
// without work, and while four pieces of it report without end.
func BenchmarkAppend_WhileWorkReports(b *testing.B) {
	for _, hands := range []int{0, 1, 4} {
		b.Run(fmt.Sprintf("%d_at_work", hands), func(b *testing.B) {
			store, err := sqlite.Open(b.Context(), b.TempDir()+"/fettle.db")
			if err != nil {
				b.Fatal(err)
			}
			defer store.Close()
			q, err := Open(b.Context(), store.Write(), store.Read(), Config{Hands: hands, Kinds: []job.Kind{{Name: "restless", Work: restless}}})
			if err != nil {
				b.Fatal(err)
			}
			defer q.Close()
			for i := range hands {
				if _, err := q.Ask(b.Context(), job.Request{Kind: "restless", Input: []byte{byte(i)}}); err != nil {
					b.Fatal(err)
				}
			}
			var took []time.Duration
			for b.Loop() {
				began := time.Now()
				e := journal.Entry{ID: journal.NewID(began), At: began, Person: "MW", Device: "tablet", Kind: "note", Version: 1, Change: json.RawMessage(`{"n":1}`)}
				if _, err := store.Append(b.Context(), "cart", journal.AnySeq, []journal.Entry{e}); err != nil {
					b.Fatal(err)
				}
				took = append(took, time.Since(began))
			}
			slices.Sort(took)
			for _, p := range []int{50, 99} {
				b.ReportMetric(float64(took[len(took)*p/100].Microseconds())/1000, fmt.Sprintf("ms-p%d", p))
			}
			b.ReportMetric(float64(took[len(took)-1].Microseconds())/1000, "ms-max")
		})
	}
}

// BenchmarkAsk is how long it takes from asking to a result that costs nothing.
func BenchmarkAsk(b *testing.B) {
	store, err := sqlite.Open(b.Context(), b.TempDir()+"/fettle.db")
	if err != nil {
		b.Fatal(err)
	}
	defer store.Close()
	q, err := Open(b.Context(), store.Write(), store.Read(), Config{Kinds: []job.Kind{{Name: "none", Work: func(context.Context, []byte, []byte, func([]byte)) ([]byte, error) {
		return []byte("x"), nil
	}}}})
	if err != nil {
		b.Fatal(err)
	}
	defer q.Close()
	done := make(chan string, 1000)
	defer q.Watch(func(_, key string) { done <- key })()
	for n := 0; b.Loop(); n++ {
		j, err := q.Ask(b.Context(), job.Request{Kind: "none", Input: fmt.Append(nil, n)})
		for err == nil && j.State != job.Done {
			<-done
			j, err = q.Get(b.Context(), j.Key)
		}
		if err != nil {
			b.Fatal(err)
		}
	}
}
