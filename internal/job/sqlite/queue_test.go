package sqlite

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"fettle/fault"
	"fettle/internal/job"
	journal "fettle/internal/journal/sqlite"
)

const most = 40

// counting reports 1, 2, … and goes on from what it is given.
func counting(to int) job.Work {
	return func(ctx context.Context, input, from []byte, report func([]byte)) ([]byte, error) {
		n := 0
		fmt.Sscan(string(from), &n)
		for ; n < to; n++ {
			if ctx.Err() != nil {
				return fmt.Append(nil, n), nil
			}
			report(fmt.Append(nil, n+1))
			time.Sleep(25 * time.Millisecond)
		}
		return fmt.Append(nil, to, " ", string(input)), nil
	}
}

func tell(best []byte) (done, of int, figure string) {
	if string(best) == "nonsense" {
		panic("this is no number")
	}
	fmt.Sscan(string(best), &done)
	return done, most, fmt.Sprint(done, " sheep")
}

func kinds() []job.Kind {
	return []job.Kind{
		{Name: "count", Version: 1, Work: counting(most), Tell: tell},
		{Name: "long", Version: 1, Work: counting(3 * most), Tell: tell},
		{Name: "echo", Version: 1, Work: func(_ context.Context, in, _ []byte, _ func([]byte)) ([]byte, error) { return in, nil }, Tell: tell},
		{Name: "panic", Version: 1, Work: func(context.Context, []byte, []byte, func([]byte)) ([]byte, error) { panic("a wheel came off") }},
		{Name: "fail", Version: 1, Work: func(context.Context, []byte, []byte, func([]byte)) ([]byte, error) {
			return nil, fault.New(fault.Invalid, "no hide is drawn").WithHint("draw one first")
		}},
		{Name: "deaf", Version: 1, Work: func(ctx context.Context, _, _ []byte, _ func([]byte)) ([]byte, error) {
			<-ctx.Done()
			return nil, ctx.Err()
		}},
	}
}

// shop opens a file and a queue on it.
func shop(t *testing.T, path string, more ...func(*journal.Store, *Config)) *Queue {
	t.Helper()
	store, err := journal.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	c := Config{Kinds: kinds()}
	for _, f := range more {
		f(store, &c)
	}
	q, err := Open(t.Context(), store.Write(), store.Read(), c)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		q.Close()
		store.Close()
	})
	return q
}

func fresh(t *testing.T) string { return filepath.Join(t.TempDir(), "fettle.db") }

func ask(t *testing.T, q *Queue, kind, input string) job.Job {
	t.Helper()
	j, err := q.Ask(t.Context(), job.Request{Kind: kind, Build: "cart", By: "TR", What: kind, Page: "/b/cart/" + kind, Input: []byte(input)})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// wait asks until the work is as wanted.
func wait(t *testing.T, q *Queue, key string, is func(job.Job) bool) job.Job {
	t.Helper()
	var j job.Job
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		var err error
		if j, err = q.Get(context.Background(), key); err != nil {
			t.Fatal(err)
		}
		if is(j) {
			return j
		}
	}
	t.Fatalf("work is not what was waited for: %s %q", j.State, j.Best)
	return j
}

func ended(j job.Job) bool { return !j.State.Open() }

func shown(j job.Job) bool { return len(j.Best) > 0 }

