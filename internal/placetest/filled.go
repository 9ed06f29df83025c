package placetest

import (
	"net/url"

	"fettle/internal/web/ui/field"
)

// Filled is a form as it stands, ready to be sent.
func Filled(id string, list []field.Ask) url.Values {
	v := url.Values{"id": {id}}
	for _, in := range list {
		for _, options := range [2][]field.Option{in.Pick, in.Tick} {
			for _, o := range options {
				if o.Picked {
					v.Add(in.Name, o.Value)
				}
			}
		}
		if in.Pick == nil && in.Tick == nil {
			v.Set(in.Name, in.Value)
		}
	}
	return v
}
