package trim

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"sync"

	"fettle/fault"
	stage "fettle/stage/trim"
)

// queue is what the place asks of whoever works layouts out: the same input
// has the same key and is worked out once.
type queue interface {
	Ask(ctx context.Context, build, by string, input []byte) (key string, err error)
	Look(ctx context.Context, key string) (work, error)
	Cancel(ctx context.Context, key string) error
}

// work is how far one layout is.
type work struct {
	Build string
	State string // waiting, running, done, stopped or failed
	Best  []byte // of stage.Laid; nil before the first
	Why   string // it failed
}

func (w work) open() bool { return w.State == "waiting" || w.State == "working" }

// mostKept is how many layouts are remembered.
const mostKept = 64

// inMemory works layouts out one after another in this process and forgets
// them with it.
type inMemory struct {
	mu    sync.Mutex
	all   map[string]*running
	order []string
	turn  chan struct{} // one at a time
}

type running struct {
	work
	stop context.CancelFunc
}

func newQueue() *inMemory {
	return &inMemory{all: map[string]*running{}, turn: make(chan struct{}, 1)}
}

// Ask begins a layout, or names the one that is there.
func (q *inMemory) Ask(_ context.Context, build, _ string, input []byte) (string, error) {
	sum := sha256.Sum256(input)
	key := hex.EncodeToString(sum[:8])
	q.mu.Lock()
	defer q.mu.Unlock()
	if old := q.all[key]; old != nil && (old.open() || old.State == "done") {
		return key, nil
	}
	ctx, stop := context.WithCancel(context.Background())
	q.all[key] = &running{work: work{Build: build, State: "waiting"}, stop: stop}
	if q.order = append(q.order, key); len(q.order) > mostKept {
		q.forget()
	}
	go q.run(ctx, key, input)
	return key, nil
}

// forget drops the oldest that is over.
func (q *inMemory) forget() {
	for i, key := range q.order {
		if r := q.all[key]; r == nil || !r.open() {
			delete(q.all, key)
			q.order = append(q.order[:i], q.order[i+1:]...)
			return
		}
	}
}

func (q *inMemory) run(ctx context.Context, key string, input []byte) {
	select {
	case q.turn <- struct{}{}:
		defer func() { <-q.turn }()
	case <-ctx.Done():
		q.set(key, func(w *work) { w.State = "stopped" })
		return
	}
	q.set(key, func(w *work) { w.State = "working" })
	out, err := stage.Lay(ctx, input, nil, func(best []byte) { q.set(key, func(w *work) { w.Best = best }) })
	q.set(key, func(w *work) {
		switch {
		case err != nil:
			w.State, w.Why = "failed", err.Error()
		case ctx.Err() != nil:
			w.State, w.Best = "stopped", out
		default:
			w.State, w.Best = "done", out
		}
	})
}

func (q *inMemory) set(key string, do func(w *work)) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if r := q.all[key]; r != nil {
		do(&r.work)
	}
}

// Look says how far a layout is.
func (q *inMemory) Look(_ context.Context, key string) (work, error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if r := q.all[key]; r != nil {
		return r.work, nil
	}
	return work{}, fault.New(fault.NotFound, "this layout is not there any more").WithHint("Ask for it again: the same pieces on the same hides give the same layout.")
}

// Cancel stops a layout; the best so far stays.
func (q *inMemory) Cancel(_ context.Context, key string) error {
	q.mu.Lock()
	defer q.mu.Unlock()
	if r := q.all[key]; r != nil {
		r.stop()
	}
	return nil
}
