package look

import (
	"fmt"

	"github.com/a-h/templ"

	"fettle/build"
	"fettle/internal/drawn"
	"fettle/internal/web/ui/vehicle"
	shade "fettle/stage/look"
	"fettle/takeoff/sprayout"
)

// worn returns a build whose panels are all in the colours that are predicted
// under a light. Where nothing is predicted a panel stays hatched.
func worn(b *build.Build, zones []shade.ZoneFace, light int) *build.Build {
	c := b.Clone()
	known := map[build.ZoneID]bool{}
	for _, z := range zones {
		id := build.ColourID("seen-" + string(z.Zone))
		c.Colours = append(c.Colours, build.Colour{ID: id, Face: z.Screen(light)})
		known[z.Zone] = z.Known()
		for i := range c.Zones {
			if c.Zones[i].ID == z.Zone {
				c.Zones[i].Colour = id
			}
		}
	}
	for i := range c.Panels {
		state := build.Keep
		for _, a := range c.Panels[i].Areas {
			shown, coloured := known[a.Zone]
			if coloured && shown {
				state = build.InColour
			} else if coloured {
				state = build.ReadyForColour // hatched: not known
			}
			if coloured {
				break
			}
		}
		c.Panels[i].State = state
	}
	c.Findings = nil
	return &c
}

// pictures are one view of a look under each of the three lights.
type pictures struct {
	Large templ.Component   // in daylight
	Small []templ.Component // under the other two
}

// viewOf returns a view of the vehicle in a look's colours under a light.
func (s scene) viewOf(m measured, light int, view string) vehicle.View {
	v, _ := drawn.View(drawn.Views(worn(m.Build, m.Zones, light), drawn.Options{Base: s.Base + "/metal"}), view)
	for i := range v.Panels {
		p := &v.Panels[i]
		if p.Under != "" && m.Look.Break.Z > 0 {
			p.Break = m.Look.Break.Z.Mm()
		}
		p.Name += ", as it would be"
	}
	v.Label = fmt.Sprintf("%s in %s: %s", m.Look.Name, sprayout.Lights[light], v.Label)
	v.ID += "-" + string(m.Look.ID) + "-" + sprayout.Lights[light]
	return v
}

// pictures draws a look; what was drawn before is printed again.
func (p place) pictures(s scene, m measured, view string) pictures {
	var out pictures
	for light := range sprayout.Lights {
		v := s.viewOf(m, light, view)
		draw := vehicle.Small
		if light == 0 {
			draw = vehicle.Draw
		}
		one := p.press.Print(s.Mark+"/"+v.ID, draw(v))
		if light == 0 {
			out.Large = one
		} else {
			out.Small = append(out.Small, one)
		}
	}
	return out
}
