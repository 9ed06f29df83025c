package browser

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// server is the program at work as a process of its own, so that it can be
// killed as a power cut would.
type server struct {
	url  string // scheme and host, such as http://127.0.0.1:40123
	home string // the whole address it printed
	log  *lines
	cmd  *exec.Cmd
}

// lines collects what a process prints.
type lines struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lines) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

var printed = regexp.MustCompile(`fettle: open ((https?://[^/\s]+)\S*)`)

// start runs the program until the test ends and waits for its address.
func start(t *testing.T, args ...string) *server {
	t.Helper()
	s := &server{log: &lines{}}
	s.cmd = exec.Command(need(t).fettle, args...)
	s.cmd.Stdout, s.cmd.Stderr = io.Discard, s.log
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		s.kill()
		if text := s.log.String(); t.Failed() && strings.Contains(text, "level=") {
			t.Logf("the server said:\n%s", text)
		}
	})
	for began := time.Now(); time.Since(began) < time.Minute; time.Sleep(10 * time.Millisecond) {
		if m := printed.FindStringSubmatch(s.log.String()); m != nil {
			s.home, s.url = m[1], m[2]
			return s
		}
	}
	t.Fatalf("no address within a minute; it said:\n%s", s.log)
	return nil
}

// demoIn serves the demo build of 6 October from a folder.
func demoIn(t *testing.T, dir string, args ...string) *server {
	t.Helper()
	return start(t, append([]string{"demo", "--no-open", "--data", dir}, append([]string{"--addr", "127.0.0.1:0"}, args...)...)...)
}

// kill ends the process at once, with nothing tidied.
func (s *server) kill() {
	if s.cmd.ProcessState != nil {
		return
	}
	_ = s.cmd.Process.Signal(syscall.SIGKILL)
	_ = s.cmd.Wait()
}

// run runs a verb to its end and returns what it printed.
func run(t *testing.T, args ...string) string {
	t.Helper()
	var errs bytes.Buffer
	cmd := exec.Command(need(t).fettle, args...)
	cmd.Stderr, cmd.Env = &errs, os.Environ()
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("fettle %s: %v\n%s", strings.Join(args, " "), err, errs.String())
	}
	return string(out)
}
