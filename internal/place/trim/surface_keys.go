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
