package trim

import (
	"strings"

	"fettle/figure"
	"fettle/internal/shapein"
	"fettle/internal/web"
	stage "fettle/stage/trim"
)

func (p place) recipeRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/recipes", Who: web.Guest, Handle: p.recipes},
		{Pattern: "GET /b/{build}/trim/recipes/{recipe}", Who: web.Guest, Handle: p.recipe},
	}
}

// recipePage is one recipe with what is typed and what comes of it.
type recipePage struct {
	sheet
	acts
	stage.Recipe
	Figures []figure.Figure
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
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := recipePage{sheet: s}
	if page.Recipe, err = stage.RecipeOf(r.Path("recipe")); err != nil {
		return err
	}
	f := r.Asked()
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
		if page.Figures, err = page.Work(given); err != nil {
			f.Fail("recipe", "does not come out: "+err.Error())
		}
	}
	page.acts = acts{Open: "recipe", Wrong: f.Errors, typed: f.Raw}
	if r.As() == "json" {
		if err := f.Err(); err != nil {
			return err
		}
		return r.JSON(page.Figures)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: page.Name}, showRecipe(page))
}
