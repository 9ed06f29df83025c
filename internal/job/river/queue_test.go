package river

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
)

// counting reports 1, 2, … as fast as it may and goes on from what it is given.
func counting(ctx context.Context, input, from []byte, report func([]byte)) ([]byte, error) {
	n := 0
	fmt.Sscan(string(from), &n)
	for most := 40; n < most; n++ {
		if ctx.Err() != nil {
			return fmt.Append(nil, n), nil
		}
		report(fmt.Append(nil, n+1))
		time.Sleep(25 * time.Millisecond)
	}
	return fmt.Append(input, " counted to ", n), nil
}

func open(t *testing.T, path string) *Queue {
	t.Helper()
	q, err := Open(context.Background(), path, []job.Kind{
		{Name: "count", Version: 1, Work: counting},
		{Name: "echo", Version: 1, Work: func(_ context.Context, in, _ []byte, _ func([]byte)) ([]byte, error) { return in, nil }},
		{Name: "panic", Version: 1, Work: func(context.Context, []byte, []byte, func([]byte)) ([]byte, error) { panic("a wheel came off") }},
		{Name: "fail", Version: 1, Work: func(context.Context, []byte, []byte, func([]byte)) ([]byte, error) {
			return nil, fault.New(fault.Invalid, "no hide is drawn")
		}},
	}, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func ask(t *testing.T, q *Queue, kind, input string) job.Job {
	t.Helper()
	j, err := q.Ask(context.Background(), job.Request{Kind: kind, Build: "cart", By: "TR", What: kind, Input: []byte(input)})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// wait asks until the work is as wanted.
func wait(t *testing.T, q *Queue, key string, is func(job.Job) bool) job.Job {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		j, err := q.Get(context.Background(), key)
		if err != nil {
			t.Fatal(err)
		}
		if is(j) {
			return j
		}
	}
	t.Fatalf("work %s is not what was waited for", key)
	return job.Job{}
}

func ended(j job.Job) bool { return !j.State.Open() }

func TestQueue_WorksOnceAndKeepsTheResult(t *testing.T) {
	q := open(t, filepath.Join(t.TempDir(), "work.db"))
	defer q.Close()
	var told atomic.Int32
	defer q.Watch(func(build, _ string) { told.Add(1) })()
	first := ask(t, q, "echo", "hello")
	done := wait(t, q, first.Key, ended)
	if done.State != job.Done || string(done.Best) != "hello" || done.Begun.IsZero() || done.Ended.Before(done.Begun) {
		t.Errorf("got %+v", done)
	}
	again := ask(t, q, "echo", "hello")
	if again.Key != first.Key || again.State != job.Done || !again.Asked.Equal(done.Asked) {
		t.Errorf("asked twice: %+v", again)
	}
	if other := ask(t, q, "echo", "hello "); other.Key == first.Key {
		t.Error("another input has the same key")
	}
	if list, err := q.List(context.Background(), "cart"); err != nil || len(list) != 2 {
		t.Errorf("the list has %d: %v", len(list), err)
	}
	if list, _ := q.List(context.Background(), "boat"); len(list) != 0 {
		t.Errorf("another build has %d", len(list))
	}
	if told.Load() < 3 {
		t.Errorf("told %d times", told.Load())
	}
	if _, err := q.Get(context.Background(), "none"); fault.KindOf(err) != fault.NotFound {
		t.Errorf("an unknown key: %v", err)
	}
	if _, err := q.Ask(context.Background(), job.Request{Kind: "dance"}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("an unknown kind: %v", err)
	}
}

func TestQueue_StopsWithinASecondAndGoesOnFromTheBest(t *testing.T) {
	q := open(t, filepath.Join(t.TempDir(), "work.db"))
	defer q.Close()
	j := ask(t, q, "count", "sheep")
	later := ask(t, q, "echo", "behind it")
	if later.State == job.Waiting && later.Ahead != 1 {
		t.Errorf("%d are ahead", later.Ahead)
	}
	wait(t, q, j.Key, func(j job.Job) bool { return len(j.Best) > 0 })
	asked := time.Now()
	if err := q.Stop(context.Background(), j.Key); err != nil {
		t.Fatal(err)
	}
	wait(t, q, later.Key, ended)
	if took := time.Since(asked); took > time.Second {
		t.Errorf("stopping took %v", took)
	}
	stopped := wait(t, q, j.Key, ended)
	if stopped.State != job.Stopped || len(stopped.Best) == 0 || bytes.Contains(stopped.Best, []byte("counted")) {
		t.Errorf("stopped: %s %q", stopped.State, stopped.Best)
	}
	begun := 0
	fmt.Sscan(string(stopped.Best), &begun)
	ask(t, q, "count", "sheep")
	done := wait(t, q, j.Key, ended)
	if done.State != job.Done || string(done.Best) != "sheep counted to 40" || done.Ended.Sub(done.Begun) > time.Duration(42-begun)*50*time.Millisecond {
		t.Errorf("asked again after %d: %s %q in %v", begun, done.State, done.Best, done.Ended.Sub(done.Begun))
	}
}

func TestQueue_SaysWhyItFailed(t *testing.T) {
	q := open(t, filepath.Join(t.TempDir(), "work.db"))
	defer q.Close()
	for kind, says := range map[string]string{"panic": "a wheel came off", "fail": "no hide is drawn"} {
		j := ask(t, q, kind, "x")
		if got := wait(t, q, j.Key, ended); got.State != job.Failed || !strings.Contains(got.Fault, says) {
			t.Errorf("%s: %s %q", kind, got.State, got.Fault)
		}
	}
}

func TestQueue_GoesOnAfterAnEnd(t *testing.T) {
	path := filepath.Join(t.TempDir(), "work.db")
	q := open(t, path)
	j := ask(t, q, "count", "sheep")
	shown := wait(t, q, j.Key, func(j job.Job) bool { return len(j.Best) > 0 })
	if err := q.Close(); err != nil && !errors.Is(err, context.DeadlineExceeded) {
		t.Fatal(err)
	}
	q = open(t, path)
	defer q.Close()
	after, err := q.Get(context.Background(), j.Key)
	if err != nil || !after.State.Open() || len(after.Best) == 0 || string(after.Best) < string(shown.Best) && len(after.Best) <= len(shown.Best) {
		t.Errorf("after the end: %s %q, shown %q: %v", after.State, after.Best, shown.Best, err)
	}
	if done := wait(t, q, j.Key, ended); done.State != job.Done || string(done.Best) != "sheep counted to 40" {
		t.Errorf("%s %q", done.State, done.Best)
	}
}
