package trim

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
)

// mostEdges is how many edges a side of a seam can be picked from the form.
const mostEdges = 12

func seamNoun() noun {
	return noun{Key: "seam", One: "a seam", Many: "Seams", Letter: "Z",
		Says:    "A seam joins two chains of edges, or finishes one. From the seams follow the order of sewing, the notches, the thread and the sheet at the machine.",
		Columns: []table.Column{{Head: "Name", Wide: true}, {Head: "Kind"}, {Head: "Side A", Wide: true}, {Head: "Side B", Wide: true}, {Head: "Times", Number: true}, {Head: "Stitch", Unit: "mm", Number: true}, {Head: "Thread"}, {Head: "After", Wide: true}},
		List: func(b *build.Build) []facts.Row {
			var rows []facts.Row
			for _, m := range b.Seams {
				rows = append(rows, facts.Row{ID: string(m.ID), Cells: []table.Cell{table.Text(m.Name), table.Text(string(m.Kind)), table.Text(chainWords(m.A)), table.Text(chainWords(m.B)), table.Text(strconv.Itoa(m.Times)), table.Text(sizeText(m.Pitch)), table.Text(string(m.Thread)), table.Text(joinNames(append(slices.Clone(m.After), m.Inside...)))}})
			}
			return rows
		}, Form: seamForm, Read: readSeam}
}

func chainWords(list []build.EdgeOf) string {
	var words []string
	for _, e := range list {
		words = append(words, edgeWords(e))
	}
	return strings.Join(words, ", ")
}

func edgeWords(e build.EdgeOf) string {
	words := string(e.Piece) + " " + e.Edge
	if e.Mirrored {
		words += " of the mirror image"
	}
	return words
}

// edgeValue names an edge in a form.
func edgeValue(e build.EdgeOf) string {
	side := ""
	if e.Mirrored {
		side = "mirror"
	}
	return string(e.Piece) + "|" + e.Edge + "|" + side
}

// edgesOf are all edges that a seam can join: those of the patterns, of the
// mirror image where there is one, and those that seams name already.
func (s sheet) edgesOf() []build.EdgeOf {
	var list []build.EdgeOf
	for _, piece := range s.Build.Pieces {
		p := s.Build.Pattern(piece.ID)
		if p == nil {
			continue
		}
		for _, e := range p.Edges {
			list = append(list, build.EdgeOf{Piece: piece.ID, Edge: e.Name})
		}
		if piece.Handed || piece.Pair == "" && piece.Quantity > 1 {
			for _, e := range p.Edges {
				list = append(list, build.EdgeOf{Piece: piece.ID, Edge: e.Name, Mirrored: true})
			}
		}
	}
	for _, m := range s.Build.Seams {
		for _, e := range slices.Concat(m.A, m.B) {
			if !slices.Contains(list, e) {
				list = append(list, e)
			}
		}
	}
	return list
}

// edgePick is the list from which one edge of a side is picked.
func (s sheet) edgePick(all []build.EdgeOf, picked string) []field.Option {
	list := []field.Option{{Label: "no further edge", Picked: picked == ""}}
	for _, e := range all {
		words := edgeWords(e)
		if p := s.Build.Pattern(e.Piece); p != nil {
			if _, i := p.Edge(e.Edge); i >= 0 {
				words += fmt.Sprintf(", %.0f mm", lineLength(p.Line(i)))
			}
		}
		list = append(list, field.Option{Value: edgeValue(e), Label: words, Picked: edgeValue(e) == picked})
	}
	return list
}

// sideInputs are the fields of one side, two more than it has.
func (s sheet) sideInputs(side, head, hint string, chain []build.EdgeOf) []field.Ask {
	all := s.edgesOf()
	var list []field.Ask
	for i := range min(max(3, len(chain)+2), mostEdges) {
		picked := ""
		if i < len(chain) {
			picked = edgeValue(chain[i])
		}
		in := field.Ask{Params: field.Params{Name: fmt.Sprintf("%s-%d", side, i+1), Label: fmt.Sprintf("Edge %d of side %s", i+1, strings.ToUpper(side))}, Pick: s.edgePick(all, picked)}
		if i == 0 {
			in.Head, in.Hint = head, hint
		}
		list = append(list, in)
	}
	return list
}

