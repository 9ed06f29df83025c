package paint

import (
	"math"
	"slices"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
)

// FuzzDecode reads any code without harm, and its own codes back.
func FuzzDecode(f *testing.F) {
	file, err := demo.Pedlar()
	if err != nil {
		f.Fatal(err)
	}
	b := &file.Build
	f.Add("base-slackwater P11 P12 3x 18C")
	f.Add("clear @jamb p04 2x")
	f.Add("@ x c")
	f.Fuzz(func(t *testing.T, code string) {
		id, v, wrong := decode(b, code)
		if (wrong == "") != (id != "") {
			t.Fatalf("%q: product %q, wrong %q", code, id, wrong)
		}
		if wrong != "" {
			return
		}
		a := ask{Product: *b.Product(id), Coats: 1, Metal: math.NaN()}
		for _, p := range v["panel"] {
			a.Panels = append(a.Panels, build.PanelID(p))
		}
		if _, again, wrong := decode(b, a.code()); wrong != "" || !slices.Equal(again["panel"], v["panel"]) {
			t.Errorf("%q is written %q and read as %v, %s", code, a.code(), again, wrong)
		}
	})
}
