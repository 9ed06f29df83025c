package pdf_test

import (
	"bytes"
	"fmt"
	"image"
	_ "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
	"fettle/geom/pdf"
)

func rect(layer string, x, y, w, h float64) outline.Outline {
	return outline.Outline{Layer: layer, Closed: true, Points: []geom.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}}
}

// hide is 500 × 620 mm: nine tiles of A4.
var hide = outline.Plan{
	Outlines: []outline.Outline{rect("hide", 0, 0, 500, 620), rect("pieces", 30, 40, 150, 60), rect("pieces", 200, 300, 250, 300)},
	Labels:   []outline.Label{{Layer: "pieces", Text: "Wange é 1", At: geom.Point{X: 105, Y: 70}, Height: 6}},
}

func write(t *testing.T, plan outline.Plan, paper pdf.Paper) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, []pdf.Sheet{{Title: "hide 1", Plan: plan}}, paper); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func a4(t *testing.T) pdf.Paper {
	t.Helper()
	p, err := pdf.ParsePaper("a4")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestWrite_SameBytes(t *testing.T) {
	first := write(t, hide, a4(t))
	for range 5 {
		if !bytes.Equal(first, write(t, hide, a4(t))) {
			t.Fatal("the same plan gave other bytes")
		}
	}
	if !bytes.Contains(first, []byte("/PrintScaling /None")) {
		t.Error("viewers are not asked to print at true size")
	}
	if bytes.Contains(first, []byte("D:20")) {
		t.Error("a time of writing stands in the file")
	}
}

// perMM are the pixels of a millimetre in rendered pages.
const perMM = 6

// render returns the pages as poppler draws them.
func render(t *testing.T, data []byte) (pages []image.Image, text string) {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("the pages cannot be measured: pdftoppm (poppler-utils) is not here")
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "a.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(25.4*perMM), "-gray", "-png", file, filepath.Join(dir, "p")).CombinedOutput(); err != nil || len(out) > 0 {
		t.Fatalf("pdftoppm: %v %s", err, out)
	}
	files, _ := filepath.Glob(filepath.Join(dir, "p*.png"))
	for _, f := range files {
		in, err := os.Open(f)
		if err != nil {
			t.Fatal(err)
		}
		m, _, err := image.Decode(in)
		in.Close()
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, m)
	}
	words, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return pages, string(words)
}

func dark(m image.Image, x, y int) bool {
	r, _, _, _ := m.At(x, y).RGBA()
	return r < 0x8000
}

// bar returns the length of the level line nearest to 100 mm in the foot, in
// millimetres.
func bar(m image.Image) (best float64) {
	b := m.Bounds()
	for y := b.Max.Y - 20*perMM; y < b.Max.Y; y++ {
		for x, run := b.Min.X, 0; x <= b.Max.X; x++ {
			if x < b.Max.X && dark(m, x, y) {
				run++
				continue
			}
			if l := float64(run) / perMM; math.Abs(l-100) < math.Abs(best-100) {
				best = l
			}
			run = 0
		}
	}
	return best
}

// TestWrite_Measured holds a ruler against every page: the bar, and the sides
// of a piece.
func TestWrite_Measured(t *testing.T) {
	pages, text := render(t, write(t, hide, a4(t)))
	if len(pages) != 9 {
		t.Fatalf("%d pages, want 9", len(pages))
	}
	for i, m := range pages {
		if l := bar(m); math.Abs(l-100) > 0.5 { // the pen is 0.25 wide
			t.Errorf("page %d: the bar is %.2f mm long", i+1, l)
		}
		if w, h := float64(m.Bounds().Dx())/perMM, float64(m.Bounds().Dy())/perMM; math.Abs(w-210) > 0.2 || math.Abs(h-297) > 0.2 {
			t.Errorf("page %d: %.1f by %.1f mm", i+1, w, h)
		}
	}
	for _, want := range []string{"This bar is 100 mm", "Print at 100 %", "row C, column 3", "hide 1", "page 9 of 9", "Wange é 1"} {
		if !strings.Contains(text, want) {
			t.Errorf("the pages do not say %q", want)
		}
	}
	if n := strings.Count(text, "no fit to page"); n != 9 {
		t.Errorf("%d of 9 pages say how to print", n)
	}
}