func TestQueue_WorksOnceAndKeepsTheResult(t *testing.T) {
	q := shop(t, fresh(t))
	var told atomic.Int32
	defer q.Watch(func(build, _ string) { told.Add(1) })()
	first := ask(t, q, "echo", "7")
	done := wait(t, q, first.Key, ended)
	if done.State != job.Done || string(done.Best) != "7" || done.Progress != (job.Progress{Done: 7, Of: most, Figure: "7 sheep"}) ||
		done.Begun.IsZero() || done.Ended.Before(done.Begun) || done.Page != "/b/cart/echo/"+first.Key {
		t.Errorf("got %+v", done)
	}
	again := ask(t, q, "echo", "7")
	if again.Key != first.Key || again.State != job.Done || !again.Asked.Equal(done.Asked) {
		t.Errorf("asked twice: %+v", again)
	}
	if other := ask(t, q, "echo", "7 "); other.Key == first.Key {
		t.Error("another input has the same key")
	}
	if list, err := q.List(t.Context(), "cart"); err != nil || len(list) != 2 || list[0].Input != nil || list[0].Best != nil {
		t.Errorf("the list has %d: %v", len(list), err)
	}
	if list, _ := q.List(t.Context(), "boat"); len(list) != 0 {
		t.Errorf("another build has %d", len(list))
	}
	for end := time.Now().Add(10 * time.Second); told.Load() < 3 && time.Now().Before(end); {
		time.Sleep(time.Millisecond)
	}
	if told.Load() < 3 {
		t.Errorf("told %d times", told.Load())
	}
	if _, err := q.Get(t.Context(), "none"); fault.KindOf(err) != fault.NotFound {
		t.Errorf("an unknown key: %v", err)
	}
	if _, err := q.Ask(t.Context(), job.Request{Kind: "dance"}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("an unknown kind: %v", err)
	}
}

// TestQueue_SameKeyAtOnce asks for the same from many goroutines.
func TestQueue_SameKeyAtOnce(t *testing.T) {
	var runs atomic.Int32
	q := shop(t, fresh(t), func(_ *journal.Store, c *Config) {
		c.Kinds = []job.Kind{{Name: "slow", Version: 1, Work: func(context.Context, []byte, []byte, func([]byte)) ([]byte, error) {
			runs.Add(1)
			time.Sleep(100 * time.Millisecond)
			return []byte("ok"), nil
		}}}
	})
	keys := make(chan string, 20)
	for range cap(keys) {
		go func() {
			j, err := q.Ask(context.Background(), job.Request{Kind: "slow", Build: "cart", Input: []byte("x")})
			if err != nil {
				t.Error(err)
			}
			keys <- j.Key
		}()
	}
	want := job.KeyOf("slow", 1, []byte("x"))
	for range cap(keys) {
		if got := <-keys; got != want {
			t.Errorf("key %s, want %s", got, want)
		}
	}
	wait(t, q, want, ended)
	if runs.Load() != 1 {
		t.Errorf("worked out %d times", runs.Load())
	}
}

func TestQueue_StopsWithinASecondAndGoesOnFromTheBest(t *testing.T) {
	q := shop(t, fresh(t))
	j := ask(t, q, "count", "sheep")
	later := ask(t, q, "echo", "behind it")
	if later.State != job.Waiting || later.Ahead != 1 {
		t.Errorf("%s, %d are ahead", later.State, later.Ahead)
	}
	wait(t, q, j.Key, shown)
	asked := time.Now()
	if err := q.Stop(t.Context(), j.Key); err != nil {
		t.Fatal(err)
	}
	wait(t, q, later.Key, ended)
	if took := time.Since(asked); took > time.Second {
		t.Errorf("stopping took %v", took)
	}
	stopped := wait(t, q, j.Key, ended)
	if stopped.State != job.Stopped || len(stopped.Best) == 0 || bytes.Contains(stopped.Best, []byte("sheep")) {
		t.Errorf("stopped: %s %q", stopped.State, stopped.Best)
	}
	if _, err := q.Again(t.Context(), j.Key, "LD"); err != nil {
		t.Fatal(err)
	}
	done := wait(t, q, j.Key, ended)
	if done.State != job.Done || string(done.Best) != "40 sheep" || done.By != "LD" || done.Ended.Sub(done.Begun) > time.Duration(most+2-stopped.Progress.Done)*50*time.Millisecond {
		t.Errorf("asked again after %d: %s %q by %s in %v", stopped.Progress.Done, done.State, done.Best, done.By, done.Ended.Sub(done.Begun))
	}
}

// TestQueue_StoppedAndAskedAgainAtOnce: what an ending run returns is no result.
func TestQueue_StoppedAndAskedAgainAtOnce(t *testing.T) {
	q := shop(t, fresh(t))
	j := ask(t, q, "count", "sheep")
	for range 3 {
		wait(t, q, j.Key, func(j job.Job) bool { return j.State == job.Working })
		if err := q.Stop(t.Context(), j.Key); err != nil {
			t.Fatal(err)
		}
		ask(t, q, "count", "sheep")
	}
	if done := wait(t, q, j.Key, ended); done.State != job.Done || string(done.Best) != "40 sheep" {
		t.Errorf("%s %q", done.State, done.Best)
	}
}

