package live

import (
	"context"
	"encoding/json"

	"fettle/build"
	"fettle/fault"
)

// Slip is what a person has put together for a build and not kept yet. It
// lies in the store, so that nothing typed is lost.
type Slip struct{ Changes []build.Change }

// Slip returns a person's slip; an empty one when there is none.
func (s *Shop) Slip(ctx context.Context, id, person string) (Slip, error) {
	data, err := s.store.Slip(ctx, id, person)
	if err != nil || len(data) == 0 {
		return Slip{}, err
	}
	changes, err := build.DecodeList(data)
	return Slip{Changes: changes}, err
}

// SaveSlip lays a slip by; an empty one clears it.
func (s *Shop) SaveSlip(ctx context.Context, id, person string, slip Slip) error {
	if len(slip.Changes) == 0 {
		return s.store.SaveSlip(ctx, id, person, nil)
	}
	list := make([]json.RawMessage, 0, len(slip.Changes))
	for _, c := range slip.Changes {
		body, err := build.EncodeNamed(c)
		if err != nil {
			return err
		}
		list = append(list, body)
	}
	data, err := json.Marshal(list)
	if err != nil {
		return fault.Wrap(fault.Internal, err, "write the slip")
	}
	return s.store.SaveSlip(ctx, id, person, data)
}
