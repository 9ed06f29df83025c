package trim

import (
	"fmt"
	"net/url"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/flatwork"
	"fettle/internal/web"
	"fettle/internal/web/ui/surface"
	stage "fettle/stage/trim"
)

// keepFlat keeps one part of the flat pattern as the next revision of a piece's
// pattern, through the slip.
func (p place) keepFlat(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.flatPage(r, f)
	if err != nil {
		return err
	}
	id := build.PieceID(f.Raw("piece"))
	if page.Build.Piece(id) == nil {
		f.Fail("piece", "is none of the pieces")
	}
	part := int(f.Int("part", 1, int64(max(1, len(page.Parts))))) - 1
	why := f.Text("why", 0, 200)
	if page.Build.Pattern(id) != nil && why == "" {
		f.Fail("why", "is empty: say why the pattern is revised")
	}
	if page.Flat == nil || page.Older {
		f.Fail("material", "cannot be laid flat so: "+page.Sum())
	}
	if f.Err() == nil {
		one, err := stage.FlatPattern(page.Build, id, page.Parts[part], build.Plain)
		if err != nil {
			f.Fail("part", "gives no cut line: "+err.Error())
		} else {
			one.Source.Surface, one.Source.Scan, one.Source.Part, one.Source.Job = page.Surface.ID, page.Surface.Scan, part, page.LaidBy
			one.Why, one.Day, one.By = why, page.Today, build.PersonID(r.Person().Code)
			c := &build.SetPattern{Pattern: one}
			if desk.Holds(f, page.Build, "piece", c); f.Err() == nil {
				return p.desk.Propose(r, page.Base+"/slip", c)
			}
		}
	}
	page.acts = acts{Open: "flat", Wrong: f.Errors, typed: f.Raw}
	return r.Invalid(page.dressed(), showFlat(page))
}

// query is what is asked of the surface, as the address has it.
func (page flatPage) query() url.Values {
	v := url.Values{"material": {page.Ask.Material}, "cuts": {page.Cuts}, "grain": {page.grain}}
	for i, way := range [2]string{"along", "across"} {
		v.Set("pull-"+way, page.limit("pull-"+way, page.Ask.Pull[i]))
		v.Set("push-"+way, page.limit("push-"+way, page.Ask.Squeeze[i]))
	}
	return v
}

// proposeCuts has seams and darts looked for, and comes back to the page.
func (p place) proposeCuts(r *web.Request) error {
	page, order, err := p.orderOf(r, true)
	if err != nil {
		return err
	}
	key, err := flatwork.Ask(p.desk, r, order, "darts and seams for surface "+string(page.Surface.ID))
	if err != nil {
		return err
	}
	back := page.query()
	back.Set("search", key)
	return r.SeeOther(page.surfacePath(page.Surface.ID) + "?" + back.Encode())
}

// searched is how the search for cuts stands, where one was asked for.
func (p place) searched(r *web.Request, f *web.Form, page *flatPage) error {
	search, err := flatwork.Get(p.desk, r, f.Raw("search"))
	if page.Search = search; err != nil || search.Answer == nil {
		return err
	}
	if now, wrong := stage.FlatOrder(page.Mesh, page.Ask, true); wrong == nil {
		page.Search = search.For(now)
	}
	return nil
}

// offered is what the search for cuts says.
func (page flatPage) offered() surface.Offered {
	return page.Search.Offered(flatwork.Words{Title: "Where a seam would help",
		None:  "No further cut brings it nearer to what the material bears.",
		Says:  "Each is taken by a touch, and none by itself. The first lines build on each other from the top.",
		Stale: "Looked for with other seams, or for another material: these no longer fit what is drawn. Look again.",
		Kinds: [4]string{"dart", "slit", "parting seam", "seam from a hole"},
		Gains: func(outside, gain float64) string {
			return fmt.Sprintf("%s %% outside once it is made; it takes %.3f %% of mean strain for each 100 mm.", tenths(outside), 1e4*gain)
		}}, page.withCut)
}
