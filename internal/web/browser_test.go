package web_test

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/a-h/templ"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"fettle/figure"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/internal/web/ui/button"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/working"
)

// bench is a server with one form and one figure. It can be out of reach, and
// it remembers what arrived.
type bench struct {
	*web.Server
	url  string
	down atomic.Bool
	gone atomic.Bool // nobody is signed in

	mu      sync.Mutex
	arrived []string // "entry size"
}

func (b *bench) Identify(r *http.Request) (account.Person, bool) {
	return account.Person{ID: "1", Code: "MW", Name: "M. Wrenn", Role: web.Crew}, !b.gone.Load()
}

func (b *bench) Wrap(next http.Handler) http.Handler { return next }
func (b *bench) SignIn(string) string                { return "/away" }

func (b *bench) got() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return append([]string(nil), b.arrived...)
}

func (b *bench) keep(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	f.Int("size", 1, 100)
	if err := f.Err(); err != nil {
		return err
	}
	b.mu.Lock()
	b.arrived = append(b.arrived, entry+" "+f.Raw("size"))
	b.mu.Unlock()
	r.Kept("size "+f.Raw("size"), entry, "")
	return r.SeeOther("/b/pedlar/bench")
}

func form() templ.Component {
	fields := templ.Join(
		field.Input(field.Params{Name: "size", Label: "Size"}),
		button.Submit(button.Params{Label: "Record"}),
	)
	return templ.ComponentFunc(func(ctx context.Context, w io.Writer) error {
		p := field.FormParams{Action: "/b/pedlar/bench", Entry: field.NewEntry(), Outbox: true, ID: "form"}
		return field.Form(p).Render(templ.WithChildren(ctx, fields), w)
	})
}

// serve starts the bench; it cuts every connection while it is down.
func serve(t *testing.T) *bench {
	t.Helper()
	b := &bench{}
	hours := figure.Figure{Name: "Hours", Text: "310 h", Formula: "all findings", With: "224 + 86"}
	b.Server = web.New(web.Config{Builds: shop{}, Gate: b, Places: []web.Place{{Key: "bench", Label: "Bench", Path: "/b/{build}/bench", Routes: []web.Route{
		{Pattern: "GET /b/{build}/bench", Who: web.Guest, Handle: func(r *web.Request) error {
			return r.Page(web.Sheet{Place: "bench", Shown: "a form"}, working.Figure("hours", working.Huge, hours), form(), text("kept "+strings.Join(b.got(), ", ")))
		}},
		{Pattern: "POST /b/{build}/bench", Who: web.Crew, Handle: b.keep},
	}}}})
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if b.down.Load() {
			panic(http.ErrAbortHandler)
		}
		b.ServeHTTP(w, r)
	}))
	t.Cleanup(func() { b.Hub().Close(); srv.CloseClientConnections(); srv.Close() })
	b.url = srv.URL + "/b/pedlar/bench"
	return b
}

// tab opens a browser, or skips the test when that is not asked for.
func tab(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil || os.Getenv("FETTLE_BROWSER") == "" {
		t.Skip("browser tests run with FETTLE_BROWSER=1 and Chromium installed")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.WindowSize(1180, 820))
	alloc, cancel := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(cancel)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 60*time.Second)
	t.Cleanup(cancel)
	return ctx
}

func run(t *testing.T, ctx context.Context, acts ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, acts...); err != nil {
		t.Fatal(err)
	}
}

// read is what a script in the page answers, as text.
func read(t *testing.T, ctx context.Context, script string) string {
	t.Helper()
	got, err := chromedp.Run(ctx, chromedp.Evaluate[string]("String("+script+")"))
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// do runs a script in the page for what it does.
func do(script string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := chromedp.Evaluate[string]("String((() => {"+script+"})())")(ctx, t)
		return err
	})
}

// eventually asks the page until it answers with what is wanted.
func eventually(t *testing.T, ctx context.Context, script, want string, within time.Duration) {
	t.Helper()
	var got string
	for began := time.Now(); time.Since(began) < within; time.Sleep(20 * time.Millisecond) {
		got = read(t, ctx, script)
		if got == want {
			return
		}
	}
	t.Errorf("%s: got %q after %v, want %q", script, got, within, want)
}

const (
	said    = `document.querySelector("[data-said]")?.textContent ?? ""`
	waiting = `document.querySelector("[data-outbox-count]").textContent`
	press   = `document.querySelector("#form button").click()`
	entry   = `document.querySelector("#form [name=entry]").value`
)

func fillIn(size string) chromedp.Action[chromedp.Void] {
	return chromedp.Steps(do(`document.querySelector("#size").value = ""`), chromedp.Focus(chromedp.CSS("#size")), chromedp.KeyEvent(size))
}