func seamForm(s sheet, id string) []field.Ask {
	m := build.Seam{Kind: build.Plain, Times: 1}
	if old := s.Build.Seam(build.SeamID(id)); old != nil {
		m = *old
	}
	list := []field.Ask{
		{Params: field.Params{Name: "name", Label: "What it is", Hint: "such as driver cushion, centre to right side", Value: m.Name}},
		{Params: field.Params{Name: "kind", Label: "Kind", Hint: "raw, hem, wrapped and sleeve have one side"}, Pick: seamOptions(string(m.Kind))},
	}
	list = append(list, s.sideInputs("a", "Side A", "one after the other along the outlines of their pieces", m.A)...)
	list = append(list, s.sideInputs("b", "Side B", "as they meet side A, from its start", m.B)...)
	return append(list,
		field.Ask{Head: "How it is sewn", Params: field.Params{Name: "times", Label: "Times on this vehicle", Value: strconv.Itoa(m.Times), Mode: "numeric", Short: true}},
		field.Ask{Params: field.Params{Name: "pitch", Label: "Stitch", Hint: "empty: not sewn", Value: sizeText(m.Pitch), Unit: "mm", Mode: "decimal", Short: true}},
		field.Ask{Params: field.Params{Name: "thread", Label: "Thread"}, Pick: s.threadPick(m.Thread)},
		field.Ask{Params: field.Params{Name: "top", Label: "Row on top from the seam", Hint: "empty: the habit of its kind", Value: sizeText(m.Top), Unit: "mm", Mode: "decimal", Short: true}},
		field.Ask{Params: field.Params{Name: "ease", Label: "Ease", Hint: "how much longer side B is, eased in; empty: none", Value: numberText(m.Ease), Unit: "%", Mode: "decimal", Short: true}},
		field.Ask{Params: field.Params{Name: "stack", Label: "All that is sewn through", Hint: "empty: worked out from the materials", Value: sizeText(m.Stack), Unit: "mm", Mode: "decimal", Short: true}},
		field.Ask{Params: field.Params{Name: "length", Label: "Length", Hint: "only where no pattern gives it", Value: sizeText(m.Length), Unit: "mm", Mode: "decimal", Short: true}},
		field.Ask{Params: field.Params{Name: "seen", Label: "Seen"}, Tick: field.Yes("seen: no joins in the thread", m.Seen)},
		field.Ask{Head: "Piping, of a piped seam", Params: field.Params{Name: "cord", Label: "Cord"}, Pick: s.cordPick(m.Cord)},
		field.Ask{Params: field.Params{Name: "piping", Label: "Strip about the cord"}, Pick: s.piecePick(m.Piping)},
		field.Ask{Params: field.Params{Name: "corners", Label: "Corners it goes round", Value: numberText(float64(m.Corners)), Mode: "numeric", Short: true}},
		field.Ask{Head: "Its place in the order", Params: field.Params{Name: "after", Label: "Sewn after", Hint: "numbers of seams", Value: joinNames(m.After)}},
		field.Ask{Params: field.Params{Name: "inside", Label: "Shuts in", Hint: "seams that cannot be reached after it", Value: joinNames(m.Inside)}},
		field.Ask{Params: field.Params{Name: "closes", Label: "Closes"}, Tick: field.Yes("its pieces are a tube or a bag after it", m.Closes)},
		field.Ask{Params: field.Params{Name: "rear", Label: "Begins"}, Tick: field.Yes("side A begins at the rear of the vehicle", m.Rear)},
		field.Ask{Params: field.Params{Name: "match", Label: "Places that must meet", Hint: "a line each: how far along A and along B, such as 0.5 0.48", Value: matchText(m.Match), Rows: 2}},
		field.Ask{Params: field.Params{Name: "note", Label: "Note", Value: m.Note}})
}

