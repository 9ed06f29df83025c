package dxf

import (
	"math"
	"strings"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// entity is one thing drawn, as its pairs.
type entity struct {
	kind  string
	line  int
	pairs []pair
}

// mostPairs bounds one entity: three pairs a vertex, and some.
const mostPairs = 3*outline.MaxVertices + 1000

// entity gathers the pairs up to the next code 0.
func (r *pairs) entity(head pair) (entity, error) {
	e := entity{kind: head.value, line: head.line}
	for {
		p, err := r.next()
		if err != nil {
			return e, err
		}
		if p.code == 0 {
			r.unread(p)
			return e, nil
		}
		if e.pairs = append(e.pairs, p); len(e.pairs) > mostPairs {
			return e, fault.New(fault.TooLarge, "one %s has more than %d points", e.kind, outline.MaxVertices).At(at(p.line))
		}
	}
}

func (e entity) fault(format string, args ...any) error {
	return fault.New(fault.Invalid, e.kind+": "+format, args...).At(at(e.line))
}

// number returns the last value of a code, or what it is when it is left out.
func (e entity) number(code int, missing float64) (float64, error) {
	for i := len(e.pairs) - 1; i >= 0; i-- {
		if e.pairs[i].code == code {
			return e.pairs[i].number()
		}
	}
	return missing, nil
}

// numbers reads several codes; a code left out is 0.
func (e entity) numbers(codes ...int) ([]float64, error) {
	out := make([]float64, len(codes))
	for i, c := range codes {
		v, err := e.number(c, 0)
		if err != nil {
			return nil, err
		}
		out[i] = v
	}
	return out, nil
}

func (e entity) flag(code int) (int, error) {
	v, err := e.number(code, 0)
	return int(min(max(v, 0), 1<<30)), err
}

func (e entity) name(code int) string {
	for _, p := range e.pairs {
		if p.code == code {
			return p.name()
		}
	}
	return ""
}

// points gathers every x of a code with the y that follows it.
func (e entity) points(code int) ([]geom.Point, error) {
	var list []geom.Point
	for _, p := range e.pairs {
		if p.code != code && p.code != code+10 {
			continue
		}
		v, err := p.number()
		if err != nil {
			return nil, err
		}
		if p.code == code {
			list = append(list, geom.Point{X: v})
		} else if len(list) > 0 {
			list[len(list)-1].Y = v
		}
	}
	return list, nil
}

// facing returns the map from the entity's own axes to the drawing's: a
// drawing seen from behind has its x turned round. Other planes are refused.
func (e entity) facing() (outline.Affine, error) {
	n, err := e.numbers(210, 220)
	if err != nil {
		return outline.Affine{}, err
	}
	z, err := e.number(230, 1)
	if err != nil {
		return outline.Affine{}, err
	}
	if math.Hypot(n[0], n[1]) > 1e-6*math.Abs(z) || z == 0 {
		return outline.Affine{}, e.fault("it does not lie in the plane of the drawing")
	}
	return outline.Scale(math.Copysign(1, z), 1), nil
}

// unseen says why an entity is not drawn, or nothing.
func (e entity) unseen() string {
	for _, p := range e.pairs {
		switch v := strings.TrimSpace(p.value); {
		case p.code == 67 && v == "1":
			return " on paper space"
		case p.code == 60 && v == "1":
			return " that is hidden"
		}
	}
	return ""
}
