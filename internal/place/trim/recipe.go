package trim

import (
	"strings"

	"fettle/fault"
	"fettle/internal/shapein"
	"fettle/internal/web"
	stage "fettle/stage/trim"
)

func (p place) recipeRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/recipes", Who: web.Guest, Handle: p.recipes},
		{Pattern: "GET /b/{build}/trim/recipes/{recipe}", Who: web.Guest, Handle: p.recipe},
		{Pattern: "POST /b/{build}/trim/recipes/{recipe}", Who: web.Crew, Handle: p.useRecipe},
	}
}

// recipePage is one recipe with what is typed and what comes of it.
type recipePage struct {
	sheet
	acts
	stage.Recipe
	stage.Made
}

func (p place) recipes(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(stage.Recipes())
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "recipes of the trim shop"}, showRecipes(s, stage.Recipes()))
}

// recipe works out what is typed; an empty form is only shown.
func (p place) recipe(r *web.Request) error {
	page, err := p.recipePage(r, r.Asked())
	if err != nil {
		return err
	}
	if r.As() == "json" {
		if len(page.Wrong) > 0 {
			return fault.New(fault.Invalid, "%s", page.Wrong[0].Msg).At(page.Wrong[0].Field)
		}
		return r.JSON(page.Figures)
	}
	return p.desk.Page(r, page.dressed(), showRecipe(page))
}

func (page recipePage) dressed() web.Sheet { return web.Sheet{Place: "trim", Shown: page.Name} }

// recipePage works a recipe out from a form.
func (p place) recipePage(r *web.Request, f *web.Form) (recipePage, error) {
	s, err := p.load(r)
	if err != nil {
		return recipePage{}, err
	}
	page := recipePage{sheet: s}
	if page.Recipe, err = stage.RecipeOf(r.Path("recipe")); err != nil {
		return page, err
	}
	given, any := map[string][]float64{}, false
	for _, m := range page.Measures {
		list, err := shapein.Numbers(f.Raw(m.Name))
		switch {
		case err != nil:
			f.Fail(m.Name, err.Error())
		case len(list) > 1 && !m.Many:
			f.Fail(m.Name, "is more than one number")
		}
		given[m.Name], any = list, any || strings.TrimSpace(f.Raw(m.Name)) != ""
	}
	if any && f.Err() == nil {
		if page.Made, err = page.Work(given); err != nil {
			f.Fail("recipe", "does not come out: "+err.Error())
		}
	}
	page.acts = acts{Open: "recipe", Wrong: f.Errors, typed: f.Raw}
	return page, nil
}
