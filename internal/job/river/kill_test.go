package river

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"fettle/internal/job"
)

// TestQueue_OutlivesAKill kills a process that works and looks what is left.
func TestQueue_OutlivesAKill(t *testing.T) {
	if path := os.Getenv("FETTLE_WORK_CHILD"); path != "" {
		q := open(t, path)
		j := ask(t, q, "count", "sheep")
		wait(t, q, j.Key, func(j job.Job) bool { return len(j.Best) > 0 })
		os.WriteFile(path+".shown", []byte("1"), 0o600)
		time.Sleep(time.Minute)
		return
	}
	path := filepath.Join(t.TempDir(), "work.db")
	child := exec.Command(os.Args[0], "-test.run", "TestQueue_OutlivesAKill")
	child.Env = append(os.Environ(), "FETTLE_WORK_CHILD="+path)
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		if _, err := os.Stat(path + ".shown"); err == nil {
			break
		}
		if time.Now().After(end) {
			t.Fatal("the child shows nothing")
		}
	}
	child.Process.Kill()
	child.Wait()
	q := open(t, path)
	defer q.Close()
	key := job.KeyOf("count", 1, []byte("sheep"))
	if j := wait(t, q, key, func(j job.Job) bool { return len(j.Best) > 0 }); j.Best[0] == '0' {
		t.Errorf("what was shown is lost: %q", j.Best)
	}
	if done := wait(t, q, key, ended); done.State != job.Done || string(done.Best) != "sheep counted to 40" {
		t.Errorf("after the kill: %s %q", done.State, done.Best)
	}
}
