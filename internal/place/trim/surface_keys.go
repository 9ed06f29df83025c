package trim

import (
	"fettle/internal/web/ui/progress"
	"fmt"
	"strings"
)

// The keys of the pattern view; island/surface/acts.ts has the acts.
var surfaceViewKeys = []key{
	{Act: "undo", Word: "Undo", Keys: "Control+Z"},
	{Act: "redo", Word: "Redo", Keys: "Control+Y"},
	{Act: "fit", Word: "Whole", Says: "Bring the whole into view", Keys: "0"},
	{Act: "closer", Word: "Closer", Keys: "+"},
	{Act: "farther", Word: "Farther", Keys: "-"},
}

var surfaceSeamKeys = []key{
	{Act: "seam", Word: "Draw a seam", Keys: "S"},
	{Act: "put", Word: "Through here", Says: "Put the seam through the vertex of the cursor", Keys: "Enter Space"},
	{Act: "next", Word: "Next place", Says: "Pick the next place of the seams", Keys: "N"},
	{Act: "end", Word: "Seam done", Keys: "Escape", Needs: "seam"},
	{Act: "off", Word: "Place off", Says: "Take the picked place out", Keys: "Backspace", Needs: "place"},
	{Act: "offAll", Word: "Seam off", Says: "Take the whole seam out", Keys: "Delete", Needs: "seam"},
}

var surfaceMoveKeys = []key{
	{Act: "left", Word: "←", Says: "Left", Keys: "ArrowLeft"},
	{Act: "right", Word: "→", Says: "Right", Keys: "ArrowRight"},
	{Act: "up", Word: "↑", Says: "Up", Keys: "ArrowUp"},
	{Act: "down", Word: "↓", Says: "Down", Keys: "ArrowDown"},
}

// address is the page with what was asked, and some of it otherwise.
func (page flatPage) address(change map[string]string) string {
	v := page.query()
	v.Set("side", page.Side.Key)
	if page.Bar.ID != "" {
		v.Set("search", page.search())
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

// search is the key of the search for seams.
func (page flatPage) search() string { return strings.TrimPrefix(page.Bar.ID, "work-") }

func (page flatPage) partsHint() string {
	if n := len(page.Parts); n > 1 {
		return fmt.Sprintf("1 is the largest of %d", n)
	}
	return "there is one"
}

// waits tells whether the search goes on.
func (page flatPage) waits() bool {
	return page.Bar.State == progress.Working || page.Bar.State == progress.Waiting
}

// comes tells whether it is being laid flat.
func (page flatPage) comes() bool { return page.Work.State.Open() }
