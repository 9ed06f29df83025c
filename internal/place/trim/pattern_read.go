package trim

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/internal/shapein"
	"fettle/internal/web"
	stage "fettle/stage/trim"
	"fettle/unit"
)

// drawnLine is an outline with the places at which its edges begin.
type drawnLine struct {
	Points []geom.Point
	Starts []stage.Start
	Holes  [][]geom.Point
	File   string // read from
}

// readOutline reads corners, one a line: x y, and behind those at which an edge
// begins its name. Without names edges begin where the line turns.
func readOutline(text string) (drawnLine, error) {
	var d drawnLine
	for line := range strings.Lines(text) {
		words := strings.Fields(strings.ReplaceAll(line, ",", " "))
		if len(words) == 0 {
			continue
		}
		if len(words) < 2 {
			return d, fault.New(fault.Invalid, "%q is not x y in mm, and a name where an edge begins", strings.TrimSpace(line))
		}
		at, err := shapein.Numbers(words[0] + " " + words[1])
		if err != nil {
			return d, err
		}
		if name := strings.Join(words[2:], " "); name != "" {
			if slices.ContainsFunc(d.Starts, func(s stage.Start) bool { return s.Name == name }) {
				return d, fault.New(fault.Invalid, "two edges are called %q", name)
			}
			d.Starts = append(d.Starts, stage.Start{Name: name, First: len(d.Points)})
		}
		d.Points = append(d.Points, geom.Point{X: at[0], Y: at[1]})
	}
	if err := geom.Ring(d.Points).Check(); err != nil {
		return d, err
	}
	if len(d.Starts) == 0 {
		d.Starts = stage.Starts(d.Points)
	}
	return d, nil
}

// typedOutline is the outline of a form: its file where one was chosen, else its
// corners.
func typedOutline(f *web.Form) (d drawnLine) {
	var err error
	if in, head := f.File("file"); in != nil {
		defer in.Close()
		s, err := shapein.FromFile(head.Filename, in, shapein.Unit(f))
		if err != nil {
			f.Fail("file", err.Error())
			return d
		}
		p := s.Polygon()
		d = drawnLine{Points: p.Outer, Starts: stage.Starts(p.Outer), File: head.Filename}
		d.Holes = append(d.Holes, p.Holes...)
		return d
	}
	if d, err = readOutline(f.Raw("outline")); err != nil {
		f.Fail("outline", err.Error())
	}
	return d
}

