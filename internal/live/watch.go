package live

import (
	"context"
	"sync"
	"time"
)

// Event says that a build has a new journal number.
type Event struct {
	Build string
	Seq   int64
}

// watchers are told of every kept change.
type watchers struct {
	mu   sync.Mutex
	list map[int]func(Event)
	next int
}

// Watch calls tell after every kept change until stop is called. tell must not wait.
func (s *Shop) Watch(tell func(Event)) (stop func()) {
	w := &s.watch
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.list == nil {
		w.list = map[int]func(Event){}
	}
	id := w.next
	w.next++
	w.list[id] = tell
	return func() {
		w.mu.Lock()
		defer w.mu.Unlock()
		delete(w.list, id)
	}
}

func (w *watchers) tell(e Event) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, tell := range w.list {
		tell(e)
	}
}

// Follow looks at the store now and then until ctx ends, and tells the
// watchers what another process has kept.
func (s *Shop) Follow(ctx context.Context, every time.Duration) {
	seen := map[string]int64{}
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		builds, err := s.store.Builds(ctx)
		for _, b := range builds {
			if before, known := seen[b.ID]; err == nil && known && b.Seq != before {
				s.watch.tell(Event{Build: b.ID, Seq: b.Seq})
			}
			seen[b.ID] = b.Seq
		}
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
	}
}
