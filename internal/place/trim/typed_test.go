package trim

import (
	"html"
	"net/url"
	"regexp"
	"testing"
)

// TestForms_NothingTypedIsLost sends each form with one field wrong: what stands
// in the others is there again. A value is told apart by being like no other on
// the page.
func TestForms_NothingTypedIsLost(t *testing.T) {
	b := drawnBench(t)
	trim := "/b/pedlar/trim"
	for _, one := range []struct {
		to    string
		wrong string // a field that does not hold
		form  url.Values
		picks []string // values that are ticked or picked
	}{
		{t33 + "/edges", "name-front", url.Values{"name-front": {""}, "name-rear": {"hind"}, "allow-rear": {"17.5"}, "seam-rear": {"french"}, "why": {"wiser"}}, []string{"french"}},
		{t33 + "/outline", "outline", url.Values{"outline": {"0 0\n123"}, "unit": {"25.4"}, "why": {"wiser"}}, nil},
		{t33 + "/drawn", "drawn", url.Values{"drawn": {"wish: 1 2"}, "why": {"wiser"}}, nil},
		{t33 + "/pleats", "count", url.Values{"count": {"many"}, "loss": {"1.75"}, "angle": {"33"}, "why": {"wiser"}}, nil},
		{t33 + "/motif", "x", url.Values{"x": {"left"}, "name": {"crest of ours"}, "kind": {"cut"}, "wide": {"91"}, "turn": {"12.5"}, "reads": {"yes"}, "why": {"wiser"}}, []string{"cut", "yes"}},
		{t33 + "/clips", "pitch", url.Values{"pitch": {"often"}, "edge": {"rear", "left"}, "inset": {"13.5"}, "diameter": {"7.5"}, "off": {"44"}, "why": {"wiser"}}, []string{"rear", "left"}},
		{t33 + "/label", "axis", url.Values{"axis": {"up"}, "tolerance": {"7.5"}, "label": {"keep dry"}, "why": {"wiser"}}, nil},
		{t33 + "/twin", "id", url.Values{"id": {"T01"}, "name": {"the far one"}}, nil},
		{cushion + "/keep", "part", url.Values{"part": {"seven"}, "piece": {"T07"}, "why": {"a wiser line"}, "pull-along": {"6.5"}, "cuts": {"19 760"}, "material": {"vinyl"}}, []string{"T07", "vinyl"}},
		{cushion + "/keep", "pull-along", url.Values{"pull-along": {"far"}, "pull-across": {"7.5"}, "part": {"1"}, "piece": {"T07"}, "why": {"a wiser line"}, "material": {"vinyl"}}, []string{"T07", "vinyl"}},
		{trim + "/recipes/wheel", "times", url.Values{"times": {"often"}, "rim": {"401"}, "grip": {"31"}, "for": {"the far wheel"}, "material": {"tan leather"}, "grade": {"B"}}, nil},
		{trim + "/surface", "file", url.Values{"id": {"U44"}, "name": {"the far cushion"}, "unit": {"25.4"}, "note": {"hair off"}}, []string{"25.4"}},
	} {
		a := b.Post(one.to, one.form)
		holds(t, a, 422, "field-error")
		stands(t, one.to+", "+one.wrong, a.Body, one.form, one.picks)
	}
	stands(t, "what is asked of a surface", b.Get(cushion+"?pull-along=far&push-across=0.5&grain=12").Body, url.Values{"pull-along": {"far"}, "push-across": {"0.5"}, "grain": {"12"}}, nil)
}

// stands tells which values of a form a page does not show again.
func stands(t *testing.T, what, page string, form url.Values, picks []string) {
	t.Helper()
	picked := map[string]bool{}
	for _, v := range picks {
		picked[v] = true
		if !regexp.MustCompile(`value="` + regexp.QuoteMeta(v) + `" (checked|selected)`).MatchString(page) {
			t.Errorf("%s: %q is no longer picked", what, v)
		}
	}
	for name, values := range form {
		v := html.EscapeString(values[0])
		if v == "" || picked[v] {
			continue
		}
		one := regexp.MustCompile(`(?s)<input[^>]* name="` + name + `"[^>]* value="` + regexp.QuoteMeta(v) + `"|<textarea[^>]* name="` + name + `"[^>]*>` + regexp.QuoteMeta(v) + `</textarea>|<option value="` + regexp.QuoteMeta(v) + `" selected`)
		if !one.MatchString(page) {
			t.Errorf("%s: %s no longer says %q", what, name, v)
		}
	}
}