// TestBrowser_Policy opens a page and finds nothing refused, nothing thrown,
// and no more script than a page may load.
func TestBrowser_Policy(t *testing.T) {
	ctx := tab(t)
	b := serve(t)
	var mu sync.Mutex
	var troubles []string
	err := chromedp.Listen(ctx, func(ev any) {
		mu.Lock()
		defer mu.Unlock()
		switch e := ev.(type) {
		case *runtime.EventExceptionThrown:
			troubles = append(troubles, e.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			troubles = append(troubles, e.Entry.Text)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	run(t, ctx, chromedp.Navigate(b.url), chromedp.Sleep(500*time.Millisecond))
	weight, _ := strconv.Atoi(read(t, ctx, `performance.getEntriesByType("resource").filter((e) => e.name.endsWith(".js")).reduce((n, e) => n + e.decodedBodySize, 0)`))
	mu.Lock()
	defer mu.Unlock()
	if len(troubles) > 0 {
		t.Errorf("the console says %q", troubles)
	}
	if weight == 0 || weight > 60_000 {
		t.Errorf("the page loads %d bytes of script, want at most 60,000", weight)
	}
}

// TestBrowser_PolicyBites shows that the console would tell: an inline style
// and an inline script are refused.
func TestBrowser_PolicyBites(t *testing.T) {
	ctx := tab(t)
	b := serve(t)
	run(t, ctx, chromedp.Navigate(b.url),
		do(`document.addEventListener("securitypolicyviolation", (e) => document.body.dataset.refused = (document.body.dataset.refused ?? "") + e.violatedDirective + " ")`),
		do(`document.body.insertAdjacentHTML("beforeend", "<p style='color:red' onclick='x()'>x</p>")`))
	eventually(t, ctx, `document.body.dataset.refused`, "style-src-attr script-src-attr ", time.Second)
}

// TestBrowser_Working opens and closes a bench card by keyboard alone.
func TestBrowser_Working(t *testing.T) {
	ctx := tab(t)
	b := serve(t)
	const open = `document.querySelector("#w-hours").matches(":popover-open")`
	run(t, ctx, chromedp.Navigate(b.url), chromedp.Focus(chromedp.CSS(".figure")), chromedp.KeyEvent(kb.Enter))
	eventually(t, ctx, open, "true", time.Second)
	run(t, ctx, chromedp.KeyEvent(kb.Escape))
	eventually(t, ctx, open, "false", time.Second)
}

// TestBrowser_Live shows a change made elsewhere within a second, and again
// after the server was out of reach.
func TestBrowser_Live(t *testing.T) {
	ctx := tab(t)
	b := serve(t)
	run(t, ctx, chromedp.Navigate(b.url), chromedp.Sleep(600*time.Millisecond))
	// The part is marked; the answer of a fresh page takes the mark away.
	const part = `document.querySelector("#block-revision dd").textContent`
	for seq := range int64(2) {
		run(t, ctx, do(`document.querySelector("#block-revision dd").textContent = "old"`))
		b.Hub().Publish("pedlar", web.Event{Seq: 42 + seq})
		eventually(t, ctx, part, "41", time.Second)
	}
}

func TestBrowser_OneTouchCountsOnce(t *testing.T) {
	ctx := tab(t)
	b := serve(t)
	run(t, ctx, chromedp.Navigate(b.url), fillIn("12"), do(press+";"+press+";"+press),
		chromedp.WaitVisible(chromedp.CSS(".undo")))
	if got := b.got(); len(got) != 1 || !strings.HasSuffix(got[0], " 12") {
		t.Errorf("arrived: %q, want one of size 12", got)
	}
}

// TestBrowser_Outbox enters twice in the dead corner and once more in reach:
// all arrive, once each, in order, with the IDs the tablet made.
func TestBrowser_Outbox(t *testing.T) {
	ctx := tab(t)
	b := serve(t)
	run(t, ctx, chromedp.Navigate(b.url))
	served := read(t, ctx, entry)
	run(t, ctx, fillIn("31"))
	made := read(t, ctx, entry)
	if served == made || len(made) != 36 || made[14] != '7' {
		t.Errorf("the tablet made %q over %q, want a UUIDv7 of its own", made, served)
	}
	b.down.Store(true)
	run(t, ctx, do(press))
	eventually(t, ctx, said, "Kept on this tablet. It is sent when the server answers again.", 5*time.Second)
	eventually(t, ctx, waiting, "1 waiting to be sent", time.Second)
	next := read(t, ctx, entry)
	run(t, ctx, fillIn("32"), do(press))
	eventually(t, ctx, waiting, "2 waiting to be sent", 5*time.Second)
	if next == made {
		t.Error("two entries share an ID")
	}
	b.down.Store(false)
	b.gone.Store(true)
	run(t, ctx, do(`dispatchEvent(new Event("online"))`), chromedp.Sleep(300*time.Millisecond))
	eventually(t, ctx, waiting, "2 waiting to be sent", time.Second) // 401 keeps them
	b.gone.Store(false)
	run(t, ctx, fillIn("33"), do(press), chromedp.WaitVisible(chromedp.CSS(".undo")))
	eventually(t, ctx, waiting, "", 5*time.Second)
	var sizes []string
	for _, a := range b.got() {
		sizes = append(sizes, a[37:])
	}
	if got := strings.Join(sizes, " "); got != "31 32 33" || b.got()[0][:36] != made {
		t.Errorf("arrived %q with first ID %q, want 31 32 33 and %q", got, b.got()[0][:36], made)
	}
}

// TestBrowser_OutboxRefused shows the reason beside the form and keeps what was typed.
func TestBrowser_OutboxRefused(t *testing.T) {
	ctx := tab(t)
	b := serve(t)
	run(t, ctx, chromedp.Navigate(b.url), fillIn("999"), do(press))
	eventually(t, ctx, said, "size: must be from 1 to 100", 3*time.Second)
	eventually(t, ctx, `document.querySelector("#size").value`, "999", time.Second)
	eventually(t, ctx, waiting, "", time.Second)
}