func TestQueue_SaysWhyItFailed(t *testing.T) {
	q := shop(t, fresh(t))
	for kind, says := range map[string]string{"panic": "mistake in the program: a wheel came off: ask again", "fail": "no hide is drawn: draw one first"} {
		j := ask(t, q, kind, "x")
		if got := wait(t, q, j.Key, ended); got.State != job.Failed || !strings.Contains(got.Fault, says) {
			t.Errorf("%s: %s %q", kind, got.State, got.Fault)
		}
		if again := ask(t, q, kind, "x"); again.Fault != "" && again.State.Open() {
			t.Errorf("asked again: %s %q", again.State, again.Fault)
		}
	}
	if got := wait(t, q, ask(t, q, "echo", "nonsense").Key, ended); got.State != job.Done || got.Progress != (job.Progress{}) {
		t.Errorf("what cannot be told: %s %+v", got.State, got.Progress)
	}
}

func TestQueue_GoesOnAfterAnEnd(t *testing.T) {
	path := fresh(t)
	q := shop(t, path)
	j := ask(t, q, "count", "sheep")
	was := wait(t, q, j.Key, shown)
	if err := q.Close(); err != nil {
		t.Fatal(err)
	}
	q = shop(t, path)
	after, err := q.Get(t.Context(), j.Key)
	if err != nil || !after.State.Open() || after.Progress.Done < was.Progress.Done {
		t.Errorf("after the end: %s %q, shown %q: %v", after.State, after.Best, was.Best, err)
	}
	if done := wait(t, q, j.Key, ended); done.State != job.Done || string(done.Best) != "40 sheep" {
		t.Errorf("%s %q", done.State, done.Best)
	}
}

// TestQueue_AnotherVersion: what waits for an older version is not done by a newer one under the old key.
func TestQueue_AnotherVersion(t *testing.T) {
	path := fresh(t)
	q := shop(t, path)
	first := ask(t, q, "deaf", "")
	waits := ask(t, q, "echo", "x")
	q.Close()
	q = shop(t, path, func(_ *journal.Store, c *Config) { c.Kinds[2].Version = 2 })
	if err := q.Stop(t.Context(), first.Key); err != nil {
		t.Fatal(err)
	}
	if got := wait(t, q, waits.Key, ended); got.State != job.Failed || !strings.Contains(got.Fault, "another version") {
		t.Errorf("%s %q", got.State, got.Fault)
	}
	j, err := q.Again(t.Context(), waits.Key, "LD")
	if err != nil || j.Key == waits.Key || j.Version != 2 {
		t.Fatalf("asked again: %+v, %v", j, err)
	}
	if got := wait(t, q, j.Key, ended); got.State != job.Done || got.Page != "/b/cart/echo/"+j.Key {
		t.Errorf("%s, shown at %s", got.State, got.Page)
	}
}

func TestQueue_TakesNoMoreThanItHolds(t *testing.T) {
	q := shop(t, fresh(t))
	first := ask(t, q, "deaf", "")
	wait(t, q, first.Key, func(j job.Job) bool { return j.State == job.Working })
	for i := range mostWaiting {
		ask(t, q, "echo", fmt.Sprint(i))
	}
	_, err := q.Ask(t.Context(), job.Request{Kind: "echo", Build: "cart", Input: []byte("one more")})
	if fault.KindOf(err) != fault.Conflict || fault.HintOf(err) == "" {
		t.Errorf("one too many: %v", err)
	}
	if _, err := q.Ask(t.Context(), job.Request{Kind: "echo", Input: make([]byte, mostInput+1)}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("too large: %v", err)
	}
	q.Stop(t.Context(), first.Key)
	if got := wait(t, q, first.Key, ended); got.State != job.Stopped || errors.Is(err, context.Canceled) {
		t.Errorf("a stopped one that has nothing: %s", got.State)
	}
}
