package nest

import "slices"

// CheckEach holds the placements of a layout to CheckPart one after another:
// the fault of each is as CheckPart says it, nil where the copy lies free of
// those before it that have none. Locked copies come first, and where they do
// not hold among themselves they are taken for copies like any other. The
// report is that of the placements without a fault.
func CheckEach(p Problem, placements []Placement) (faults []error, report Report) {
	faults = make([]error, len(placements))
	report, err := CheckPart(p, placements)
	if err == nil {
		return faults, report
	}
	locked := func(at Placement) bool {
		return at.Piece >= 0 && at.Piece < len(p.Pieces) && at.Copy < len(p.Pieces[at.Piece].Locked)
	}
	var free []Placement
	for _, at := range placements {
		if locked(at) {
			free = append(free, at)
		}
	}
	if report, err = CheckPart(p, free); err != nil {
		p.Pieces = slices.Clone(p.Pieces)
		for i := range p.Pieces {
			p.Pieces[i].Locked = nil
		}
		free = nil
		report, _ = CheckPart(p, nil) // only the problem itself can have a fault, and then each copy has it below
	}
	for i, at := range placements {
		if locked(at) {
			continue
		}
		r, err := CheckPart(p, append(free[:len(free):len(free)], at))
		if faults[i] = err; err == nil {
			free, report = append(free, at), r
		}
	}
	return faults, report
}
