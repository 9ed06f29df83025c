package trim

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"net/url"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/geom"
	"fettle/internal/account"
	"fettle/internal/placetest"
	"fettle/unit"
)

const photosOfH4 = "/b/pedlar/trim/hide/H4/photo"

func photoBench(t *testing.T) *placetest.Bench {
	t.Helper()
	return &placetest.Bench{Shop: trimShop(t)}
}

// blank is a photo of nothing.
func blank(t *testing.T, w, h int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, image.NewGray(image.Rect(0, 0, w, h)), nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// takeOne sends a photo of H4 and returns the path of its page.
func takeOne(t *testing.T, b *placetest.Bench) string {
	t.Helper()
	got := b.Send(photosOfH4, url.Values{"what": {"morning light"}}, "photo", "hide.jpg", blank(t, 2000, 1500))
	if got.Status != 303 || !strings.HasPrefix(got.See, photosOfH4+"/") {
		t.Fatalf("%d to %q: %.300s", got.Status, got.See, got.Body)
	}
	return got.See
}

// seen is a photo taken square on in which a pixel is 2 mm: a rectangle of 2400
// by 2000 mm, and in it a hide of 2000 by 1800.
func seen(more ...string) url.Values {
	f := url.Values{"with": {byRectangle}, "across": {"2400"}, "up": {"2000"}, "tape": {"2"}, "do": {"use"},
		"reference": {"400 1250\n1600 1250\n1600 250\n400 250"}, "outline": {"500 1200\n1500 1200\n1500 300\n500 300"},
		"straight": {""}, "faults": {""}, "zones": {""}, "stretch": {""}, "checks": {""}}
	for i := 0; i+1 < len(more); i += 2 {
		f.Set(more[i], more[i+1])
	}
	return f
}

func TestPhoto_TakenAndChosen(t *testing.T) {
	b := photoBench(t)
	holds(t, b.Get(photosOfH4), 200, "No photo of this hide yet", "20–40 mm")
	for name, data := range map[string][]byte{"a.txt": []byte("hello"), "a.pdf": []byte("%PDF-1.4 no picture"), "cut.jpg": blank(t, 40, 30)[:60]} {
		holds(t, b.Send(photosOfH4, nil, "photo", name, data), 422, "The photo ")
	}
	holds(t, b.Post(photosOfH4, url.Values{}), 422, "is not chosen")
	at := takeOne(t, b)
	if again := b.Send(photosOfH4, nil, "photo", "hide.jpg", blank(t, 2000, 1500)); again.See != at || len(b.Now(t).Photos) == 0 {
		t.Errorf("the same photo again leads to %q", again.See)
	}
	holds(t, b.Get(photosOfH4), 200, "morning light", at)
	holds(t, b.Get(at), 200, `viewBox="0 0 2000 1500"`, "What is known in the photo", "data-trace")
	holds(t, b.Get(photosOfH4+"/"+strings.Repeat("0", 64)), 404)
	holds(t, b.Get(strings.Replace(at, "H4", "H5", 1)), 404)
	b.As(account.Guest)
	holds(t, b.Get(photosOfH4), 403)
	holds(t, b.Post(at, seen()), 403)
}

// TestPhoto_Upright counts pixels as the photo stands by its orientation.
func TestPhoto_Upright(t *testing.T) {
	b := photoBench(t)
	exif := []byte("\xff\xe1\x00\x22Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00")
	data := slices.Insert(blank(t, 400, 300), 2, exif...)
	got := b.Send(photosOfH4, nil, "photo", "lying.jpg", data)
	holds(t, b.Get(got.See), 200, `viewBox="0 0 300 400"`)
}

// TestTraced_InMillimetres: what is marked in pixels goes on the slip in mm.
func TestTraced_InMillimetres(t *testing.T) {
	b := photoBench(t)
	at := takeOne(t, b)
	full := seen("faults", "hole: 600 400, 620 400\nscar B: 700 700, 760 700, 760 720", "zones", "B belly: 500 1200, 1500 1200, 1500 1150, 500 1150",
		"stretch", "1000 900, 1200 900\n800 600, 900 500", "checks", "500 1250, 1500 1250 = 2000")
	full.Set("do", "work")
	holds(t, b.Post(at, full), 200, "3.60 ± 0.0", "they agree", "that the tannery stamped", "No straight edge is marked", "how far the line may be off")
	full.Set("checks", "500 1250, 1500 1250 = 2300")
	holds(t, b.Post(at, full), 200, "they do not agree")
	full.Set("do", "use")
	if got := b.Post(at, full); got.See != "/b/pedlar/slip" {
		t.Fatalf("%d to %q: %.300s", got.Status, got.See, got.Body)
	}
	slip := b.Slip(t)
	if len(slip) != 3 {
		t.Fatalf("%d changes lie on the slip", len(slip))
	}
	c := slip[0].(*build.DrawHide)
	if c.Hide != "H4" || math.Abs(c.Outline.Area().M2()-3.6) > 1e-3 || c.OutlineError < 3*unit.Millimetre || c.OutlineError > 15*unit.Millimetre || !strings.HasSuffix(at, string(c.Photo)) {
		t.Errorf("drawn %.4f m², to within %s, from %s", c.Outline.Area().M2(), c.OutlineError, c.Photo)
	}
	near := func(what string, got build.Spot, x, y float64) {
		if math.Abs(got[0].Mm()-x) > 0.1 || math.Abs(got[1].Mm()-y) > 0.1 {
			t.Errorf("%s lies at %v, want %g, %g", what, got, x, y)
		}
	}
	near("the lower left corner", c.Outline.Outer[0], 0, 0)
	near("the corner of the belly", c.Zones[0].Shape.Outer[2], 2000, 100)
	near("the arrow", c.Headings[0].At, 1200, 600)
	if a := c.Headings; math.Abs(a[0].Angle) > 0.1 || math.Abs(a[1].Angle-45) > 0.1 {
		t.Errorf("arrows at %g and %g", a[0].Angle, a[1].Angle)
	}
	hole, scar := slip[1].(*build.MarkHide).Mark, slip[2].(*build.MarkHide).Mark
	if box := hole.Shape.Polygon().Bounds(); hole.Grade != "" || math.Abs(box.Width()-80) > 6 || !hole.Shape.Polygon().Contains(geom.Point{X: 239, Y: 1600}) {
		t.Errorf("hole %+v", hole)
	}
	if scar.Kind != "scar" || scar.Grade != "B" || scar.ID == hole.ID {
		t.Errorf("scar %+v", scar)
	}
}

// TestTraced_Back turns a hide over whose back is seen, and takes off what lay
// where the old drawing lay.
func TestTraced_Back(t *testing.T) {
	b := photoBench(t)
	at := takeOne(t, b)
	if got := b.Post(at, seen("back", "yes", "faults", "hole: 510 400, 520 400")); got.Status != 303 {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	box := b.Slip(t)[1].(*build.MarkHide).Mark.Shape.Polygon().Bounds()
	if mid := (box.Min.X + box.Max.X) / 2; math.Abs(mid-1980) > 0.2 {
		t.Errorf("seen from the back the hole lies at %.1f, want 1980", mid)
	}
	b = &placetest.Bench{Shop: trimShop(t)}
	now := b.Now(t)
	marks := len(now.Hide("H3").Marks)
	got := b.Send(strings.Replace(photosOfH4, "H4", "H3", 1), nil, "photo", "hide.jpg", blank(t, 2000, 1500))
	holds(t, b.Get(got.See), 200, fmt.Sprintf("take off the %d marks", marks))
	if got := b.Post(got.See, seen("renew", "yes")); got.Status != 303 {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	if slip := b.Slip(t); len(slip) < 1+marks || slip[1].Kind() != "clear-mark" {
		t.Errorf("%d changes on the slip", len(slip))
	}
}

// TestTraced_OtherReferences: sheets of paper, measured marks, and a stick,
// whose error is larger.
func TestTraced_OtherReferences(t *testing.T) {
	sheet := func(x, y int) string {
		return fmt.Sprintf("%d %d\n%d %d\n%d %d\n%d %d\n", x, y, x+150, y, x+150, y-105, x, y-105)
	}
	off := map[string]unit.Length{}
	for with, f := range map[string]url.Values{
		byRectangle: seen(),
		bySheets:    seen("with", bySheets, "across", "300", "up", "210", "reference", sheet(300, 1350)+sheet(1600, 1340)+sheet(1580, 250)+sheet(280, 240)+sheet(200, 800)+sheet(1700, 800)),
		byPoints:    seen("with", byPoints, "across", "", "up", "", "reference", "400 1250 0 0\n1600 1250 2400 0\n1600 250 2400 2000\n400 250 0 2000\n1000 250 1200 2000"),
		byStick:     seen("with", byStick, "up", "", "reference", "400 1250\n1600 1250"),
	} {
		b := photoBench(t)
		if got := b.Post(takeOne(t, b), f); got.Status != 303 {
			t.Errorf("%s: %d %.600s", with, got.Status, got.Body[strings.Index(got.Body, "wrong"):])
			continue
		}
		c := b.Slip(t)[0].(*build.DrawHide)
		if math.Abs(c.Outline.Area().M2()-3.6) > 0.005 {
			t.Errorf("%s: %.3f m², want 3.6", with, c.Outline.Area().M2())
		}
		off[with] = c.OutlineError
	}
	if !(off[byRectangle] < off[byStick] && off[byPoints] < off[byStick]) {
		t.Errorf("errors %v: that of a stick is the largest", off)
	}
}

func TestTraced_RefusesBesideTheField(t *testing.T) {
	b := photoBench(t)
	at := takeOne(t, b)
	for _, tt := range []struct{ field, value, want string }{
		{"outline", "", "it has 0 points"}, {"outline", "500 1200\n1500 300\n1500 1200\n500 300", "edge"}, {"outline", "500 1200\n1500 1200\n9000 300", "point 3: it lies outside the picture"},
		{"reference", "400 1250\n1600 1250\n1600 250", "has 3 places: mark 4 corners"}, {"reference", "400 250\n1600 250\n1600 1250\n400 1250", "wrong way round"},
		{"reference", "400 1250\n1000 1250\n1600 1251\n400 250", "marks 1, 2 and 3 lie nearly on one line"}, {"reference", "left", "no number"}, {"reference", "1 2 3", "odd number"},
		{"across", "", "number"}, {"with", "guess", "must be one of"}, {"faults", "dent: 1 2, 3 4", "does not begin with a kind"}, {"faults", "hole: 1 2", "hole of 1"},
		{"zones", "belly 1 2", "does not begin with a grade"}, {"stretch", "1 2, 3 4, 5 6", "arrow 1"}, {"checks", "1 2, 3 4", "what the tape says"}, {"straight", "10 10, 900 12", "line 1: it has 2 points"},
	} {
		got := b.Post(at, seen(tt.field, tt.value))
		holds(t, got, 422, tt.want, `href="#`+tt.field+`"`)
		if len(b.Slip(t)) > 0 {
			t.Fatalf("%s %q: something lies on the slip", tt.field, tt.value)
		}
		if tt.field != "outline" && !strings.Contains(got.Body, "500 1200\n1500 1200") {
			t.Errorf("%s: what was typed is lost", tt.field)
		}
	}
}

// TestBulge finds the bend that a straight edge leaves out, and no corner.
func TestBulge(t *testing.T) {
	var ring []build.Spot
	for i := range 12 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
		ring = append(ring, build.Spot{unit.Length(1e6 * cos), unit.Length(1e6 * sin)})
	}
	// A circle of 1000 mm in twelve chords: 1000 (1 − cos 15°) = 34.
	if got := bulge(build.Shape{Outer: ring}.Polygon().Outer); !strings.Contains(got, "bulge 34 mm") && !strings.Contains(got, "bulge 33 mm") {
		t.Errorf("a round hide: %q", got)
	}
	if got := bulge(build.Box(unit.Metre, unit.Metre).Polygon().Outer); got != "" {
		t.Errorf("a box: %q", got)
	}
}

func FuzzReadTraced(f *testing.F) {
	f.Add("hole: 1 2, 3 4\nscar B: 1 1, 5 1, 5 5", "1 2, 3 4 = 5", "1 2 3 4\n5 6 7 8")
	f.Add(" C:", "=", "−1,2")
	f.Fuzz(func(t *testing.T, faults, checks, reference string) {
		list, err := readFaults(faults)
		for _, m := range list {
			if err == nil && (len(m.At) < 2 || !slices.Contains(build.MarkKinds(), m.Kind)) {
				t.Errorf("read %+v", m)
			}
		}
		_, _ = readChecks(checks)
		for _, with := range []string{byRectangle, bySheets, byPoints, byStick} {
			_, _ = readReference(reference, with, 100, 100)
		}
	})
}

// TestTraced_PieceBecomesAPattern traces a panel of 400 × 300 mm, a little out of
// square, within a taped rectangle, and squares it up.
func TestTraced_PieceBecomesAPattern(t *testing.T) {
	b := photoBench(t)
	photos := "/b/pedlar/trim/pattern/T33/photo"
	holds(t, b.Get(photos), 200, "No photo of it yet", "a paper rubbing")
	taken := b.Send(photos, url.Values{"what": {"the old card"}}, "photo", "card.jpg", blank(t, 2000, 1500))
	if taken.Status != 303 {
		t.Fatalf("%d %.300s", taken.Status, taken.Body)
	}
	holds(t, b.Get(taken.See), 200, "square it up", "data-tool=\"outline\"")
	if page := b.Get(taken.See).Body; strings.Contains(page, "data-tool=\"zones\"") {
		t.Error("a panel is asked for zones of a hide")
	}
	// Two pixels are a millimetre: a rectangle of 900 × 600 mm about it.
	full := url.Values{"with": {"rectangle"}, "across": {"900"}, "up": {"600"}, "tape": {"1"}, "reference": {"100 1350\n1900 1350\n1900 150\n100 150"},
		"outline": {"600 1050\n1400 1050\n1402 450\n600 448"}, "straight": {""}, "checks": {""}, "note": {""}}
	full.Set("do", "work")
	holds(t, b.Post(taken.See, full), 200, "On the table", "inside the line", "If it is squared up", "corners move")
	full.Set("do", "use")
	full.Set("square", "yes")
	if a := b.Post(taken.See, full); a.See != "/b/pedlar/slip" {
		t.Fatalf("%d %.500s", a.Status, a.Body)
	}
	p := b.Slip(t)[0].(*build.SetPattern).Pattern
	if p.Source.Kind != build.FromPhoto || len(p.Edges) != 4 || len(p.Sewn) != 4 {
		t.Fatalf("%d edges, %d corners, from %s", len(p.Edges), len(p.Sewn), p.Source.Kind)
	}
	line := build.Shape{Outer: p.Sewn}.Polygon().Outer
	for i, q := range line {
		on, back := line[(i+1)%4].Sub(q), line[(i+3)%4].Sub(q)
		want := 400.5
		if math.Abs(on.Y) > math.Abs(on.X) {
			want = 300.5
		}
		square := math.Asin((on.X*back.X+on.Y*back.Y)/(q.Distance(line[(i+1)%4])*q.Distance(line[(i+3)%4]))) * 180 / math.Pi
		if got := q.Distance(line[(i+1)%4]); math.Abs(got-want) > 0.6 || math.Abs(square) > 0.02 {
			t.Errorf("side %d is %.2f mm, %.3f° out of square", i+1, got, square)
		}
	}
	// The next from a photo says why.
	keepAll(t, b)
	holds(t, b.Post(taken.See, full), 422, "say why the pattern is revised")
	holds(t, b.Get("/b/pedlar/trim/pattern/T33"), 200, "a photo")
}
