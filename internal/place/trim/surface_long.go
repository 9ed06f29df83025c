package trim

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"

	"fettle/geom/mesh"
	"fettle/internal/desk"
	"fettle/internal/flatwork"
	"fettle/internal/job"
	"fettle/internal/web"
	"fettle/internal/web/ui/surface"
	stage "fettle/stage/trim"
)

// A surface of up to surface.AtOnce vertices is laid flat while a person waits, in at
// most so many steps a pass; a larger one, or one that asks for more, is long
// work. Beyond mostFlat it is not laid flat.
const (
	waitSteps = 60
	mostFlat  = 200_000
)

// laidWhat is what a job that lays a surface flat is called.
func (page flatPage) laidWhat() string { return "surface " + string(page.Surface.ID) + " laid flat" }

// lay lays the surface flat as asked, and works out all that is said of it.
func (page *flatPage) lay(ctx context.Context, jobs job.Queue) {
	n := len(page.Mesh.Points)
	if n > mostFlat {
		page.Trouble = fmt.Sprintf("It has %d vertices; up to %d are laid flat. Thin it out in the program of the scanner and take it in again.", n, mostFlat)
		return
	}
	if n <= surface.AtOnce {
		flat, err := stage.Flatten(ctx, page.Mesh, page.Ask, waitSteps)
		switch {
		case err != nil:
			page.Trouble = err.Error()
			return
		case flat.Settled():
			page.laid(flat)
			return
		}
		page.Trouble = "What it asks for takes longer than a page may wait."
	} else {
		page.Trouble = fmt.Sprintf("It has %d vertices: laying it flat is done in the background, and takes about %s of computing.", n, costWords(n))
	}
	page.long(ctx, jobs)
}

// costWords says what laying so many vertices flat takes: 5 s for 40,000 of a
// plain dome in leather on one 3 GHz core, and somewhat more than in proportion.
func costWords(n int) string {
	const each, per = 5.0, 40_000
	s := each * float64(n) / per * (0.85 + 0.15*float64(n)/per)
	switch {
	case s < 2:
		return "a second"
	case s < 60:
		return fmt.Sprintf("%.0f seconds", s)
	}
	return fmt.Sprintf("%.0f minutes", s/60+0.5)
}

// long shows what the queue has of it: the answer, or how far it is and the last
// one meanwhile.
func (page *flatPage) long(ctx context.Context, jobs job.Queue) {
	order, err := stage.FlatOrder(page.Mesh, page.Ask, false)
	if err != nil {
		page.Trouble = err.Error()
		return
	}
	if jobs == nil {
		page.Trouble += " Nothing that takes long is worked out here."
		return
	}
	input, err := json.Marshal(order)
	if err != nil {
		return
	}
	key := job.KeyOf(stage.FlatKind, stage.FlatVersion, input)
	j, err := jobs.Get(ctx, key)
	if page.MayAsk = err != nil; err == nil {
		if j.State == job.Done && page.answered(j) {
			page.Trouble, page.LaidBy = "", key
			return
		}
		page.Work = &j
	}
	page.last(ctx, jobs, key, order)
}

// answered takes the answer of a job, if it is one.
func (page *flatPage) answered(j job.Job) bool {
	var order stage.FlatJob
	if json.Unmarshal(j.Input, &order) != nil {
		return false
	}
	answer, err := stage.ReadFlat(j.Best)
	if err != nil {
		return false
	}
	flat, err := stage.LaidFlat(order, answer)
	if err != nil {
		return false
	}
	page.laid(flat)
	return true
}

