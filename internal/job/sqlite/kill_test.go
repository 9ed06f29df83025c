package sqlite

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"fettle/internal/job"
	journal "fettle/internal/journal/sqlite"
)

// childVar has the test binary be a process that works on the file it names.
const childVar = "FETTLE_WORK_CHILD"

func TestMain(m *testing.M) {
	path := os.Getenv(childVar)
	if path == "" {
		os.Exit(m.Run())
	}
	if err := works(path, os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func alone(s *journal.Store, c *Config) {
	c.Alone = func(ctx context.Context) (func(), bool, error) { return s.Claim(ctx, "work") }
}

// works asks for work of a kind, prints each best that it shows, and goes on
// until it is killed.
func works(path, kind string) error {
	ctx := context.Background()
	s, err := journal.Open(ctx, path)
	if err != nil {
		return err
	}
	c := Config{Kinds: kinds()}
	alone(s, &c)
	q, err := Open(ctx, s.Write(), s.Read(), c)
	if err != nil {
		return err
	}
	j, err := q.Ask(ctx, job.Request{Kind: kind, Build: "cart", Input: []byte("sheep")})
	last := 0
	for ; err == nil; time.Sleep(2 * time.Millisecond) {
		if j, err = q.Get(ctx, j.Key); j.Progress.Done != last {
			last = j.Progress.Done
			fmt.Println(last)
		}
	}
	return err
}

// child starts such a process and returns how to kill it, and what it shows.
func child(t *testing.T, path, kind string) (kill func(), shows func() (n int)) {
	t.Helper()
	c := exec.CommandContext(t.Context(), os.Args[0], kind)
	c.Env = append(os.Environ(), childVar+"="+path)
	c.Stderr = os.Stderr
	pipe, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(pipe)
	kill = func() {
		c.Process.Kill()
		c.Wait()
	}
	t.Cleanup(kill)
	return kill, func() (n int) {
		text, err := lines.ReadString('\n')
		if err != nil {
			t.Fatalf("the process ended by itself: %v", err)
		}
		fmt.Sscan(text, &n)
		return n
	}
}

// TestQueue_OutlivesAKill: what was shown is there after each kill, and the
// work goes on from it; work that always brings the process down is given up
// in words, and can be asked for again.
func TestQueue_OutlivesAKill(t *testing.T) {
	path, key := fresh(t), job.KeyOf("long", 1, []byte("sheep"))
	was := 0
	for range mostCuts {
		kill, shows := child(t, path, "long")
		n := shows()
		if n == was {
			n = shows() // the first line may be what the last process had stored
		}
		kill()
		if n < was {
			t.Fatalf("began at %d, but %d was shown", n, was)
		}
		was = n
	}
	q := shop(t, path, alone)
	j := wait(t, q, key, ended)
	if j.State != job.Failed || !strings.Contains(j.Fault, "went down three times") || j.Progress.Done < was {
		t.Fatalf("given up: %s %q at %d, shown %d", j.State, j.Fault, j.Progress.Done, was)
	}
	if _, err := q.Again(t.Context(), key, "LD"); err != nil {
		t.Fatal(err)
	}
	if j := wait(t, q, key, ended); j.State != job.Done || string(j.Best) != "120 sheep" {
		t.Errorf("after the kills: %s %q", j.State, j.Best)
	}
}

// TestQueue_TwoProcesses: one works, the other asks, sees and stops; when the
// one is killed the other takes its place.
func TestQueue_TwoProcesses(t *testing.T) {
	path := fresh(t)
	kill, shows := child(t, path, "long")
	was := shows()
	q := shop(t, path, alone)
	told := make(chan string, 100)
	defer q.Watch(func(_, key string) {
		select {
		case told <- key:
		default:
		}
	})()
	long := job.KeyOf("long", 1, []byte("sheep"))
	if key := <-told; key != long {
		t.Errorf("told of %s, the other works on %s", key, long)
	}
	began := time.Now()
	if err := q.Stop(t.Context(), long); err != nil {
		t.Fatal(err)
	}
	echo := ask(t, q, "echo", "9")
	if j := wait(t, q, echo.Key, ended); j.State != job.Done {
		t.Errorf("the other one's echo: %s %q", j.State, j.Fault)
	}
	if took := time.Since(began); took > time.Second+lookEvery {
		t.Errorf("the other stopped and did the next in %v", took)
	}
	again := ask(t, q, "long", "sheep")
	wait(t, q, again.Key, func(j job.Job) bool { return j.Progress.Done > was+20 })
	kill()
	began = time.Now()
	wait(t, q, again.Key, func(j job.Job) bool { return j.State == job.Working && j.Begun.After(began) })
	t.Logf("taken over %v after the kill", time.Since(began).Round(time.Millisecond))
	if j := wait(t, q, again.Key, ended); j.State != job.Done || string(j.Best) != "120 sheep" {
		t.Errorf("taken over: %s %q", j.State, j.Best)
	}
}
