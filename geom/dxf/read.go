package dxf

import (
	"io"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// Read reads the outlines of an ASCII DXF drawing, in millimetres. A unit
// stated in the options counts before the one in the file.
//
// Errors are faults of kind Invalid or TooLarge that name the line.
func Read(in io.Reader, o outline.Options) (outline.Drawing, error) {
	c, err := outline.Collect(o)
	if err != nil {
		return outline.Drawing{}, err
	}
	text, err := slurp(in)
	if err != nil {
		return outline.Drawing{}, err
	}
	r := reader{pairs: text, placer: placer{Collector: c, blocks: map[string]*block{}}}
	if err := r.sections(); err != nil {
		return outline.Drawing{}, err
	}
	unit, err := r.unit()
	if err != nil {
		return outline.Drawing{}, err
	}
	for _, s := range r.shapes {
		if err := s.place(&r.placer, outline.Scale(unit, unit)); err != nil {
			return outline.Drawing{}, err
		}
	}
	return c.Drawing(), nil
}

// reader is a file under way.
type reader struct {
	*pairs
	placer
	units  *pair // the value of $INSUNITS
	shapes []shape
}

func (r *reader) sections() error {
	for {
		p, err := r.next()
		switch {
		case err != nil:
			return err
		case p.is("EOF"):
			return nil
		case !p.is("SECTION"):
			return fault.New(fault.Invalid, "%.20q stands where a section should begin", p.value).At(at(p.line))
		}
		name, err := r.next()
		if err != nil {
			return err
		}
		switch {
		case name.code == 2 && name.value == "HEADER":
			err = r.header()
		case name.code == 2 && name.value == "BLOCKS":
			err = r.definitions()
		case name.code == 2 && name.value == "ENTITIES":
			r.shapes, err = r.drawn("ENDSEC")
		default:
			err = r.pass("ENDSEC")
		}
		if err != nil {
			return err
		}
	}
}

// pass reads over everything up to the end named.
func (r *reader) pass(end string) error {
	for {
		if p, err := r.next(); err != nil || p.is(end) {
			return err
		}
	}
}

func (r *reader) header() error {
	for variable := ""; ; {
		p, err := r.next()
		if err != nil || p.is("ENDSEC") {
			return err
		}
		if p.code == 9 {
			variable = p.value
		} else if variable == "$INSUNITS" && p.code == 70 {
			r.units = &p
		}
	}
}

func (r *reader) definitions() error {
	for {
		p, err := r.next()
		if err != nil || p.is("ENDSEC") {
			return err
		}
		if !p.is("BLOCK") {
			continue
		}
		e, err := r.entity(p)
		if err != nil {
			return err
		}
		base, err := e.numbers(10, 20)
		if err != nil {
			return err
		}
		b := &block{base: geom.Point{X: base[0], Y: base[1]}}
		if b.shapes, err = r.drawn("ENDBLK"); err != nil {
			return err
		}
		r.blocks[e.name(2)] = b
	}
}

// drawn reads entities up to the end named.
func (r *reader) drawn(end string) ([]shape, error) {
	var list []shape
	for {
		p, err := r.next()
		if err != nil || p.is(end) {
			return list, err
		}
		if p.code != 0 {
			continue
		}
		if p.is("ENDSEC") || p.is("EOF") {
			return nil, fault.New(fault.Invalid, "%s stands where %s should", p.value, end).At(at(p.line))
		}
		s, err := r.shape(p)
		if err != nil {
			return nil, err
		}
		if s != nil {
			list = append(list, s)
		}
	}
}

// shape reads one entity; nil when it is skipped.
func (r *reader) shape(head pair) (shape, error) {
	e, err := r.entity(head)
	if err != nil {
		return nil, err
	}
	if e.kind == "POLYLINE" {
		return r.heavy(e)
	}
	if e.kind == "SEQEND" || e.kind == "ATTRIB" || e.kind == "ENDBLK" {
		return nil, nil
	}
	read := kinds[e.kind]
	if why := e.unseen(); read == nil || why != "" {
		r.Skip(e.kind+why, e.line)
		return nil, nil
	}
	return read(e)
}

// heavy reads a POLYLINE with the vertices that follow it.
func (r *reader) heavy(e entity) (shape, error) {
	flags, err := e.flag(70)
	if err != nil {
		return nil, err
	}
	k, tilted := e.kin()
	s := polyline{kin: k, closed: flags&1 != 0}
	if flags&8 != 0 {
		s.own = outline.Identity() // a polyline in space is given in the drawing's axes
	}
	for {
		p, err := r.next()
		if err != nil {
			return nil, err
		}
		if !p.is("VERTEX") {
			if !p.is("SEQEND") {
				r.unread(p)
			}
			break
		}
		if err := r.vertex(&s, p); err != nil {
			return nil, err
		}
	}
	why := e.unseen()
	if flags&(16|64) != 0 {
		why = " that is a mesh"
	}
	if why != "" {
		r.Skip(e.kind+why, e.line)
		return nil, nil
	}
	return s, tilted
}

// vertex adds a corner; those of a spline's frame are not on the line.
func (r *reader) vertex(s *polyline, head pair) error {
	e, err := r.entity(head)
	if err != nil {
		return err
	}
	v, err := e.numbers(10, 20, 42)
	if err != nil {
		return err
	}
	flags, err := e.flag(70)
	if err != nil || flags&16 != 0 {
		return err
	}
	s.vertices = append(s.vertices, vertex{geom.Point{X: v[0], Y: v[1]}, v[2]})
	return nil
}
