package trim

import (
	"encoding/json"
	"math"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/geom/mesh"
	"fettle/internal/job"
	"fettle/internal/placetest"
	stage "fettle/stage/trim"
)

// roundCap is a round cap of n by n squares, 400 mm wide.
func roundCap(n int) mesh.Mesh {
	var m mesh.Mesh
	for j := range n + 1 {
		for i := range n + 1 {
			x, y := 400*(float64(i)/float64(n)-0.5), 400*(float64(j)/float64(n)-0.5)
			m.Points = append(m.Points, mesh.Vec{X: x, Y: y, Z: math.Sqrt(350*350 - x*x - y*y)})
		}
	}
	for j := range int32(n) {
		for i := range int32(n) {
			a, b := j*int32(n+1)+i, (j+1)*int32(n+1)+i
			m.Faces = append(m.Faces, mesh.Face{a, a + 1, b + 1}, mesh.Face{a, b + 1, b})
		}
	}
	return m
}

// pageOf is a flat page of a mesh without a shop.
func pageOf(m mesh.Mesh, a stage.FlatAsk) flatPage {
	return flatPage{sheet: sheet{Base: "/b/pedlar", Build: &build.Build{}}, Surface: build.Surface{ID: "U9"}, Mesh: m, Ask: a}
}

// TestFlat_LargeOnesAreLongWork asks for a scan that a page may not wait for,
// with other seams the second time: the first stands meanwhile.
func TestFlat_LargeOnesAreLongWork(t *testing.T) {
	queue := placetest.Queue(t, job.Kind{Name: stage.FlatKind, Version: stage.FlatVersion, Work: stage.LookFlat, Tell: stage.TellFlat})
	m, err := mesh.Unpack(mesh.Pack(roundCap(94))) // 9,025 vertices, as the vault has them
	if err != nil {
		t.Fatal(err)
	}
	show := func(a stage.FlatAsk) flatPage {
		page := pageOf(m, a)
		page.lay(t.Context(), queue)
		page.thin()
		return page
	}
	page := show(stage.FlatAsk{Material: "leather"})
	if page.Flat != nil || !page.MayAsk || !strings.Contains(page.Sum(), "9025 vertices") || !strings.Contains(page.Sum(), "of computing") {
		t.Fatalf("%+v: %s", page.MayAsk, page.Sum())
	}
	order, err := stage.FlatOrder(m, page.Ask, false)
	if err != nil {
		t.Fatal(err)
	}
	input, _ := json.Marshal(order)
	if _, err := queue.Ask(t.Context(), job.Request{Kind: stage.FlatKind, Build: "pedlar", By: "1", What: page.laidWhat(), Input: input}); err != nil {
		t.Fatal(err)
	}
	for range 600 {
		if page = show(page.Ask); page.Flat != nil {
			break
		}
		if page.Work == nil || !page.comes() {
			t.Fatalf("nothing comes: %s", page.Sum())
		}
		time.Sleep(50 * time.Millisecond)
	}
	if page.Flat == nil || page.Older || page.Trouble != "" || !strings.Contains(page.Sum(), "In 1 piece") || page.Flat.Estimate.Needed <= 0 {
		t.Fatalf("not laid: %s", page.Sum())
	}
	just := pageOf(m, page.Ask) // it came between two looks at the queue
	if just.last(t.Context(), queue, job.KeyOf(stage.FlatKind, stage.FlatVersion, input), order); just.Flat == nil || just.Older {
		t.Error("what was asked for counts as an older answer")
	}
	want := job.KeyOf(stage.FlatKind, stage.FlatVersion, input)
	for _, by := range []string{page.LaidBy, just.LaidBy} {
		if by != want {
			t.Errorf("laid by %q, want %q: a pattern of it could not name its work", by, want)
		}
	}
	direct, err := stage.Flatten(t.Context(), m, page.Ask, 0)
	if err != nil || direct.Result.Material.Along != page.Flat.Result.Material.Along {
		t.Errorf("long work gives %v, the engine %v", page.Flat.Result.Material.Along, direct.Result.Material.Along)
	}
	page = show(stage.FlatAsk{Material: "leather", Cuts: [][]int32{{47, 47 + 95*47}}})
	if !page.Older || !page.MayAsk || page.Flat == nil || !strings.Contains(page.Sum(), "what was laid flat last") {
		t.Errorf("meanwhile: %s", page.Sum())
	}
	if page = show(stage.FlatAsk{Material: "leather", Cuts: [][]int32{{47, 999_999}}}); !strings.Contains(page.Sum(), "there is no vertex") {
		t.Errorf("a seam through nothing: %s", page.Sum())
	}
}

