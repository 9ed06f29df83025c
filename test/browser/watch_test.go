package browser

import (
	"fmt"
	"strings"
	"sync"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// watch remembers what went wrong in a page and how much script it took in.
type watch struct {
	mu      sync.Mutex
	errors  []string
	script  map[network.RequestID]string // address of a script that was asked for
	weights map[string]int64             // bytes of each script, unpacked
}

func watching(p *tab) *watch {
	w := &watch{}
	w.clear()
	p.must("listen", chromedp.Listen(p.ctx, w.see))
	return w
}

func (w *watch) see(ev any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := ev.(type) {
	case *runtime.EventExceptionThrown:
		text := e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			text += " " + e.ExceptionDetails.Exception.Description
		}
		w.errors = append(w.errors, text)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError {
			w.errors = append(w.errors, "console.error "+fmt.Sprint(e.Args))
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError {
			w.errors = append(w.errors, fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL))
		}
	case *network.EventResponseReceived:
		if e.Type == network.ResourceTypeScript {
			w.script[e.RequestID] = e.Response.URL
		}
	case *network.EventDataReceived:
		if at, ok := w.script[e.RequestID]; ok {
			w.weights[at] += e.DataLength
		}
	}
}

// clear forgets what was seen.
func (w *watch) clear() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.errors, w.script, w.weights = nil, map[network.RequestID]string{}, map[string]int64{}
}

// weight is the script that the page took in, in bytes as unpacked.
func (w *watch) weight() int64 {
	w.mu.Lock()
	defer w.mu.Unlock()
	var sum int64
	for _, n := range w.weights {
		sum += n
	}
	return sum
}

// quiet fails the test for every error in the console but those expected.
func (p *tab) quiet(expected ...string) {
	p.Helper()
	p.saw.mu.Lock()
	defer p.saw.mu.Unlock()
	for _, e := range p.saw.errors {
		known := false
		for _, x := range expected {
			known = known || strings.Contains(e, x)
		}
		if !known {
			p.Errorf("the console says: %s", e)
		}
	}
	p.saw.errors = nil
}
