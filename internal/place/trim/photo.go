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
	at := "/b/{build}/trim/hide/{hide}/photo"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.photos},
		{Pattern: "POST " + at, Who: web.Crew, MaxBody: photoLimit + 1<<20, Handle: p.takePhoto},
		{Pattern: "GET " + at + "/{hash}", Who: web.Crew, Handle: p.trace},
		{Pattern: "POST " + at + "/{hash}", Who: web.Crew, Handle: p.traced},
	}
}

func (s sheet) photoPath(id build.HideID) string { return s.hidePath(id) + "/photo" }

// photoPage is where photos of a hide are taken and chosen.
type photoPage struct {
	sheet
	acts
	Hide   build.Hide
	Photos []build.Photo
}

// photosOf are the photos of a hide, the last first.
func (s sheet) photosOf(h build.HideID) []build.Photo {
	var list []build.Photo
	for _, ph := range s.Build.Photos {
		if ph.Of == "hide/"+string(h) {
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
	h, err := s.hide(r)
	if err != nil {
		return photoPage{}, err
	}
	return photoPage{sheet: s, Hide: *h, Photos: s.photosOf(h.ID)}, nil
}

func (page photoPage) dressed() web.Sheet {
	return web.Sheet{Place: "trim", Shown: "photos of hide " + string(page.Hide.ID)}
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
	next := page.photoPath(page.Hide.ID) + "/" + hash
	for _, ph := range page.Photos {
		if string(ph.Hash) == hash {
			return r.SeeOther(next)
		}
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	c := &build.AddPhoto{Photo: build.Photo{Hash: build.PhotoHash(hash), Of: "hide/" + string(page.Hide.ID), What: strings.TrimSpace(f.Raw("what")),
		Taken: view.Now, By: build.PersonID(r.Person().Code)}}
	return p.desk.Keep(r, f.Raw("entry"), "a photo of hide "+string(page.Hide.ID), next, c)
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
