package crash

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os/exec"
	"strings"
	"testing"
)

// server is a running program that serves the demo build.
type server struct {
	cmd  *exec.Cmd
	base string // such as http://127.0.0.1:41234/b/pedlar
	done chan struct{}
}

// start runs the program on a data folder and waits until it says where it
// listens.
func start(t *testing.T, fettle, data string) *server {
	t.Helper()
	return startOn(t, fettle, data, day)
}

// startOn is start with another replay day.
func startOn(t *testing.T, fettle, data, day string) *server {
	t.Helper()
	s := &server{cmd: exec.Command(fettle, "demo", "--no-open", "--addr", "127.0.0.1:0", "--data", data, "--until", day), done: make(chan struct{})}
	pipe, err := s.cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.kill() })
	lines := bufio.NewReader(pipe)
	var said strings.Builder
	for s.base == "" {
		line, err := lines.ReadString('\n')
		said.WriteString(line)
		if err != nil {
			t.Fatalf("the program ended before it listened: %v\n%s", err, said.String())
		}
		if _, at, ok := strings.Cut(line, "fettle: open "); ok {
			s.base = strings.TrimSuffix(strings.TrimSpace(at), "/van")
		}
	}
	go func() { io.Copy(io.Discard, lines); close(s.done) }()
	return s
}

// kill ends the process at once, as a power cut would, and waits until it is gone.
func (s *server) kill() {
	s.cmd.Process.Kill()
	<-s.done
	s.cmd.Wait()
}

// errGone says that the server went away before it answered.
var errGone = errors.New("the server is gone")

// tablet is one person's tablet. It holds one act until it is answered and
// sends the same act, under the same ID, until then.
type tablet struct {
	client http.Client
	person string
	tasks  []string
	acts   int
	held   url.Values
}

// next makes the next act: on one task, over to another.
func (t *tablet) next() {
	t.held = url.Values{"entry": {newID()}, "person": {t.person}, "task": {t.tasks[t.acts%len(t.tasks)]}}
	t.acts++
}

// send sends what is held and returns its ID once it is answered as kept.
func (t *tablet) send(base string) (string, error) {
	ask, err := http.NewRequest("POST", base+"/clocking/on", strings.NewReader(t.held.Encode()))
	if err != nil {
		return "", err
	}
	ask.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	ask.Header.Set("Accept", "application/json") // a fault in words, not as a page
	r, err := t.client.Do(ask)
	if err != nil {
		return "", errGone
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if r.StatusCode != http.StatusOK {
		return "", fmt.Errorf("%s is refused with %s: %.300s", t.held.Get("entry"), r.Status, body)
	}
	if err != nil {
		return "", errGone
	}
	id := t.held.Get("entry")
	t.held = nil
	return id, nil
}

// work keeps acts until the server is gone, and tells of every answer.
func (t *tablet) work(base string, answered func(id string)) error {
	for {
		if t.held == nil {
			t.next()
		}
		id, err := t.send(base)
		if errors.Is(err, errGone) {
			return nil
		}
		if err != nil {
			return err
		}
		answered(id)
	}
}
