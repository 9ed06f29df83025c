package metal_test

import (
	"encoding/json"
	"html"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"fettle/geom/dxf"
	"fettle/geom/outline"
)

const wing = at + "/surface/U2"

// lacks reports what a page should say and does not.
func lacks(t *testing.T, page string, says ...string) {
	t.Helper()
	for _, say := range says {
		if !strings.Contains(page, say) {
			t.Errorf("the page does not say %q", say)
		}
	}
}

// TestPanel_TheDemosWing: the fold at the sill is a fold, the blister is
// stretched, the upper rim shrunk, each in numbers at its place.
func TestPanel_TheDemosWing(t *testing.T) {
	b := bench(t)
	lacks(t, b.Get(wing).Body, "In one piece. 10.5 % of it is stretched", "stretch much", "shrink much", "+15.0", "0.78", "Where it is folded", ">70<", "surface-data", "sf-rim", "Draw a cut")
	var said struct {
		Bends []struct{ Angle, Radius float64 }
		Cuts  []struct {
			Asked bool
			Sides [2]float64
		}
	}
	got := b.Get(wing + "?as=json&cuts=" + url.QueryEscape("1202 833"))
	if err := json.Unmarshal([]byte(got.Body), &said); err != nil {
		t.Fatal(err)
	}
	if len(said.Bends) != 1 || said.Bends[0].Radius < 7.5 || said.Bends[0].Radius > 9 {
		t.Errorf("folds %+v", said.Bends)
	}
	if len(said.Cuts) != 1 || !said.Cuts[0].Asked || said.Cuts[0].Sides[0] < 50 {
		t.Errorf("cuts %+v", said.Cuts)
	}
}

func TestPanel_CutsAndEdge(t *testing.T) {
	b := bench(t)
	cut := "cuts=" + url.QueryEscape("1202 833")
	page := b.Get(wing + "?" + cut).Body
	lacks(t, page, "Cuts, brought together and welded", "1, drawn", "1202 833</textarea>")
	parted := b.Get(wing + "?cuts=" + url.QueryEscape("1202 18")).Body
	lacks(t, parted, "In 2 pieces.")
	for query, says := range map[string]string{"cuts=12+x": "is no vertex such as 340", "cuts=0+99999": "there is no vertex 99999", "cuts=7": "goes through two vertices at least", "over=thick": "is not a number"} {
		if got := b.Get(wing + "?" + query); got.Status != 200 || !strings.Contains(got.Body, says) {
			t.Errorf("%s: %d, lacks %q", query, got.Status, says)
		}
	}
	size := func(query string) [2]float64 {
		read, err := dxf.Read(strings.NewReader(b.Get(wing+"/file?form=dxf&"+query).Body), outline.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range read.Outlines {
			if o.Layer == "CUT" {
				return boundsOf(o)
			}
		}
		t.Fatal("no cut line in the file")
		return [2]float64{}
	}
	if bare, wide := size("over=0"), size("over=12"); wide[0]-bare[0] < 23.5 || wide[0]-bare[0] > 24.5 || wide[1]-bare[1] < 23.5 || wide[1]-bare[1] > 24.5 {
		t.Errorf("12 mm left over: %v became %v", bare, wide)
	}
}

// take finds a cut that is offered: its link and its path.
var take = regexp.MustCompile(`href="([^"]*)" data-take="([^"]*)"`)

// TestPanel_ReliefCutsLookedFor: a deep crown is more than the hand
// does with ease, and cuts are offered; a gentle one is left whole.
func TestPanel_ReliefCutsLookedFor(t *testing.T) {
	b := bench(t)
	form := url.Values{"id": {"u7"}, "name": {"lamp bowl"}, "panel": {""}, "unit": {"1"}, "note": {""}}
	if got := b.Send(at+"/surface", form, "file", "bowl.obj", crownedOBJ(95)); got.Status != 303 {
		t.Fatalf("%d: %s", got.Status, errorsIn(got.Body))
	}
	got := b.Post(at+"/surface/U7/relief", url.Values{"grade": {"DC01"}, "gauge": {"0.9"}})
	if got.Status != 303 || !strings.Contains(got.See, "search=") {
		t.Fatalf("%d %s: %s", got.Status, got.See, errorsIn(got.Body))
	}
	page := b.Waited(t, got.See)
	lacks(t, page, "Where a cut would help", `data-take="`, "of the panel is still formed by more than 5 % one way once it is made")
	first := take.FindStringSubmatch(page)
	taken := b.Get(html.UnescapeString(first[1])).Body
	lacks(t, taken, "1, drawn", "Where a cut would help")
	if strings.Contains(taken, "no longer fit") || strings.Contains(taken, `data-take="`+first[2]+`"`) {
		t.Error("a cut that is taken is offered again")
	}
	if other := b.Get(strings.Replace(got.See, "grade=DC01", "grade=DC06", 1)).Body; !strings.Contains(other, "no longer fit") || take.MatchString(other) {
		t.Error("cuts for another steel are not marked")
	}
	form.Set("id", "u9")
	b.Send(at+"/surface", form, "file", "lid.obj", crownedOBJ(12))
	whole := b.Post(at+"/surface/U9/relief", url.Values{"grade": {"DC04"}, "gauge": {"0.9"}})
	lacks(t, b.Waited(t, whole.See), "form it in one piece")
}

// TestPanel_AJobAboveAPagesPatience: a fine scan is laid flat in the background;
// the page says so, and has it once it is done.
func TestPanel_AJobAboveAPagesPatience(t *testing.T) {
	b := bench(t)
	form := url.Values{"id": {"u8"}, "name": {"roof corner"}, "panel": {""}, "unit": {"1"}, "note": {""}}
	if got := b.Send(at+"/surface", form, "file", "roof.obj", crownedFine(6, 92)); got.Status != 303 {
		t.Fatalf("%d: %s", got.Status, errorsIn(got.Body))
	}
	first := b.Get(at + "/surface/U8").Body
	lacks(t, first, "It is being laid flat", "data-wait", "too many for a still picture", `"coming":true`)
	lacks(t, b.Waited(t, at+"/surface/U8"), "In one piece.", "No place changes by more than 1 %")
}

// TestPanel_NothingTypedIsLost: a form with one field wrong comes back with the
// rest as it was typed, and what is wrong beside its field.
func TestPanel_NothingTypedIsLost(t *testing.T) {
	b := bench(t)
	lacks(t, b.Get(wing+"?gauge=thick&over=7&grade=DC06&mirror=yes").Body, `value="thick"`, `value="7"`, `value="DC06" selected`, `value="yes" checked`, "gauge-error")
	keep := url.Values{"grade": {"DC06"}, "gauge": {"1.2"}, "over": {"wide"}, "mirror": {"yes"}, "cuts": {"1202 833"}, "blank-id": {"B77"}, "blank-name": {"lower corner of ours"}, "part": {"1"}}
	got := b.Post(wing+"/keep", keep)
	if got.Status != 422 {
		t.Fatalf("%d: %s", got.Status, errorsIn(got.Body))
	}
	lacks(t, got.Body, `value="wide"`, `value="1.2"`, `value="DC06" selected`, `value="yes" checked`, "1202 833</textarea>", `value="B77"`, `value="lower corner of ours"`, "over-error")
	form := url.Values{"id": {"U44"}, "name": {"a lip of ours"}, "panel": {"P60"}, "unit": {"25.4"}, "note": {"rust off"}}
	lacks(t, b.Post(at+"/surface", form).Body, `value="U44"`, `value="a lip of ours"`, `value="P60" selected`, `value="25.4" checked`, `value="rust off"`, "file-error")
}
