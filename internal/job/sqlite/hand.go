package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
	"time"

	"fettle/fault"
	"fettle/internal/job"
)

const (
	claimEvery = time.Second      // how soon this process takes over from one that ended
	sweepEvery = 24 * time.Hour   // how often what is old goes
	restAfter  = 10 * time.Second // how long a hand waits at most before it looks itself
)

// staff waits until the machine's work is this process's, and does it until
// the process ends.
func (q *Queue) staff() {
	release := q.claim()
	if release == nil {
		return
	}
	defer release()
	if err := q.putBack(); err != nil {
		q.c.Log.Error("put work back", "error", err)
	}
	var hands sync.WaitGroup
	for range max(q.c.Hands, 1) {
		hands.Go(q.hand)
	}
	defer hands.Wait() // the work is let go of only then
	tick := time.NewTicker(sweepEvery)
	defer tick.Stop()
	for {
		if err := q.sweep(q.ends); err != nil && q.ends.Err() == nil {
			q.c.Log.Error("tidy work away", "error", err)
		}
		select {
		case <-q.ends.Done():
			return
		case <-tick.C:
		}
	}
}

// claim returns how to let go of the machine's work, nil when the process ends
// before it had it.
func (q *Queue) claim() (release func()) {
	if q.c.Alone == nil {
		return func() {}
	}
	for {
		release, ok, err := q.c.Alone(q.ends)
		if ok {
			return release
		}
		if err != nil && q.ends.Err() == nil {
			q.c.Log.Error("claim the work", "error", err)
		}
		select {
		case <-q.ends.Done():
			return nil
		case <-time.After(claimEvery):
		}
	}
}

// hand does one piece of work after another.
func (q *Queue) hand() {
	for q.ends.Err() == nil {
		j, number, err := q.take()
		switch {
		case err == nil:
			poke(q.more) // for another hand
			q.do(j, number)
			continue
		case !errors.Is(err, sql.ErrNoRows) && q.ends.Err() == nil:
			q.c.Log.Error("take work", "error", err)
		}
		select {
		case <-q.ends.Done():
		case <-q.more:
		case <-time.After(restAfter):
		}
	}
}

// take begins what has waited longest.
func (q *Queue) take() (job.Job, int64, error) {
	j, number, err := scan(q.write.QueryRowContext(q.ends, `UPDATE work SET state = 'working', run = run + 1, begun = $1, `+changes+`
		WHERE rowid = (SELECT rowid FROM work WHERE state = 'waiting' ORDER BY asked, rowid LIMIT 1) RETURNING `+columns+`, 0`, q.c.Now().UnixMilli()))
	if err == nil {
		poke(q.news)
	}
	return j, number, err
}

// do does one piece of work. What ends because the process ends is put back.
func (q *Queue) do(j job.Job, number int64) {
	ctx, cancel := context.WithCancel(q.ends)
	defer cancel()
	q.mu.Lock()
	q.running[j.Key] = run{number, j.Build, cancel}
	q.mu.Unlock()
	defer func() {
		q.mu.Lock()
		delete(q.running, j.Key)
		q.mu.Unlock()
	}()
	if now, err := q.Get(ctx, j.Key); err == nil && now.State != job.Working || fault.KindOf(err) == fault.NotFound {
		cancel() // it was stopped, or tidied away, before it could be cancelled
	}
	k := q.keep(j, number)
	result, err := q.run(ctx, j, k.report)
	if len(result) > 0 {
		k.report(result)
	}
	stored := k.close()
	if stored == nil {
		stored = q.settle(j, number, err)
	}
	if err := stored; err != nil {
		// It stays under way and is done again when the shop is opened.
		q.c.Log.Error("note how work ended", "work", j.What, "error", err)
	}
}

// run calls the work; a panic is a fault like any other.
func (q *Queue) run(ctx context.Context, j job.Job, report func([]byte)) (result []byte, err error) {
	defer func() {
		if p := recover(); p != nil {
			q.c.Log.Error("work broke down", "kind", j.Kind, "key", j.Key, "panic", p, "stack", string(debug.Stack()))
			err = fault.New(fault.Internal, "there is a mistake in the program: %v", p).
				WithHint("ask again; if it fails again, report these words to whoever looks after fettle")
		}
	}()
	k := q.kinds[j.Kind]
	if k.Work == nil || k.Version != j.Version {
		return nil, fault.New(fault.Invalid, "it was asked of another version of fettle").WithHint("ask again, and it is worked out anew")
	}
	return k.Work(ctx, j.Input, j.Best, report)
}

// settle notes how a run ended, unless a later one has begun. What a person
// has stopped stays stopped.
func (q *Queue) settle(j job.Job, number int64, trouble error) error {
	state, says := job.Done, ""
	switch {
	case q.ends.Err() != nil:
		state = job.Waiting
	case trouble != nil:
		state, says = job.Failed, words(trouble)
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	_, err := q.exec(ctx, "note how work ended", `UPDATE work SET fault = $3, ended = $4, state = $5, `+changes+` WHERE key = $1 AND run = $2 AND state = 'working'`,
		j.Key, number, says, q.c.Now().UnixMilli(), state)
	return err
}

// words says what went wrong and what to do.
func words(err error) string {
	if hint := fault.HintOf(err); hint != "" {
		return fmt.Sprintf("%v: %s", err, hint)
	}
	return err.Error()
}
