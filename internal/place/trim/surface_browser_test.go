package trim

import (
	"fmt"
	"math"
	"net/http/httptest"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"fettle/build"
	"fettle/geom/mesh"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/internal/web/ui/surface"
)

// dome is a round cap over a square of 21 by 21 vertices, 400 mm wide.
func dome() mesh.Mesh {
	const n = 20
	var m mesh.Mesh
	for j := range n + 1 {
		for i := range n + 1 {
			x, y := 400*(float64(i)/n-0.5), 400*(float64(j)/n-0.5)
			m.Points = append(m.Points, mesh.Vec{X: x, Y: y, Z: math.Sqrt(350*350 - x*x - y*y)})
		}
	}
	for j := range int32(n) {
		for i := range int32(n) {
			a, b := j*(n+1)+i, (j+1)*(n+1)+i
			m.Faces = append(m.Faces, mesh.Face{a, a + 1, b + 1}, mesh.Face{a, b + 1, b})
		}
	}
	return m
}

// openSurface opens the pattern view over the dome on a tablet.
func openSurface(t *testing.T) *glass {
	show := func(r *web.Request) error {
		f := r.Asked()
		page := flatPage{sheet: sheet{Base: "/b/pedlar", Build: &build.Build{}}, Surface: build.Surface{ID: "U1", Name: "dome"}, Mesh: dome(), Side: surface.Side("above")}
		page.Ask, page.Cuts, page.grain = askedFlat(f)
		page.acts = acts{Open: "flat", Wrong: f.Errors}
		page.lay(r.Context(), nil)
		page.thin()
		if r.Partial() {
			return r.Fragment(flatTold(page), surface.Data(page.board(), false))
		}
		return r.Page(page.dressed(), showFlat(page))
	}
	s := web.New(web.Config{Builds: benches{}, Gate: web.Fixed(account.Person{ID: "1", Name: "M. Wrenn", Role: web.Owner}), Places: []web.Place{{Key: "trim", Label: "Trim", Path: "/b/{build}/trim", Routes: []web.Route{
		{Pattern: "GET /b/{build}/trim/surface/{surface}", Who: web.Guest, Handle: show},
	}}}})
	srv := httptest.NewServer(s)
	t.Cleanup(func() { s.Hub().Close(); srv.CloseClientConnections(); srv.Close() })
	g := tablet(t, srv.URL+"/b/pedlar/trim/surface/U1")
	g.until(`document.querySelector(".surf-live")`)
	g.script(`document.querySelector(".surf-board").scrollIntoView()`)
	return g
}

// cuts is what the field of seams says.
func (g *glass) cuts(want func(string) bool, words string) {
	g.Helper()
	g.comes(func() string {
		var got string
		g.eval(`document.querySelector("[name=cuts]").value`, &got)
		return got
	}, want, words)
}

// on is a place of a canvas, as shares of its width and height.
func (g *glass) on(name string, x, y float64) spot {
	g.Helper()
	var at spot
	g.eval(fmt.Sprintf(`(() => { const r = document.querySelector('canvas[data-glass="%s"]').getBoundingClientRect(); return {X: r.x + %g * r.width, Y: r.y + %g * r.height} })()`, name, x, y), &at)
	return at
}

