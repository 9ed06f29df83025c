package sqlite

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"time"

	"fettle/fault"
	"fettle/internal/job"
	journal "fettle/internal/journal/sqlite"
)

// sweeping is a queue with a clock, and what is needed of it.
type sweeping struct {
	*Queue
	now    atomic.Int64 // milliseconds
	kept   atomic.Pointer[Kept]
	unread atomic.Bool // a build cannot be read
	asked  atomic.Int32
}

// sweeper opens a queue and waits until its first sweep is over.
func sweeper(t *testing.T, kept Kept) *sweeping {
	s := &sweeping{}
	s.now.Store(time.Date(2026, time.October, 6, 8, 0, 0, 0, time.UTC).UnixMilli())
	s.kept.Store(&kept)
	s.Queue = shop(t, fresh(t), func(_ *journal.Store, c *Config) {
		c.Now = func() time.Time { return time.UnixMilli(s.now.Load()) }
		c.Kept = func(context.Context) (Kept, error) {
			s.asked.Add(1)
			if s.unread.Load() {
				return Kept{}, errors.New("a build cannot be read")
			}
			return *s.kept.Load(), nil
		}
	})
	for s.asked.Load() == 0 {
		time.Sleep(time.Millisecond)
	}
	s.echo(t, kept.Builds[0], "first")
	return s
}

func (s *sweeping) begin(t *testing.T, kind, build, input string) job.Job {
	t.Helper()
	j, err := s.Ask(t.Context(), job.Request{Kind: kind, Build: build, Input: []byte(input)})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func (s *sweeping) echo(t *testing.T, build, input string) job.Job {
	t.Helper()
	return wait(t, s.Queue, s.begin(t, "echo", build, input).Key, ended)
}

// left sweeps and tells which work is there.
func (s *sweeping) left(t *testing.T, all ...job.Job) (there []bool) {
	t.Helper()
	if err := s.sweep(t.Context()); (err != nil) != s.unread.Load() {
		t.Fatal(err)
	}
	for _, j := range all {
		_, err := s.Get(t.Context(), j.Key)
		there = append(there, fault.KindOf(err) != fault.NotFound)
	}
	return there
}

// TestSweep: what ended more than 90 days ago goes, unless a fact names it;
// work for a build that is gone goes at any age.
func TestSweep(t *testing.T) {
	s := sweeper(t, Kept{Builds: []string{"cart"}})
	old, named := s.echo(t, "cart", "1"), s.echo(t, "cart", "2")
	s.kept.Store(&Kept{Builds: []string{"cart"}, Keys: []string{named.Key}})
	s.now.Add((91 * 24 * time.Hour).Milliseconds())
	young := s.echo(t, "cart", "3")
	s.unread.Store(true)
	if got := s.left(t, old); !got[0] {
		t.Error("something went though it is not known what is needed")
	}
	s.unread.Store(false)
	if got := s.left(t, old, named, young); got[0] || !got[1] || !got[2] {
		t.Errorf("old, named by a fact, young: %v", got)
	}
	s.kept.Store(&Kept{Builds: []string{"boat"}})
	if got := s.left(t, named, young); got[0] || got[1] {
		t.Errorf("work for a build that is gone: %v", got)
	}
	if done := s.echo(t, "boat", "4"); done.State != job.Done {
		t.Errorf("after the sweep: %s", done.State)
	}
}

func TestSweep_StopsWorkForABuildThatIsGone(t *testing.T) {
	s := sweeper(t, Kept{Builds: []string{"boat"}})
	j := s.begin(t, "deaf", "cart", "")
	waits := s.begin(t, "echo", "cart", "1")
	wait(t, s.Queue, j.Key, func(j job.Job) bool { return j.State == job.Working })
	if got := s.left(t, j, waits); got[0] || got[1] {
		t.Errorf("under way, waiting: %v", got)
	}
	s.echo(t, "boat", "2") // the hand is free
}

// TestBackup: a copy of the file holds what was worked out, and what waits is done there.
func TestBackup(t *testing.T) {
	var store *journal.Store
	q := shop(t, fresh(t), func(s *journal.Store, _ *Config) { store = s })
	done := wait(t, q, ask(t, q, "echo", "7").Key, ended)
	under := ask(t, q, "count", "sheep")
	wait(t, q, under.Key, shown)
	copied := fresh(t)
	if err := store.Backup(t.Context(), copied); err != nil {
		t.Fatal(err)
	}
	q = shop(t, copied)
	if j, err := q.Get(t.Context(), done.Key); err != nil || j.State != job.Done || string(j.Best) != "7" {
		t.Errorf("worked out: %+v, %v", j, err)
	}
	if j := wait(t, q, under.Key, ended); string(j.Best) != "40 sheep" {
		t.Errorf("under way: %s %q", j.State, j.Best)
	}
}

// TestHeed_IsNotMisledByWhatWasReadBefore: a row read while work still waited is
// no reason to cut off the run that has begun since.
func TestHeed_IsNotMisledByWhatWasReadBefore(t *testing.T) {
	q := shop(t, fresh(t))
	j := ask(t, q, "count", "sheep")
	wait(t, q, j.Key, shown)
	q.heed(change{key: j.Key, state: job.Waiting, run: 0})
	if j = wait(t, q, j.Key, ended); string(j.Best) != "40 sheep" {
		t.Errorf("%s %q", j.State, j.Best)
	}
}
