package sqlite

import (
	"context"
	"database/sql"

	"fettle/fault"
	"fettle/internal/job"
)

// mostWaiting bounds the queue; mostInput, in bytes, what work is asked with.
const (
	mostWaiting = 100
	mostInput   = 16 << 20
)

// number is that of the next change: one more than the last, and no less than
// the milliseconds of the clock, since the last may have been tidied away.
// changes sets it.
const (
	number  = `(SELECT max(coalesce(max(changed), 0) + 1, CAST(unixepoch('subsec') * 1000 AS INTEGER)) FROM work)`
	changes = `changed = ` + number
)

// Ask is explained at job.Queue.
func (q *Queue) Ask(ctx context.Context, r job.Request) (job.Job, error) {
	k, ok := q.kinds[r.Kind]
	if !ok {
		return job.Job{}, fault.New(fault.Invalid, "there is no work of kind %q", r.Kind)
	}
	if len(r.Input) > mostInput {
		return job.Job{}, fault.New(fault.Invalid, "this is too much to work out at once").WithHint("ask for less at a time")
	}
	key := job.KeyOf(r.Kind, k.Version, r.Input)
	if err := q.enter(ctx, key, k.Version, r); err != nil {
		return job.Job{}, fault.Wrap(fault.Internal, err, "ask for work")
	}
	return q.Get(ctx, key)
}

// enter puts work on the list unless it is there, done or under way.
func (q *Queue) enter(ctx context.Context, key string, version int, r job.Request) error {
	tx, err := q.write.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	done, err := tx.ExecContext(ctx, `INSERT INTO work (key, kind, version, build, person, what, page, input, state, asked, changed)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, 'waiting', $9, `+number+`)
		ON CONFLICT (key) DO UPDATE SET state = 'waiting', person = excluded.person, fault = '', asked = excluded.asked, begun = 0, ended = 0, cuts = 0, changed = excluded.changed
		WHERE state IN ('stopped', 'failed')`, key, r.Kind, version, r.Build, r.By, r.What, r.Page, r.Input, q.c.Now().UnixMilli())
	if err != nil {
		return err
	}
	if n, err := done.RowsAffected(); err != nil || n == 0 {
		return err
	}
	if err := room(ctx, tx); err != nil {
		return err
	}
	if err := tx.Commit(); err != nil {
		return err
	}
	poke(q.news)
	return nil
}

// room refuses more than the queue takes.
func room(ctx context.Context, tx *sql.Tx) error {
	var n int
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM work WHERE state = 'waiting'`).Scan(&n); err != nil {
		return err
	}
	if n > mostWaiting {
		return fault.New(fault.Conflict, "%d pieces of work wait already", mostWaiting).WithHint("stop what is no longer needed, or ask again later")
	}
	return nil
}

// Again is explained at job.Queue.
func (q *Queue) Again(ctx context.Context, key, by string) (job.Job, error) {
	j, err := q.Get(ctx, key)
	if err != nil {
		return j, err
	}
	var page string
	if err := q.read.QueryRowContext(ctx, `SELECT page FROM work WHERE key = $1`, key).Scan(&page); err != nil {
		return j, fault.Wrap(fault.Internal, err, "ask for work again")
	}
	return q.Ask(ctx, job.Request{Kind: j.Kind, Build: j.Build, By: by, What: j.What, Page: page, Input: j.Input})
}

// Stop is explained at job.Queue. Whichever process works sees it.
func (q *Queue) Stop(ctx context.Context, key string) error {
	if _, err := q.Get(ctx, key); err != nil {
		return err
	}
	return q.halt(ctx, key)
}

// halt stops work that is open.
func (q *Queue) halt(ctx context.Context, key string) error {
	_, err := q.exec(ctx, "stop work", `UPDATE work SET state = 'stopped', ended = $2, `+changes+` WHERE key = $1 AND state IN ('waiting', 'working')`,
		key, q.c.Now().UnixMilli())
	return err
}
