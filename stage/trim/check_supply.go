package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
)

// shortBobbin says that one row of a seam that is seen outruns a full bobbin.
func shortBobbin(b *build.Build, m build.Seam) []takeoff.Check {
	row, ok := RowOf(b, m)
	if !ok || !m.Seen {
		return nil
	}
	t, err := row.Thread()
	if err != nil || !t.Joins {
		return nil
	}
	return []takeoff.Check{{ID: "bobbin/" + string(m.ID), Weight: takeoff.Tight, Link: "trim", Figure: t.Bobbins.Working,
		Says: fmt.Sprintf("a full bobbin is too short for one row of seam %s, %s, which is seen", m.ID, m.Name),
		Do:   "wind a larger bobbin, or end the row at a cross seam: a join in leather stays"}}
}

// wrongGlue says where an adhesive's sheet does not allow what is glued.
func wrongGlue(b *build.Build) []takeoff.Check {
	var list []takeoff.Check
	for _, g := range b.Glues {
		var vinyl []string
		for _, id := range g.Pieces {
			if p := b.Piece(id); p != nil && slices.ContainsFunc(b.Covers, func(c build.Cover) bool { return c.Material == p.Material && c.Kind == "vinyl" }) {
				vinyl = append(vinyl, string(id))
			}
		}
		if len(vinyl) == 0 || g.Vinyl {
			continue
		}
		list = append(list, takeoff.Check{ID: "glue-vinyl/" + string(g.ID), Weight: takeoff.Tight, Link: "trim",
			Says: fmt.Sprintf("%s is vinyl, and nobody has read that the adhesive of %s, %s, may be used on it", strings.Join(vinyl, ", "), g.ID, g.Name),
			Do:   "read its sheet: several contact adhesives exclude plasticised vinyl",
			Figure: figure.Figure{Name: "vinyl glued", Text: fmt.Sprint(len(vinyl)), Formula: "pieces of vinyl in a joint whose sheet is not said to allow it", With: strings.Join(vinyl, ", "),
				Caution: "The maker's sheet rules. Solvent vapour: air, no flame, gloves."}})
	}
	return list
}

// uncovered says what the sewing takes that no part on the list covers, or too
// little.
func uncovered(b *build.Build) []takeoff.Check {
	var list []takeoff.Check
	for _, s := range Supplies(b) {
		c := takeoff.Check{ID: "supply/" + s.ID(), Weight: takeoff.Tight, Link: "trim", Figure: s.Amount.Working}
		switch {
		case s.Kind == StripSupply && s.Have < s.Buy:
			c.Says = fmt.Sprintf("%d piping strips of %s are needed and %d are on the list of pieces", s.Buy, s.Name, s.Have)
			c.Do = "cut more strips, or longer ones"
		case s.Kind == StripSupply:
			continue
		case len(s.Bare) > 0:
			c.Says = fmt.Sprintf("%s, %s: %s needed, and no part on the list covers %s", s.Kind, s.Name, s.Amount.Working.Text, strings.Join(s.Bare, ", "))
			c.Do = "put it on the list of Stores, or name the part that covers it"
		case s.Have > 0 && s.Have < s.Buy:
			c.Says = fmt.Sprintf("%s, %s: %d %s needed and %d on the list", s.Kind, s.Name, s.Buy, s.Unit, s.Have)
			c.Do = "order the rest"
		default:
			continue
		}
		list = append(list, c)
	}
	return list
}

// unreckoned says of which sewn seams the thread is not known, and why.
func unreckoned(b *build.Build) []takeoff.Check {
	var list []string
	for _, m := range b.Seams {
		if m.Pitch == 0 || len(lostEdges(b, m)) > 0 { // that has a check of its own
			continue
		}
		var lacks []string
		if _, ok := lengthOfSeam(b, m); !ok {
			lacks = append(lacks, "its length")
		}
		if _, ok := StackOf(b, m); !ok {
			lacks = append(lacks, "what it is sewn through")
		}
		if m.Thread == "" {
			lacks = append(lacks, "its thread")
		}
		if len(lacks) > 0 {
			list = append(list, string(m.ID)+": "+strings.Join(lacks, ", "))
		}
	}
	if len(list) == 0 {
		return nil
	}
	return []takeoff.Check{{ID: "seam-unknown", Weight: takeoff.Tight, Link: "trim",
		Says: fmt.Sprintf("the thread of %s is not reckoned, for nobody has said %s", seamWords(len(list)), some(list)), Do: "draw the patterns or say the length, measure the material, and name the thread",
		Figure: figure.Figure{Name: "seams not reckoned", Text: fmt.Sprint(len(list)), Formula: "seams with a stitch pitch that lack their length, the thickness of a material or their thread", With: strings.Join(list, "; ")}}}
}

func seamWords(n int) string {
	if n == 1 {
		return "1 seam"
	}
	return fmt.Sprintf("%d seams", n)
}
