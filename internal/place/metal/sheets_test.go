package metal_test

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/internal/account"
)

func TestSheets_FromFindingsToTheCutSheet(t *testing.T) {
	b := bench(t)
	page := b.Get(at + "/sheets")
	if !strings.Contains(page.Body, "findings call for a patch") {
		t.Fatalf("nothing is proposed:\n%s", page.Body)
	}
	if got := b.Post(at+"/sheets/take", nil); got.Status != 303 {
		t.Fatalf("take over: %d", got.Status)
	}
	for _, gauge := range []string{"0.9 mm", "1.2 mm"} {
		if got := b.Post(at+"/sheets/lay", url.Values{"gauge": {gauge}}); got.Status != 303 || strings.Contains(got.See, "short") {
			t.Fatalf("lay %s: %d, %s", gauge, got.Status, got.See)
		}
	}
	kept := b.KeepSlip(t)
	if len(kept.Blanks) < 8 || len(kept.SheetPlans) != 2 {
		t.Fatalf("kept %d blanks, %d plans", len(kept.Blanks), len(kept.SheetPlans))
	}
	paper := b.Get(at + "/sheets?as=paper").Body
	for _, say := range []string{"Cut sheet: M", "Rolling direction", "nobody in the line", string(kept.Blanks[2].ID)} {
		if !strings.Contains(paper, say) {
			t.Errorf("the cut sheet does not say %q", say)
		}
	}
	if csv := b.Get(at + "/sheets?as=csv").Body; !strings.Contains(csv, "B01") {
		t.Errorf("the list of blanks: %s", csv)
	}
}

func TestSheets_TypedAndRefused(t *testing.T) {
	b := bench(t)
	blank := url.Values{"blank-id": {"b90"}, "blank-name": {"step plate"}, "blank-quantity": {"2"}, "blank-gauge": {"1.6"}, "blank-width": {"300"}, "blank-height": {"150"}, "blank-over": {"3"}, "blank-folded": {"on"}}
	if got := b.Post(at+"/sheets/blank", blank); got.Status != 303 {
		t.Fatalf("a blank: %d\n%s", got.Status, errorsIn(got.Body))
	}
	if got := b.Post(at+"/sheets/lay", url.Values{"gauge": {"1.6 mm"}}); got.Status != 422 || !strings.Contains(got.Body, "1.6 mm") {
		t.Errorf("no sheet of the gauge: %d", got.Status)
	}
	sheet := url.Values{"sheet-id": {"m9"}, "sheet-name": {"offcut"}, "sheet-quantity": {"1"}, "sheet-gauge": {"1.6"}, "sheet-width": {"400"}, "sheet-height": {"340"}, "sheet-offcut": {"on"}}
	if got := b.Post(at+"/sheets/sheet", sheet); got.Status != 303 {
		t.Fatalf("a sheet: %d\n%s", got.Status, errorsIn(got.Body))
	}
	// The folds lie across the rolling, so both stand upright and only one has room.
	got := b.Post(at+"/sheets/lay", url.Values{"gauge": {"1.6 mm"}})
	if got.Status != 303 {
		t.Fatalf("lay: %d", got.Status)
	}
	kept := b.KeepSlip(t)
	plan := kept.SheetPlan(kept.Blank("B90").Gauge)
	for _, p := range plan.Placed {
		if p.Rotation != 90 && p.Rotation != 270 {
			t.Errorf("a fold along the rolling: %+v", p)
		}
	}
	if page := b.Get(at + "/sheets").Body; strings.Contains(page, "Do not cut") {
		t.Error("a plan that holds is not to be cut")
	}
	blank.Set("blank-height", "390")
	if got := b.Post(at+"/sheets/blank", blank); got.Status != 303 {
		t.Fatalf("the blank entered anew: %d", got.Status)
	}
	for _, as := range []string{"", "?as=paper"} {
		if page := b.Get(at + "/sheets" + as).Body; !strings.Contains(page, "Do not cut") {
			t.Errorf("%q: a plan whose blank has grown is to be cut", as)
		}
	}
	blank.Set("blank-width", "wide")
	if got := b.Post(at+"/sheets/blank", blank); got.Status != 422 || !strings.Contains(errorsIn(got.Body), "Width") || !strings.Contains(got.Body, `value="wide"`) {
		t.Errorf("a width in words: %d, %s", got.Status, errorsIn(got.Body))
	}
	if got := b.Post(at+"/sheets/drop", url.Values{"blank": {"B90"}}); got.Status != 303 {
		t.Errorf("drop: %d", got.Status)
	}
	if after := b.KeepSlip(t); after.Blank("B90") != nil {
		t.Error("the blank is still there")
	}
	b.As(account.Guest)
	if got := b.Post(at+"/sheets/blank", blank); got.Status != 403 {
		t.Errorf("a guest enters a blank: %d", got.Status)
	}
}

// TestSheets_LaidAsAJob: a longer look is long work with its own page; what it
// finds goes on the slip with its key.
func TestSheets_LaidAsAJob(t *testing.T) {
	b := bench(t)
	b.Post(at+"/sheets/take", nil)
	got := b.Post(at+"/sheets/lay", url.Values{"gauge": {"0.9 mm"}, "steps": {"500"}})
	if !strings.HasPrefix(got.See, at+"/sheets/work/") {
		t.Fatalf("%d %s %.300s", got.Status, got.See, got.Body)
	}
	if page := b.Get(got.See).Body; !strings.Contains(page, "Cut plan of 0.9 mm sheet in 500 steps") {
		t.Errorf("its page: %.300s", page)
	}
	var work struct {
		State string
		Laid  struct {
			Missing []string
			Done    bool
		}
	}
	for end := time.Now().Add(60 * time.Second); work.State != "done"; time.Sleep(30 * time.Millisecond) {
		if err := json.Unmarshal([]byte(b.Get(got.See+"?as=json").Body), &work); err != nil || time.Now().After(end) || work.State == "failed" {
			t.Fatalf("%+v: %v", work, err)
		}
	}
	page := b.Get(got.See).Body
	for _, say := range []string{"lie on what is on the rack", "of 500 steps, seed 1; checked on the true shapes", "Keep it: see what it does", "metal-blank-no"} {
		if !strings.Contains(page, say) {
			t.Errorf("the page of a plan that is found does not say %q", say)
		}
	}
	if kept := b.Post(got.See+"/keep", nil); kept.See != "/b/pedlar/slip" {
		t.Fatalf("keep: %d %.300s", kept.Status, kept.Body)
	}
	plan := b.KeepSlip(t).SheetPlans[0]
	if !strings.HasSuffix(got.See, plan.Job) || len(plan.Placed) == 0 {
		t.Errorf("kept %d blanks of job %q", len(plan.Placed), plan.Job)
	}
	if got := b.Get(at + "/sheets/work/none"); got.Status != 404 {
		t.Errorf("no such work: %d", got.Status)
	}
	if got := b.Post(at+"/sheets/lay", url.Values{"gauge": {"0.9 mm"}, "steps": {"0"}}); got.Status != 422 {
		t.Errorf("no steps: %d", got.Status)
	}
}
