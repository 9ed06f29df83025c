package jobs

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/job"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

// digging goes on until it is stopped, or fails where it is told to.
func digging(ctx context.Context, input, _ []byte, report func([]byte)) ([]byte, error) {
	if string(input) == "rock" {
		return nil, fault.New(fault.Invalid, "there is rock at 300 mm").WithHint("dig elsewhere")
	}
	report([]byte("250"))
	<-ctx.Done()
	return []byte("260"), nil
}

func depth(best []byte) (done, of int, figure string) {
	fmt.Sscan(string(best), &done)
	return done, 1000, fmt.Sprintf("%d mm deep", done)
}

func open(t *testing.T) *placetest.Shop {
	t.Helper()
	return placetest.Open(t, unit.Day(2026, time.October, 6), func(d desk.Desk) []web.Place {
		d.Jobs = placetest.Queue(t, job.Kind{Name: "dig", Version: 1, Work: digging, Tell: depth})
		return []web.Place{Place(d), {Key: "keep", Routes: []web.Route{{Pattern: "POST /b/{build}/dig", Who: web.Crew, Handle: func(r *web.Request) error {
			j, err := d.Jobs.Ask(r.Context(), job.Request{Kind: "dig", Build: r.Query("for"), By: r.Person().Code, What: "the hole for " + r.Query("at"), Page: "/b/pedlar/hole", Input: []byte(r.Query("at"))})
			if err != nil {
				return err
			}
			return r.SeeOther("/b/pedlar/jobs/" + j.Key)
		}}}}}
	})
}

func dig(t *testing.T, s *placetest.Shop, build, at string) (key string) {
	t.Helper()
	got := s.Post("dig?for=" + build + "&at=" + at)
	key, found := strings.CutPrefix(got.See, "/b/pedlar/jobs/")
	if !found {
		t.Fatalf("%d %.200s", got.Status, got.Body)
	}
	return key
}

// until asks for the page until it says all that is wanted.
func until(t *testing.T, s *placetest.Shop, wants ...string) string {
	t.Helper()
	var body string
	for end := time.Now().Add(15 * time.Second); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		body = s.Get("jobs").Body
		missing := false
		for _, w := range wants {
			missing = missing || !strings.Contains(body, w)
		}
		if !missing {
			return body
		}
	}
	t.Fatalf("the page does not say all of %q:\n%s", wants, body)
	return body
}

func TestJobs_Empty(t *testing.T) {
	s := open(t)
	until(t, s, "Nothing is being worked out", `data-live="jobs"`)
	if got := s.Get("jobs?as=json"); strings.TrimSpace(got.Body) != "[]" {
		t.Errorf("as JSON: %d %s", got.Status, got.Body)
	}
}

// TestJobs_StopAndAgain: who asked, how far it is, what waits; stopped it keeps
// the best, and can be asked for again.
func TestJobs_StopAndAgain(t *testing.T) {
	s := open(t)
	first := dig(t, s, "pedlar", "gate")
	page := until(t, s, "the hole for gate", "Best so far: 250 mm deep", "250 of 1,000 steps", "asked by MW", `role="status"`)
	dig(t, s, "pedlar", "door")
	until(t, s, "It waits: one piece of work comes first.")
	if strings.Contains(page, "/hole/"+first) == false {
		t.Error("no way to what is found")
	}
	if got := s.Post("jobs/" + first + "/stop"); got.See != "/b/pedlar/jobs" {
		t.Fatalf("stop: %d %s", got.Status, got.See)
	}
	until(t, s, "stopped; the best so far stands", "260 mm deep", "/jobs/"+first+"/again", "the hole for door", "Best so far: 250 mm deep")
	if got := s.Post("jobs/" + first + "/again"); got.See != "/b/pedlar/hole/"+first {
		t.Fatalf("again: %d %s", got.Status, got.See)
	}
	until(t, s, "It waits: one piece of work comes first.")
}

func TestJobs_FailedIsSaidInWords(t *testing.T) {
	s := open(t)
	dig(t, s, "pedlar", "rock")
	until(t, s, "not finished: there is rock at 300 mm: dig elsewhere")
	if got := s.Get("jobs?as=csv"); !strings.Contains(got.Body, "the hole for rock") {
		t.Errorf("as a file: %s", got.Body)
	}
}

// TestJobs_OfOtherBuilds are neither shown nor stopped here; a guest stops nothing.
func TestJobs_OfOtherBuilds(t *testing.T) {
	s := open(t)
	other, own := dig(t, s, "cart", "well"), dig(t, s, "pedlar", "gate")
	if page := until(t, s, "It waits: one piece of work comes first."); strings.Contains(page, "well") {
		t.Error("another build's work is shown")
	}
	for path, want := range map[string]int{"jobs/" + other + "/stop": 404, "jobs/" + other + "/again": 404, "jobs/none/stop": 404} {
		if got := s.Post(path); got.Status != want {
			t.Errorf("%s: %d, want %d", path, got.Status, want)
		}
	}
	s.Person = account.Person{ID: "g", Code: "GU", Name: "Guest", Role: account.Guest}
	if got := s.Post("jobs/" + own + "/stop"); got.Status != 403 {
		t.Errorf("a guest stops: %d", got.Status)
	}
	if page := s.Get("jobs").Body; strings.Contains(page, "Stop here") {
		t.Error("a guest is offered to stop")
	}
	var rows []row
	if err := json.Unmarshal([]byte(s.Get("jobs?as=json").Body), &rows); err != nil || len(rows) != 1 || rows[0].Key != own || rows[0].Ahead != 1 {
		t.Errorf("as JSON: %+v, %v", rows, err)
	}
}
