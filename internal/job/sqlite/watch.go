package sqlite

import (
	"time"

	"fettle/internal/job"
)

// Watch is explained at job.Queue.
func (q *Queue) Watch(f func(build, key string)) (stop func()) {
	q.mu.Lock()
	defer q.mu.Unlock()
	n := q.next
	q.next++
	q.watchers[n] = f
	return func() {
		q.mu.Lock()
		defer q.mu.Unlock()
		delete(q.watchers, n)
	}
}

// change is a piece of work that is not as it was.
type change struct {
	key, build string
	state      job.State
	run        int64
	number     int64
}

// look finds what has changed until the process ends.
func (q *Queue) look() {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	pulse := time.NewTicker(pulseEvery)
	defer pulse.Stop()
	for {
		list, err := q.changed()
		if err != nil && q.ends.Err() == nil {
			q.c.Log.Error("look for work", "error", err)
		}
		for _, c := range list {
			q.heed(c)
		}
		select {
		case <-q.ends.Done():
			return
		case <-q.news:
		case <-tick.C:
		case <-pulse.C:
			q.pulse()
		}
	}
}

// pulse tells all who watch of what is under way here though nothing has
// changed: time passes.
func (q *Queue) pulse() {
	q.mu.Lock()
	defer q.mu.Unlock()
	for key, r := range q.running {
		for _, f := range q.watchers { // order does not show
			f(r.build, key)
		}
	}
}

// changed returns what has changed since it was last asked.
func (q *Queue) changed() ([]change, error) {
	rows, err := q.read.QueryContext(q.ends, `SELECT key, build, state, run, changed FROM work WHERE changed > $1 ORDER BY changed`, q.seen)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var list []change
	for rows.Next() {
		var c change
		if err := rows.Scan(&c.key, &c.build, &c.state, &c.run, &c.number); err != nil {
			return nil, err
		}
		list = append(list, c)
	}
	if err := rows.Err(); err != nil {
		return nil, err
	}
	if len(list) > 0 {
		q.seen = list[len(list)-1].number
	}
	return list, nil
}

// heed cancels what was stopped, wakes a hand for what waits, and tells all who
// watch. What was read before the run under way had begun says nothing of it.
func (q *Queue) heed(c change) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if r, ok := q.running[c.key]; ok && (c.run > r.number || c.run == r.number && c.state != job.Working) {
		r.cancel()
	}
	if c.state == job.Waiting {
		poke(q.more)
	}
	for _, f := range q.watchers { // order does not show
		f(c.build, c.key)
	}
}
