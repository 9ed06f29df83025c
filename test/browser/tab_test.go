package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// A tablet lies in the hand at this size, in CSS pixels; a phone at the other.
const (
	tabletWidth, tabletHeight = 1180, 820
	phoneWidth, phoneHeight   = 390, 844
)

// patience is how long a page may take on a busy machine before a test gives up.
const patience = 20 * time.Second

// tab is one page of one tablet: its own cookies, cache and outbox.
type tab struct {
	*testing.T
	ctx  context.Context
	site string
	saw  *watch
}

// tablet opens a fresh tablet on a site.
func tablet(t *testing.T, site string) *tab {
	t.Helper()
	return tabOf(t, need(t).chrome, site)
}

func tabOf(t *testing.T, browser context.Context, site string) *tab {
	t.Helper()
	ctx, stop := chromedp.NewContext(browser, chromedp.WithNewBrowserContext())
	t.Cleanup(stop)
	return ready(&tab{T: t, ctx: ctx, site: site})
}

// ready binds the tab to its context, before any deadline does, and watches it.
func ready(p *tab) *tab {
	p.Helper()
	p.must("open a tab", chromedp.Do(p.ctx))
	p.do(p.sized(tabletWidth, tabletHeight))
	p.saw = watching(p)
	return p
}

// another opens one more tab on the same tablet.
func (p *tab) another() *tab {
	p.Helper()
	ctx, stop := chromedp.NewContext(p.ctx)
	p.Cleanup(stop)
	return ready(&tab{T: p.T, ctx: ctx, site: p.site})
}

func (p *tab) sized(width, height int64) chromedp.Action[chromedp.Void] {
	return chromedp.EmulateViewport(width, height, chromedp.EmulateTouch)
}

// do performs steps and fails the test when they do not end.
func (p *tab) do(acts ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	p.must("", p.try(acts...))
}

func (p *tab) try(acts ...chromedp.Action[chromedp.Void]) error {
	ctx, stop := context.WithTimeout(p.ctx, patience)
	defer stop()
	return chromedp.Do(ctx, acts...)
}

func (p *tab) must(what string, err error) {
	p.Helper()
	if err != nil {
		p.shoot("failed")
		p.Fatalf("%s: %v (at %s)", what, err, p.where())
	}
}

func (p *tab) where() string {
	ctx, stop := context.WithTimeout(p.ctx, 2*time.Second)
	defer stop()
	at, _ := chromedp.Run(ctx, chromedp.Location())
	return strings.TrimPrefix(at, p.site)
}

// open goes to a page and waits until it is loaded.
func (p *tab) open(path string) {
	p.Helper()
	p.must("open "+path, p.try(chromedp.Navigate(p.site+path)))
}

func (p *tab) goes(path string) chromedp.Action[chromedp.Void] {
	return chromedp.Navigate(p.site + path)
}

// shout raises an event of the window.
func shout(event string) chromedp.Action[chromedp.Void] {
	return chromedp.Evaluate[chromedp.Void]("dispatchEvent(new Event(\"" + event + "\"))")
}

// eval returns what an expression in the page is worth; a promise is awaited.
func eval[T any](p *tab, script string) T {
	p.Helper()
	v, err := ask[T](p, script)
	if err != nil {
		p.must("evaluate "+script, err)
	}
	return v
}

func ask[T any](p *tab, script string) (T, error) {
	var v T
	ctx, stop := context.WithTimeout(p.ctx, patience)
	defer stop()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string]("(async () => JSON.stringify(await ("+script+") ?? null))()", chromedp.EvalAwaitPromise))
	if err != nil {
		return v, err
	}
	return v, json.Unmarshal([]byte(text), &v)
}

// until waits for an expression to be true.
func (p *tab) until(what, script string) time.Duration {
	p.Helper()
	began := time.Now()
	for time.Since(began) < patience {
		if is, err := ask[bool](p, "!!("+script+")"); err == nil && is {
			return time.Since(began)
		}
		time.Sleep(15 * time.Millisecond)
	}
	p.must(what, errors.New("did not come to pass: "+script))
	return 0
}

// leads performs an act that leads to another page and waits for that page.
func (p *tab) leads(what string, acts ...chromedp.Action[chromedp.Void]) time.Duration {
	p.Helper()
	ctx, stop := context.WithTimeout(p.ctx, patience)
	defer stop()
	began := time.Now()
	_, err := chromedp.Run(ctx, chromedp.WaitEvent(page.LoadEventFired, nil, chromedp.Steps(acts...)))
	p.must(what, err)
	return time.Since(began)
}

// text is what a person reads in an element.
func (p *tab) text(css string) string {
	p.Helper()
	return eval[string](p, fmt.Sprintf("document.querySelector(%q)?.innerText ?? ''", css))
}

// says checks that the page holds a text.
func (p *tab) says(css, want string) {
	p.Helper()
	got := strings.Join(strings.Fields(p.text(css)), " ")
	if !strings.Contains(got, want) {
		p.Errorf("%s %s: got %q, want %q in it", p.where(), css, got, want)
	}
}

// bare forgets what the browser holds in its cache.
func (p *tab) bare() {
	p.Helper()
	_, err := chromedp.Call(p.ctx, network.SetCacheDisabled, network.SetCacheDisabledParams{CacheDisabled: true})
	p.must("cache off", err)
}

// shoot takes a picture of the whole page into the folder of FETTLE_SHOTS.
func (p *tab) shoot(name string) {
	dir := os.Getenv("FETTLE_SHOTS")
	if dir == "" {
		return
	}
	ctx, stop := context.WithTimeout(p.ctx, patience)
	defer stop()
	shot, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	if err != nil {
		p.Logf("no picture of %s: %v", name, err)
		return
	}
	keep(p.T, strings.ReplaceAll(p.Name(), "/", "-")+"-"+name+".png", shot)
}

// glance takes a picture of what the screen shows without scrolling.
func (p *tab) glance(name string) {
	if os.Getenv("FETTLE_SHOTS") == "" {
		return
	}
	ctx, stop := context.WithTimeout(p.ctx, patience)
	defer stop()
	if shot, err := chromedp.Run(ctx, chromedp.CaptureScreenshot()); err == nil {
		keep(p.T, strings.ReplaceAll(p.Name(), "/", "-")+"-"+name+".png", shot)
	}
}

// keep writes a file into the folder of FETTLE_SHOTS.
func keep(t *testing.T, name string, data []byte) string {
	dir := os.Getenv("FETTLE_SHOTS")
	if dir == "" {
		dir = t.TempDir()
	}
	path := filepath.Join(dir, name)
	if err := errors.Join(os.MkdirAll(dir, 0o755), os.WriteFile(path, data, 0o644)); err != nil {
		t.Error(err)
	}
	return path
}
