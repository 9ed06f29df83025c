package loom

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/web"
	stage "fettle/stage/loom"
	"fettle/unit"
)

type benches struct{}

func (benches) Title(context.Context, string) (web.Title, error) {
	return web.Title{Build: "pedlar", Vehicle: "panel van", Revision: 7, Units: "mm"}, nil
}

func (benches) Home(context.Context) (string, error) { return "/", nil }

// few is a build of three circuits.
func few() build.Build {
	c := func(id, name string, metres unit.Length) build.Circuit {
		return build.Circuit{ID: id, Name: name, From: "switch", To: "lamp", Length: metres * unit.Metre, Load: 4, DropLimit: 3, Duty: "cont", Colour: "U/R", Fuse: "F" + id[2:], FuseA: 7.5}
	}
	return build.Build{Name: "pedlar", Circuits: []build.Circuit{c("C01", "dip beam L", 2), c("C02", "dip beam R", 3), c("C03", "spot lamp", 4)}}
}

// serveList serves the list of three circuits; a try answers with what was sent.
func serveList(t *testing.T, sent chan<- string) string {
	t.Helper()
	list := func(r *web.Request) (listPage, error) {
		b := few()
		s := sheet{Base: "/b/pedlar", Build: &b, Kept: &b, Crew: true}
		s.Loom, s.Wrong = stage.Work(r.Context(), &b)
		return s.list(), s.Wrong
	}
	show := func(r *web.Request) error {
		page, err := list(r)
		if err != nil {
			return err
		}
		return r.Page(page.web(), showCircuits(page))
	}
	try := func(r *web.Request) error {
		f, err := r.Form()
		if err != nil {
			return err
		}
		page, err := list(r)
		if err != nil {
			return err
		}
		sent <- f.Raw("load-C02")
		return r.Fragment(foundAnew(page))
	}
	s := web.New(web.Config{Builds: benches{}, Gate: web.Fixed(account.Person{ID: "1", Name: "W. Alder", Role: web.Owner}), Places: []web.Place{{Key: "loom", Label: "Loom", Path: "/b/{build}/loom", Routes: []web.Route{
		{Pattern: "GET /b/{build}/loom", Who: web.Guest, Handle: show},
		{Pattern: "POST /b/{build}/loom/try", Who: web.Crew, Handle: try},
	}}}})
	srv := httptest.NewServer(s)
	t.Cleanup(func() { s.Hub().Close(); srv.CloseClientConnections(); srv.Close() })
	return srv.URL + "/b/pedlar/loom"
}

// tablet is a fresh one with a page open on it.
func tablet(t *testing.T, url string) context.Context {
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
	ctx, cancel = context.WithTimeout(ctx, time.Minute)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1024, 768)); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Listen(ctx, func(ev any) {
		switch e := ev.(type) {
		case *runtime.EventExceptionThrown:
			t.Errorf("the page throws: %s", e.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			t.Errorf("the console says: %s", e.Entry.Text)
		}
	}); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate(url)); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// TestList_ByKeysAlone: Enter goes down a column and ends at the button, Shift
// and Enter goes up, and what is typed is sent to be worked out.
func TestList_ByKeysAlone(t *testing.T) {
	sent := make(chan string, 8)
	ctx := tablet(t, serveList(t, sent))
	do := func(acts ...chromedp.Action[chromedp.Void]) {
		t.Helper()
		if err := chromedp.Do(ctx, acts...); err != nil {
			t.Fatal(err)
		}
	}
	at := func(want string) {
		t.Helper()
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`JSON.stringify(document.activeElement.name || document.activeElement.textContent.trim())`))
		var got string
		if err == nil {
			err = json.Unmarshal([]byte(text), &got)
		}
		if err != nil || got != want {
			t.Errorf("the keys are in %q, want %q (%v)", got, want, err)
		}
	}
	run := func(script string) {
		t.Helper()
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[string](fmt.Sprintf(`(() => { %s; return "" })()`, script))); err != nil {
			t.Fatal(err)
		}
	}
	// press is a key as a keyboard sends it: no letter follows that the page has
	// taken for itself.
	press := func(key string, code int64) {
		t.Helper()
		do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			k := input.DispatchKeyEventParams{Type: kb.KeyRawDown, Key: key, Code: key, WindowsVirtualKeyCode: code}
			_, err := cdp.Call(ctx, t, input.DispatchKeyEvent, k)
			return err
		}))
	}
	run(`document.getElementById("load-C01").focus()`)
	press("Enter", 13)
	at("load-C02")
	do(chromedp.KeyEvent("6"))
	press("Enter", 13)
	at("load-C03")
	select {
	case got := <-sent:
		if got != "6" {
			t.Errorf("worked out with %q, want what was typed over the old load", got)
		}
	case <-time.After(5 * time.Second):
		t.Error("nothing was sent to be worked out")
	}
	press("ArrowUp", 38)
	at("load-C02")
	press("ArrowDown", 40)
	press("Enter", 13)
	at("load-new")
	press("Enter", 13)
	at("Lay it on the slip")
	run(`document.getElementById("duty-C01").focus()`)
	press("Enter", 13)
	at("duty-C02")
}