// TestWrite_One measures a single page of true size: the first and last dark
// columns of a row through the piece are its sides.
func TestWrite_One(t *testing.T) {
	plan := outline.Plan{Outlines: []outline.Outline{rect("pieces", 1000, 2000, 321.5, 200)}}
	pages, _ := render(t, write(t, plan, pdf.Paper{}))
	if len(pages) != 1 {
		t.Fatalf("%d pages, want 1", len(pages))
	}
	m := pages[0]
	first, last := -1, -1
	for x := range m.Bounds().Dx() {
		if dark(m, x, 100*perMM) {
			last = x
			if first < 0 {
				first = x
			}
		}
	}
	if l := float64(last-first) / perMM; math.Abs(l-321.5) > 0.5 {
		t.Errorf("a piece of 321.5 mm is %.2f mm on paper", l)
	}
	if l := bar(m); math.Abs(l-100) > 0.5 {
		t.Errorf("the bar is %.2f mm long", l)
	}
}

func TestWrite_LeavesOutEmptyTiles(t *testing.T) {
	plan := outline.Plan{Outlines: []outline.Outline{rect("p", 0, 0, 50, 50), rect("p", 1500, 1500, 50, 50)}}
	_, text := render(t, write(t, plan, a4(t)))
	if n := strings.Count(text, "This bar"); n != 2 || !strings.Contains(text, "empty ones left out") {
		t.Errorf("%d pages, want 2 and a word about the rest", n)
	}
}

// TestWrite_Sheets puts sheets of two sizes into one file.
func TestWrite_Sheets(t *testing.T) {
	var b bytes.Buffer
	small := outline.Plan{Outlines: []outline.Outline{rect("p", 0, 0, 200, 40)}}
	if err := pdf.Write(&b, []pdf.Sheet{{Title: "first", Plan: hide}, {Title: "none"}, {Title: "second", Plan: small}}, pdf.Paper{}); err != nil {
		t.Fatal(err)
	}
	pages, text := render(t, b.Bytes())
	if len(pages) != 2 || pages[0].Bounds().Dy() <= pages[1].Bounds().Dy() || !strings.Contains(text, "first") || !strings.Contains(text, "second") {
		t.Errorf("%d pages that say %q", len(pages), text)
	}
}

func TestFaults(t *testing.T) {
	far := outline.Plan{Outlines: []outline.Outline{rect("p", 0, 0, 9000, 9000)}}
	for _, c := range []struct {
		plan  outline.Plan
		paper pdf.Paper
		want  string
	}{
		{outline.Plan{}, pdf.Paper{}, "nothing to print"},
		{outline.Plan{Outlines: []outline.Outline{{Points: []geom.Point{{}}}}}, pdf.Paper{}, "outline 1"},
		{far, pdf.Paper{}, "does not fit one page"}, {hide, pdf.Paper{Width: 50, Height: 50}, "paper of 50 by 50"},
		{outline.Plan{Outlines: []outline.Outline{rect("p", 0, 0, 1e6, 1e6)}}, pdf.Paper{Width: 210, Height: 297}, "at most 2000"},
		{hide, pdf.Paper{Width: 210, Height: 297, Overlap: math.NaN()}, "overlap of NaN"},
	} {
		err := pdf.Write(&bytes.Buffer{}, []pdf.Sheet{{Plan: c.plan}}, c.paper)
		if err == nil || !strings.Contains(err.Error(), c.want) || fault.KindOf(err) == fault.Internal {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	for name, want := range map[string][2]float64{"A3-wide": {420, 297}, "914x1200": {914, 1200}, "one": {}, "b9": {-1}, "NaNx300": {-1}, "10x10": {-1}} {
		if p, err := pdf.ParsePaper(name); (err != nil) != (want[0] < 0) || err == nil && (p.Width != want[0] || p.Height != want[1]) {
			t.Errorf("%s: %v, %v", name, p, err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	for b.Loop() {
		if err := pdf.Write(&bytes.Buffer{}, []pdf.Sheet{{Plan: hide}}, pdf.Paper{Width: 210, Height: 297}); err != nil {
			b.Fatal(err)
		}
	}
}
