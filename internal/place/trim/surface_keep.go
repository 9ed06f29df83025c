package trim

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/url"
	"reflect"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/job"
	"fettle/internal/web"
	stage "fettle/stage/trim"
)

// keepFlat keeps one part of the flat pattern as the next revision of a piece's
// pattern, through the slip.
func (p place) keepFlat(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.flatPage(r, f)
	if err != nil {
		return err
	}
	id := build.PieceID(f.Raw("piece"))
	if page.Build.Piece(id) == nil {
		f.Fail("piece", "is none of the pieces")
	}
	part := int(f.Int("part", 1, int64(max(1, len(page.Parts))))) - 1
	why := f.Text("why", 0, 200)
	if page.Build.Pattern(id) != nil && why == "" {
		f.Fail("why", "is empty: say why the pattern is revised")
	}
	if page.Flat == nil || page.Older {
		f.Fail("material", "cannot be laid flat so: "+page.Sum())
	}
	if f.Err() == nil {
		one, err := stage.FlatPattern(page.Build, id, page.Parts[part], build.Plain)
		if err != nil {
			f.Fail("part", "gives no cut line: "+err.Error())
		} else {
			one.Source.Surface, one.Source.Scan, one.Source.Part = page.Surface.ID, page.Surface.Scan, part
			one.Why, one.Day, one.By = why, page.Today, build.PersonID(r.Person().Code)
			c := &build.SetPattern{Pattern: one}
			if desk.Holds(f, page.Build, "piece", c); f.Err() == nil {
				return p.desk.Propose(r, page.Base+"/slip", c)
			}
		}
	}
	page.acts = acts{Open: "flat", Wrong: f.Errors, typed: f.Raw}
	return r.Invalid(page.dressed(), showFlat(page))
}

// query is what is asked of the surface, as the address has it.
func (page flatPage) query() url.Values {
	v := url.Values{"material": {page.Ask.Material}, "cuts": {page.Cuts}, "grain": {page.grain}}
	for i, way := range [2]string{"along", "across"} {
		v.Set("pull-"+way, percent(page.Ask.Pull[i]))
		v.Set("push-"+way, percent(page.Ask.Squeeze[i]))
	}
	return v
}

// proposeCuts has seams and darts looked for, and comes back to the page.
func (p place) proposeCuts(r *web.Request) error {
	page, order, err := p.orderOf(r, true)
	if err != nil {
		return err
	}
	work, err := p.askFlat(r, "darts and seams for surface "+string(page.Surface.ID), order)
	if err != nil {
		return err
	}
	back := page.query()
	back.Set("search", work.Key)
	return r.SeeOther(page.surfacePath(page.Surface.ID) + "?" + back.Encode())
}

// dartRow is one cut that the search proposes.
type dartRow struct {
	Path   string // vertices, as the field of cuts takes it
	Words  string
	Length float64 // mm
	Gain   string  // fall of the share outside, per 100 mm of seam
	After  string  // share outside once it is made
}

// searched shows how the search for cuts stands, where one was asked for.
func (p place) searched(r *web.Request, page *flatPage) error {
	key := r.Query("search")
	if key == "" || p.desk.Jobs == nil {
		return nil
	}
	j, err := p.desk.Jobs.Get(r.Context(), key)
	if err != nil || j.Build != r.Build() || j.Kind != stage.FlatKind {
		return nil // tidied away: it can be asked for again
	}
	if page.Bar = desk.Work(r, j); j.State != job.Done {
		return nil
	}
	page.Bar.What = ""
	answer, err := stage.ReadFlat(j.Best)
	if err != nil {
		return err
	}
	page.Looked = true
	var order stage.FlatJob
	if err := json.Unmarshal(j.Input, &order); err != nil {
		return err
	}
	rounds, fits := page.fitting(order, answer.Proposals)
	page.Stale = !fits
	kinds := []string{"dart", "slit", "parting seam", "seam from a hole"}
	for _, round := range rounds {
		for n, c := range round {
			if n == 2 {
				break // the two best of each round
			}
			var words []string
			for _, v := range c.Path {
				words = append(words, fmt.Sprint(v))
			}
			name := kinds[int(c.Opening)%len(kinds)]
			if n > 0 {
				name = "or a " + name
			}
			page.Darts = append(page.Darts, dartRow{Path: strings.Join(words, " "), Words: name, Length: c.Length, Gain: fmt.Sprintf("%.3f", 1e4*c.Gain), After: tenths(c.Outside)})
		}
	}
	return nil
}

// fitting are the rounds of a search that are still to be taken: those behind
// what was taken of them, from the top. It fits no longer where other seams are
// drawn, the surface was scanned anew, or another material is asked for.
func (page flatPage) fitting(o stage.FlatJob, rounds [][]stage.FlatProposal) ([][]stage.FlatProposal, bool) {
	now, err := stage.FlatOrder(page.Mesh, page.Ask, true)
	if err != nil || !bytes.Equal(o.Surface, now.Surface) || !reflect.DeepEqual(o.Material, now.Material) || o.Grain != now.Grain || len(now.Cuts) < len(o.Cuts) {
		return rounds, false
	}
	for i, cut := range now.Cuts {
		switch n := i - len(o.Cuts); {
		case n < 0 && slices.Equal(cut, o.Cuts[i]):
		case n >= 0 && n < len(rounds) && len(rounds[n]) > 0 && slices.Equal(cut, rounds[n][0].Path):
		default:
			return rounds, false
		}
	}
	return rounds[len(now.Cuts)-len(o.Cuts):], true
}
