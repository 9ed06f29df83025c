package loom

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"os"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"fettle/internal/account"
	"fettle/internal/web"
)

// TestRoute_ByTouch: a touch beside the panels begins a waypoint there, one in
// the drawings of its page fills two of its measures, and one on a line leads to
// what lies in it.
func TestRoute_ByTouch(t *testing.T) {
	if os.Getenv("FETTLE_BROWSER") == "" {
		t.Skip("browser tests run with FETTLE_BROWSER=1 and Chromium installed")
	}
	s := web.New(web.Config{Builds: benches{}, Gate: web.Fixed(account.Person{ID: "1", Code: "WA", Name: "W. Alder", Role: web.Owner}), Places: []web.Place{Place(loomShop(t).Desk)}})
	srv := httptest.NewServer(s)
	t.Cleanup(func() { s.Hub().Close(); srv.CloseClientConnections(); srv.Close() })
	ctx := tablet(t, srv.URL+"/b/pedlar/loom/route")
	read := func(script string) (got string) {
		t.Helper()
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`JSON.stringify(String(`+script+`))`))
		if err == nil {
			err = json.Unmarshal([]byte(text), &got)
		}
		if err != nil {
			t.Fatalf("%s: %v", script, err)
		}
		return got
	}
	// touch goes to a place of a drawing in millimetres of its first and second axis.
	touch := func(drawing int, a, b float64) {
		t.Helper()
		var at struct{ X, Y float64 }
		where := read(fmt.Sprintf(`(() => { const svg = document.querySelectorAll(".vehicle-svg[data-scale]")[%d]; svg.scrollIntoView({block: "center"});
			const [ox, oy] = svg.dataset.origin.split(" ").map(Number), k = Number(svg.dataset.scale), sign = svg.dataset.axes.split(" ").map((x) => x[1] === "-" ? -1 : 1);
			const p = new DOMPoint(ox + %g * k * sign[0], oy + %g * k * sign[1]).matrixTransform(svg.getScreenCTM()); return JSON.stringify({X: p.x, Y: p.y}) })()`, drawing, a, b))
		if err := json.Unmarshal([]byte(where), &at); err != nil {
			t.Fatal(err)
		}
		for _, kind := range []input.DispatchMouseEventType{input.DispatchMouseEventTypeMousePressed, input.DispatchMouseEventTypeMouseReleased} {
			if err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
				_, err := cdp.Call(ctx, tab, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: kind, X: at.X, Y: at.Y, Button: input.MouseButtonLeft, ClickCount: 1})
				return err
			})); err != nil {
				t.Fatal(err)
			}
		}
	}
	until := func(script, want string) {
		t.Helper()
		got := ""
		for range 60 {
			if got = read(script); got == want {
				return
			}
			time.Sleep(50 * time.Millisecond)
		}
		t.Errorf("%s is %q, want %q", script, got, want)
	}
	near := func(field string, want float64) {
		t.Helper()
		var got float64
		if fmt.Sscan(read(`document.getElementById("`+field+`").value`), &got); got < want-8 || got > want+8 {
			t.Errorf("%s is %g, want %g or so", field, got, want)
		}
	}
	touch(0, 1100, 100) // under the sill, beside all panels
	until(`location.pathname`, "/b/pedlar/loom/route/new")
	near("x", 1100)
	near("z", 100)
	touch(1, 2000, -300)
	near("x", 2000)
	near("y", -300)
	near("z", 100)
	if err := chromedp.Do(ctx, chromedp.Navigate(srv.URL+"/b/pedlar/loom/route")); err != nil {
		t.Fatal(err)
	}
	touch(0, 1630, 590) // the middle of R62
	until(`location.pathname`, "/b/pedlar/loom/route/stretch/R62")
}
