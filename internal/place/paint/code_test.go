package paint

import (
	"math"
	"slices"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
)

// TestDecode_NumbersAsTyped: a comma is a point, and what is no number of coats or
// degrees is refused, not left out.
func TestDecode_NumbersAsTyped(t *testing.T) {
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	day := file.Build.Promise.In
	s := sheet{Build: &file.Build, Now: day.At(12, 0)}
	if c, err := s.tick("clear P04 2x 18,5C 10:05", day); err != nil || c.Metal != 18.5 || c.Number != 2 || c.At != day.At(10, 5) {
		t.Errorf("%+v, %v", c, err)
	}
	for _, code := range []string{"clear P04 2.5x", "clear P04 nanC", "clear P04 infC", "clear P04 180C"} {
		if _, v, wrong := decode(&file.Build, code); wrong == "" {
			t.Errorf("%q is read as %v", code, v)
		}
	}
}

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
