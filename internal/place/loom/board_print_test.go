package loom

import (
	"fmt"
	"image"
	"math"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fettle/geom"
	"fettle/geom/dxf"
	"fettle/geom/outline"
	"fettle/geom/svg"
	"fettle/internal/placetest"
	stage "fettle/stage/loom"
)

// fine is how many pixels of a rendered page a millimetre has.
const fine = 10

// Of A4 upright: 8 mm white, 26 mm of words below, 10 mm shared with the next.
const (
	tileMargin = 8.0
	tileOver   = 10.0
	tileWide   = 210 - 16.0
	tileHigh   = 297 - 16 - 26.0
)

// laidBoard is the demo's board with its page.
func laidBoard(t *testing.T, s *placetest.Shop) boardPage {
	t.Helper()
	b := s.Build(t)
	page := boardPage{sheet: sheet{Base: "/b/pedlar", Build: &b}, Zoom: 1}
	var err error
	if page.Loom, err = stage.Work(t.Context(), &b); err != nil {
		t.Fatal(err)
	}
	if page.Board, page.Laid, err = stage.BoardOf(t.Context(), &b, page.Loom); err != nil || !page.Laid {
		t.Fatal(err)
	}
	return page
}

// inkOn counts dark pixels of a shape that lies off its place by so many.
func inkOn(m *image.Gray, shape []image.Point, by image.Point) (n int) {
	for _, p := range shape {
		if m.GrayAt(p.X+by.X, p.Y+by.Y).Y < 128 {
			n++
		}
	}
	return n
}

// found is the middle in mm of where a shape fits the ink best, near a place of
// the page in mm.
func found(m *image.Gray, x, y float64, shape []image.Point) (float64, float64) {
	const reach = 8
	at := image.Pt(int(x*fine), int(y*fine))
	best, n := 0, 0
	var sum image.Point
	for dx := -reach; dx <= reach; dx++ {
		for dy := -reach; dy <= reach; dy++ {
			by := at.Add(image.Pt(dx, dy))
			got := inkOn(m, shape, by)
			if got > best {
				best, n, sum = got, 0, image.Point{}
			}
			if got == best {
				n, sum = n+1, sum.Add(by)
			}
		}
	}
	return (float64(sum.X)/float64(n) + 0.5) / fine, (float64(sum.Y)/float64(n) + 0.5) / fine
}

// Shapes in pixels: the square of a peg, 6 mm, and the arms of a cross, 10 mm.
func pegShape() (list []image.Point) {
	for i := -30; i <= 30; i++ {
		list = append(list, image.Pt(i, -30), image.Pt(i, 30), image.Pt(-30, i), image.Pt(30, i))
	}
	return list
}

func crossShape() (list []image.Point) {
	for i := -50; i <= 50; i++ {
		list = append(list, image.Pt(i, 0), image.Pt(0, i))
	}
	return list
}

var tileNamed = regexp.MustCompile(`row ([A-Z]+), column (\d+)`)

// tilePages tells on which page each tile is, by row and column.
func tilePages(t *testing.T, doc string) (map[[2]int]int, int) {
	t.Helper()
	read := exec.Command("pdftotext", "-", "-")
	read.Stdin = strings.NewReader(doc)
	out, err := read.Output()
	if err != nil {
		t.Skip("the pages cannot be read: pdftotext (poppler-utils) is not here")
	}
	pages := strings.Split(strings.TrimRight(string(out), "\f\n"), "\f")
	at := map[[2]int]int{}
	for i, text := range pages {
		if m := tileNamed.FindStringSubmatch(text); m != nil {
			col, _ := strconv.Atoi(m[2])
			at[[2]int{int(m[1][0] - 'A'), col - 1}] = i + 1
		}
	}
	return at, len(pages)
}

// pegTile is a tile as it came out: one of its pegs, and its upper crosses.
type pegTile struct {
	want        geom.Point // on the board
	peg         geom.Point // on the page, mm, y down
	left, right geom.Point // crosses
}

