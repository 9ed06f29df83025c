package nest

// By how much compression shortens a layout, at its beginning and at its end
// [Gardeyn2025].
const (
	compressFirst = 0.0005
	compressLast  = 0.00001
)

// compress spends what is left on the best layout: ever smaller shares are
// taken off at random cuts, and what cannot be separated is put back.
func (s *search) compress() {
	from := s.spent()
	for !s.over() {
		done := float64(s.spent()-from) / float64(s.until-from)
		by := compressFirst + float64((compressLast-compressFirst)*done)
		if !s.shorten(by, float64(s.lead.rand.Float64()*s.shortestYet())) {
			return
		}
		if s.separate(compressing) && !s.draw() {
			s.lead.judged += StepEvaluations // so that it comes to an end whatever the check refuses
		}
	}
}
