package trim

import (
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/trim"
)

func (p place) formRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/piece", Who: web.Crew, Handle: p.blankPiece},
		{Pattern: "GET /b/{build}/trim/piece/{piece}", Who: web.Guest, Handle: p.piece},
		{Pattern: "GET /b/{build}/piece/{piece}", Who: web.Guest, Handle: func(r *web.Request) error {
			return r.SeeOther("/b/" + r.Build() + "/trim/piece/" + r.Path("piece")) // the short address, as figures name it
		}},
		{Pattern: "POST /b/{build}/trim/piece", Who: web.Crew, MaxBody: shapein.FileLimit, Handle: p.setPiece},
	}
}

// piecePage is the form of a piece.
type piecePage struct {
	sheet
	acts
	Piece build.Piece
	New   bool
}

func (p place) blankPiece(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := piecePage{sheet: s, New: true, Piece: build.Piece{ID: s.nextPiece(), Quantity: 1, Grade: "A", Axis: build.Axis{Tolerance: stage.Tolerance}}}
	if len(s.Build.Pieces) > 0 {
		page.Piece.Material = s.Build.Pieces[0].Material
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "a piece"}, showPiece(page))
}

func (s sheet) nextPiece() build.PieceID {
	return build.PieceID(desk.NextID("T%02d", len(s.Build.Pieces), func(id string) bool { return s.Build.Piece(build.PieceID(id)) != nil }))
}

func (p place) piece(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	one := s.Build.Piece(build.PieceID(r.Path("piece")))
	if one == nil {
		return fault.New(fault.NotFound, "there is no piece %q", r.Path("piece"))
	}
	if r.As() == "json" {
		return r.JSON(one)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "piece " + string(one.ID)}, showPiece(piecePage{sheet: s, Piece: *one}))
}

// setPiece lays a piece on the slip.
func (p place) setPiece(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c := &build.SetPiece{Piece: s.typedPiece(f)}
	desk.Holds(f, s.Build, "id", c)
	if f.Err() != nil {
		page := piecePage{sheet: s, acts: acts{Open: "piece", Wrong: f.Errors, typed: f.Raw}, Piece: c.Piece, New: s.Build.Piece(c.Piece.ID) == nil}
		return r.Invalid(web.Sheet{Place: "trim", Shown: "a piece"}, showPiece(page))
	}
	return p.desk.Propose(r, s.Base+"/slip", c)
}

// typedPiece reads the form of a piece. A drawn shape gives it its size.
func (s sheet) typedPiece(f *web.Form) build.Piece {
	p := build.Piece{ID: build.PieceID(strings.ToUpper(f.Text("id", 1, 12))), Name: f.Text("name", 1, 80), Material: f.Text("material", 1, 80),
		Quantity: int(f.Int("quantity", 1, 1000)), Grade: f.Choice("grade", build.Grades()...), Handed: f.Has("handed"),
		Pair: build.PieceID(strings.ToUpper(f.Text("pair", 0, 12))), Group: f.Text("group", 0, 40), Face: f.Text("face", 0, 40)}
	if p.Shape = shapein.Drawn(f, "shape", "file", 1); p.Shape.Drawn() {
		var size build.Spot
		p.Shape, size = shapein.AtOrigin(p.Shape)
		p.Width, p.Height = size[0], size[1]
	} else if f.Err() == nil {
		p.Width, p.Height = length(f, "width", 1, 20_000), length(f, "height", 1, 20_000)
	}
	p.Match = typedMatch(f)
	if strings.TrimSpace(f.Raw("axis")) != "" {
		p.Axis = build.Axis{Angle: float64(f.Decimal("axis", 1, -3600, 3600)) / 10, Tolerance: float64(f.Decimal("tolerance", 1, 1, 900)) / 10}
	}
	return p
}

// axisText is the tight direction as its field has it.
func axisText(a build.Axis) string {
	if !a.Known() {
		return ""
	}
	return short(a.Angle)
}

func toleranceText(a build.Axis) string {
	if !a.Known() {
		return short(stage.Tolerance)
	}
	return short(a.Tolerance)
}

// shapeText is the true shape as its field has it; nothing for a rectangle.
func shapeText(p build.Piece) string {
	if !p.Shape.Drawn() {
		return ""
	}
	return shapein.Corners(p.Shape)
}

func handedOption(p build.Piece) []field.Option {
	return []field.Option{{Value: "yes", Label: "handed: half of them are the mirror image", Picked: p.Handed}}
}
