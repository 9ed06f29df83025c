package trim

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"fettle/internal/account"
	"fettle/internal/web"
)

type benches struct{}

func (benches) Title(context.Context, string) (web.Title, error) {
	return web.Title{Build: "pedlar", Vehicle: "panel van", Revision: 7, Units: "mm"}, nil
}

func (benches) Home(context.Context) (string, error) { return "/", nil }

// serveBench serves the editor over invented sheets, with no build behind it.
func serveBench(t *testing.T) string {
	t.Helper()
	show := func(of func() *editor) func(*web.Request) error {
		return func(r *web.Request) error {
			return r.Page(web.Sheet{Place: "bench", Shown: "a layout", Shell: lightShell, Scripts: []string{editorScript}}, showEditor(of()))
		}
	}
	s := web.New(web.Config{Builds: benches{}, Gate: web.Fixed(account.Person{ID: "1", Name: "M. Wrenn", Role: web.Owner}), Places: []web.Place{{Key: "bench", Label: "Bench", Path: "/b/{build}/bench", Routes: []web.Route{
		{Pattern: "GET /b/{build}/bench", Who: web.Guest, Handle: show(bench)},
		{Pattern: "GET /b/{build}/many", Who: web.Guest, Handle: show(many)},
	}}}})
	srv := httptest.NewServer(s)
	t.Cleanup(func() { s.Hub().Close(); srv.CloseClientConnections(); srv.Close() })
	return srv.URL + "/b/pedlar"
}

// glass is a tablet with the editor open on it.
type glass struct {
	*testing.T
	ctx context.Context
}

const (
	glassWidth, glassHeight = 768, 1024
	patience                = 3 * time.Second
)

func open(t *testing.T, path string) *glass {
	t.Helper()
	g := tablet(t, "")
	g.do(chromedp.Navigate(serveBench(t) + path))
	g.until(`document.querySelector(".lay-live")`)
	g.script(`document.querySelector(".lay-board").scrollIntoView()`)
	return g
}

// tablet is a fresh one with a page open on it, or none.
func tablet(t *testing.T, url string) *glass {
	t.Helper()
	chrome, err := exec.LookPath("chromium")
	if err != nil || os.Getenv("FETTLE_BROWSER") == "" {
		t.Skip("browser tests run with FETTLE_BROWSER=1 and Chromium installed")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chrome), chromedp.NoSandbox, chromedp.Flag("disable-gpu", true))
	alloc, cancel := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(cancel)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(cancel)
	g := &glass{T: t, ctx: ctx}
	g.do(chromedp.EmulateViewport(glassWidth, glassHeight, chromedp.EmulateTouch))
	if err := chromedp.Listen(ctx, func(ev any) {
		switch e := ev.(type) {
		case *runtime.EventExceptionThrown:
			t.Errorf("the page throws: %s %v", e.ExceptionDetails.Text, e.ExceptionDetails.Exception)
		case *log.EventEntryAdded:
			t.Errorf("the console says: %s", e.Entry.Text)
		}
	}); err != nil {
		t.Fatal(err)
	}
	if url != "" {
		g.do(chromedp.Navigate(url))
	}
	return g
}

func (g *glass) do(acts ...chromedp.Action[chromedp.Void]) {
	g.Helper()
	if err := chromedp.Do(g.ctx, acts...); err != nil {
		g.Fatal(err)
	}
}

// eval puts what a script answers into v.
func (g *glass) eval(script string, v any) {
	g.Helper()
	text, err := chromedp.Run(g.ctx, chromedp.Evaluate[string]("(async () => JSON.stringify(await ("+script+") ?? null))()", chromedp.EvalAwaitPromise))
	if err == nil {
		err = json.Unmarshal([]byte(text), v)
	}
	if err != nil {
		g.Fatalf("%s: %v", script, err)
	}
}

// script does something in the page.
func (g *glass) script(does string) {
	g.Helper()
	var none any
	g.eval("void ("+does+")", &none)
}

