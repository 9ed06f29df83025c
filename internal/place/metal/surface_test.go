package metal_test

import (
	"fmt"
	"math"
	"net/url"
	"strings"
	"testing"

	"fettle/build"
)

// crownedOBJ is a panel of 300 × 200 mm with a crown of so many mm.
func crownedOBJ(high float64) []byte { return crownedFine(high, 16) }

// crownedFine is the same of so many cells along each side.
func crownedFine(high float64, n int) []byte {
	var out strings.Builder
	for j := range n + 1 {
		for i := range n + 1 {
			x, y := 300*float64(i)/float64(n), 200*float64(j)/float64(n)
			fmt.Fprintf(&out, "v %g %g %g\n", x, y, high*math.Sin(x*math.Pi/300)*math.Sin(y*math.Pi/200))
		}
	}
	for j := range n {
		for i := range n {
			a := j*(n+1) + i + 1
			fmt.Fprintf(&out, "f %d %d %d\nf %d %d %d\n", a, a+1, a+n+2, a, a+n+2, a+n+1)
		}
	}
	return []byte(out.String())
}

// TestSurface_FromAScanToABlank: a scan is taken in, laid flat with its map,
// drawn at true size, and kept as the true shape of a blank.
func TestSurface_FromAScanToABlank(t *testing.T) {
	b := bench(t)
	if page := b.Get(at + "/surfaces").Body; !strings.Contains(page, "front wing, lower rear corner") || strings.Contains(page, "driver cushion") {
		t.Error("the list is not that of the panels")
	}
	form := url.Values{"id": {"u7"}, "name": {"rear valance"}, "panel": {"P60"}, "unit": {"1"}, "note": {"scanned on the other side"}}
	got := b.Send(at+"/surface", form, "file", "valance.obj", crownedOBJ(40))
	if got.Status != 303 || got.See != at+"/surface/U7" {
		t.Fatalf("%d %s: %s", got.Status, got.See, errorsIn(got.Body))
	}
	page := b.Get(got.See + "?mirror=yes&grade=DC05").Body
	for _, say := range []string{"rear valance", "sf-h-1", "stretch: hammer or wheel", "shrink: tuck or shrinker", "worst against its forming limit", "DC05", `value="0.9"`, "a hammer and an anneal change it"} {
		if !strings.Contains(page, say) {
			t.Errorf("the page of a panel does not say %q", say)
		}
	}
	for _, form := range []string{"pdf", "dxf", "svg"} {
		if file := b.Get(got.See + "/file?form=" + form); file.Status != 200 || len(file.Body) < 500 {
			t.Errorf("%s: %d with %d bytes", form, file.Status, len(file.Body))
		}
	}
	keep := url.Values{"grade": {"DC04"}, "gauge": {"0.9"}, "mirror": {"yes"}, "blank-id": {"b91"}, "blank-name": {"valance skin"}, "over": {"12"}, "part": {"1"}}
	if got := b.Post(got.See+"/keep", keep); got.Status != 303 {
		t.Fatalf("keep: %d %s", got.Status, errorsIn(got.Body))
	}
	keep.Set("part", "4")
	if got := b.Post(got.See+"/keep", keep); got.Status != 422 || !strings.Contains(errorsIn(got.Body), "must be from 1 to 1") {
		t.Errorf("a part that is not there: %d %s", got.Status, errorsIn(got.Body))
	}
	kept := b.KeepSlip(t)
	one := kept.Blank("B91")
	if one.Surface != "U7" || one.Scan != kept.Surface("U7").Scan || !one.Shape.Drawn() || one.Gauge != 900 || one.Width < 290_000 || one.Width > 330_000 {
		t.Errorf("kept %+v", one)
	}
	if s := kept.Surface("U7"); s.Use != build.ForMetal || s.Panel != "P60" {
		t.Errorf("kept %+v", s)
	}
}

func TestSurface_Refused(t *testing.T) {
	b := bench(t)
	form := url.Values{"id": {"u7"}, "name": {"rear valance"}, "panel": {""}, "unit": {"1"}, "note": {""}}
	if got := b.Send(at+"/surface", form, "file", "valance.obj", []byte("v 1 2\nf 1 2 3\n")); got.Status != 422 || !strings.Contains(errorsIn(got.Body), "is not taken") {
		t.Errorf("a file that is none: %d %s", got.Status, errorsIn(got.Body))
	}
	if got := b.Post(at+"/surface", form); got.Status != 422 || !strings.Contains(errorsIn(got.Body), "is not chosen") {
		t.Errorf("no file: %d %s", got.Status, errorsIn(got.Body))
	}
	form.Set("panel", "P99")
	if got := b.Send(at+"/surface", form, "file", "valance.obj", crownedOBJ(5)); got.Status != 422 {
		t.Errorf("a panel that is not there: %d", got.Status)
	}
	form.Set("panel", "P60")
	b.Send(at+"/surface", form, "file", "valance.obj", crownedOBJ(5))
	if got := b.Get(at + "/surface/U7?gauge=thick"); got.Status != 200 || !strings.Contains(errorsIn(got.Body), "is not a number") {
		t.Errorf("a gauge in words: %d %s", got.Status, errorsIn(got.Body))
	}
	if got := b.Get(at + "/surface/U1"); got.Status != 404 {
		t.Errorf("a surface of the trim shop: %d", got.Status)
	}
}
