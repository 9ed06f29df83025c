package crash

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"
)

// hidesDay is a morning on which the demo's hides are drawn.
const hidesDay = "2026-10-13"

// long is a piece of long work as the page of it has it in JSON.
type long struct {
	Key    string
	State  string
	Steps  int
	Figure string
	Fault  string
}

// work returns the one piece of work there is.
func work(t *testing.T, s *server) long {
	t.Helper()
	r, err := http.Get(s.base + "/jobs?as=json")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	var list []long
	if err := json.NewDecoder(r.Body).Decode(&list); err != nil || len(list) != 1 {
		t.Fatalf("%d pieces of work: %v", len(list), err)
	}
	return list[0]
}

// until asks for the work until it is as wanted.
func until(t *testing.T, s *server, is func(long) bool) long {
	t.Helper()
	var w long
	for end := time.Now().Add(60 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if w = work(t, s); is(w) {
			return w
		}
	}
	t.Fatalf("the work is not what was waited for: %+v", w)
	return w
}

// TestWork kills the server while it lays out hides: what was shown is there
// at once, and the work goes on from it, not anew; stopped, it keeps what it
// found.
func TestWork(t *testing.T) {
	fettle, data := program(t), t.TempDir()
	s := startOn(t, fettle, data, hidesDay)
	r, err := http.PostForm(s.base+"/trim/lay/tan%20leather/ask", url.Values{"steps": {"200000"}})
	if err != nil || r.StatusCode != 200 {
		t.Fatalf("asked: %v %v", r, err)
	}
	r.Body.Close()
	shown := until(t, s, func(w long) bool { return w.Steps > 200 })
	s.kill()
	s = startOn(t, fettle, data, hidesDay)
	began := time.Now()
	after := until(t, s, func(w long) bool { return w.State == "working" })
	t.Logf("shown at %d steps, after the kill at %d, at work %v after the start", shown.Steps, after.Steps, time.Since(began).Round(time.Millisecond))
	if after.Key != shown.Key || after.Steps < shown.Steps {
		t.Errorf("shown %+v, after the kill %+v", shown, after)
	}
	further := until(t, s, func(w long) bool { return w.Steps > after.Steps })
	if want := "gone on from its best"; !strings.Contains(further.Figure, want) {
		t.Errorf("its box says %q, want %q", further.Figure, want)
	}
	if _, err := http.Post(s.base+"/jobs/"+after.Key+"/stop", "application/x-www-form-urlencoded", nil); err != nil {
		t.Fatal(err)
	}
	if w := until(t, s, func(w long) bool { return w.State == "stopped" }); w.Steps < further.Steps {
		t.Errorf("stopped: %+v, shown %+v", w, shown)
	}
	s.kill()
	wantAll(t, fettle, data, nil)
}
