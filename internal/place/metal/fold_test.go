package metal_test

import (
	"net/url"
	"strings"
	"testing"

	"fettle/internal/account"
)

// aFold is the form of a channel as it is sent.
func aFold() url.Values {
	return url.Values{"fold-id": {"b90"}, "fold-name": {"seat rail"}, "fold-quantity": {"2"}, "fold-gauge": {"1"}, "fold-along": {"300"}, "fold-over": {"0"},
		"length-1": {"40"}, "way-1": {"up"}, "angle-1": {"90"}, "radius-1": {"1"},
		"length-2": {"40"}, "way-2": {""}, "angle-2": {""}, "radius-2": {""}, "length-3": {""}, "way-3": {""}, "angle-3": {""}, "radius-3": {""}}
}

// TestFold_FromFinishedSizesToTheSheet: the flat size is that of the worked
// value, the blank lies on a sheet with its bends across the rolling, and the
// sketch goes on paper and into files.
func TestFold_FromFinishedSizesToTheSheet(t *testing.T) {
	b := bench(t)
	if page := b.Get(at + "/fold?shape=channel").Body; !strings.Contains(page, "Flange C") || !strings.Contains(page, "Joggled edge") {
		t.Errorf("the form of a channel: %.300s", page)
	}
	got := b.Post(at+"/fold", aFold())
	if got.Status != 303 || got.See != at+"/fold/B90" {
		t.Fatalf("%d %s: %s", got.Status, got.See, errorsIn(got.Body))
	}
	page := b.Get(got.See).Body
	for _, say := range []string{">78.2", "known to ± 0.1 mm", "trade default", "bend 1 up 90°", "39.1", "Nothing hits", "Order of folding", "guards on"} {
		if !strings.Contains(page, say) {
			t.Errorf("the sketch does not say %q", say)
		}
	}
	kept := b.KeepSlip(t)
	if p := kept.Blank("B90"); p.Width != 300_000 || p.Height != 78_200 || !p.Fold.Known() || p.Quantity != 2 {
		t.Errorf("on the list as %+v", p)
	}
	for form, begins := range map[string]string{"pdf": "%PDF-", "dxf": "999", "dxf12": "999", "svg": "<svg"} {
		if file := b.Get(got.See + "/file?form=" + form); file.Status != 200 || !strings.HasPrefix(strings.TrimLeft(file.Body, " "), begins) {
			t.Errorf("%s: %d %.40q", form, file.Status, file.Body)
		}
	}
	if paper := b.Get(got.See + "?as=paper").Body; !strings.Contains(paper, "Fabrication sketch, blank B90") {
		t.Error("no sketch on paper")
	}
	if rows := b.Get(got.See + "?as=csv").Body; !strings.Contains(rows, "1,A and B,up,90,1,") {
		t.Errorf("its bends as a list: %s", rows)
	}
}

// TestFold_AStripMovesWhatIsKept: K follows the strip, the blank that was kept
// by another is not to be cut, and one touch puts it right.
func TestFold_AStripMovesWhatIsKept(t *testing.T) {
	b := bench(t)
	b.Post(at+"/fold", aFold())
	strip := url.Values{"strip-id": {"k09"}, "strip-gauge": {"1"}, "strip-angle": {"90"}, "strip-radius": {"1"}, "strip-flat": {"100"}, "strip-first": {"51"}, "strip-second": {"51"}}
	if got := b.Post(at+"/folds/strip", strip); got.Status != 303 {
		t.Fatalf("%d %s", got.Status, errorsIn(got.Body))
	}
	page := b.Get(at + "/fold/B90").Body
	for _, say := range []string{"Do not cut", "they give 78.0 mm", "test strip K09", "own past"} {
		if !strings.Contains(page, say) {
			t.Errorf("the sketch does not say %q", say)
		}
	}
	if got := b.Post(at+"/fold/B90/anew", nil); got.Status != 303 {
		t.Fatalf("anew: %d", got.Status)
	}
	if page := b.Get(at + "/fold/B90").Body; strings.Contains(page, "Do not cut") {
		t.Error("what is taken anew is still not to be cut")
	}
	strip.Set("strip-first", "61")
	if got := b.Post(at+"/folds/strip", strip); got.Status != 422 || !strings.Contains(errorsIn(got.Body), "K would be") || !strings.Contains(got.Body, `value="61"`) {
		t.Errorf("a strip that cannot be: %d %s", got.Status, errorsIn(got.Body))
	}
	if got := b.Post(at+"/folds/drop", url.Values{"strip": {"K09"}}); got.Status != 303 {
		t.Errorf("drop: %d", got.Status)
	}
	kept := b.KeepSlip(t)
	if kept.Strip("K09") != nil || kept.Blank("B90").Height != 78_000 {
		t.Errorf("kept %v, %s", kept.Strips, kept.Blank("B90").Height)
	}
}

func TestFold_RefusedAndTold(t *testing.T) {
	for _, tt := range []struct{ field, value, says string }{
		{"length-1", "two", "is not a number"},
		{"length-2", "", "is empty"},
		{"way-1", "", "ends the sheet, and a flange follows"},
		{"way-2", "round", "must be one of"},
		{"angle-1", "190", "must be from"},
		{"radius-1", "45", "the bends at its ends take"},
		{"fold-gauge", "", "is empty"},
	} {
		b := bench(t)
		form := aFold()
		form.Set(tt.field, tt.value)
		got := b.Post(at+"/fold", form)
		if got.Status != 422 || !strings.Contains(errorsIn(got.Body), tt.says) || !strings.Contains(got.Body, `value="seat rail"`) {
			t.Errorf("%s = %q: %d, %q, want %q", tt.field, tt.value, got.Status, errorsIn(got.Body), tt.says)
		}
	}
	b := bench(t)
	form := aFold()
	form.Set("length-1", "5")
	b.Post(at+"/fold", form)
	brake := url.Values{"brake-name": {"long folder"}, "brake-width": {"2000"}, "brake-gauge": {"2"}, "brake-least": {"4"}, "brake-nose": {"30"}, "brake-slope": {"45"}}
	if page := b.Get(at + "/fold/B90").Body; !strings.Contains(page, "the brake takes no less than 8 mm") {
		t.Error("a flange that is too short is not told")
	}
	if got := b.Post(at+"/folds/brake", brake); got.Status != 303 {
		t.Fatalf("the brake: %d %s", got.Status, errorsIn(got.Body))
	}
	if page := b.Get(at + "/fold/B90").Body; !strings.Contains(page, "nose and bed of long folder") {
		t.Error("the brake that was typed in is not gone by")
	}
	if list := b.Get(at + "/folds").Body; !strings.Contains(list, "scuttle drain channel") || !strings.Contains(list, "2000 mm, measured") {
		t.Error("the list of folds")
	}
	if got := b.Get(at + "/fold/B02"); got.Status != 404 {
		t.Errorf("a blank without a bend: %d", got.Status)
	}
	b.As(account.Guest)
	if got := b.Post(at+"/fold", form); got.Status != 403 {
		t.Errorf("a guest folds: %d", got.Status)
	}
}
