package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/unit"
)

// length reads whole or tenths of millimetres.
func length(f *web.Form, name string, low, high int64) unit.Length {
	return unit.Length(f.Decimal(name, 1, 10*low, 10*high)) * unit.Millimetre / 10
}

// typedMark reads a mark: by its corners, or by its middle and size.
func typedMark(f *web.Form, h *build.Hide) build.Mark {
	m := build.Mark{ID: nextMark(h), Kind: f.Choice("kind", build.MarkKinds()...), Note: f.Text("note", 0, 200)}
	m.Grade = f.Choice("takes", "", "A", "B", "C")
	if strings.TrimSpace(f.Raw("corners")) != "" {
		s, err := shapein.Read(f.Raw("corners"), 1)
		if err != nil {
			f.Fail("corners", err.Error())
		}
		m.Shape = s
		return m
	}
	x, y := length(f, "x", -20_000, 20_000), length(f, "y", -20_000, 20_000)
	w, t := length(f, "width", 1, 5_000), length(f, "height", 1, 5_000)
	m.Shape = build.Shape{Outer: build.Ring{{x - w/2, y - t/2}, {x + w/2, y - t/2}, {x + w/2, y + t/2}, {x - w/2, y + t/2}}}
	return m
}

func nextMark(h *build.Hide) string {
	for n := len(h.Marks) + 1; ; n++ {
		if id := fmt.Sprintf("K%d", n); h.Mark(id) == nil {
			return id
		}
	}
}

// typedDrawing reads the drawing of a hide.
func typedDrawing(f *web.Form, h *build.Hide) *build.DrawHide {
	c := &build.DrawHide{Hide: h.ID, Outline: shapein.Drawn(f, "outline", "file", 1), OutlineError: length(f, "error", 0, 200), Photo: h.Photo}
	if !c.Outline.Drawn() && f.Err() == nil {
		f.Fail("outline", "is empty: paste its corners, or choose a file")
	}
	var err error
	if c.Zones, err = readZones(f.Raw("zones")); err != nil {
		f.Fail("zones", err.Error())
	}
	if c.Headings, err = readHeadings(f.Raw("headings")); err != nil {
		f.Fail("headings", err.Error())
	}
	return c
}

// readZones reads zones, one a line: B belly: 0 0, 100 0, 100 80.
func readZones(text string) ([]build.HideZone, error) {
	var list []build.HideZone
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		head, corners, found := strings.Cut(line, ":")
		grade, part, _ := strings.Cut(strings.TrimSpace(head), " ")
		if !found || !slices.Contains(build.Grades(), grade) {
			return nil, fault.New(fault.Invalid, "%.30q does not begin with a grade and a name, such as B belly:", line)
		}
		s, err := shapein.Read(corners, 1)
		if err != nil {
			return nil, fault.Within(err, head)
		}
		list = append(list, build.HideZone{Shape: s, Grade: grade, Part: strings.TrimSpace(part)})
	}
	return list, nil
}

// readHeadings reads directions, one a line: x y angle.
func readHeadings(text string) ([]build.Heading, error) {
	var list []build.Heading
	for line := range strings.Lines(text) {
		values, err := shapein.Numbers(line)
		switch {
		case err != nil:
			return nil, err
		case len(values) == 0:
			continue
		case len(values) != 3:
			return nil, fault.New(fault.Invalid, "%q is not x, y and an angle", strings.TrimSpace(line))
		}
		mm := float64(unit.Millimetre)
		list = append(list, build.Heading{At: build.Spot{unit.Length(values[0] * mm), unit.Length(values[1] * mm)}, Angle: values[2]})
	}
	return list, nil
}

// zonesText and headingsText write them as their fields take them.
func zonesText(h build.Hide) string {
	var b strings.Builder
	for _, z := range h.Zones {
		text := strings.ReplaceAll(strings.TrimSpace(shapein.Corners(build.Shape{Outer: z.Shape.Outer})), "\n", ", ")
		fmt.Fprintf(&b, "%s %s: %s\n", z.Grade, z.Part, text)
	}
	return b.String()
}

func headingsText(h build.Hide) string {
	var b strings.Builder
	for _, a := range h.Headings {
		fmt.Fprintf(&b, "%s %s %s\n", short(a.At[0].Mm()), short(a.At[1].Mm()), short(a.Angle))
	}
	return b.String()
}
