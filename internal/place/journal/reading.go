package journal

import (
	"sync"

	"fettle/internal/journal"
)

// readings remembers, for each build, its journal in words: putting hundreds
// of entries into words takes longer than the rest of the page. The rows
// must not be altered.
type readings struct {
	mu   sync.Mutex
	last map[string]reading
}

// reading is a journal in words up to one of its numbers.
type reading struct {
	seq  int64
	rows []row
}

// of returns the rows of a build up to seq, read from entries where they are
// not remembered.
func (r *readings) of(build string, seq int64, entries func() ([]journal.Entry, error)) ([]row, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if known, ok := r.last[build]; ok && known.seq == seq {
		return known.rows, nil
	}
	all, err := entries()
	if err != nil {
		return nil, err
	}
	if r.last == nil {
		r.last = map[string]reading{}
	}
	fresh := reading{all[len(all)-1].Seq, read(all)}
	r.last[build] = fresh
	return fresh.rows, nil
}
