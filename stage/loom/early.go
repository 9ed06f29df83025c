package loom

import (
	"fettle/build"
	"fettle/engine/loom"
)

// ProblemOf is the loom as the engine takes it.
func ProblemOf(b *build.Build) loom.Problem {
	p := loom.Problem{Name: b.Title, Rules: "by list", Exclusives: []loom.Exclusive{{Never: []string{"C17", "C18"}}}}
	p.Boxes = []loom.Box{{Name: "fuse box", Ways: 22}}
	seen := map[string]bool{}
	pair := map[string]string{"C08": "dip", "C09": "dip"}
	for _, c := range b.Circuits {
		name, unfused := c.Fuse, ""
		if name == "link" {
			name = "link " + c.ID
		}
		if name == "none" {
			name, unfused = "", "starter cable"
		}
		if name != "" && !seen[name] {
			seen[name] = true
			f := loom.Fuse{Name: name, Amps: c.FuseA, Box: "fuse box"}
			if c.Fuse == "link" {
				f.Box, f.Type = "", "link"
			}
			p.Fuses = append(p.Fuses, f)
		}
		duty := map[string]loom.Duty{"cont": loom.Continuous, "int": loom.Intermittent, "short": loom.Short}[c.Duty]
		feed := c.ID == "C01" || c.ID == "C02" || c.ID == "C03" || c.ID == "C04" || c.ID == "C07" || c.ID == "C40"
		p.Circuits = append(p.Circuits, loom.Circuit{Run: loom.Run{ID: c.ID, LengthM: c.Length.Mm() / 1000, Duty: duty, Colour: c.Colour, DropPercent: c.DropLimit, Unfused: unfused, Pair: pair[c.ID]},
			Name: c.Name, From: c.From, To: c.To, Amps: c.Load, Fuse: name, Feed: feed})
	}
	for i := range p.Circuits {
		if p.Circuits[i].Colour == "N(red)" || p.Circuits[i].Colour == "none" {
			p.Circuits[i].Colour = ""
		}
	}
	return p
}
