package nest

// memory is a layout to come back to: places only, neither losses nor weights.
type memory struct {
	length float64
	loss   float64
	spots  []spot
}

// take remembers where all copies lie.
func (m *memory) take(l *layout) {
	m.length, m.loss = l.length, l.total()
	m.spots = append(m.spots[:0], l.spots...)
}

// recall goes back to a remembered layout and keeps the weights.
func (s *search) recall(m *memory) {
	s.now.length = m.length
	for i, p := range m.spots {
		s.now.put(i, p)
	}
	s.lead.all()
}