// text writes an outline as its field has it.
func (d drawnLine) text() string {
	var b strings.Builder
	for i, q := range d.Points {
		fmt.Fprintf(&b, "%s %s", short(math.Round(q.X*100)/100), short(math.Round(q.Y*100)/100))
		for _, s := range d.Starts {
			if s.First == i {
				b.WriteString(" " + s.Name)
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// lineOfPattern is the sewn line of a pattern.
func lineOfPattern(p build.Pattern) drawnLine {
	d := drawnLine{Points: build.Shape{Outer: p.Sewn}.Polygon().Outer}
	for _, e := range p.Edges {
		d.Starts = append(d.Starts, stage.Start{Name: e.Name, First: e.First})
	}
	return d
}

// squared is an outline put right, and what that moved.
type squared struct {
	Was, Is drawnLine
	Told    stage.Squared
}

// square makes an outline true. Where an edge began on a side that is straight
// now, its corner is put on it.
func (d drawnLine) square() (squared, error) {
	told, err := stage.Square(d.Points)
	if err != nil {
		return squared{}, err
	}
	s := squared{Was: d, Told: told}
	n := len(told.Line)
	for i, from := range told.From {
		next := told.From[(i+1)%n]
		if next <= from {
			next += len(d.Points)
		}
		a, b := told.Line[i], told.Line[(i+1)%n]
		for at := from; at < next; at++ {
			name := ""
			for _, st := range d.Starts {
				if st.First == at%len(d.Points) {
					name = st.Name
				}
			}
			if at > from && name == "" {
				continue
			}
			q := a
			if at > from {
				way := b.Sub(a)
				share := d.Points[at%len(d.Points)].Sub(a)
				q = a.Add(way.Scale((share.X*way.X + share.Y*way.Y) / (way.X*way.X + way.Y*way.Y)))
			}
			if name != "" {
				s.Is.Starts = append(s.Is.Starts, stage.Start{Name: name, First: len(s.Is.Points)})
			}
			s.Is.Points = append(s.Is.Points, q)
		}
	}
	slices.SortFunc(s.Is.Starts, func(a, b stage.Start) int { return a.First - b.First })
	return s, geom.Ring(s.Is.Points).Check()
}

// spotsOf reads places of a pattern.
func spotsOf(text string) (build.Ring, error) {
	lines, err := readLines(text)
	if err != nil {
		return nil, err
	}
	return build.ShapeOf(geom.Polygon{Outer: slices.Concat(lines...)}).Outer, nil
}

// readDrawnOn reads lines and marks of a pattern, one a line: its kind, what is
// said of it, a colon and places.
func readDrawnOn(text string) (lines []build.PatternLine, marks []build.PatternMark, err error) {
	for row := range strings.Lines(text) {
		if row = strings.TrimSpace(row); row == "" {
			continue
		}
		head, places, found := strings.Cut(row, ":")
		words := strings.Fields(head)
		if !found || len(words) == 0 {
			return nil, nil, fault.New(fault.Invalid, "%.40q does not begin with a kind and a colon, such as stitch diamond: 0 0, 40 30", row)
		}
		at, err := spotsOf(places)
		if err != nil {
			return nil, nil, fault.Within(err, head)
		}
		switch kind := markKind(words); {
		case kind != "" && len(at) == 1:
			marks = append(marks, build.PatternMark{Kind: kind, Name: strings.TrimSpace(strings.TrimPrefix(strings.Join(words, " "), kind)), At: at[0]})
		case kind != "":
			return nil, nil, fault.New(fault.Invalid, "a %s stands at one place, not %d", kind, len(at))
		case !slices.Contains(build.LineKinds(), words[0]):
			return nil, nil, fault.New(fault.Invalid, "%q is none of: %s, %s", words[0], strings.Join(build.LineKinds(), ", "), strings.Join(build.MarkPointKinds(), ", "))
		case len(at) < 2:
			return nil, nil, fault.New(fault.Invalid, "a %s line has two places or more", words[0])
		default:
			l, err := lineHead(words)
			if err != nil {
				return nil, nil, err
			}
			l.Points = at
			lines = append(lines, l)
		}
	}
	return lines, marks, nil
}

func markKind(words []string) string {
	if len(words) > 1 && words[0] == "double" && words[1] == "notch" {
		return "double notch"
	}
	if words[0] == "notch" || words[0] == "point" {
		return words[0]
	}
	return ""
}

// lineHead reads what stands before the colon of a line: kind, name, and any of:
// closed, reads, every 3.5, thread L1.
func lineHead(words []string) (build.PatternLine, error) {
	l := build.PatternLine{Kind: words[0]}
	var name []string
	for i := 1; i < len(words); i++ {
		switch next := i+1 < len(words); {
		case words[i] == "closed":
			l.Closed = true
		case words[i] == "reads":
			l.Reads = true
		case words[i] == "thread" && next:
			i++
			l.Thread = build.ThreadID(words[i])
		case words[i] == "every" && next:
			i++
			v, err := shapein.Numbers(words[i])
			if err != nil {
				return l, err
			}
			l.Pitch = unit.Length(math.Round(v[0]*1000)) * unit.Millimetre / 1000
		default:
			name = append(name, words[i])
		}
	}
	l.Name = strings.Join(name, " ")
	return l, nil
}

// drawnOnText writes lines and marks as their field has them.
func drawnOnText(p build.Pattern) string {
	var b strings.Builder
	places := func(r build.Ring) {
		gap := " "
		for _, s := range r {
			b.WriteString(gap + short(s[0].Mm()) + " " + short(s[1].Mm()))
			gap = ", "
		}
		b.WriteByte('\n')
	}
	for _, l := range p.Lines {
		words := []string{l.Kind}
		if l.Name != "" {
			words = append(words, l.Name)
		}
		if l.Closed {
			words = append(words, "closed")
		}
		if l.Reads {
			words = append(words, "reads")
		}
		if l.Pitch > 0 {
			words = append(words, "every", short(l.Pitch.Mm()))
		}
		if l.Thread != "" {
			words = append(words, "thread", string(l.Thread))
		}
		b.WriteString(strings.Join(words, " ") + ":")
		places(l.Points)
	}
	for _, m := range p.Marks {
		b.WriteString(strings.TrimSpace(m.Kind+" "+m.Name) + ":")
		places(build.Ring{m.At})
	}
	return b.String()
}
