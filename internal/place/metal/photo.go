package metal

import (
	"bytes"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/vault"
	"fettle/internal/web"
	"fettle/unit"
)

// keepPhotos puts the photos of a form into the vault, so that they are safe
// even where something else in the form is wrong. It returns all hashes.
func (p place) keepPhotos(r *web.Request, f *web.Form, have []string) []string {
	if hash := p.desk.TakePhoto(r, f, "photo", photoLimit); hash != "" {
		return append(have, hash)
	}
	return have
}

// photosOf makes the changes that tie photos to a thing.
func photosOf(of, what string, hashes []string, r *web.Request, now unit.Moment) []build.Change {
	var out []build.Change
	for _, h := range hashes {
		out = append(out, &build.AddPhoto{Photo: build.Photo{Hash: build.PhotoHash(h), Of: of, What: what, Taken: now, By: build.PersonID(r.Person().Code)}})
	}
	return out
}

func (p place) photoOfFinding(r *web.Request) error { return p.addPhoto(r, "finding") }
func (p place) photoOfPanel(r *web.Request) error   { return p.addPhoto(r, "panel") }

// addPhoto keeps a photo of a finding or a panel at once.
func (p place) addPhoto(r *web.Request, kind string) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	of := kind + "/" + r.Path("id")
	hashes := p.keepPhotos(r, f, nil)
	if len(hashes) == 0 && f.Err() == nil {
		f.Fail("photo", "is not chosen")
	}
	if f.Err() != nil {
		return f.Err()
	}
	changes := photosOf(of, strings.TrimSpace(f.Raw("what")), hashes, r, view.Now)
	for _, c := range changes {
		c.(*build.AddPhoto).Photo.Quiet = f.Has("quiet")
	}
	next := s.At() + "/" + of
	if kind == "finding" && s.draft(build.FindingID(r.Path("id"))) {
		return p.desk.Propose(r, next, changes...)
	}
	return p.desk.Keep(r, entry, "a photo of "+r.Path("id"), next, changes...)
}

// edges are the sizes in which pictures are handed out, in pixels.
func edges() []int { return []int{240, 800, 1600, 3200} }

// photo shows a picture of the vault, smaller where that is asked for. Guests
// see none that is marked as quiet.
func (p place) photo(r *web.Request) error {
	hash := r.Path("hash")
	if err := vault.ValidHash(hash); err != nil {
		return err
	}
	if err := p.mayShow(r, hash); err != nil {
		return err
	}
	file, known, err := p.desk.Vault.Open(r.Context(), hash)
	if err != nil {
		return err
	}
	defer file.Close()
	h := r.Writer().Header()
	h.Set("Cache-Control", "private, max-age=31536000, immutable")
	edge, _ := strconv.Atoi(r.Query("edge"))
	if edge <= 0 || known.Media == vault.PDF {
		return r.Show(string(known.Media), file)
	}
	small, err := p.shrink(r, file, edge)
	if err != nil {
		h.Del("Cache-Control")
		return err
	}
	return r.Show(string(vault.JPEG), bytes.NewReader(small))
}

// shrink makes one picture smaller at a time, to the next size that is offered.
func (p place) shrink(r *web.Request, file interface{ Read([]byte) (int, error) }, edge int) ([]byte, error) {
	size := edges()[len(edges())-1]
	for _, e := range edges() {
		if e >= edge {
			size = e
			break
		}
	}
	select {
	case p.shrinking <- struct{}{}:
		defer func() { <-p.shrinking }()
	case <-r.Context().Done():
		return nil, r.Context().Err()
	}
	return vault.Shrink(file, size)
}

// mayShow refuses a photo that is not of this build, or not for guests.
func (p place) mayShow(r *web.Request, hash string) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	absent := fault.New(fault.NotFound, "there is no such photo of this build")
	if p.desk.Vault == nil {
		return absent
	}
	for _, ph := range s.Build.Photos {
		if string(ph.Hash) == hash && (s.Crew || !ph.Quiet) {
			return nil
		}
	}
	return absent
}

// pictures are the photos of a thing that this person may see.
func (s scene) pictures(of string) []build.Photo {
	var out []build.Photo
	for _, ph := range s.Build.Photos {
		if ph.Of == of && (s.Crew || !ph.Quiet) {
			out = append(out, ph)
		}
	}
	return out
}
