package trim

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/placetest"
	stage "fettle/stage/trim"
)

// shown is a layout as its page has it in JSON.
type shown struct {
	State   string
	Laid    stage.Laid
	Verdict stage.Verdict
}

// waited asks for a layout of the tan leather and waits until it is over.
func waited(t *testing.T, s *placetest.Shop, form ...string) (path string, out shown) {
	t.Helper()
	return waitedOn(t, s, "tan%20leather", form...)
}

func waitedOn(t *testing.T, s *placetest.Shop, material string, form ...string) (path string, out shown) {
	t.Helper()
	got := s.Post("trim/lay/"+material+"/ask", form...)
	path, found := strings.CutPrefix(got.See, "/b/pedlar/")
	if !found {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	for range 600 {
		out = shown{}
		if err := json.Unmarshal([]byte(s.Get(path+"?as=json").Body), &out); err != nil {
			t.Fatal(err)
		}
		if out.State != "waiting" && out.State != "working" {
			return path, out
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("it does not end")
	return path, out
}

// TestAsk_LaidKeptAndAskedAgain: three hides are enough, the same layout is not
// worked out twice, and kept it goes on the slip with its key.
func TestAsk_LaidKeptAndAskedAgain(t *testing.T) {
	s := trimShop(t)
	path, out := waited(t, s, "steps", "400")
	if out.State != "done" || out.Laid.Missing != 0 || !out.Laid.Verified || !out.Verdict.Whole() {
		t.Fatalf("%s, %d missing, verified %v, %+v", out.State, out.Laid.Missing, out.Laid.Verified, out.Verdict)
	}
	holds(t, s.Get(path), 200, "All 50 pieces lie on 3 hides", "Keep it: see what it does", "smallest gap")
	if again, _ := waited(t, s, "steps", "400"); again != path {
		t.Errorf("asked again it is %s, was %s", again, path)
	}
	if got := s.Post(path + "/keep"); got.See != "/b/pedlar/slip" {
		t.Fatalf("kept: %d %.300s", got.Status, got.Body)
	}
	if l := s.Slip(t)[0].(*build.KeepLayout).Layout; l.ID != "tan-leather" || len(l.Placed) != 50 || !strings.HasSuffix(path, l.Job) {
		t.Errorf("kept %s with %d of job %s", l.ID, len(l.Placed), l.Job)
	}
}

// TestAsk_OnTooFewHides says which pieces have no place, and is refused where
// the hides have changed since.
func TestAsk_OnTooFewHides(t *testing.T) {
	s := trimShop(t)
	path, out := waited(t, s, "steps", "300", "without", "H3")
	if out.Laid.Missing < 5 || len(out.Verdict.Missing) != out.Laid.Missing {
		t.Fatalf("%d missing, %d named", out.Laid.Missing, len(out.Verdict.Missing))
	}
	holds(t, s.Get(path), 200, "Not enough", "found no place on 2 hides in ", "Without a place")
	s.Post("trim/hide/H1/refuse", "why", "mould")
	holds(t, s.Get(path), 200, "cannot be cut so on what is there now")
	holds(t, s.Post(path+"/keep"), 422, "lay it anew")
}

func TestAsk_StoppedOrRefused(t *testing.T) {
	s := trimShop(t)
	got := s.Post("trim/lay/tan%20leather/ask", "steps", "200000")
	path := strings.TrimPrefix(got.See, "/b/pedlar/")
	holds(t, s.Get(path), 200, "Stop here", `data-live="jobs"`, "/b/pedlar/jobs/"+path[strings.LastIndex(path, "/")+1:]+"/stop")
	if err := s.Desk.Jobs.Stop(t.Context(), path[strings.LastIndex(path, "/")+1:]); err != nil {
		t.Fatal(err)
	}
	begun := time.Now()
	for strings.Contains(s.Get(path).Body, "Stop here") {
		if time.Since(begun) > 20*time.Second {
			t.Fatal("it does not stop")
		}
		time.Sleep(50 * time.Millisecond)
	}
	holds(t, s.Post("trim/lay/"+url.PathEscape("embossed tan leather")+"/ask", "steps", "10"), 422, "drawn")
	holds(t, s.Post("trim/lay/tan%20leather/ask", "steps", "0"), 422)
	holds(t, s.Get("trim/lay/tan%20leather/work/none"), 404)
}
