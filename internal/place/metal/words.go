package metal

import (
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/vehicle"
)

func titleOf(n newPage) string {
	if n.Panel == nil {
		return string(n.Number) + ", new finding"
	}
	return string(n.Number) + " on " + string(n.Panel.ID) + " " + n.Panel.FullName()
}

func many(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// legs says who does how much.
func legs(all []build.Leg) string {
	var out []string
	for _, l := range all {
		out = append(out, string(l.Trade)+" "+l.Hours.String())
	}
	return strings.Join(out, ", ")
}

func remedyOf(f *build.Finding) string {
	switch {
	case f.Remedy == "":
		return "not decided"
	case f.How != "":
		return string(f.Remedy) + ": " + f.How
	}
	return string(f.Remedy)
}

func altOf(p build.Photo) string {
	text := p.What
	if text == "" {
		text = p.Of
	}
	if p.Taken != 0 {
		text += ", " + p.Taken.Date().Short()
	}
	return text
}

func foundOptions(e entry) []field.Option {
	return field.Words(founds(), e.Found)
}

func decisionOptions(e entry) []field.Option {
	out := []field.Option{{Value: "", Label: "as follows from the remedy", Picked: e.Decision == ""}}
	for _, d := range build.Decisions() {
		out = append(out, field.Option{Value: string(d), Label: string(d), Picked: e.Decision == string(d)})
	}
	return out
}

// opened tells whether the seldom used fields hold something.
func opened(e entry) bool {
	for _, name := range []string{"part", "part-id", "quantity", "price", "lead", "how", "decision"} {
		if e.Wrong.Of(name) != "" {
			return true
		}
	}
	for _, h := range e.Hours {
		if h != "" {
			return true
		}
	}
	return e.Part != "" || e.How != "" || e.Decision != ""
}

// marked is the view with the one place that is being recorded.
func marked(n newPage) vehicle.View {
	v := n.View
	v.Pins = nil
	x, errX := strconv.ParseFloat(n.Entry.X, 64)
	z, errZ := strconv.ParseFloat(n.Entry.Z, 64)
	if errX == nil && errZ == nil && v.Plane == "xz" {
		v.Pins = []vehicle.Pin{{Number: string(n.Number), X: x, Y: z}}
	}
	return v
}
