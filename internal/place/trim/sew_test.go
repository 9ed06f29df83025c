package trim

import (
	"encoding/json"
	"math"
	"net/url"
	"strings"
	"testing"

	"fettle/build"
)

func TestSew_LayersStandBehindWhatTheyNeed(t *testing.T) {
	b := flatBench(t)
	holds(t, b.Get("/b/pedlar/trim/sew"), 200, "First, in any order", "lies flat only until it is sewn to another", "Sheet for the machine", "no joins in the thread")
	holds(t, b.Get("/b/pedlar/trim/sew?as=paper"), 200, "Stitch sheet", "Times × long", "Motor off")
	var doc struct{ Layers [][]sewStep }
	if err := json.Unmarshal([]byte(b.Get("/b/pedlar/trim/sew?as=json").Body), &doc); err != nil || len(doc.Layers) < 3 {
		t.Fatalf("%d layers, %v", len(doc.Layers), err)
	}
	layer := map[int]int{}
	for n, list := range doc.Layers {
		for _, s := range list {
			layer[s.Number] = n
		}
	}
	for n, list := range doc.Layers {
		for _, s := range list {
			last := -1
			for _, why := range s.Reasons {
				last = max(last, layer[why.Number])
			}
			if last != n-1 {
				t.Errorf("step %d stands in layer %d, what it needs ends in %d", s.Number, n, last)
			}
		}
	}
	if rows := strings.Count(b.Get("/b/pedlar/trim/sew?as=csv").Body, "\n"); rows != len(layer)+1 {
		t.Errorf("%d rows of %d steps", rows, len(layer))
	}
}

func TestSupplies_WantedByATouch(t *testing.T) {
	b := flatBench(t)
	holds(t, b.Get("/b/pedlar/trim/supplies"), 200, "bonded polyester", "no part covers", "sound deadening", "Q58")
	if a := b.Post("/b/pedlar/trim/supplies/want", url.Values{"supply": {"board/hardboard 3.0 mm"}}); a.Status != 303 {
		t.Fatalf("status %d: %.300s", a.Status, a.Body)
	}
	if part, ok := b.Slip(t)[0].(*build.AddPart); !ok || !strings.Contains(part.Part.Name, "hardboard") || part.Part.Task == "" {
		t.Errorf("on the slip: %+v", b.Slip(t)[0])
	}
	holds(t, b.Post("/b/pedlar/trim/supplies/want", url.Values{"supply": {"board/hardboard 3.0 mm"}}), 409)
	holds(t, b.Post("/b/pedlar/trim/supplies/want", url.Values{"supply": {"moonlight"}}), 404)
}

// TestRecipes_WorkedValues are those of the trade: a wheel of 17 in with a grip
// of 28 mm is 1.36 m round and 88 mm longer outside than along its middle, and
// piping of a 4 mm cord in 1.1 mm leather with half an inch of seam is 41 mm.
func TestRecipes_WorkedValues(t *testing.T) {
	b := flatBench(t)
	holds(t, b.Get("/b/pedlar/trim/recipes"), 200, "Steering wheel strip", "Gaiter", "Headliner on bows")
	for query, want := range map[string]string{
		"wheel?rim=431.8&grip=28": "88",
		"piping?length=1000&cord=4&thickness=1.1&allowance=12.7&piece=1800": "41 mm",
		"strap?width=20&thickness=1.2":                                      "43.8 mm",
		"boxing?round=1600&height=100":                                      "1624 mm",
		"pleats?width=300&lines=5&loss=3.175":                               "339.9 mm",
		"cover?girth=1000&under=5":                                          "950.0 mm",
		"gaiter?foot=400&head=120&height=150":                               "°",
		"bolster?length=500&diameter=200":                                   "603.2 mm",
		"bias?roll=1400&length=500&strip=40":                                "17.50 m",
		"board?length=1200&width=900&over=50":                               "1.300 m²",
		"headliner?spans=400+500+400&widths=1200+1250+1250+1200":            "mm",
		"wheel?rim=431.8+20":                                                "is more than one number",
		"wheel?rim=431.8":                                                   "it is not given",
		"strap?width=wide":                                                  "is no",
	} {
		holds(t, b.Get("/b/pedlar/trim/recipes/"+query), 200, want)
	}
	holds(t, b.Get("/b/pedlar/trim/recipes/soup"), 404)
}

