package river

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"github.com/riverqueue/river"

	"fettle/fault"
	"fettle/internal/job"
)

// storeEvery is the least time between two storings of the best so far.
const storeEvery = 500 * time.Millisecond

// args is what the library hands out: the name of the work.
type args struct {
	Key string `json:"key"`
}

// Kind names the library's job.
func (args) Kind() string { return "work" }

type worker struct {
	river.WorkerDefaults[args]
	q *Queue
}

// Work does one piece of work. What ends because the process ends stays under
// way; everything else is settled in our own table, so the library never tries
// again by itself.
func (w *worker) Work(ctx context.Context, r *river.Job[args]) error {
	q := w.q
	j, err := q.Get(ctx, r.Args.Key)
	if err != nil || !j.State.Open() {
		return nil // tidied away, or stopped before it began
	}
	own, cancel := context.WithCancel(ctx)
	defer cancel()
	if !q.begin(own, j.Key, cancel) {
		return nil
	}
	defer q.end(j.Key)
	q.tell(j.Build, j.Key)
	keeper := &keeper{q: q, build: j.Build, key: j.Key}
	result, err := run(own, q.kinds[j.Kind].Work, j, keeper.report)
	keeper.flush()
	if ctx.Err() != nil {
		return ctx.Err() // the process ends: it is put back when it is opened again
	}
	q.settle(j, result, err)
	return nil
}

// run calls the work; a panic is a fault like any other.
func run(ctx context.Context, work job.Work, j job.Job, report func([]byte)) (result []byte, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fault.New(fault.Internal, "the work broke down: %v", p)
		}
	}()
	if work == nil {
		return nil, fault.New(fault.Invalid, "nothing here does work of kind %q", j.Kind)
	}
	return work(ctx, j.Input, j.Best, report)
}

func (q *Queue) begin(ctx context.Context, key string, cancel context.CancelFunc) bool {
	q.mu.Lock()
	q.running[key] = cancel
	q.mu.Unlock()
	done, err := q.db.ExecContext(ctx, `UPDATE work SET state = 'working', begun = CASE begun WHEN 0 THEN $2 ELSE begun END WHERE key = $1 AND state IN ('waiting', 'working')`, key, q.now().UnixMilli())
	if err != nil {
		return false
	}
	n, _ := done.RowsAffected() // the driver knows it always
	return n == 1
}

func (q *Queue) end(key string) {
	q.mu.Lock()
	defer q.mu.Unlock()
	delete(q.running, key)
}

// settle notes how work ended. What a person has stopped stays stopped and
// keeps the best it returned.
func (q *Queue) settle(j job.Job, result []byte, err error) {
	state, says := job.Done, ""
	if err != nil && !errors.Is(err, context.Canceled) {
		state, says = job.Failed, fmt.Sprint(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	// A store that cannot be written leaves the work under way: it is done again.
	_, _ = q.db.ExecContext(ctx, `UPDATE work SET best = COALESCE($2, best), fault = $3, ended = $4,
		state = CASE state WHEN 'stopped' THEN 'stopped' ELSE $5 END WHERE key = $1`, j.Key, result, says, q.now().UnixMilli(), state)
	q.tell(j.Build, j.Key)
}

// keeper stores the best so far, now and then.
type keeper struct {
	q          *Queue
	build, key string

	mu     sync.Mutex
	best   []byte
	stored time.Time
}

func (k *keeper) report(best []byte) {
	k.mu.Lock()
	k.best = best
	due := time.Since(k.stored) >= storeEvery
	k.mu.Unlock()
	if due {
		k.flush()
	}
}

// flush stores what was reported last and not stored yet.
func (k *keeper) flush() {
	k.mu.Lock()
	best := k.best
	k.best, k.stored = nil, time.Now()
	k.mu.Unlock()
	if best == nil {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	if _, err := k.q.db.ExecContext(ctx, `UPDATE work SET best = $2 WHERE key = $1`, k.key, best); err == nil {
		k.q.tell(k.build, k.key)
	}
}
