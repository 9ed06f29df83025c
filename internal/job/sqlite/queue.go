// Package sqlite is the queue of long work of a single machine: the table work
// of the shop's one SQLite file, whose migrations package
// internal/journal/sqlite owns, and the hands that do what waits in it.
//
// Every change of the table has a number of its own, one more than the last.
// Each process looks for numbers it has not seen, at once after what it wrote
// itself and else twice a second, and so learns the same way what it and others
// did: that something waits, was stopped, or has a new best. One process of the
// machine works. When it ends, however it ends, the next puts back what was
// under way, which begins from the best that was stored.
package sqlite

import (
	"context"
	"database/sql"
	"log/slog"
	"sync"
	"time"

	"fettle/fault"
	"fettle/internal/job"
)

// lookEvery is how soon a process learns what another one did.
const lookEvery = 500 * time.Millisecond

// pulseEvery is how often those who watch are told of work that found nothing
// better meanwhile.
const pulseEvery = 2 * time.Second

// patience bounds every write of the hands.
const patience = 30 * time.Second

// Config says what a queue does.
type Config struct {
	Kinds []job.Kind
	Hands int              // how many pieces are worked out at a time; 0 is one
	Now   func() time.Time // nil is the clock
	Log   *slog.Logger     // what went wrong, for whoever runs the machine; nil is none
	// Alone claims the machine's work for this process and tells whether it has
	// it. nil: there is no other process.
	Alone func(ctx context.Context) (release func(), ok bool, err error)
	// Kept tells what the sweep leaves; nil sweeps by age alone.
	Kept func(ctx context.Context) (Kept, error)
}

// Kept is what work is there for.
type Kept struct {
	Builds []string // all there are: work for others goes
	Keys   []string // of work that facts name
}

var _ job.Queue = (*Queue)(nil)

// Queue is a job.Queue in the shop's file.
type Queue struct {
	write, read *sql.DB
	kinds       map[string]job.Kind
	c           Config

	ends context.Context // with the process
	end  context.CancelFunc
	all  sync.WaitGroup // of goroutines
	news chan struct{}  // something was written here
	more chan struct{}  // something waits

	mu       sync.Mutex
	seen     int64 // the last number of a change
	running  map[string]run
	watchers map[int]func(build, key string)
	next     int
}

// run is a beginning of a piece of work.
type run struct {
	number int64
	build  string
	cancel context.CancelFunc
}

// Open begins to work on what waits in the table. Close ends it.
func Open(ctx context.Context, write, read *sql.DB, c Config) (*Queue, error) {
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	q := &Queue{write: write, read: read, c: c, kinds: map[string]job.Kind{}, news: make(chan struct{}, 1), more: make(chan struct{}, 1),
		running: map[string]run{}, watchers: map[int]func(string, string){}}
	for _, k := range c.Kinds {
		q.kinds[k.Name] = k
	}
	if err := read.QueryRowContext(ctx, `SELECT coalesce(max(changed), 0) FROM work`).Scan(&q.seen); err != nil {
		return nil, fault.Wrap(fault.Internal, err, "open the queue of work")
	}
	q.ends, q.end = context.WithCancel(context.WithoutCancel(ctx))
	q.all.Go(q.look)
	q.all.Go(q.staff)
	return q, nil
}

// Close ends what is under way and puts it back. Work that does not end within
// patience is put back by whoever works next.
func (q *Queue) Close() error {
	q.end()
	done := make(chan struct{})
	go func() {
		q.all.Wait()
		close(done)
	}()
	select {
	case <-done:
		return nil
	case <-time.After(5 * time.Second):
		return fault.New(fault.Internal, "work under way does not end; it is done again when the shop is opened")
	}
}

// poke leaves a token where there is none.
func poke(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// exec writes to the table and has everybody told.
func (q *Queue) exec(ctx context.Context, attempted, text string, args ...any) (rows int64, err error) {
	done, err := q.write.ExecContext(ctx, text, args...)
	if err != nil {
		return 0, fault.Wrap(fault.Internal, err, attempted)
	}
	poke(q.news)
	rows, err = done.RowsAffected()
	return rows, fault.Wrap(fault.Internal, err, attempted)
}
