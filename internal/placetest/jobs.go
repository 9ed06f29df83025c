package placetest

import (
	"context"
	"path/filepath"
	"sync"
	"testing"

	"fettle/internal/job"
	queue "fettle/internal/job/sqlite"
	"fettle/internal/journal/sqlite"
	"fettle/stage/metal"
	"fettle/stage/trim"
)

// Queue is a queue of long work of some kinds, in a file of its own.
func Queue(t testing.TB, kinds ...job.Kind) job.Queue {
	store, err := sqlite.Open(context.Background(), filepath.Join(t.TempDir(), "work.db"))
	if err != nil {
		t.Fatal(err)
	}
	q, err := queue.Open(context.Background(), store.Write(), store.Read(), queue.Config{Kinds: kinds})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		q.Close()
		store.Close()
	})
	return q
}

// lazy is a queue that opens its file when it is first asked: most tests of
// places want no long work.
type lazy struct{ open func() job.Queue }

func newLazy(t testing.TB) lazy {
	return lazy{sync.OnceValue(func() job.Queue {
		return Queue(t, job.Kind{Name: trim.LayKind, Version: trim.LayVersion, Work: trim.Lay, Tell: trim.Tell},
			job.Kind{Name: trim.FlatKind, Version: trim.FlatVersion, Work: trim.LookFlat, Tell: trim.TellFlat},
			job.Kind{Name: metal.LayKind, Version: metal.LayVersion, Work: metal.Lay, Tell: metal.Tell})
	})}
}

func (l lazy) Ask(ctx context.Context, r job.Request) (job.Job, error) { return l.open().Ask(ctx, r) }

func (l lazy) Again(ctx context.Context, key, by string) (job.Job, error) {
	return l.open().Again(ctx, key, by)
}

func (l lazy) Get(ctx context.Context, key string) (job.Job, error) { return l.open().Get(ctx, key) }

func (l lazy) List(ctx context.Context, build string) ([]job.Job, error) {
	return l.open().List(ctx, build)
}

func (l lazy) Stop(ctx context.Context, key string) error { return l.open().Stop(ctx, key) }

func (l lazy) Watch(f func(build, key string)) (stop func()) { return l.open().Watch(f) }
