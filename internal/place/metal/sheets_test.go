package metal_test

import (
	"net/url"
	"strings"
	"testing"

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
