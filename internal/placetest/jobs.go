package placetest

import (
	"context"
	"path/filepath"
	"sync"
	"testing"

	"fettle/internal/job"
	queue "fettle/internal/job/sqlite"
	"fettle/internal/journal/sqlite"
	"fettle/stage/trim"
)

// lazy is a queue that opens its file when it is first asked: most tests of
// places want no long work.
type lazy struct{ open func() *queue.Queue }

func newLazy(t testing.TB) lazy {
	dir := t.TempDir()
	return lazy{sync.OnceValue(func() *queue.Queue {
		store, err := sqlite.Open(context.Background(), filepath.Join(dir, "work.db"))
		if err != nil {
			t.Fatal(err)
		}
		kinds := []job.Kind{{Name: trim.LayKind, Version: trim.LayVersion, Work: trim.Lay, Tell: trim.Tell}}
		q, err := queue.Open(context.Background(), store.Write(), store.Read(), queue.Config{Kinds: kinds})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			q.Close()
			store.Close()
		})
		return q
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