func TestSurface_SeamByTouch(t *testing.T) {
	g := openSurface(t)
	g.says("[data-told=sum]", "In 1 piece")
	g.tap(`[data-act=seam]`)
	g.script(`document.querySelector(".surf-board").scrollIntoView()`)
	g.tapAt(g.on("space", 0.5, 0.93))
	g.says("[data-say]", "The seam begins here")
	g.tapAt(g.on("space", 0.5, 0.5))
	g.cuts(func(s string) bool { return s == "10 220" }, "a seam from the rim to the top")
	g.says("[data-told=numbers]", "1, drawn")
	var before string
	g.eval(`document.querySelector("#surface-data") && document.querySelector("[data-told=numbers]").innerText`, &before)
	// The end of the seam is dragged on, and the pattern follows: the time from
	// the end of the drag to the new picture is told, and the map must be another.
	map0 := g.picture("flat")
	g.script(`(() => {
		const on = document.querySelector('canvas[data-glass="space"]'), out = window.followed = {};
		on.addEventListener("pointerup", () => { out.from = performance.now() }, true);
		new MutationObserver(() => requestAnimationFrame(() => { if (out.from && !document.querySelector("[data-surface][aria-busy]")) out.to = performance.now() })).observe(document.querySelector("[data-surface]"), {attributes: true, attributeFilter: ["aria-busy"]});
	})()`)
	g.drag(60, 60, g.on("space", 0.5, 0.5))
	g.cuts(func(s string) bool { return s != "10 220" && len(s) > 3 }, "the end of the seam elsewhere")
	g.comes(func() string { return g.text("[data-told=numbers]") }, func(s string) bool { return s != before }, "other lengths")
	g.comes(func() (v string) {
		// The answer to the last place of the drag, not to one on the way.
		g.eval(`String(window.followed.to > window.followed.from && performance.now() - window.followed.to > 600)`, &v)
		return v
	}, func(s string) bool { return s == "true" }, "the time of the new picture")
	var took float64
	g.eval(`window.followed.to - window.followed.from`, &took)
	t.Logf("from the end of the drag to the new picture: %.0f ms", took)
	if g.picture("flat") == map0 {
		t.Error("the strain map is as it was")
	}
	g.shoot("surface-seam")
	g.tap(`[data-act=undo]`)
	g.cuts(func(s string) bool { return s == "10 220" }, "undone")
	g.tap(`[data-act=offAll]`)
}

func TestSurface_ByKeys(t *testing.T) {
	g := openSurface(t)
	g.script(`document.querySelector('canvas[data-glass="space"]').focus()`)
	turn := func() (v string) {
		g.eval(`document.querySelector('canvas[data-glass="space"]').toDataURL().length + ""`, &v)
		return v
	}
	before := turn()
	g.keys(kb.ArrowLeft, kb.ArrowLeft, kb.ArrowDown)
	g.comes(turn, func(s string) bool { return s != before }, "another picture")
	g.keys("s", kb.Enter, kb.ArrowRight, kb.ArrowRight, kb.ArrowRight, kb.Enter)
	g.cuts(func(s string) bool { return len(s) > 3 }, "a seam of two places")
	g.says("[data-told=numbers]", "1, drawn")
	g.keys(kb.Escape)
	g.keys("n", kb.Delete)
	g.cuts(func(s string) bool { return s == "" }, "no seam")
}

func TestSurface_NumbersByTouch(t *testing.T) {
	g := openSurface(t)
	g.tapAt(g.on("flat", 0.5, 0.5))
	g.says("[data-say]", "along")
	g.tapAt(g.on("space", 0.5, 0.5))
	g.says("[data-say]", "across")
}

// picture is what a canvas shows.
func (g *glass) picture(name string) (data string) {
	g.Helper()
	g.eval(fmt.Sprintf(`document.querySelector('canvas[data-glass="%s"]').toDataURL()`, name), &data)
	return data
}

// ground is the colour of the upper left corner of a canvas.
func (g *glass) ground(name string) (rgb string) {
	g.Helper()
	g.eval(fmt.Sprintf(`(() => { const c = document.createElement("canvas").getContext("2d"); c.drawImage(document.querySelector('canvas[data-glass="%s"]'), 0, 0); return c.getImageData(2, 2, 1, 1).data.slice(0, 3).join(" ") })()`, name), &rgb)
	return rgb
}

func TestSurface_PaintedAnewInAnotherTheme(t *testing.T) {
	g := openSurface(t)
	g.says("[data-told=sum]", "In 1 piece")
	day, map0 := g.ground("space"), g.picture("flat")
	g.script(`document.documentElement.dataset.theme = "night"`)
	g.comes(func() string { return g.ground("space") }, func(s string) bool { return s != day }, "the ground of the night")
	if g.picture("flat") == map0 {
		t.Error("the flat pattern is painted as by day")
	}
	g.script(`document.documentElement.dataset.theme = "day"`)
	g.comes(func() string { return g.ground("space") }, func(s string) bool { return s == day }, "the ground of the day")
}
