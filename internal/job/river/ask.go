package river

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"fettle/fault"
	"fettle/internal/job"
)

// Ask is explained at job.Queue.
func (q *Queue) Ask(ctx context.Context, r job.Request) (job.Job, error) {
	k, ok := q.kinds[r.Kind]
	if !ok {
		return job.Job{}, fault.New(fault.Invalid, "there is no work of kind %q", r.Kind)
	}
	key := job.KeyOf(r.Kind, k.Version, r.Input)
	fresh, err := q.enter(ctx, key, k, r)
	if err != nil {
		return job.Job{}, fault.Wrap(fault.Internal, err, "ask for work")
	}
	if fresh {
		q.tell(r.Build, key)
	}
	return q.Get(ctx, key)
}

// enter puts work on the list unless it is there, done or under way, and says
// whether it did.
func (q *Queue) enter(ctx context.Context, key string, k job.Kind, r job.Request) (bool, error) {
	tx, err := q.db.BeginTx(ctx, nil)
	if err != nil {
		return false, err
	}
	defer tx.Rollback()
	done, err := tx.ExecContext(ctx, `INSERT INTO work (key, kind, version, build, person, what, input, state, asked) VALUES ($1, $2, $3, $4, $5, $6, $7, 'waiting', $8)
		ON CONFLICT (key) DO UPDATE SET state = 'waiting', person = excluded.person, fault = '', asked = excluded.asked, begun = 0, ended = 0
		WHERE state IN ('stopped', 'failed')`, key, r.Kind, k.Version, r.Build, r.By, r.What, r.Input, q.now().UnixMilli())
	if err != nil {
		return false, err
	}
	if n, err := done.RowsAffected(); err != nil || n == 0 {
		return false, err
	}
	if _, err := q.client.InsertTx(ctx, tx, args{Key: key}, nil); err != nil {
		return false, err
	}
	return true, tx.Commit()
}

const columns = `key, kind, version, build, person, what, input, state, best, fault, asked, begun, ended`

// Get is explained at job.Queue.
func (q *Queue) Get(ctx context.Context, key string) (job.Job, error) {
	j, err := scan(q.db.QueryRowContext(ctx, `SELECT `+columns+` FROM work WHERE key = $1`, key))
	if errors.Is(err, sql.ErrNoRows) {
		return j, fault.New(fault.NotFound, "there is no such work").WithHint("it may have been tidied away; ask for it again")
	}
	if err == nil && j.State == job.Waiting {
		err = q.db.QueryRowContext(ctx, `SELECT count(*) FROM work WHERE state = 'working' OR state = 'waiting' AND asked < $1`, j.Asked.UnixMilli()).Scan(&j.Ahead)
	}
	return j, fault.Wrap(fault.Internal, err, "read work")
}

// List is explained at job.Queue. It leaves inputs out.
func (q *Queue) List(ctx context.Context, build string) ([]job.Job, error) {
	rows, err := q.db.QueryContext(ctx, `SELECT `+columns+` FROM work WHERE build = $1 OR $1 = '' ORDER BY asked DESC, key LIMIT 200`, build)
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "list work")
	}
	defer rows.Close()
	var list []job.Job
	for rows.Next() {
		j, err := scan(rows)
		if err != nil {
			return nil, fault.Wrap(fault.Internal, err, "list work")
		}
		j.Input = nil
		list = append(list, j)
	}
	return list, fault.Wrap(fault.Internal, rows.Err(), "list work")
}

func scan(row interface{ Scan(...any) error }) (job.Job, error) {
	var j job.Job
	var asked, begun, ended int64
	err := row.Scan(&j.Key, &j.Kind, &j.Version, &j.Build, &j.By, &j.What, &j.Input, &j.State, &j.Best, &j.Fault, &asked, &begun, &ended)
	j.Asked, j.Begun, j.Ended = moment(asked), moment(begun), moment(ended)
	return j, err
}

func moment(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms)
}

// Stop is explained at job.Queue.
func (q *Queue) Stop(ctx context.Context, key string) error {
	j, err := q.Get(ctx, key)
	if err != nil || !j.State.Open() {
		return err
	}
	if _, err := q.db.ExecContext(ctx, `UPDATE work SET state = 'stopped', ended = $2 WHERE key = $1 AND state IN ('waiting', 'working')`, key, q.now().UnixMilli()); err != nil {
		return fault.Wrap(fault.Internal, err, "stop work")
	}
	q.mu.Lock()
	if cancel := q.running[key]; cancel != nil {
		cancel()
	}
	q.mu.Unlock()
	q.tell(j.Build, key)
	return nil
}

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

func (q *Queue) tell(build, key string) {
	q.mu.Lock()
	var list []func(string, string)
	for _, f := range q.watchers {
		list = append(list, f)
	}
	q.mu.Unlock()
	for _, f := range list {
		f(build, key)
	}
}
