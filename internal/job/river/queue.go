// Package river keeps work in an SQLite file of its own and has the library of
// that name hand it out, one piece at a time.
//
// The file holds a table of our own, work, with inputs, results and the best so
// far; the library's tables say what is next. Work that was under way when the
// power went is put back when the file is opened again, and begins from the
// best that was stored, which is at most half a second old.
package river

import (
	"context"
	"database/sql"
	"log/slog"
	"sync"
	"time"

	"github.com/riverqueue/river"
	"github.com/riverqueue/river/riverdriver/riversqlite"
	"github.com/riverqueue/river/rivermigrate"
	_ "modernc.org/sqlite" // the driver

	"fettle/fault"
	"fettle/internal/job"
)

// keepFor is how long work that has ended is kept. What was worked out and is
// used lies in the journal as a fact, whole, so that nothing hangs on this.
const keepFor = 90 * 24 * time.Hour

// Queue is a job.Queue in a file.
type Queue struct {
	db     *sql.DB
	client *river.Client[*sql.Tx]
	kinds  map[string]job.Kind
	now    func() time.Time

	mu       sync.Mutex
	running  map[string]context.CancelFunc
	watchers map[int]func(build, key string)
	next     int
}

const schema = `CREATE TABLE IF NOT EXISTS work (
	key TEXT PRIMARY KEY, kind TEXT NOT NULL, version INTEGER NOT NULL, build TEXT NOT NULL, person TEXT NOT NULL, what TEXT NOT NULL,
	input BLOB NOT NULL, state TEXT NOT NULL, best BLOB, fault TEXT NOT NULL DEFAULT '',
	asked INTEGER NOT NULL, begun INTEGER NOT NULL DEFAULT 0, ended INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX IF NOT EXISTS work_of_build ON work (build, asked)`

// putBack makes available what was under way when the process ended.
const putBack = `UPDATE river_job SET state = 'available', attempt = max(attempt - 1, 0), scheduled_at = datetime('now', 'subsec') WHERE state = 'running'`

// Open opens the file, makes it if there is none, and begins to work. Close
// ends it. One process may have it open.
func Open(ctx context.Context, path string, kinds []job.Kind, now func() time.Time) (*Queue, error) {
	db, err := sql.Open("sqlite", "file:"+path+"?_pragma=busy_timeout(5000)&_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)&_txlock=immediate")
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "open the work file")
	}
	db.SetMaxOpenConns(1)
	q := &Queue{db: db, kinds: map[string]job.Kind{}, now: now, running: map[string]context.CancelFunc{}, watchers: map[int]func(string, string){}}
	for _, k := range kinds {
		q.kinds[k.Name] = k
	}
	if err := q.start(ctx); err != nil {
		db.Close()
		return nil, fault.Wrap(fault.Internal, err, "open the work file")
	}
	return q, nil
}

func (q *Queue) start(ctx context.Context) error {
	driver := riversqlite.New(q.db)
	quiet := slog.New(slog.DiscardHandler)
	m, err := rivermigrate.New(driver, &rivermigrate.Config{Logger: quiet})
	if err != nil {
		return err
	}
	if _, err := m.Migrate(ctx, rivermigrate.DirectionUp, nil); err != nil {
		return err
	}
	for _, text := range []string{schema, putBack} {
		if _, err := q.db.ExecContext(ctx, text); err != nil {
			return err
		}
	}
	if _, err := q.db.ExecContext(ctx, `DELETE FROM work WHERE state NOT IN ('waiting', 'working') AND ended < $1`, q.now().Add(-keepFor).UnixMilli()); err != nil {
		return err
	}
	workers := river.NewWorkers()
	river.AddWorker(workers, &worker{q: q})
	q.client, err = river.NewClient(driver, &river.Config{
		ID: "fettle", Logger: quiet, Workers: workers, Queues: map[string]river.QueueConfig{river.QueueDefault: {MaxWorkers: 1}},
		JobTimeout: -1, FetchCooldown: 100 * time.Millisecond, FetchPollInterval: time.Second,
	})
	if err != nil {
		return err
	}
	return q.client.Start(context.WithoutCancel(ctx))
}

// Close ends what is under way, which is put back at the next opening.
func (q *Queue) Close() error {
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	err := q.client.StopAndCancel(ctx)
	if e := q.db.Close(); err == nil {
		err = e
	}
	return fault.Wrap(fault.Internal, err, "close the work file")
}
