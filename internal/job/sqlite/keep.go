package sqlite

import (
	"context"
	"sync"
	"time"

	"fettle/internal/job"
)

// storeEvery is the least time between two storings of the best so far.
const storeEvery = 500 * time.Millisecond

// keeper stores the best of one run, now and then.
type keeper struct {
	q      *Queue
	key    string
	number int64
	tell   job.Tell

	mu   sync.Mutex
	best []byte // reported and not stored yet
	end  chan struct{}
	gone sync.WaitGroup
}

// keep begins to store what a run reports.
func (q *Queue) keep(j job.Job, number int64) *keeper {
	k := &keeper{q: q, key: j.Key, number: number, tell: q.kinds[j.Kind].Tell, end: make(chan struct{})}
	k.gone.Go(func() {
		tick := time.NewTicker(storeEvery)
		defer tick.Stop()
		for {
			select {
			case <-k.end:
				return
			case <-tick.C:
				_ = k.store() // the next one makes up for it
			}
		}
	})
	return k
}

func (k *keeper) report(best []byte) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.best = best
}

// closeTries is how often what was reported last is tried to be stored.
const closeTries = 5

// close stores what was reported last. It is a fault where that cannot be
// stored: the work must not count as done then.
func (k *keeper) close() (err error) {
	close(k.end)
	k.gone.Wait()
	for n := range closeTries {
		if err = k.store(); err == nil {
			return nil
		}
		time.Sleep(time.Duration(n+1) * storeEvery / closeTries)
	}
	return err
}

// store stores what was reported since it was last called. What cannot be
// stored now is kept for the next time, unless there is better by then.
func (k *keeper) store() error {
	k.mu.Lock()
	best := k.best
	k.best = nil
	k.mu.Unlock()
	if best == nil {
		return nil
	}
	p := k.progress(best)
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if _, err := k.q.exec(ctx, "store the best so far", `UPDATE work SET best = $3, steps = $4, budget = $5, figure = $6, `+changes+` WHERE key = $1 AND run = $2`,
		k.key, k.number, best, p.Done, p.Of, p.Figure); err != nil {
		k.q.c.Log.Error("store the best so far", "error", err)
		k.mu.Lock()
		defer k.mu.Unlock()
		if k.best == nil {
			k.best = best
		}
		return err
	}
	return nil
}

// progress reads how far the work is. What cannot be read tells nothing.
func (k *keeper) progress(best []byte) (p job.Progress) {
	defer func() {
		if e := recover(); e != nil {
			k.q.c.Log.Error("read how far work is", "panic", e)
		}
	}()
	if k.tell != nil {
		p.Done, p.Of, p.Figure = k.tell(best)
	}
	return p
}