func (g *glass) until(script string) {
	g.Helper()
	var is bool
	g.comes(func() string { g.eval("!!("+script+")", &is); return script }, func(string) bool { return is }, "it to be so")
}

// keys are pressed one after the other, the modifiers held.
func (g *glass) keys(list ...string) {
	g.Helper()
	for _, k := range list {
		g.do(chromedp.KeyEvent(k))
	}
}

// place is what the fields say of a copy: sheet x y turn, and whether it is locked.
func (g *glass) place(key string) string {
	g.Helper()
	var got string
	g.eval(fmt.Sprintf(`(() => { const f = (n) => document.querySelector('[name="' + n + '-%s"]'); return [f("sheet").value || "tray", f("x").value, f("y").value, f("turn").value].join(" ") + (f("lock").checked ? " locked" : "") })()`, key), &got)
	return got
}

func (g *glass) text(css string) string {
	g.Helper()
	var got string
	g.eval(fmt.Sprintf(`document.querySelector(%q)?.innerText ?? ""`, css), &got)
	return strings.Join(strings.Fields(got), " ")
}

// says checks what a person reads in an element; a tap becomes a click a little later.
func (g *glass) says(css, want string) {
	g.Helper()
	g.comes(func() string { return css + " says " + g.text(css) }, func(got string) bool { return strings.Contains(got, want) }, want)
}

// lies checks where a copy lies.
func (g *glass) lies(key, want string) {
	g.Helper()
	g.comes(func() string { return g.place(key) }, func(got string) bool { return got == want }, want)
}

// comes waits until what is got is right.
func (g *glass) comes(get func() string, right func(string) bool, want string) {
	g.Helper()
	var got string
	for began := time.Now(); time.Since(began) < patience; time.Sleep(20 * time.Millisecond) {
		if got = get(); right(got) {
			return
		}
	}
	g.Errorf("%s, want %s", got, want)
}

type spot struct{ X, Y float64 }

// middleOf is where an element lies on the glass.
func (g *glass) middleOf(css string) spot {
	g.Helper()
	var p *spot
	g.eval(fmt.Sprintf(`(() => { const e = document.querySelector(%q); if (!e) return null; e.scrollIntoView({block: "nearest"}); const r = e.getBoundingClientRect(); return {X: r.x + r.width / 2, Y: r.y + r.height / 2} })()`, css), &p)
	if p == nil {
		g.Fatalf("nothing at %s", css)
	}
	return *p
}

// touch sends one event of all fingers that are down.
func (g *glass) touch(kind input.DispatchTouchEventType, fingers ...spot) {
	g.Helper()
	points := []*input.TouchPoint{}
	for i, f := range fingers {
		points = append(points, &input.TouchPoint{X: f.X, Y: f.Y, ID: new(float64(i))})
	}
	if _, err := chromedp.Call(g.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points}); err != nil {
		g.Fatal(err)
	}
}

// drag moves fingers from their places by a way, in steps.
func (g *glass) drag(dx, dy float64, fingers ...spot) {
	g.Helper()
	g.touch("touchStart", fingers...)
	const steps = 8
	for i := 1; i <= steps; i++ {
		at := make([]spot, len(fingers))
		for j, f := range fingers {
			at[j] = spot{f.X + dx*float64(i)/steps, f.Y + dy*float64(i)/steps}
		}
		g.touch("touchMove", at...)
	}
	g.touch("touchEnd")
}

func (g *glass) tap(css string) {
	g.Helper()
	p := g.middleOf(css)
	g.tapAt(p)
}

// tapAt waits first: Chromium makes no click of a tap that follows another
// touch within its time for a double tap.
func (g *glass) tapAt(p spot) {
	g.Helper()
	time.Sleep(350 * time.Millisecond)
	g.do(chromedp.TapXY(p.X, p.Y))
}

// shoot keeps a picture where FETTLE_SHOTS names a folder.
func (g *glass) shoot(name string) {
	dir := os.Getenv("FETTLE_SHOTS")
	if dir == "" {
		return
	}
	shot, err := chromedp.Run(g.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		g.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), shot, 0o644); err != nil {
		g.Fatal(err)
	}
}
