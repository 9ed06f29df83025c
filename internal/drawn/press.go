package drawn

import (
	"bytes"
	"context"
	"io"
	"sync"

	"github.com/a-h/templ"
)

// mostPrints is how many drawings a press remembers.
const mostPrints = 48

// Press draws a thing once and hands out prints: working out the paths of six
// views takes longer than the rest of a page. The zero Press is ready, and may
// be used by many at once.
type Press struct {
	mu     sync.Mutex
	prints map[string][]byte
}

// Print returns a component that draws as plate does. key must name all that
// the drawing depends on.
func (p *Press) Print(key string, plate templ.Component) templ.Component {
	return templ.ComponentFunc(func(ctx context.Context, w io.Writer) error {
		p.mu.Lock()
		print, ok := p.prints[key]
		p.mu.Unlock()
		if !ok {
			var b bytes.Buffer
			if err := plate.Render(ctx, &b); err != nil {
				return err
			}
			print = b.Bytes()
			p.keep(key, print)
		}
		_, err := w.Write(print)
		return err
	})
}

func (p *Press) keep(key string, print []byte) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.prints == nil || len(p.prints) >= mostPrints {
		p.prints = map[string][]byte{}
	}
	p.prints[key] = print
}
