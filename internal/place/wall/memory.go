package wall

import (
	"context"
	"sync"

	"fettle/internal/live"
	"fettle/unit"
)

// memory keeps the last finding about each build that takes a moment to work
// out and holds until a fact changes.
type memory[T any] struct {
	work func(ctx context.Context, build string) (T, error)
	mu   sync.Mutex
	last map[string]*remembered[T]
}

type remembered[T any] struct {
	mu    sync.Mutex
	seq   int64
	now   unit.Moment
	found T
}

func newMemory[T any](work func(ctx context.Context, build string) (T, error)) *memory[T] {
	return &memory[T]{work: work, last: map[string]*remembered[T]{}}
}

// of returns what was found about a build as it stands; whoever asks for the
// same meanwhile waits for the first.
func (m *memory[T]) of(ctx context.Context, build string, v live.View) (T, error) {
	m.mu.Lock()
	one := m.last[build]
	if one == nil {
		one = &remembered[T]{}
		m.last[build] = one
	}
	m.mu.Unlock()
	one.mu.Lock()
	defer one.mu.Unlock()
	if one.seq == v.Seq && one.now == v.Now {
		return one.found, nil
	}
	found, err := m.work(ctx, build)
	if err != nil {
		return found, err
	}
	one.seq, one.now, one.found = v.Seq, v.Now, found
	return found, nil
}

// known reports whether the finding about this build as it stands is there.
func (m *memory[T]) known(build string, v live.View) bool {
	m.mu.Lock()
	one := m.last[build]
	m.mu.Unlock()
	if one == nil || !one.mu.TryLock() {
		return false
	}
	defer one.mu.Unlock()
	return one.seq == v.Seq && one.now == v.Now
}
