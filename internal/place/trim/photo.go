package trim

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/vault"
	"fettle/internal/web"
)

// photoLimit is the most a photo of a hide may weigh, in bytes.
const photoLimit = 64 << 20

func (p place) photoRoutes() []web.Route {
	var list []web.Route
	for _, at := range []string{"/b/{build}/trim/hide/{hide}/photo", "/b/{build}/trim/pattern/{piece}/photo"} {
		list = append(list,
			web.Route{Pattern: "GET " + at, Who: web.Crew, Handle: p.photos},
			web.Route{Pattern: "POST " + at, Who: web.Crew, MaxBody: photoLimit + 1<<20, Handle: p.takePhoto},
			web.Route{Pattern: "GET " + at + "/{hash}", Who: web.Crew, Handle: p.trace},
			web.Route{Pattern: "POST " + at + "/{hash}", Who: web.Crew, Handle: p.traced})
	}
	return list
}

func (s sheet) photoPath(id build.HideID) string { return s.hidePath(id) + "/photo" }

// photoPage is where photos of a hide, or of a panel that a pattern is drawn
// from, are taken and chosen.
type photoPage struct {
	sheet
	acts
	subject
	Photos []build.Photo
}

// photosOf are the photos of a thing, the last first.
func (s sheet) photosOf(of string) []build.Photo {
	var list []build.Photo
	for _, ph := range s.Build.Photos {
		if ph.Of == of {
			list = append(list, ph)
		}
	}
	slices.Reverse(list)
	return list
}

func (p place) photoPage(r *web.Request) (photoPage, error) {
	s, err := p.load(r)
	if err != nil {
		return photoPage{}, err
	}
	of, err := s.subject(r)
	if err != nil {
		return photoPage{}, err
	}
	return photoPage{sheet: s, subject: of, Photos: s.photosOf(of.key())}, nil
}

func (page photoPage) dressed() web.Sheet {
	return web.Sheet{Place: "trim", Shown: "photos of " + page.name()}
}

func (p place) photos(r *web.Request) error {
	page, err := p.photoPage(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, page.dressed(), showPhotos(page))
}

// takePhoto keeps a photo of a hide, and goes on to trace it.
func (p place) takePhoto(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.photoPage(r)
	if err != nil {
		return err
	}
	hash := p.desk.TakePhoto(r, f, "photo", photoLimit)
	if hash == "" && f.Err() == nil {
		f.Fail("photo", "is not chosen")
	}
	if hash != "" {
		if _, _, err := p.sizeOf(r, hash); err != nil {
			f.Fail("photo", "cannot be traced: "+err.Error())
		}
	}
	if f.Err() != nil {
		page.acts = acts{Open: "photo", Wrong: f.Errors, typed: f.Raw}
		return r.Invalid(page.dressed(), showPhotos(page))
	}
	next := page.Photo + "/" + hash
	for _, ph := range page.Photos {
		if string(ph.Hash) == hash {
			return r.SeeOther(next)
		}
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	c := &build.AddPhoto{Photo: build.Photo{Hash: build.PhotoHash(hash), Of: page.key(), What: strings.TrimSpace(f.Raw("what")),
		Taken: view.Now, By: build.PersonID(r.Person().Code)}}
	return p.desk.Keep(r, f.Raw("entry"), "a photo of "+page.name(), next, c)
}

// sizeOf is how many pixels a kept photo has, upright.
func (p place) sizeOf(r *web.Request, hash string) (width, height int, err error) {
	if err := vault.ValidHash(hash); err != nil {
		return 0, 0, err
	}
	if p.desk.Vault == nil {
		return 0, 0, fault.New(fault.NotFound, "this server keeps no photos")
	}
	file, _, err := p.desk.Vault.Open(r.Context(), hash)
	if err != nil {
		return 0, 0, err
	}
	defer file.Close()
	return vault.Size(file)
}
