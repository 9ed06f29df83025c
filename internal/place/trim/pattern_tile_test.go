package trim

import (
	"fmt"
	"image"
	"math"
	"net/url"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fettle/geom"
	"fettle/internal/placetest"
)

// tileOf is a page of a set on A4: the piece, its row and its column.
type tileOf struct{ page, row, col int }

var tileWords = regexp.MustCompile(`row ([A-Z]), column (\d+)`)

// tilesOf lists the pages of a PDF that show a piece, and how many there are.
func tilesOf(t *testing.T, set, piece string) (list []tileOf, pages int) {
	t.Helper()
	read := exec.Command("pdftotext", "-", "-")
	read.Stdin = strings.NewReader(set)
	out, err := read.Output()
	if err != nil {
		t.Skip("the pages cannot be read: pdftotext (poppler-utils) is not here")
	}
	all := strings.Split(strings.TrimRight(string(out), "\f\n"), "\f")
	for i, text := range all {
		m := tileWords.FindStringSubmatch(text)
		if m == nil || !strings.Contains(text, ", "+piece+":") {
			continue
		}
		col, _ := strconv.Atoi(m[2])
		list = append(list, tileOf{i + 1, int(m[1][0] - 'A'), col - 1})
	}
	return list, len(all)
}

// TestPatterns_TilesOfTheWholeSet prints the whole set on A4, renders its tiles
// and holds a ruler against every bar, and against the cut line of one piece
// where it lies on two tiles.
func TestPatterns_TilesOfTheWholeSet(t *testing.T) {
	b := drawnBench(t)
	revised(t, b, "outline", url.Values{"outline": {"0 0 front\n400 0 right\n400 200 slope\n100 300 rear\n0 300 left"}})
	line := lastOf(t, b, "T33").Cut.Polygon().Outer
	set := b.Get("/b/pedlar/trim/patterns/file?form=pdf&paper=a4").Body
	tiles, pages := tilesOf(t, set, "T33")
	if len(tiles) < 5 || pages < 20 {
		t.Fatalf("%d tiles of the piece on %d pages", len(tiles), pages)
	}
	for i, m := range placetest.Printed(t, set, fine, "-x", "0", "-y", fmt.Sprint(272*fine), "-W", fmt.Sprint(130*fine), "-H", fmt.Sprint(17*fine)) {
		if bar := barOf(m); math.Abs(bar-100) > 0.1 {
			t.Errorf("page %d: the bar is %.2f mm", i+1, bar)
		}
	}
	// A4 upright: 8 mm white, 26 mm of words below, 10 mm shared with the next.
	const margin, over, wide, high = 8.0, 10.0, 210 - 16.0, 297 - 16 - 26.0
	box := geom.Polygon{Outer: line}.Bounds().Grow(2)
	spots := alongLine(line, 3)
	seen := make([]int, len(spots))
	for _, at := range tiles {
		m := placetest.Printed(t, set, fine, "-f", fmt.Sprint(at.page), "-l", fmt.Sprint(at.page))[0]
		left, top := box.Min.X+float64(at.col)*(wide-over), box.Max.Y-float64(at.row)*(high-over)
		for i, s := range spots {
			x, y := s.at.X-left, top-s.at.Y
			if x < 1.5 || y < 1.5 || x > wide-1.5 || y > high-1.5 {
				continue
			}
			seen[i]++
			if off := besideBy(m, margin+x, margin+y, s.level); math.Abs(off) > 0.2 {
				t.Errorf("tile %c%d: at %.0f, %.0f the cut line lies %.2f mm beside its place", 'A'+at.row, at.col+1, s.at.X, s.at.Y, off)
			}
		}
	}
	shared := 0
	for i, n := range seen {
		if n == 0 && spots[i].at.X > box.Min.X+5 {
			t.Errorf("no tile shows %.0f, %.0f", spots[i].at.X, spots[i].at.Y)
		}
		if n > 1 {
			shared++
		}
	}
	if shared < 10 {
		t.Errorf("%d of %d places lie on two tiles", shared, len(spots))
	}
}

// barOf is the length of the check bar in a strip of the foot: its end ticks are
// the first and the last ink of a row that crosses both.
func barOf(m *image.Gray) (bar float64) {
	for y := range m.Bounds().Dy() {
		if a, z := ink(func(x int) uint8 { return m.GrayAt(x, y).Y }, m.Bounds().Dx()); a >= 0 && math.Abs(z-a-100) < math.Abs(bar-100) {
			bar = z - a
		}
	}
	return bar
}

// spotOn is a place of a line; level where it runs rather across than up.
type spotOn struct {
	at    geom.Point
	level bool
}

// alongLine are places of a closed line, so many mm apart, off its corners.
func alongLine(line []geom.Point, every float64) (list []spotOn) {
	for i, p := range line {
		q := line[(i+1)%len(line)]
		long := p.Distance(q)
		for s := 5.0; s < long-5; s += every {
			list = append(list, spotOn{p.Add(q.Sub(p).Scale(s / long)), math.Abs(q.X-p.X) > math.Abs(q.Y-p.Y)})
		}
	}
	return list
}

// besideBy is how far the middle of the ink nearest to a place of a page lies
// beside it, up or across; other lines there make it 0.
func besideBy(m *image.Gray, x, y float64, level bool) float64 {
	const reach = 15 // pixels
	px, py := int(x*fine), int(y*fine)
	first, last, runs, was := -1, -1, 0, false
	for k := -reach; k <= reach; k++ {
		at := image.Pt(px+k, py)
		if level {
			at = image.Pt(px, py+k)
		}
		dark := m.GrayAt(at.X, at.Y).Y < 128
		if dark && !was {
			runs++
			first = k
		}
		if dark {
			last = k
		}
		was = dark
	}
	switch {
	case runs == 0:
		return math.Inf(1)
	case runs > 1 || last-first > 9: // a cross or the edge of the tile beside it
		return 0
	}
	mid, want := float64(first+last+1)/2/fine, x*fine-float64(px)
	if level {
		want = y*fine - float64(py)
	}
	return mid - want/fine
}
