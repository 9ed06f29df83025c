package browser

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// machine is what all tests share: the program, built once, and one browser.
type machine struct {
	fettle string // path of the built program
	chrome context.Context
}

// shared starts the browser at the first test that wants it.
var shared = sync.OnceValues(begin)

// ends is what TestMain undoes, last first.
var ends []func()

func TestMain(m *testing.M) {
	code := m.Run()
	for i := len(ends) - 1; i >= 0; i-- {
		ends[i]()
	}
	os.Exit(code)
}

// wanted skips a test where browser tests are not asked for or cannot run.
func wanted(t *testing.T) {
	t.Helper()
	if os.Getenv("FETTLE_BROWSER") == "" {
		t.Skip("skipped: browser tests run with FETTLE_BROWSER=1")
	}
	if _, err := exec.LookPath("chromium"); err != nil {
		t.Skip("skipped: Chromium is not installed on this machine")
	}
}

// need returns the shared machine.
func need(t *testing.T) machine {
	t.Helper()
	wanted(t)
	m, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func begin() (machine, error) {
	dir, err := os.MkdirTemp("", "fettle-browser-")
	if err != nil {
		return machine{}, err
	}
	ends = append(ends, func() { os.RemoveAll(dir) })
	m := machine{fettle: filepath.Join(dir, "fettle")}
	if out, err := exec.Command("go", "build", "-o", m.fettle, "fettle/cmd/fettle").CombinedOutput(); err != nil {
		return m, fmt.Errorf("build the program: %v\n%s", err, out)
	}
	m.chrome, err = chrome(filepath.Join(dir, "profile"))
	return m, err
}

// chrome starts a browser with a profile of its own.
func chrome(profile string, more ...chromedp.ExecAllocatorOption) (context.Context, error) {
	path, err := exec.LookPath("chromium")
	if err != nil {
		return nil, err
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.UserDataDir(profile), chromedp.WindowSize(tabletWidth, tabletHeight),
		chromedp.Flag("disable-gpu", true), chromedp.Flag("lang", "en-GB"), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("enable-unsafe-swiftshader", true), chromedp.WSURLReadTimeout(time.Minute),
	)
	alloc, stop := chromedp.NewExecAllocator(context.Background(), append(opts, more...)...)
	ends = append(ends, stop)
	ctx, stop := chromedp.NewContext(alloc)
	ends = append(ends, stop)
	return ctx, chromedp.Do(ctx)
}
