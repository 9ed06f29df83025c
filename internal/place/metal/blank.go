package metal

import (
	"fmt"
	"net/url"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/internal/desk"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/metal"
	"fettle/unit"
)

func (p place) blankRoutes() []web.Route {
	at := "/b/{build}/metal/sheets/blank/{blank}"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.showBlank},
		{Pattern: "POST " + at + "/shape", Who: web.Crew, MaxBody: shapein.FileLimit, Handle: p.shapeBlank},
		{Pattern: "POST " + at + "/back", Who: web.Crew, Handle: p.blankBack},
	}
}

// blankPage is a blank with its true shape.
type blankPage struct {
	scene
	Blank build.Blank
	Was   *build.Blank // as it is kept, where the slip has it otherwise
	Wrong field.Errors
	typed func(string) string
	Bead  *stage.Bead // that is asked about
	asks  func(string) string
}

// asked is what the address asks, nothing where the page answers a form.
func (page blankPage) asked(name string) string {
	if page.asks == nil {
		return ""
	}
	return page.asks(name)
}

// beadAsked reads the bead that the address asks about, if it does.
func (page *blankPage) beadAsked(f *web.Form) {
	page.asks = f.Raw
	if f.Raw("bead-width") == "" && f.Raw("bead-depth") == "" {
		return
	}
	one := stage.Bead{Width: unit.Length(f.Decimal("bead-width", 3, 1000, 200_000)), Half: f.Raw("bead-half") == "yes"}
	if !one.Half {
		one.Depth = unit.Length(f.Decimal("bead-depth", 3, 100, 100_000))
		if f.Err() == nil && 2*one.Depth > one.Width {
			f.Fail("bead-depth", "is more than half the width: no bead is deeper")
		}
	}
	if page.Wrong = f.Errors; f.Err() == nil {
		page.Bead = &one
	}
}

func (s scene) blankPath(id build.BlankID) string {
	return s.At() + "/sheets/blank/" + url.PathEscape(string(id))
}

func (p place) blankOf(r *web.Request) (blankPage, error) {
	s, err := p.scene(r)
	if err != nil {
		return blankPage{}, err
	}
	b := s.Build.Blank(build.BlankID(r.Path("blank")))
	if b == nil {
		return blankPage{}, fault.New(fault.NotFound, "there is no blank %q", r.Path("blank"))
	}
	page := blankPage{scene: s, Blank: *b}
	if was := s.Kept.Blank(b.ID); was != nil && page.corners(*was) != page.corners(*b) {
		page.Was = was
	}
	return page, nil
}

func (p place) showBlank(r *web.Request) error {
	page, err := p.blankOf(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(page.Blank)
	}
	page.beadAsked(r.Asked())
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "blank " + string(page.Blank.ID)}, showBlankPage(page))
}

// shapeBlank takes a true shape in, from a drawing or typed corners, and lays
// the blank on the slip with it: its size is that of the shape.
func (p place) shapeBlank(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.blankOf(r)
	if err != nil {
		return err
	}
	each := shapein.Unit(f)
	if each == 0 {
		each = 1
	}
	one := page.Blank
	if one.Shape = shapein.Drawn(f, "corners", "file", each); !one.Shape.Drawn() && f.Err() == nil {
		f.Fail("corners", "are empty: type them, or choose a drawing")
	}
	if f.Err() == nil {
		var size build.Spot
		one.Shape, size = shapein.AtOrigin(one.Shape)
		one.Width, one.Height = size[0], size[1]
		desk.Holds(f, page.Build, "corners", &build.SetBlanks{Blanks: []build.Blank{one}})
	}
	if f.Err() != nil {
		page.Wrong, page.typed = f.Errors, f.Raw
		return r.Invalid(web.Sheet{Place: "metal", Shown: "blank " + string(page.Blank.ID)}, showBlankPage(page))
	}
	return p.desk.Propose(r, page.blankPath(one.ID), &build.SetBlanks{Blanks: []build.Blank{one}})
}

// blankBack takes the shape back: to what is kept, or to the plain rectangle.
func (p place) blankBack(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.blankOf(r)
	if err != nil {
		return err
	}
	one := page.Blank
	switch {
	case f.Has("kept") && page.Was != nil:
		one.Shape, one.Width, one.Height = page.Was.Shape, page.Was.Width, page.Was.Height
	case !one.Shape.Drawn():
		return fault.New(fault.Invalid, "blank %s is the plain rectangle already", one.ID)
	default:
		one.Shape = build.Shape{}
	}
	return p.desk.Propose(r, page.blankPath(one.ID), &build.SetBlanks{Blanks: []build.Blank{one}})
}

// corners are those of a blank's own shape, as they are typed.
func (page blankPage) corners(b build.Blank) string {
	if !b.Shape.Drawn() {
		return fmt.Sprintf("%d × %d", b.Width, b.Height)
	}
	return shapein.Corners(b.Shape)
}

// outlines are the fitted shape, and the line it is cut to.
func (page blankPage) outlines() (fitted, cut geom.Polygon) {
	fitted = page.Blank.Cut().Polygon()
	cut, err := stage.Lies(page.Blank, build.BlankPlaced{})
	if err != nil {
		return fitted, fitted
	}
	return fitted, cut
}

// area is what the fitted shape covers.
func (page blankPage) area() string {
	fitted, _ := page.outlines()
	return fmt.Sprintf("%.1f cm²", fitted.Area()/100)
}

func (page blankPage) was(name string) string {
	if page.typed != nil {
		return page.typed(name)
	}
	return ""
}

// units are what typed corners and the lines of a file can be in.
func (page blankPage) units() []field.Option {
	picked := page.was("unit")
	return field.Pick([]field.Option{{Value: "", Label: "mm; a file as it says itself"}, {Value: "1", Label: "mm"}, {Value: "10", Label: "cm"}, {Value: "25.4", Label: "inches"}}, picked)
}
