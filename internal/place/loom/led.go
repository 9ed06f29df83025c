package loom

import (
	"context"
	"sync"

	stage "fettle/stage/loom"
)

// led keeps the looms last worked out in full, by the mark of their facts, so
// that figures follow while somebody types without the route led anew.
type led struct {
	mu     sync.Mutex
	marks  []string // the last used last
	sheets map[string]stage.Sheet
}

// mostLed is how many are kept: a few people type at a time.
const mostLed = 8

func newLed() *led { return &led{sheets: map[string]stage.Sheet{}} }

// put keeps a loom that nobody alters any more.
func (l *led) put(mark string, s stage.Sheet) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if _, there := l.sheets[mark]; there {
		return
	}
	if len(l.marks) == mostLed {
		delete(l.sheets, l.marks[0])
		l.marks = l.marks[1:]
	}
	l.marks, l.sheets[mark] = append(l.marks, mark), s
}

// get returns the loom of these facts, worked out now where it is not kept.
func (l *led) get(ctx context.Context, s sheet) (stage.Sheet, error) {
	l.mu.Lock()
	kept, there := l.sheets[s.Mark]
	l.mu.Unlock()
	if there {
		return kept, nil
	}
	found, err := stage.Work(ctx, s.Build)
	if err == nil {
		l.put(s.Mark, found)
	}
	return found, err
}
