package overlay

import (
	"fmt"

	"fettle/fault"
	"fettle/geom"
)

// MostPoints is how many corners the input of one call may have. Time grows
// about as their number.
const MostPoints = 200_000

// Union returns what lies in any of the polygons.
func Union(p ...geom.Polygon) ([]geom.Polygon, error) {
	if err := check(p); err != nil {
		return nil, err
	}
	return outcome(joined(areasOf(p)))
}

// Intersect returns what lies both in one of a and in one of b.
func Intersect(a, b []geom.Polygon) ([]geom.Polygon, error) { return both(a, b, area.and) }

// Subtract returns what lies in one of a and in none of b.
func Subtract(a, b []geom.Polygon) ([]geom.Polygon, error) { return both(a, b, area.without) }

func both(a, b []geom.Polygon, op func(area, area) (area, error)) ([]geom.Polygon, error) {
	if err := check(a, b); err != nil {
		return nil, err
	}
	left, err := joined(areasOf(a))
	if err != nil {
		return nil, err
	}
	right, err := joined(areasOf(b))
	if err != nil {
		return nil, err
	}
	return outcome(op(left, right))
}

func outcome(a area, err error) ([]geom.Polygon, error) {
	if err != nil {
		return nil, err
	}
	return a.polygons(), nil
}

// check holds the input to the rules of polygons, and to the limit.
func check(lists ...[]geom.Polygon) error {
	points, n := 0, 0
	for _, list := range lists {
		for _, p := range list {
			n++
			for _, r := range p.Rings() {
				points += len(r)
			}
			if points > MostPoints {
				return fault.New(fault.TooLarge, "more than %d corners in all", MostPoints).At(fmt.Sprintf("polygon %d", n)).
					WithHint("Leave out corners that lie nearly on a line.")
			}
			if err := p.Check(); err != nil {
				return fault.Within(err, fmt.Sprintf("polygon %d", n))
			}
		}
	}
	return nil
}

// joined unites areas two by two, neighbours in the list first, so that large
// ones are walked only as often as the number of areas has digits.
func joined(list []area) (area, error) {
	switch len(list) {
	case 0:
		return area{}, nil
	case 1:
		return list[0], nil
	}
	a, err := joined(list[:len(list)/2])
	if err != nil {
		return area{}, err
	}
	b, err := joined(list[len(list)/2:])
	if err != nil {
		return area{}, err
	}
	return a.or(b)
}