// TestRecipes_BecomePieces enters what every recipe gives through the slip.
func TestRecipes_BecomePieces(t *testing.T) {
	for key, one := range map[string]struct {
		form   url.Values
		pieces int
		copies int
		cut    float64 // m² of all, 0 not held
	}{
		"wheel":     {url.Values{"rim": {"380"}, "grip": {"28"}, "spokes": {"90 180 270"}}, 3, 3, 0},
		"piping":    {url.Values{"length": {"4000"}, "cord": {"4"}, "thickness": {"1.1"}, "piece": {"1500"}}, 1, 3, 3 * 1.5 * 0.040022},
		"bias":      {url.Values{"roll": {"1400"}, "length": {"500"}, "strip": {"40"}}, 1, 8, 8 * 1.4 * math.Sqrt2 * 0.04},
		"strap":     {url.Values{"width": {"20"}, "thickness": {"1.2"}, "length": {"300"}}, 1, 1, 0.3 * 0.04377},
		"gaiter":    {url.Values{"foot": {"400"}, "head": {"120"}, "height": {"150"}, "panels": {"4"}}, 1, 4, 0},
		"headliner": {url.Values{"spans": {"400 500 400"}, "widths": {"1200 1250 1250 1200"}}, 5, 5, 0},
		"board":     {url.Values{"length": {"1200"}, "width": {"900"}, "over": {"50"}}, 1, 1, 1.3},
		"bolster":   {url.Values{"length": {"500"}, "diameter": {"200"}}, 2, 3, 0},
		"boxing":    {url.Values{"round": {"1600"}, "height": {"100"}}, 1, 1, 1.624 * 0.124},
	} {
		b := flatBench(t)
		before := b.Now(t)
		for name, v := range map[string]string{"for": "trial", "material": "tan leather", "grade": "B", "times": "1"} {
			one.form.Set(name, v)
		}
		if a := b.Post("/b/pedlar/trim/recipes/"+key, one.form); a.Status != 303 {
			t.Errorf("%s: %d %.600s", key, a.Status, a.Body)
			continue
		}
		keepAll(t, b)
		now := b.Now(t)
		copies, cut := 0, 0.0
		for _, p := range now.Pieces[len(before.Pieces):] {
			own := now.Pattern(p.ID)
			if own == nil || !strings.Contains(own.Why, ", ") || !strings.HasPrefix(p.Name, "trial ") {
				t.Errorf("%s: piece %s %s has no pattern that says why", key, p.ID, p.Name)
				continue
			}
			copies += p.Quantity
			cut += float64(p.Quantity) * own.Cut.Area().M2()
		}
		if n := len(now.Pieces) - len(before.Pieces); n != one.pieces || copies != one.copies || one.cut > 0 && math.Abs(cut-one.cut) > 2e-3 {
			t.Errorf("%s: %d pieces, %d copies, %.4f m²; want %d, %d, %.4f", key, n, copies, cut, one.pieces, one.copies, one.cut)
		}
		if key == "headliner" && len(now.Seams)-len(before.Seams) != 2 {
			t.Errorf("%d seams at two bows", len(now.Seams)-len(before.Seams))
		}
		holds(t, b.Get("/b/pedlar/trim/patterns"), 200, "trial ")
	}
	b := flatBench(t)
	holds(t, b.Post("/b/pedlar/trim/recipes/strap", url.Values{"width": {"20"}, "thickness": {"1.2"}, "material": {""}, "grade": {"B"}, "times": {"1"}}), 422, "is empty")
	holds(t, b.Post("/b/pedlar/trim/recipes/strap", url.Values{"width": {"20"}, "thickness": {"1.2"}, "material": {"tan leather"}, "grade": {"B"}, "times": {"1"}}), 422, "gives no piece")
}
