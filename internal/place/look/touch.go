package look

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"io"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/vault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/takeoff/sprayout"
)

// patch is one of the three places of a photograph.
type patch struct {
	Key, Label string
	At         string // as it was typed or touched: x y, in pixels
	Spot       sprayout.Spot
	Read       bool
	place      image.Point
}

// touchPage is a photograph whose patches are touched. The picture travels in the
// form: nothing is kept of it unless the person says so.
type touchPage struct {
	cardPage
	Picture *image.RGBA // nil before one is chosen
	Kept    string      // the hash of the photo in the vault; empty where it is not kept
	Patches []patch
	Next    string // the patch that the next touch places
}

func (s scene) touchPage(product string) (touchPage, error) {
	page := touchPage{Next: "grey", Patches: []patch{{Key: "grey", Label: "Grey patch"}, {Key: "patch", Label: "Colour patch"}, {Key: "card", Label: "Paint patch"}}}
	var err error
	page.cardPage, err = s.cardPage(product)
	return page, err
}

// blankTouch asks for the photograph.
func (p place) blankTouch(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page, err := s.touchPage(r.Query("product"))
	if err != nil {
		return err
	}
	return p.desk.Page(r, p.sheet("a photographed card"), showTouch(page))
}

// touch takes a photograph in, or a touch on it, and shows it with its patches;
// asked to estimate, it fills the form of the card in.
func (p place) touch(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page, err := s.touchPage(f.Raw("product"))
	if err != nil {
		return err
	}
	for _, name := range []string{"grey-lab", "patch-lab", "photo-to"} {
		if f.Has(name) {
			page.Sent[name] = f.Raw(name)
		}
	}
	if err := p.takePicture(r, f, &page); err != nil {
		return err
	}
	if page.Picture != nil {
		page.read(f)
	}
	asked := f.Raw("do") == "estimate" && page.Picture != nil
	if asked && f.Err() == nil {
		if card, ok := page.estimated(f); ok {
			return p.desk.Page(r, p.sheet("enter a card"), showCard(card))
		}
	}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(p.sheet("a photographed card"), showTouch(page))
	}
	return p.desk.Page(r, p.sheet("a photographed card"), showTouch(page))
}

// takePicture unpacks the picture that was chosen, or that the form carries; one
// at a time, for a large one takes much memory.
func (p place) takePicture(r *web.Request, f *web.Form, page *touchPage) error {
	select {
	case p.unpacking <- struct{}{}:
		defer func() { <-p.unpacking }()
	case <-r.Context().Done():
		return r.Context().Err()
	}
	var err error
	file, _ := f.File("photo")
	switch {
	case file != nil:
		defer file.Close()
		var data []byte
		if data, err = io.ReadAll(io.LimitReader(file, fileLimit)); err == nil {
			page.Picture, err = unpack(data)
		}
		if err == nil && f.Has("keep") {
			page.Kept, err = p.keepPhoto(r, data)
		}
	case f.Raw("picture") != "":
		page.Kept = f.Raw("kept")
		page.Picture, err = carriedBack(f.Raw("picture"))
	default:
		err = fault.New(fault.Invalid, "it is not chosen")
	}
	if err != nil {
		f.Fail("photo", "cannot be taken: "+err.Error())
	}
	return nil
}

// keepPhoto puts the photograph into the vault; it belongs to the card once that
// is recorded.
func (p place) keepPhoto(r *web.Request, data []byte) (string, error) {
	if p.desk.Vault == nil {
		return "", fault.New(fault.Invalid, "this server keeps no photos")
	}
	kept, err := p.desk.Vault.Put(r.Context(), bytes.NewReader(data), fileLimit)
	return kept.Hash, err
}

// photoOf returns the change that ties a kept photograph to a card; none where
// none was kept.
func (p place) photoOf(r *web.Request, s scene, c build.Card, hash string) []build.Change {
	if hash == "" || p.desk.Vault == nil || vault.ValidHash(hash) != nil {
		return nil
	}
	if has, err := p.desk.Vault.Has(r.Context(), hash); err != nil || !has {
		return nil
	}
	return []build.Change{&build.AddPhoto{Photo: build.Photo{Hash: build.PhotoHash(hash), Of: "card/" + string(c.ID), What: "the card photographed",
		Taken: s.Now, By: build.PersonID(r.Person().Code)}}}
}

// read takes the touch and the typed places, and averages what lies there.
func (page *touchPage) read(f *web.Form) {
	if keys := page.keys(); f.Has("next") {
		page.Next = f.Choice("next", keys...)
	}
	for i := range page.Patches {
		q := &page.Patches[i]
		q.At = strings.TrimSpace(f.Raw("at-" + q.Key))
		if q.Key == page.Next && f.Has("touch.x") && f.Has("touch.y") {
			q.At = f.Raw("touch.x") + " " + f.Raw("touch.y")
		}
		if q.At != "" {
			q.measure(f, page.Picture)
		}
	}
	for _, q := range page.Patches {
		if !q.Read {
			page.Next = q.Key
			return
		}
	}
}

func (page *touchPage) keys() []string {
	var list []string
	for _, q := range page.Patches {
		list = append(list, q.Key)
	}
	return list
}

// measure averages the patch of a picture.
func (q *patch) measure(f *web.Form, m *image.RGBA) {
	at, err := placeOf(q.At)
	if err == nil {
		q.Spot, err = spotAt(m, at)
		q.place = at
	}
	if err != nil {
		f.Fail("at-"+q.Key, err.Error())
		return
	}
	q.Read = true
}

// placeOf reads two numbers, x and y from the upper left corner.
func placeOf(text string) (image.Point, error) {
	v, err := numbersIn(text)
	if err != nil || len(v) != 2 || max(v[0], v[1]) > 1e5 || min(v[0], v[1]) < 0 {
		return image.Point{}, errors.New("is no place such as 120 88")
	}
	return image.Pt(int(v[0]), int(v[1])), nil
}

// estimated fills the form of the card in with the estimate.
func (page *touchPage) estimated(f *web.Form) (cardPage, bool) {
	spots := map[string]sprayout.Spot{}
	for _, q := range page.Patches {
		if !q.Read {
			f.Fail("at-"+q.Key, "is not placed yet: touch it on the picture")
		}
		spots[q.Key] = q.Spot
	}
	to := f.Choice("photo-to", readings()...)
	e := photographed(f, spots["card"], spots["grey"], spots["patch"], "at-patch")
	if f.Err() != nil {
		return cardPage{}, false
	}
	card := page.cardPage
	card.Photo, card.Entry = &e, field.NewEntry()
	card.Sent[to], card.Sent["note"], card.Sent["photo"] = e.Field(), e.Words(), page.Kept
	return card, true
}

// marked is the picture with the patches that are placed framed, as a page shows
// it.
func (page touchPage) marked() string {
	var at []image.Point
	for _, q := range page.Patches {
		if q.Read {
			at = append(at, q.place)
		}
	}
	return "data:image/png;base64," + carried(framed(page.Picture, at))
}

// nexts are the patches to place with the next touch.
func (page touchPage) nexts() []field.Option {
	var list []field.Option
	for _, q := range page.Patches {
		list = append(list, field.Option{Value: q.Key, Label: q.Label, Picked: q.Key == page.Next})
	}
	return list
}

// words tell what was read of a patch.
func (q patch) words() string {
	if !q.Read {
		return "not placed yet"
	}
	return fmt.Sprintf("%s, pixels spread by %.1f of 255", q.Spot.RGB, q.Spot.Spread)
}
