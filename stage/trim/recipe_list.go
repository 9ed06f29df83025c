package trim

import "fettle/engine/pattern"

// Recipes lists them.
func Recipes() []Recipe {
	thick := Measure{Name: "thickness", Label: "Thickness of the material", Unit: "mm"}
	seam := Measure{Name: "allowance", Label: "Seam allowance", Unit: "mm", Hint: "empty: 12"}
	under := Measure{Name: "under", Label: "Under size", Unit: "%", Hint: "empty: 4", Share: true}
	return []Recipe{
		{"wheel", "Steering wheel strip", "Laced along the inside of the rim; at the spokes it is cut into segments.", []Measure{
			{Name: "rim", Label: "Rim across", Unit: "mm", Hint: "middle of grip to middle of grip"}, {Name: "grip", Label: "Grip across", Unit: "mm"},
			{Name: "stretch", Label: "Width the leather gives", Unit: "%", Hint: "empty: 3", Share: true}, {Name: "pitch", Label: "Stitch", Unit: "mm", Hint: "empty: 4"},
			{Name: "spokes", Label: "Cross seams at", Unit: "°", Hint: "at the spokes, round from the top, such as 90 180 270; empty: one seam", Many: true}}, wheel},
		{"piping", "Piping strips", "The cover of the cord, and how many strips it takes.", []Measure{
			{Name: "length", Label: "Seam, all of it", Unit: "mm"}, {Name: "corners", Label: "Corners on the way"}, {Name: "cord", Label: "Cord across", Unit: "mm", Hint: "empty: 4"}, thick, seam,
			{Name: "piece", Label: "The material a strip comes from is long", Unit: "mm"}}, piping},
		{"bias", "Bias strips", "Cut at 45° across a roll, so that they go round a curve; joined to a tube, one spiral gives them all.", []Measure{
			{Name: "roll", Label: "Width of the roll", Unit: "mm"}, {Name: "length", Label: "Cut off the roll", Unit: "mm"}, {Name: "strip", Label: "Width of a strip", Unit: "mm"}}, bias},
		{"headliner", "Headliner on bows", "Measure each panel before it is taken down: bows look alike and differ.", []Measure{
			{Name: "spans", Label: "Spans, from the front", Unit: "mm", Hint: "front edge to first bow, bow to bow, last bow to rear edge", Many: true}, {Name: "widths", Label: "Widths, from the front", Unit: "mm", Hint: "at the front edge, each bow and the rear edge: one more than spans", Many: true},
			{Name: "bow", Label: "Bow across", Unit: "mm", Hint: "empty: 8"}, {Name: "ease", Label: "Ease of a sleeve", Unit: "mm", Hint: "empty: 10"}, seam, {Name: "sides", Label: "Over at sides and ends", Unit: "mm", Hint: "empty: 50"}}, headliner},
		{"board", "Headliner board, glued", "Foam-backed cloth on a board, through its hollow and round its edge.", []Measure{
			{Name: "length", Label: "Length, over the face", Unit: "mm"}, {Name: "width", Label: "Width, over the face", Unit: "mm"}, {Name: "over", Label: "Round the edge", Unit: "mm", Hint: "empty: 40"}, {Name: "hollow", Label: "The way through the hollow is longer by", Unit: "%", Hint: "empty: the tape lay on the face", Share: true}}, gluedBoard},
		{"gaiter", "Gaiter", "A cone round a lever, or a pyramid of panels.", []Measure{
			{Name: "foot", Label: "Round the ring at the floor", Unit: "mm"}, {Name: "head", Label: "Round the collar", Unit: "mm"}, {Name: "height", Label: "Height, lever upright", Unit: "mm"}, {Name: "travel", Label: "Way of the collar to one side", Unit: "mm", Hint: "empty: none"}, {Name: "panels", Label: "Panels", Hint: "empty: a cone with one seam"}}, gaiter},
		{"strap", "Strap", "Folded so that its edges meet behind, sewn down both sides.", []Measure{{Name: "width", Label: "Finished width", Unit: "mm"}, thick, {Name: "turned", Label: "Turned in", Unit: "mm", Hint: "empty: raw edges meet"}, {Name: "length", Label: "Length, ends included", Unit: "mm", Hint: "empty: only how wide it is cut"}}, strap},
		{"bolster", "Bolster", "A roll with a round end at either side, sewn under the size of its foam.", []Measure{{Name: "length", Label: "Between the ends", Unit: "mm"}, {Name: "diameter", Label: "Foam across", Unit: "mm"}, under, seam}, bolster},
		{"boxing", "Boxing strip", "Round a cushion between its faces.", []Measure{{Name: "round", Label: "Round the sewn line of the face", Unit: "mm"}, {Name: "height", Label: "Height", Unit: "mm"}, seam},
			func(m measures) (made, error) {
				a, p, err := pattern.Boxing(m.of("round"), m.of("height"), m.of("allowance"))
				return made{amounts: []pattern.Amount{a}, pieces: []pattern.Piece{p}}.or(err)
			}},
		{"pleats", "Pleated panel", "What sewn lines take up: sew a test piece, rules of thumb differ by two.", []Measure{{Name: "width", Label: "Finished width", Unit: "mm"}, {Name: "lines", Label: "Sewn lines"}, {Name: "loss", Label: "Loss of one line, from the test piece", Unit: "mm"}, seam},
			func(m measures) (made, error) {
				a, err := pattern.PleatedWidth(m.of("width"), m.of("lines"), m.of("loss"), m.of("allowance"))
				return made{amounts: []pattern.Amount{a}}.or(err)
			}},
		{"cover", "Cover under its foam", "A cover is sewn smaller than the foam it goes over.", []Measure{{Name: "girth", Label: "Girth of the foam", Unit: "mm"}, under},
			func(m measures) (made, error) {
				a, err := pattern.Girth(m.of("girth"), m.of("under"))
				return made{amounts: []pattern.Amount{a}}.or(err)
			}},
	}
}
