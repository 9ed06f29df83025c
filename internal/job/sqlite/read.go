package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"fettle/fault"
	"fettle/internal/job"
)

// mostListed is how many pieces of work a list holds.
const mostListed = 200

// columns are those of a Job; the number of the run stands last. A list has no
// use for input and best.
const (
	columns = `key, kind, version, build, person, what, page, state, steps, budget, figure, fault, asked, begun, ended, run, input, best`
	light   = `key, kind, version, build, person, what, page, state, steps, budget, figure, fault, asked, begun, ended, run, NULL, NULL`
	ahead   = `(SELECT count(*) FROM work AS o WHERE work.state = 'waiting' AND
		(o.state = 'working' OR o.state = 'waiting' AND (o.asked, o.rowid) < (work.asked, work.rowid)))`
)

// Get is explained at job.Queue.
func (q *Queue) Get(ctx context.Context, key string) (job.Job, error) {
	j, _, err := scan(q.read.QueryRowContext(ctx, `SELECT `+columns+`, `+ahead+` FROM work WHERE key = $1`, key))
	if errors.Is(err, sql.ErrNoRows) {
		return j, fault.New(fault.NotFound, "there is no such work").WithHint("it may have been tidied away; ask for it again")
	}
	return j, fault.Wrap(fault.Internal, err, "read work")
}

// List is explained at job.Queue.
func (q *Queue) List(ctx context.Context, build string) ([]job.Job, error) {
	rows, err := q.read.QueryContext(ctx, `SELECT `+light+`, `+ahead+` FROM work WHERE build = $1 OR $1 = ''
		ORDER BY state NOT IN ('waiting', 'working'), CASE WHEN state IN ('waiting', 'working') THEN asked ELSE -asked END, key LIMIT $2`, build, mostListed)
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "list work")
	}
	defer rows.Close()
	var list []job.Job
	for rows.Next() {
		j, _, err := scan(rows)
		if err != nil {
			return nil, fault.Wrap(fault.Internal, err, "list work")
		}
		list = append(list, j)
	}
	return list, fault.Wrap(fault.Internal, rows.Err(), "list work")
}

func scan(row interface{ Scan(...any) error }) (j job.Job, number int64, err error) {
	var asked, begun, ended int64
	err = row.Scan(&j.Key, &j.Kind, &j.Version, &j.Build, &j.By, &j.What, &j.Page, &j.State, &j.Progress.Done, &j.Progress.Of, &j.Progress.Figure,
		&j.Fault, &asked, &begun, &ended, &number, &j.Input, &j.Best, &j.Ahead)
	j.Asked, j.Begun, j.Ended = moment(asked), moment(begun), moment(ended)
	if j.Page != "" {
		j.Page += "/" + j.Key
	}
	return j, number, err
}

func moment(ms int64) time.Time {
	if ms == 0 {
		return time.Time{}
	}
	return time.UnixMilli(ms)
}
