package wall

import (
	"context"
	"sync"

	"fettle/internal/live"
	"fettle/unit"
)

// memory keeps the last finding about each build, or other key, that takes a moment to work
// out and holds until a fact changes.
type memory[T any] struct {
	work func(ctx context.Context, key string) (T, error)
	mu   sync.Mutex
	last map[string]*remembered[T]
}

type remembered[T any] struct {
	mu    sync.Mutex
	seq   int64
	now   unit.Moment
	found T
}

// mostRemembered is how many findings are kept: a day that is asked about has
// its own.
const mostRemembered = 64

func newMemory[T any](work func(ctx context.Context, key string) (T, error)) *memory[T] {
	return &memory[T]{work: work, last: map[string]*remembered[T]{}}
}

// of returns what was found about a key as the build stands; whoever asks for the
// same meanwhile waits for the first.
func (m *memory[T]) of(ctx context.Context, key string, v live.View) (T, error) {
	m.mu.Lock()
	one := m.last[key]
	if one == nil {
		if len(m.last) >= mostRemembered {
			clear(m.last)
		}
		one = &remembered[T]{}
		m.last[key] = one
	}
	m.mu.Unlock()
	one.mu.Lock()
	defer one.mu.Unlock()
	if one.seq == v.Seq && one.now == v.Now {
		return one.found, nil
	}
	found, err := m.work(ctx, key)
	if err != nil {
		return found, err
	}
	one.seq, one.now, one.found = v.Seq, v.Now, found
	return found, nil
}

// known reports whether the finding about a key as the build stands is there.
func (m *memory[T]) known(key string, v live.View) bool {
	m.mu.Lock()
	one := m.last[key]
	m.mu.Unlock()
	if one == nil || !one.mu.TryLock() {
		return false
	}
	defer one.mu.Unlock()
	return one.seq == v.Seq && one.now == v.Now
}
