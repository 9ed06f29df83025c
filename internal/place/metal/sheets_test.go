package metal_test

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/build"
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
	if page := b.Get(got.See).Body; !strings.Contains(page, "cut plan of 0.9 mm sheet in 500 steps") {
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

const ellFile = `0
SECTION
2
HEADER
9
$INSUNITS
70
4
0
ENDSEC
0
SECTION
2
ENTITIES
0
LWPOLYLINE
90
6
70
1
10
100
20
50
10
300
20
50
10
300
20
90
10
140
20
90
10
140
20
170
10
100
20
170
0
ENDSEC
0
EOF
`

// TestBlank_TrueShapeFromADrawingOrCorners: its size becomes that of the shape,
// drawn from the corner, and it can be taken back.
func TestBlank_TrueShapeFromADrawingOrCorners(t *testing.T) {
	b := bench(t)
	page := at + "/sheets/blank/B02"
	if got := b.Get(page).Body; !strings.Contains(got, "cut as the rectangle") || !strings.Contains(got, "Nothing to take back") {
		t.Fatalf("the plain blank: %.400s", got)
	}
	if got := b.Send(page+"/shape", url.Values{"corners": {""}, "unit": {""}}, "file", "bracket.dxf", []byte(ellFile)); got.See != page {
		t.Fatalf("a drawing: %d %s", got.Status, errorsIn(got.Body))
	}
	c := b.Slip(t)[0].(*build.SetBlanks).Blanks[0]
	if c.Width.Mm() != 200 || c.Height.Mm() != 120 || len(c.Shape.Outer) != 6 || c.Shape.Polygon().Bounds().Min.X != 0 || c.Over.Mm() != 3 {
		t.Errorf("of the drawing came %+v", c)
	}
	if got := b.Get(page).Body; !strings.Contains(got, "This shape is on your slip") || !strings.Contains(got, "112.0 cm²") || !strings.Contains(got, "200 × 120") {
		t.Errorf("the page does not show the shape: %.400s", got)
	}
	if got := b.Post(page+"/back", url.Values{"kept": {"yes"}}); got.See != page {
		t.Fatalf("taken back: %d", got.Status)
	}
	if got := b.Get(page).Body; strings.Contains(got, "This shape is on your slip") || !strings.Contains(got, "220 × 140") {
		t.Errorf("taken back it is not the rectangle of before: %.400s", got)
	}
	if got := b.Post(page+"/shape", url.Values{"corners": {"0 0\n4 0\n4 2\n0 2\n\n1 0.5\n2 0.5\n2 1"}, "unit": {"25.4"}}); got.See != page {
		t.Fatalf("corners in inches: %d %s", got.Status, errorsIn(got.Body))
	}
	now := b.KeepSlip(t)
	kept := now.Blank("B02")
	if kept.Width.Mm() != 101.6 || kept.Height.Mm() != 50.8 || len(kept.Shape.Holes) != 1 {
		t.Errorf("of the corners came %+v", kept)
	}
	for _, bad := range []string{"", "0 0 1", "0 0\n1 1\n1 0\n0 1"} {
		if got := b.Post(page+"/shape", url.Values{"corners": {bad}, "unit": {"10"}}); got.Status != 422 || bad != "" && !strings.Contains(got.Body, `value="10" selected`) {
			t.Errorf("%q: %d", bad, got.Status)
		}
	}
	if got := b.Get(at + "/sheets/blank/B99"); got.Status != 404 {
		t.Errorf("no such blank: %d", got.Status)
	}
}

// TestSheets_ShortOrderedAndCut: what a plan lacks goes on the list of Stores;
// a sheet that is cut leaves the rack, and what is left of it comes onto it.
func TestSheets_ShortOrderedAndCut(t *testing.T) {
	b := bench(t)
	sheet := url.Values{"sheet-id": {"M9"}, "sheet-name": {"plate"}, "sheet-quantity": {"1"}, "sheet-gauge": {"3"}, "sheet-width": {"600"}, "sheet-height": {"400"}}
	blank := url.Values{"blank-id": {"B90"}, "blank-name": {"bracket"}, "blank-quantity": {"3"}, "blank-gauge": {"3"}, "blank-width": {"330"}, "blank-height": {"300"}, "blank-over": {"0"}}
	b.Post(at+"/sheets/sheet", sheet)
	b.Post(at+"/sheets/blank", blank)
	if got := b.Post(at+"/sheets/lay", url.Values{"gauge": {"3.0 mm"}}); got.Status != 303 {
		t.Fatalf("lay: %d %.300s", got.Status, got.Body)
	}
	page := b.Get(at + "/sheets").Body
	for _, say := range []string{"Order 2 more like sheet M9", "It is cut, on my slip", "keep it as an offcut: 0.14 m² in a box of 600 × 400 mm"} {
		if !strings.Contains(page, say) {
			t.Fatalf("the page does not say %q", say)
		}
	}
	order := url.Values{"buy-like": {"M9"}, "buy-count": {"2"}, "buy-price": {"31.50"}, "buy-lead": {"4"}, "buy-task": {"T08"}, "buy-supplier": {""}}
	if got := b.Post(at+"/sheets/buy", order); got.Status != 303 {
		t.Fatalf("order: %d %s", got.Status, errorsIn(got.Body))
	}
	if page := b.Get(at + "/sheets").Body; strings.Contains(page, "more like sheet M9") && strings.Contains(page, "Order 2") {
		t.Error("what is on the list of Stores is still to be ordered")
	}
	if got := b.Post(at+"/sheets/cut", url.Values{"sheet": {"M9"}, "nth": {"0"}, "keep": {"yes"}}); got.Status != 303 {
		t.Fatalf("cut: %d %.300s", got.Status, got.Body)
	}
	kept := b.KeepSlip(t)
	part := kept.Parts[len(kept.Parts)-1]
	if part.Name != "sheet metal 3.0 mm, 600 × 400 mm, as sheet M9" || part.Quantity != 2 || part.Price != 3150 || part.Task != "T08" {
		t.Errorf("ordered %+v", part)
	}
	left := kept.Sheets[len(kept.Sheets)-1]
	if kept.Sheet("M9").Quantity != 0 || kept.Blank("B90").Left() != 2 || !left.Offcut || left.Cut().Area().M2() < 0.13 || left.Cut().Area().M2() > 0.14 {
		t.Errorf("on the rack %+v, to cut %d, left %+v", kept.Sheet("M9"), kept.Blank("B90").Left(), left)
	}
	if got := b.Post(at+"/sheets/cut", url.Values{"sheet": {"M9"}, "nth": {"0"}}); got.Status != 422 && got.Status != 409 {
		t.Errorf("cut again: %d", got.Status)
	}
	order.Set("buy-count", "0")
	if got := b.Post(at+"/sheets/buy", order); got.Status != 422 {
		t.Errorf("no sheets are ordered: %d", got.Status)
	}
}