// last shows the last answer for this surface meanwhile; the one that is asked
// for where it came since the queue was looked at.
func (page *flatPage) last(ctx context.Context, jobs job.Queue, key string, now stage.FlatJob) {
	list, err := jobs.List(ctx, "")
	if err != nil {
		return
	}
	for _, j := range list {
		if j.Kind != stage.FlatKind || j.State != job.Done || j.What != page.laidWhat() || "/b/"+j.Build != page.Base {
			continue
		}
		whole, err := jobs.Get(ctx, j.Key)
		if err != nil {
			continue
		}
		var order stage.FlatJob
		if json.Unmarshal(whole.Input, &order) == nil && bytes.Equal(order.Surface, now.Surface) && page.answered(whole) {
			if page.Older = j.Key != key; !page.Older {
				page.Trouble, page.Work, page.LaidBy = "", nil, key
			}
			return
		}
	}
}

// layLong asks for a surface to be laid flat, and comes back to the page.
func (p place) layLong(r *web.Request) error {
	page, order, err := p.orderOf(r, false)
	if err != nil {
		return err
	}
	if _, err := flatwork.Ask(p.desk, r, order, page.laidWhat()); err != nil {
		return err
	}
	return r.SeeOther(page.surfacePath(page.Surface.ID) + "?" + page.query().Encode())
}

// orderOf is what a form asks of a surface, as long work.
func (p place) orderOf(r *web.Request, propose bool) (page flatPage, order stage.FlatJob, err error) {
	f, err := r.Form()
	if err != nil {
		return page, order, err
	}
	if page.sheet, err = p.load(r); err != nil {
		return page, order, err
	}
	if page.Surface, page.Mesh, err = p.surfaceOf(r, page.sheet); err != nil {
		return page, order, err
	}
	page.Ask, page.Cuts, page.grain = askedFlat(f)
	if err := f.Err(); err != nil {
		return page, order, err
	}
	order, err = stage.FlatOrder(page.Mesh, page.Ask, propose)
	return page, order, err
}

// coming is the box of the work that lays it flat.
func (page *flatPage) coming(r *web.Request) {
	if page.Work != nil {
		page.Coming = desk.Work(r, *page.Work)
	}
}

// mostShown is how many places of a surface a page draws; a larger scan is
// thinned out for the picture, and only for that.
const mostShown = 12_000

// drawnFaces are the faces that a page draws: of the surface, laid flat, and which of
// all faces each is.
type drawnFaces struct {
	Solid, Flat []mesh.Face
	Of          []int32
}

// thin picks the faces that are drawn. Of vertices that share a small cube the
// first stands for all; a face whose corners stay three is drawn once. Seams lie
// open: laid flat, a corner goes to the copy of its vertex that is nearest.
func (page *flatPage) thin() {
	m, cube := page.Mesh, page.Mesh.Cluster(mostShown)
	seen := map[mesh.Face]bool{}
	var copies map[int32][]int32
	if page.Flat != nil && cube != nil {
		copies = map[int32][]int32{}
		for i, v := range page.Flat.Result.Flat.Source {
			copies[v] = append(copies[v], int32(i))
		}
	}
	for i, f := range m.Faces {
		flat := mesh.Face{}
		if page.Flat != nil {
			flat = page.Flat.Result.Flat.Faces[i]
		}
		if cube != nil {
			for k := range f {
				f[k] = cube[f[k]]
				if page.Flat != nil {
					flat[k] = page.nearest(copies[f[k]], flat[k])
				}
			}
			if f[0] == f[1] || f[1] == f[2] || f[2] == f[0] || seen[f] {
				continue
			}
			seen[f] = true
		}
		page.Shown.Solid, page.Shown.Of = append(page.Shown.Solid, f), append(page.Shown.Of, int32(i))
		if page.Flat != nil {
			page.Shown.Flat = append(page.Shown.Flat, flat)
		}
	}
}

// nearest is the copy of a vertex that lies nearest to a flat point.
func (page *flatPage) nearest(copies []int32, to int32) int32 {
	points, best := page.Flat.Result.Flat.Points, to
	for i, c := range copies {
		if i == 0 || points[c].Distance(points[to]) < points[best].Distance(points[to]) {
			best = c
		}
	}
	return best
}