// TestBoard_TilesAtTrueSize renders tiles of A4 and holds a ruler against the
// bar and from peg to peg, on one tile and across the joints by their crosses.
func TestBoard_TilesAtTrueSize(t *testing.T) {
	s := loomShop(t)
	page := laidBoard(t, s)
	box, err := page.printed().Plan.Box()
	if err != nil {
		t.Fatal(err)
	}
	box = box.Grow(2)
	doc := s.Get("loom/board/drawing?form=pdf&paper=a4").Body
	at, pages := tilePages(t, doc)
	if len(at) < pages-3 || pages > 110 { // words of the drawing may stand amid those of the foot
		t.Errorf("%d tiles on %d pages, want a map and no empty ones", len(at), pages)
	}
	tiles := map[[2]int]pegTile{}
	for _, p := range page.Board.Pegs {
		col, row := int((p.At.X-box.Min.X)/(tileWide-tileOver)), int((box.Max.Y-p.At.Y)/(tileHigh-tileOver))
		k := [2]int{row, col}
		x, y := p.At.X-box.Min.X-float64(col)*(tileWide-tileOver), box.Max.Y-float64(row)*(tileHigh-tileOver)-p.At.Y
		if _, done := tiles[k]; done || len(tiles) == 16 || x < 10 || y < 10 || x > tileWide-10 || y > tileHigh-10 {
			continue
		}
		m := placetest.Printed(t, doc, fine, "-f", fmt.Sprint(at[k]), "-l", fmt.Sprint(at[k]))[0]
		one := pegTile{want: p.At}
		one.peg.X, one.peg.Y = found(m, tileMargin+x, tileMargin+y, pegShape())
		one.left.X, one.left.Y = found(m, tileMargin+tileOver/2, tileMargin+tileOver/2, crossShape())
		one.right.X, one.right.Y = found(m, tileMargin+tileWide-tileOver/2, tileMargin+tileOver/2, crossShape())
		tiles[k] = one
		if bar := barOf(m); math.Abs(bar-100) > 0.1 {
			t.Errorf("tile %v: the bar is %.2f mm", k, bar)
		}
	}
	joints := 0
	for k, a := range tiles {
		b, ok := tiles[[2]int{k[0], k[1] + 1}]
		if !ok {
			continue
		}
		joints++
		got := a.right.Sub(a.peg).Add(b.peg.Sub(b.left))
		want := b.want.Sub(a.want)
		if off := math.Abs(math.Hypot(got.X, got.Y) - math.Hypot(want.X, want.Y)); off > 0.2 || math.Abs(got.X-want.X) > 0.2 || math.Abs(got.Y+want.Y) > 0.2 {
			t.Errorf("across the joint right of %v pegs are %.2f, %.2f apart, want %.2f, %.2f", k, got.X, -got.Y, want.X, want.Y)
		}
	}
	if joints < 3 {
		t.Errorf("only %d joints were measured", joints)
	}
}

// barOf is the length of the check bar at the foot of a page: its end ticks are
// the first and the last ink of a row that crosses both.
func barOf(m *image.Gray) (bar float64) {
	for y := 272 * fine; y < 289*fine; y++ {
		runs := placetest.Ink(func(x int) uint8 { return m.GrayAt(x, y).Y }, 130*fine)
		if len(runs) < 2 {
			continue
		}
		if long := (runs[len(runs)-1] - runs[0]) / fine; math.Abs(long-100) < math.Abs(bar-100) {
			bar = long
		}
	}
	return bar
}

// TestBoard_FilesReadBack reads DXF and SVG and finds every peg where it is.
func TestBoard_FilesReadBack(t *testing.T) {
	s := loomShop(t)
	page := laidBoard(t, s)
	drawn, err := dxf.Read(strings.NewReader(s.Get("loom/board/drawing?form=dxf").Body), outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	lines, err := svg.Read(strings.NewReader(s.Get("loom/board/drawing?form=svg").Body), outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, plan := range map[string]outline.Drawing{"dxf": drawn, "svg": lines} {
		if got := squares(plan); len(got) != len(page.Board.Pegs) {
			t.Errorf("%s: %d pegs, want %d", name, len(got), len(page.Board.Pegs))
		} else {
			for i, p := range page.Board.Pegs {
				want, is := p.At.Sub(page.Board.Pegs[0].At), got[i].Sub(got[0])
				if math.Abs(is.X-want.X) > 0.01 || math.Abs(math.Abs(is.Y)-math.Abs(want.Y)) > 0.01 {
					t.Errorf("%s: peg %d lies %v from the first, want %v", name, i, is, want)
					break
				}
			}
		}
	}
}

// squares are the middles of the pegs of a drawing, in its order.
func squares(plan outline.Drawing) (list []geom.Point) {
	for _, o := range plan.Outlines {
		if box := (geom.Polygon{Outer: o.Points}).Bounds(); o.Closed && math.Abs(box.Width()-6) < 0.01 && math.Abs(box.Height()-6) < 0.01 {
			list = append(list, box.Min.Add(box.Max).Scale(0.5))
		}
	}
	return list
}

// TestBoard_Picture shows pegs, faces with their colours, and words that lie
// over nothing at every zoom; another board is taken from the list.
func TestBoard_Picture(t *testing.T) {
	s := loomShop(t)
	holds(t, s.Get("loom/board"), 200, "W05 datum", "headlamp plug L", "from the mating side", "cavity 2: C10", "empty, plug it", "board-peg-breakout", `aria-current="true"`, "tiles of A4 and a map")
	holds(t, s.Get("loom/board?zoom=4"), 200, "W27 headlamp L", "ø", "B03 118")
	holds(t, s.Get("loom/board?sizes=1"), 200, "two sheets side by side", "Take it", "board too small")
	if got := s.Post("loom/board", "board", "4880x2440", "width", "", "height", ""); got.See != "/b/pedlar/loom/board" {
		t.Fatalf("%d %.300s", got.Status, got.Body)
	}
	holds(t, s.Get("loom/board"), 200, "4880 × 2440 mm")
}
