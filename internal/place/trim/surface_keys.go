package trim

import (
	"fmt"
	"strings"
)

// address is the page with what was asked, and some of it otherwise.
func (page flatPage) address(change map[string]string) string {
	v := page.query()
	v.Set("side", page.Side.Key)
	if page.Search.Asked() {
		v.Set("search", page.Search.Key)
	}
	for name, value := range change {
		v.Set(name, value)
	}
	for name := range v {
		if v.Get(name) == "" {
			v.Del(name)
		}
	}
	return page.surfacePath(page.Surface.ID) + "?" + v.Encode()
}

func (page flatPage) sidePath(side string) string {
	return page.address(map[string]string{"side": side})
}

// withCut is the page with one more cut.
func (page flatPage) withCut(path string) string {
	return page.address(map[string]string{"cuts": strings.TrimSpace(page.Cuts + "\n" + path)})
}

func (page flatPage) partsHint() string {
	if n := len(page.Parts); n > 1 {
		return fmt.Sprintf("1 is the largest of %d", n)
	}
	return "there is one"
}

// comes tells whether it is being laid flat.
func (page flatPage) comes() bool { return page.Work.State.Open() }

// bearsOpen tells whether anything stands in the fields of what a hide bears and
// how it lies.
func (page flatPage) bearsOpen() bool {
	if page.of("flat", "grain") != "" {
		return true
	}
	q := page.query()
	return q.Get("pull-along")+q.Get("pull-across")+q.Get("push-along")+q.Get("push-across") != ""
}
