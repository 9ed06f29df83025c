package look_test

import (
	"bytes"
	"html"
	"image"
	"image/color"
	"image/png"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/placetest"
	"fettle/internal/vault"
)

// photographed is a PNG of a grey, a teal and an off-white field, 1500 × 1000, with
// a white glare at the right.
func photographed(t *testing.T) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 1500, 1000))
	fields := []color.RGBA{{0x80, 0x80, 0x80, 255}, {0x1F, 0x4A, 0x55, 255}, {0xED, 0xE7, 0xD6, 255}}
	for y := range 1000 {
		for x := range 1500 {
			m.SetRGBA(x, y, fields[min(x/500, 2)])
			if x > 1400 {
				m.SetRGBA(x, y, color.RGBA{255, 255, 255, 255})
			}
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

var hidden = regexp.MustCompile(`<input type="hidden" name="(picture|kept|photo)" value="([^"]*)"`)

// carry takes what a page's form carries along.
func carry(body string, f url.Values) url.Values {
	for _, one := range hidden.FindAllStringSubmatch(body, -1) {
		f.Set(one[1], html.UnescapeString(one[2]))
	}
	return f
}

func kept(t *testing.T, b *placetest.Bench) int {
	t.Helper()
	n := 0
	if err := b.Desk.Vault.Walk(t.Context(), func(vault.Photo, error) error { n++; return nil }); err != nil {
		t.Fatal(err)
	}
	return n
}

// TestTouch_ThreePatches: each touch places a patch, and the estimate fills the form
// of the card in with its error; nothing is kept.
func TestTouch_ThreePatches(t *testing.T) {
	b := placetest.New(t, places)
	before := kept(t, b)
	has(t, b.Get(at+"/card?product=base-limewash").Body, at+"/picture?product=base-limewash")
	page := b.Send(at+"/picture", url.Values{"product": {"base-limewash"}}, "photo", "card.png", photographed(t))
	if page.Status != 200 {
		t.Fatalf("%d %.300s", page.Status, page.Body)
	}
	has(t, page.Body, `type="image" name="touch" src="data:image/png;base64,`, `width="500" height="333"`, "not placed yet", `value="face-1" selected`, "The photograph is not kept")
	if first := strings.Index(page.Body, "Read the typed places"); first > strings.Index(page.Body, `type="image"`) {
		t.Error("the Enter key would touch the corner of the picture")
	}
	f := url.Values{"product": {"base-limewash"}, "grey-lab": {"53.6 0 0"}, "patch-lab": {"29.0 -11.1 -11.0"}, "photo-to": {"face-1"}}
	for i, key := range []string{"grey", "patch", "card"} {
		f.Set("next", key)
		f.Set("touch.x", []string{"80", "250", "400"}[i])
		f.Set("touch.y", "160")
		page = b.Post(at+"/picture", carry(page.Body, f))
		if page.Status != 200 {
			t.Fatalf("touching %s: %d %.300s", key, page.Status, page.Body)
		}
		f.Set("at-"+key, f.Get("touch.x")+" 160")
		has(t, page.Body, `value="`+f.Get("at-"+key)+`"`)
	}
	has(t, page.Body, "#808080, pixels spread by 0.0 of 255", "#1F4A55")
	f.Del("touch.x")
	f.Del("touch.y")
	f.Set("do", "estimate")
	got := b.Post(at+"/picture", f)
	if got.Status != 200 {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	has(t, got.Body, "two in three within", "91.7 -0.8 9.0 ± 2.0", "no match")
	if n := kept(t, b) - before; n != 0 || len(b.Slip(t)) != 0 || strings.Contains(got.Body, `name="photo" value`) {
		t.Errorf("%d photos are kept though nobody said so", n)
	}
}

// TestTouch_RefusesBesideTheField: glare, edges, places that are none, no picture.
func TestTouch_RefusesBesideTheField(t *testing.T) {
	b := placetest.New(t, places)
	page := b.Send(at+"/picture", url.Values{"product": {"base-limewash"}}, "photo", "card.png", photographed(t))
	for _, tt := range []struct{ field, value, want string }{
		{"at-card", "490 160", "pixels clipped"}, {"at-grey", "166 160", "is uneven"}, {"at-patch", "2 2", "lies at the edge"}, {"at-grey", "here", "is no place"},
		{"at-grey", "5", "is no place"}, {"at-grey", "", "is not placed yet"}, {"grey-lab", "x", "is no Lab"}, {"at-patch", "400 160", "misses by"}, {"picture", "?", "came back damaged"},
		{"picture", "", "it is not chosen"}, {"photo-to", "roof", "must be one of"}, {"next", "sky", "must be one of"},
	} {
		f := carry(page.Body, url.Values{"product": {"base-limewash"}, "grey-lab": {"53.6 0 0"}, "patch-lab": {"29.0 -11.1 -11.0"}, "photo-to": {"face-1"},
			"at-grey": {"80 160"}, "at-patch": {"250 160"}, "at-card": {"400 160"}, "do": {"estimate"}})
		f.Set(tt.field, tt.value)
		if got := b.Post(at+"/picture", f); got.Status != 422 || !strings.Contains(got.Body, tt.want) || !strings.Contains(got.Body, "field-error") {
			t.Errorf("%s %q: %d without %q beside a field", tt.field, tt.value, got.Status, tt.want)
		}
	}
	if got := b.Send(at+"/picture", url.Values{"product": {"base-limewash"}}, "photo", "card.gif", []byte("GIF89a")); got.Status != 422 || !strings.Contains(got.Body, "neither a JPEG nor a PNG") {
		t.Errorf("a GIF: %d", got.Status)
	}
}

// TestTouch_KeepsThePhotoWithTheCard: only where it is ticked, and on the slip with
// the card.
func TestTouch_KeepsThePhotoWithTheCard(t *testing.T) {
	b := placetest.New(t, places)
	before := kept(t, b)
	page := b.Send(at+"/picture", url.Values{"product": {"base-limewash"}, "keep": {"yes"}}, "photo", "card.png", photographed(t))
	if n := kept(t, b) - before; n != 1 {
		t.Fatalf("%d photos are kept, want 1", n)
	}
	f := carry(page.Body, url.Values{"product": {"base-limewash"}, "grey-lab": {"53.6 0 0"}, "patch-lab": {"29.0 -11.1 -11.0"}, "photo-to": {"face-1"},
		"at-grey": {"80 160"}, "at-patch": {"250 160"}, "at-card": {"400 160"}, "do": {"estimate"}})
	card := carry(b.Post(at+"/picture", f).Body, aCard())
	if got := b.Post(at+"/card", card); got.Status != 303 {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	slip := b.Slip(t)
	photo, ok := slip[len(slip)-1].(*build.AddPhoto)
	if !ok || photo.Photo.Of != "card/"+card.Get("id") || len(photo.Photo.Hash) != 64 {
		t.Fatalf("the slip ends with %+v", slip[len(slip)-1])
	}
	b.KeepSlip(t)
	has(t, b.Get(at+"/paint/base-limewash").Body, "The photograph", "/photo/"+string(photo.Photo.Hash))
}
