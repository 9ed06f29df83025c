package nest

import "fettle/geom"

// memory is a layout to come back to: places only, neither losses nor weights.
type memory struct {
	bounds geom.Box
	loss   float64
	spots  []spot
}

// take remembers where all copies lie.
func (m *memory) take(l *layout) {
	m.bounds, m.loss = l.bounds, l.total()
	m.spots = append(m.spots[:0], l.spots...)
}

// recall goes back to a remembered layout and keeps the weights.
func (s *separator) recall(m *memory) {
	s.now.bounds = m.bounds
	for i, p := range m.spots {
		s.now.put(i, p)
	}
	s.lead.all()
}
