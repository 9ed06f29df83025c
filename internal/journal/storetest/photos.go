package storetest

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/fault"
	"fettle/internal/journal"
)

// RunPhotos runs the suite of a store of photo records; open returns an empty
// store each time.
func RunPhotos(t *testing.T, open func(t *testing.T) journal.Photos) {
	t.Run("Photos/kept once, listed by hash", func(t *testing.T) { photosKept(t, open(t)) })
	t.Run("Photos/refusals", func(t *testing.T) { photosRefused(t, open(t)) })
}

func photo(digit string) journal.Photo {
	return journal.Photo{Hash: strings.Repeat(digit, 64), Size: 12, Media: "image/jpeg", Person: "Inka", Kept: noon}
}

func photosKept(t *testing.T, s journal.Photos) {
	again := photo("b")
	again.Person = "Tove"
	for _, p := range []journal.Photo{photo("b"), photo("a"), again, photo("c")} {
		if err := s.SavePhoto(t.Context(), p); err != nil {
			t.Fatalf("SavePhoto: %v", err)
		}
	}
	got, err := s.Photos(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]journal.Photo{photo("a"), photo("b"), photo("c")}, got); d != "" {
		t.Errorf("photos (-want +got):\n%s", d)
	}
	one, err := s.Photo(t.Context(), photo("b").Hash)
	if err != nil || !cmp.Equal(one, photo("b")) {
		t.Errorf("photo b: got %v, %v", one, err)
	}
	_, err = s.Photo(t.Context(), photo("d").Hash)
	wantKind(t, "a photo without a record", err, fault.NotFound)
}

func photosRefused(t *testing.T, s journal.Photos) {
	for _, c := range []struct {
		where string
		spoil func(*journal.Photo)
	}{
		{"hash", func(p *journal.Photo) { p.Hash = strings.ToUpper(p.Hash) }},
		{"hash", func(p *journal.Photo) { p.Hash = "../../etc" }},
		{"size", func(p *journal.Photo) { p.Size = 0 }},
		{"media", func(p *journal.Photo) { p.Media = "" }},
		{"person", func(p *journal.Photo) { p.Person = "" }},
	} {
		p := photo("a")
		c.spoil(&p)
		wantInvalidAt(t, s.SavePhoto(t.Context(), p), c.where)
	}
}
