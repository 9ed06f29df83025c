package field

import (
	"strconv"

	"github.com/a-h/templ"
)

// attrs are those that stand only when they say something.
func (p Params) attrs() templ.Attributes {
	a := templ.Attributes{}
	if ids := p.described(); ids != "" {
		a["aria-describedby"] = ids
	}
	if p.Error != "" {
		a["aria-invalid"] = "true"
	}
	if p.Mode != "" {
		a["inputmode"] = p.Mode
	}
	if p.Max > 0 {
		a["maxlength"] = strconv.Itoa(p.Max)
	}
	if p.Required {
		a["required"] = true
	}
	return a
}