// TestFlat_ThinnedForThePicture draws a scan of 40,000 vertices by 12,000 of
// them and says what one of 200,000 costs.
func TestFlat_ThinnedForThePicture(t *testing.T) {
	page := pageOf(roundCap(200), stage.FlatAsk{})
	page.thin()
	used, area := map[int32]bool{}, 0.0
	for _, f := range page.Shown.Solid {
		for _, v := range f {
			used[v] = true
		}
		area += mesh.Mesh{Points: page.Mesh.Points, Faces: []mesh.Face{f}}.Area()
	}
	if whole := page.Mesh.Area(); len(used) > mostShown || len(used) < mostShown/4 || math.Abs(area/whole-1) > 0.05 {
		t.Errorf("%d vertices and %.3f of the area are drawn", len(used), area/page.Mesh.Area())
	}
	page = pageOf(roundCap(446), stage.FlatAsk{Material: "leather"})
	page.lay(t.Context(), nil)
	if s := page.Sum(); !strings.Contains(s, "199809 vertices") || !strings.Contains(s, "40 seconds of computing") {
		t.Error(s)
	}
	order, err := stage.FlatOrder(page.Mesh, page.Ask, false)
	if err != nil {
		t.Fatal(err)
	}
	if input, _ := json.Marshal(order); len(input) > 16<<20 {
		t.Errorf("the order weighs %d MB", len(input)>>20)
	}
	page = pageOf(mesh.Mesh{Points: make([]mesh.Vec, mostFlat+1)}, stage.FlatAsk{})
	if page.lay(t.Context(), nil); !strings.Contains(page.Sum(), "up to 200000 are laid flat") {
		t.Error(page.Sum())
	}
}

// TestSurface_PartedIsLookedAtPieceByPiece parts the cushion and looks for cuts.
func TestSurface_PartedIsLookedAtPieceByPiece(t *testing.T) {
	b := flatBench(t)
	ask := url.Values{"material": {"leather"}, "pull-along": {"1"}, "pull-across": {"1"}}
	ask.Set("cuts", "19 760 1501")
	a := b.Post(cushion+"/propose", ask)
	if a.Status != 303 {
		t.Fatalf("%d %.300s", a.Status, a.Body)
	}
	page := b.Waited(t, a.See)
	if !strings.Contains(page, "In 2 pieces") || !strings.Contains(page, "Where a seam would help") || !strings.Contains(page, `data-take="`) {
		t.Errorf("a parted surface: %.200s", page[strings.Index(page, "surf-sum"):])
	}
	other, _ := url.Parse(a.See)
	q := other.Query()
	q.Set("cuts", "19 760")
	if page := b.Get(other.Path + "?" + q.Encode()).Body; !strings.Contains(page, "no longer fit what is drawn") || strings.Contains(page, `data-take="`) {
		t.Error("proposals for other seams are not marked")
	}
	if a := b.Post(cushion+"/lay", ask); a.Status != 303 || !strings.Contains(a.See, "cuts=19+760+1501") {
		t.Errorf("laid flat as long work: %d %s", a.Status, a.See)
	}
}
