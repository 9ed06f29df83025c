package trim

import (
	"net/url"
	"reflect"
	"slices"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
)

func nounOf(t *testing.T, key string) noun {
	t.Helper()
	i := slices.IndexFunc(nouns(), func(n noun) bool { return n.Key == key })
	if i < 0 {
		t.Fatalf("no noun %s", key)
	}
	return nouns()[i]
}

// formOf is a form of the sewing as it stands, ready to be sent.
func formOf(b *build.Build, n noun, id string) url.Values {
	return placetest.Filled(id, n.Form(sheet{Build: b}, id))
}

// TestFacts_SentAsTheyStand sends every fact of the sewing back as its form shows
// it: nothing may change.
func TestFacts_SentAsTheyStand(t *testing.T) {
	b := flatBench(t)
	now := b.Now(t)
	count := 0
	for _, n := range nouns() {
		holds(t, b.Get("/b/pedlar/trim/sewn/"+n.Key), 200, n.Many, "Enter "+n.One)
		for _, row := range n.List(&now) {
			one := formOf(&now, n, row.ID)
			holds(t, b.Get("/b/pedlar/trim/sewn/"+n.Key+"/"+row.ID), 200, "Take it off the list")
			if a := b.Post("/b/pedlar/trim/sewn/"+n.Key, one); a.Status != 303 {
				t.Fatalf("%s %s: %d %.600s", n.Key, row.ID, a.Status, a.Body)
			}
			count++
		}
	}
	next := now.Clone()
	for _, c := range b.Slip(t) {
		if err := c.Apply(&next); err != nil {
			t.Fatal(err)
		}
	}
	if count < 40 || !reflect.DeepEqual(now, next) {
		for _, n := range nouns() {
			for i, row := range n.List(&now) {
				if again := n.List(&next)[i]; !reflect.DeepEqual(row, again) {
					t.Errorf("%s %s: %v, was %v", n.Key, row.ID, again, row)
				}
			}
		}
		t.Errorf("%d facts sent back as they stand have changed the build", count)
	}
}

func TestFacts_EnteredAndTakenOut(t *testing.T) {
	b := flatBench(t)
	at := "/b/pedlar/trim/sewn/"
	holds(t, b.Get(at+"seam/new"), 200, "Enter a seam", "Edge 1 of side A", "T01 right, ")
	seam := url.Values{"new": {"yes"}, "id": {"z90"}, "name": {"a trial"}, "kind": {"plain"}, "a-1": {"T01|right|"}, "a-2": {""}, "b-1": {"T02|inner|mirror"}, "times": {"2"}, "pitch": {"3.5"}, "thread": {"L1"}, "ease": {"1.5"}, "top": {""}, "stack": {""}, "length": {""}, "cord": {""}, "piping": {""}, "corners": {""}, "after": {"z11, Z12"}, "inside": {""}, "match": {"0.5 0.48"}, "note": {""}}
	if a := b.Post(at+"seam", seam); a.Status != 303 {
		t.Fatalf("%d %.500s", a.Status, a.Body)
	}
	c, ok := b.Slip(t)[0].(*build.SetSeam)
	if !ok || c.Seam.ID != "Z90" || len(c.Seam.A) != 1 || !c.Seam.B[0].Mirrored || c.Seam.Ease != 1.5 || len(c.Seam.After) != 2 || c.Seam.Match[0].B != 0.48 {
		t.Errorf("on the slip: %+v", b.Slip(t)[0])
	}
	if a := b.Post(at+"glue/G1/drop", nil); a.Status != 303 {
		t.Errorf("a glued joint taken off: %d", a.Status)
	}
	holds(t, b.Post(at+"thread/L1/drop", nil), 422, "is still named")
	holds(t, b.Post(at+"thread/L77/drop", nil), 404)
	holds(t, b.Get(at+"moonlight"), 404)
	holds(t, b.Get(at+"seam/Z77"), 404)
	b.As(account.Guest)
	holds(t, b.Get(at+"seam/Z11"), 200, "driver cushion, centre to right side")
	holds(t, b.Get(at+"seam"), 200, "driver cushion")
}

func TestFacts_SayWhatIsWrongBesideIt(t *testing.T) {
	b := flatBench(t)
	at := "/b/pedlar/trim/sewn/"
	now := b.Now(t)
	for _, one := range []struct {
		what, id, name, value, says string
	}{
		{"seam", "Z11", "a-1", "", "Edge 1 of side A is empty"},
		{"seam", "Z11", "kind", "hem", "is one too many"},
		{"seam", "Z11", "after", "Z77", "Sewn after does not hold"},
		{"seam", "Z11", "match", "0.5 0.2 1", "Places that must meet has a line"},
		{"seam", "Z11", "pitch", "400", "Stitch must be from"},
		{"seam", "Z11", "cord", "C1", "does not hold"},
		{"thread", "L1", "tex", "", "Tex is empty"},
		{"foam", "F1", "pieces", "T99", "Pieces that cover it does not hold"},
		{"deadener", "E1", "panels", "P999", "Panels it is on does not hold"},
		{"glue", "G1", "faces", "3", "must be from 1 to 2"},
		{"board", "D1", "shape", "1 2 3", "odd number"},
	} {
		n := nounOf(t, one.what)
		form := formOf(&now, n, one.id)
		form.Set(one.name, one.value)
		holds(t, b.Post(at+one.what, form), 422, one.says)
	}
	n := nounOf(t, "cord")
	form := formOf(&now, n, "C1")
	form.Set("new", "yes")
	holds(t, b.Post(at+"cord", form), 422, "Number is taken")
}

// TestFacts_EmptyOnes says what to enter where a shop has none.
func TestFacts_EmptyOnes(t *testing.T) {
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	b := placetest.NewOf(t, file, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
	for _, n := range nouns() {
		holds(t, b.Get("/b/"+file.Build.Name+"/trim/sewn/"+n.Key), 200, "None is entered yet")
		holds(t, b.Get("/b/"+file.Build.Name+"/trim/sewn/"+n.Key+"/new"), 200, "Enter "+n.One)
	}
}
