package sqlite

import (
	"context"
	"slices"
	"time"

	"fettle/fault"
)

// keepFor is how long work that has ended is kept, if no fact names it.
const keepFor = 90 * 24 * time.Hour

// mostCuts is how often the process may go down under a piece of work before it
// is no longer begun by itself: it may be what brings the process down.
const mostCuts = 3

// putBack has what was under way when a process went down wait again.
func (q *Queue) putBack() error {
	ctx, cancel := context.WithTimeout(q.ends, patience)
	defer cancel()
	_, err := q.exec(ctx, "put work back", `UPDATE work SET cuts = cuts + 1, `+changes+`,
		state = CASE WHEN cuts + 1 >= $1 THEN 'failed' ELSE 'waiting' END,
		ended = CASE WHEN cuts + 1 >= $1 THEN $2 ELSE 0 END,
		fault = CASE WHEN cuts + 1 >= $1 THEN 'the machine or the program went down three times in the middle of it: ask again if you know why' ELSE '' END
		WHERE state = 'working'`, mostCuts, q.c.Now().UnixMilli())
	return err
}

// sweep takes away work of builds that are gone, and what ended long ago and is
// named by no fact.
func (q *Queue) sweep(ctx context.Context) error {
	var kept Kept
	if q.c.Kept != nil {
		var err error
		if kept, err = q.c.Kept(ctx); err != nil {
			return fault.Wrap(fault.Internal, err, "learn which work is needed")
		}
	}
	list, err := q.swept(ctx, kept)
	if err != nil {
		return err
	}
	for _, key := range list {
		if err := q.halt(ctx, key); err != nil {
			return err
		}
		q.cut(key)
		if _, err := q.exec(ctx, "tidy work away", `DELETE FROM work WHERE key = $1 AND state NOT IN ('waiting', 'working')`, key); err != nil {
			return err
		}
	}
	return nil
}

// cut cancels work that is under way here: once its row is gone, nobody reads
// there that it was stopped.
func (q *Queue) cut(key string) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if r, ok := q.running[key]; ok {
		r.cancel()
	}
}

// swept lists the keys of what goes.
func (q *Queue) swept(ctx context.Context, kept Kept) ([]string, error) {
	rows, err := q.read.QueryContext(ctx, `SELECT key, build, state IN ('waiting', 'working') OR ended >= $1 FROM work`, q.c.Now().Add(-keepFor).UnixMilli())
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "look for old work")
	}
	defer rows.Close()
	var list []string
	for rows.Next() {
		var key, build string
		var young bool
		if err := rows.Scan(&key, &build, &young); err != nil {
			return nil, fault.Wrap(fault.Internal, err, "look for old work")
		}
		gone := q.c.Kept != nil && build != "" && !slices.Contains(kept.Builds, build)
		if gone || !young && !slices.Contains(kept.Keys, key) {
			list = append(list, key)
		}
	}
	return list, fault.Wrap(fault.Internal, rows.Err(), "look for old work")
}
