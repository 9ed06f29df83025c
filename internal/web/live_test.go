package web_test

import (
	"bufio"
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"fettle/internal/web"
)

// listen opens a stream and returns its lines.
func listen(t *testing.T, url, lastID string) <-chan string {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	t.Cleanup(cancel)
	r, err := http.NewRequestWithContext(ctx, "GET", url, nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Test-Role", "guest")
	if lastID != "" {
		r.Header.Set("Last-Event-ID", lastID)
	}
	res, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { res.Body.Close() })
	if got := res.Header.Get("Content-Type"); got != "text/event-stream" {
		t.Fatalf("Content-Type %q", got)
	}
	lines := make(chan string, 100)
	go func() {
		defer close(lines)
		for sc := bufio.NewScanner(res.Body); sc.Scan(); {
			lines <- sc.Text()
		}
	}()
	return lines
}

// until waits for a line that holds a text.
func until(t *testing.T, lines <-chan string, want string) string {
	t.Helper()
	late := time.After(5 * time.Second)
	for {
		select {
		case line, ok := <-lines:
			if !ok {
				t.Fatalf("the stream ended before %q", want)
			}
			if strings.Contains(line, want) {
				return line
			}
		case <-late:
			t.Fatalf("no %q within 5 s", want)
		}
	}
}

func TestLive(t *testing.T) {
	s := newServer()
	srv := httptest.NewServer(s)
	defer srv.Close()
	defer s.Hub().Close()
	one := listen(t, srv.URL+"/b/pedlar/live?after=41", "")
	two := listen(t, srv.URL+"/b/pedlar/live?after=41", "")
	until(t, one, ": listening")
	until(t, two, ": listening")

	began := time.Now()
	s.Hub().Publish("pedlar", web.Event{Seq: 42, Places: []string{"metal", "wall"}, Text: "F32"})
	for _, lines := range []<-chan string{one, two} {
		until(t, lines, "id: 42")
		until(t, lines, "event: moved")
		until(t, lines, `"places":["metal","wall"]`)
	}
	if took := time.Since(began); took > time.Second {
		t.Errorf("delivered after %v, want under 1 s", took)
	}

	s.Hub().Publish("pedlar", web.Event{Seq: 43})
	again := listen(t, srv.URL+"/b/pedlar/live?after=41", "42")
	if line := until(t, again, "id: "); line != "id: 43" {
		t.Errorf("after Last-Event-ID 42 the stream goes on with %q, want id: 43", line)
	}
}

func TestLive_Refused(t *testing.T) {
	for path, want := range map[string]int{"/b/pedlar/live?after=x": 422, "/b/pedlar/live?after=-1": 422, "/b/none/live": 404} {
		res, _ := ask(t, newServer(), "guest", "GET", path, nil)
		if res.StatusCode != want {
			t.Errorf("%s: got %d, want %d", path, res.StatusCode, want)
		}
	}
}

// TestLive_ForgottenPast tells a tablet that was away too long that everything changed.
func TestLive_ForgottenPast(t *testing.T) {
	s := newServer()
	srv := httptest.NewServer(s)
	defer srv.Close()
	defer s.Hub().Close()
	for seq := int64(1); seq <= 1000; seq++ {
		s.Hub().Publish("pedlar", web.Event{Seq: seq, Places: []string{"metal"}})
	}
	lines := listen(t, srv.URL+"/b/pedlar/live?after=3", "")
	until(t, lines, "id: 1000")
	if line := until(t, lines, "data: "); !strings.Contains(line, `"places":null`) {
		t.Errorf("got %q, want an event for all places", line)
	}
}

// TestLive_Stirred tells of work in the background, which has no journal number.
func TestLive_Stirred(t *testing.T) {
	s := newServer()
	srv := httptest.NewServer(s)
	defer srv.Close()
	defer s.Hub().Close()
	s.Hub().Publish("pedlar", web.Event{Seq: 7})
	lines := listen(t, srv.URL+"/b/pedlar/live?after=6", "")
	until(t, lines, "id: 7")
	for _, build := range []string{"pedlar", ""} { // the one build, or all
		s.Hub().Stir("other", "wall")
		s.Hub().Stir(build, "jobs")
		until(t, lines, "event: stirred")
		if line := until(t, lines, "data: "); !strings.Contains(line, `"places":["jobs"]`) || !strings.Contains(line, `"seq":7`) {
			t.Errorf("stirred %q: %s", build, line)
		}
	}
}