// readSeam reads the form of a seam.
func readSeam(f *web.Form, s sheet, id string) build.Change {
	m := build.Seam{ID: build.SeamID(id), Name: f.Text("name", 1, 120), Kind: build.SeamKind(f.Choice("kind", kindWords()...)), A: readSide(f, "a"), B: readSide(f, "b"),
		Times: int(f.Int("times", 1, 1000)), Pitch: maybe(f, "pitch", 0, 50), Thread: build.ThreadID(f.Choice("thread", field.Values(s.threadPick(""))...)), Top: maybe(f, "top", 0, 100),
		Ease: maybeNumber(f, "ease", -20, 20), Stack: maybe(f, "stack", 0, 100), Length: maybe(f, "length", 0, 100_000), Seen: f.Has("seen"), Cord: build.CordID(f.Choice("cord", field.Values(s.cordPick(""))...)),
		Piping: build.PieceID(f.Choice("piping", field.Values(s.piecePick(""))...)), Corners: int(maybeNumber(f, "corners", 0, 1000)), After: namesIn[build.SeamID](f, "after"), Inside: namesIn[build.SeamID](f, "inside"),
		Closes: f.Has("closes"), Rear: f.Has("rear"), Note: f.Text("note", 0, 200)}
	for line := range strings.Lines(f.Raw("match")) {
		at, err := shapein.Numbers(line)
		switch {
		case err != nil:
			f.Fail("match", err.Error())
		case len(at) == 2:
			m.Match = append(m.Match, build.Meeting{A: at[0], B: at[1]})
		case len(at) > 0:
			f.Fail("match", "has a line that is not two shares such as 0.5 0.48")
		}
	}
	switch {
	case len(m.A) == 0:
		f.Fail("a-1", "is empty: pick the first edge")
	case m.Kind.Joins() && len(m.B) == 0:
		f.Fail("b-1", "is empty: a "+string(m.Kind)+" seam joins two sides")
	case !m.Kind.Joins() && len(m.B) > 0:
		f.Fail("b-1", "is one too many: "+string(m.Kind)+" has one side")
	}
	return &build.SetSeam{Seam: m}
}

func kindWords() []string {
	var list []string
	for _, k := range build.SeamKinds() {
		list = append(list, string(k))
	}
	return list
}

// readSide reads the edges picked for a side; gaps between them are closed.
func readSide(f *web.Form, side string) []build.EdgeOf {
	var list []build.EdgeOf
	for i := range mostEdges {
		words := strings.Split(f.Raw(fmt.Sprintf("%s-%d", side, i+1)), "|")
		if len(words) == 3 {
			list = append(list, build.EdgeOf{Piece: build.PieceID(words[0]), Edge: words[1], Mirrored: words[2] != ""})
		}
	}
	return list
}

func matchText(list []build.Meeting) string {
	var b strings.Builder
	for _, m := range list {
		fmt.Fprintf(&b, "%g %g\n", m.A, m.B)
	}
	return b.String()
}

func (s sheet) threadPick(picked build.ThreadID) []field.Option {
	list := []field.Option{{Label: "none", Picked: picked == ""}}
	for _, t := range s.Build.Threads {
		list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: t.ID == picked})
	}
	return list
}

func (s sheet) cordPick(picked build.CordID) []field.Option {
	list := []field.Option{{Label: "none", Picked: picked == ""}}
	for _, c := range s.Build.Cords {
		list = append(list, field.Option{Value: string(c.ID), Label: string(c.ID) + " " + c.Name, Picked: c.ID == picked})
	}
	return list
}

func (s sheet) piecePick(picked build.PieceID) []field.Option {
	list := []field.Option{{Label: "none", Picked: picked == ""}}
	for _, p := range s.Build.Pieces {
		list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.Name, Picked: p.ID == picked})
	}
	return list
}
