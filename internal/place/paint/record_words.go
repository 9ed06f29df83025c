package paint

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/flash"
	stage "fettle/stage/paint"
)

func panelID(p recordPage) string {
	if p.Panel == nil {
		return ""
	}
	return string(p.Panel.ID)
}

// lastOn is the paint that went on the page's panel last.
func (p recordPage) lastOn() build.ProductID {
	if p.Panel != nil {
		if coats := p.coatsOf(p.Panel); len(coats) > 0 {
			return coats[0].Product
		}
	}
	return ""
}

// nextCoat is what most likely was laid: on a panel what its clock waits for,
// else the first coat of what something waits for.
func (p recordPage) nextCoat() build.Coat {
	for _, r := range p.Stand {
		if r.More {
			return build.Coat{Product: r.Product.ID, Number: r.Coat.Number + 1}
		}
		if over := stage.Next(p.Build, r.Zone, r.Product.ID); len(over) > 0 && r.Next.Name != "" {
			return build.Coat{Product: over[0], Number: 1}
		}
	}
	return build.Coat{Product: p.nextProduct().ID, Number: 1}
}

// zonesTicked lists the surfaces, of a panel where the page is about one.
func (p recordPage) zonesTicked() []field.Option {
	var list []field.Option
	for _, o := range p.zonesPicked() {
		if o.Value == "" {
			continue
		}
		o.Picked = p.Of == "coat" && p.Form != nil && slices.Contains(p.Form.All("zone"), o.Value)
		list = append(list, o)
	}
	return list
}

// tickHint shows a code of a paint of this build.
func (p recordPage) tickHint() string {
	of := p.nextProduct()
	if len(of.Zones) == 0 {
		return "as the sheet has them, such as ... 2x 18C 10:05"
	}
	return "such as: " + ask{Product: of, Zones: of.Zones[:1], Coats: 2, Metal: 18}.code() + " 10:05"
}

func (p recordPage) redosOf() []build.Redo {
	var list []build.Redo
	for _, r := range p.Build.Redos {
		if slices.Contains(r.Panels, p.Panel.ID) {
			list = append(list, r)
		}
	}
	return list
}

func filmTitle(p recordPage, f filmRow) string {
	text := fmt.Sprintf("%s %s", f.Reading.At.Date().Short(), f.Reading.At.Clock())
	if p.Panel == nil && f.Panel != nil {
		text += fmt.Sprintf(", %s %s", f.Panel.ID, f.Panel.FullName())
	}
	if product := p.Build.Product(f.Reading.Product); product != nil {
		text += ", after " + product.Name
	}
	return text
}

// filmWords says what readings come to.
func filmWords(f filmRow) string {
	var words []string
	if f.Err != "" {
		words = append(words, f.Err)
	}
	words = append(words, f.Wrong...)
	if f.Whole {
		words = append(words, "all that is over the metal")
	} else if f.Most > 0 {
		words = append(words, fmt.Sprintf("should be %g to %g", f.Least, f.Most))
	}
	if f.Clear && f.Err == "" {
		words = append(words, fmt.Sprintf("where thinnest, polishing may take %.0f µm: %g must stay", f.Polish, f.Least))
	}
	return flash.Sentence(strings.Join(words, "; "))
}
