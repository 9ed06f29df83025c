package trim

import (
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/lens"
	"fettle/internal/shapein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// How the scale of a photo is known.
const (
	byRectangle = "rectangle"
	bySheets    = "sheets"
	byPoints    = "points"
	byStick     = "stick"
)

// references are the ways to say what is known in a photo.
func references(picked string) []field.Option {
	return field.Pick([]field.Option{
		{Value: byRectangle, Label: "a rectangle", Hint: "taped around the hide, or a frame"},
		{Value: bySheets, Label: "sheets of paper", Hint: "four or more, lying anywhere"},
		{Value: byPoints, Label: "measured marks", Hint: "each with its own place"},
		{Value: byStick, Label: "one stick", Hint: "camera square on: less exact"},
	}, picked)
}

// traced is what is marked in a photo, in its pixels with y down.
type traced struct {
	Scene   lens.Scene
	Outline []geom.Point
	Faults  []tracedFault
	Zones   []build.HideZone // shapes in pixels, one for a millimetre
	Stretch [][]geom.Point   // from, to
	Checks  []tracedCheck
	Back    bool // the photo shows the back of the hide
	Renew   bool // marks of the old drawing go
}

type tracedFault struct {
	Kind, Grade string
	At          []geom.Point // two are its middle and its rim
}

// tracedCheck is a distance that was measured on the table as well.
type tracedCheck struct {
	From, To geom.Point
	Mm       float64
}

// readTraced reads the form. What is wrong is said beside its field.
func readTraced(f *web.Form, width, height int) traced {
	t := traced{Back: f.Has("back"), Renew: f.Has("renew")}
	t.Scene = lens.Scene{Width: float64(width), Height: float64(height), Wide: f.Has("wide")}
	with := f.Choice("with", byRectangle, bySheets, byPoints, byStick)
	t.Scene.SquareOn = with == byStick
	if strings.TrimSpace(f.Raw("tape")) != "" {
		t.Scene.Tape = length(f, "tape", 0, 100).Mm() / 2
	}
	var across, up float64
	if with != byPoints {
		across = length(f, "across", 10, 20_000).Mm()
	}
	if with == byRectangle || with == bySheets {
		up = length(f, "up", 10, 20_000).Mm()
	}
	if f.Err() == nil {
		patches, err := readReference(f.Raw("reference"), with, across, up)
		fails(f, "reference", err)
		t.Scene.Patches = patches
	}
	t.readRest(f)
	return t
}

func fails(f *web.Form, name string, err error) {
	if err != nil {
		f.Fail(name, err.Error())
	}
}

func (t *traced) readRest(f *web.Form) {
	var err error
	t.Scene.Lines, err = readLines(f.Raw("straight"))
	fails(f, "straight", err)
	outline, err := readLines(f.Raw("outline"))
	fails(f, "outline", err)
	t.Outline = slices.Concat(outline...)
	if len(t.Outline) > 0 {
		if err := geom.Ring(t.Outline).Check(); err != nil {
			fails(f, "outline", err)
		}
	}
	t.Faults, err = readFaults(f.Raw("faults"))
	fails(f, "faults", err)
	t.Zones, err = readZones(f.Raw("zones"))
	fails(f, "zones", err)
	t.Stretch, err = readLines(f.Raw("stretch"))
	for i, a := range t.Stretch {
		if err == nil && (len(a) != 2 || a[0] == a[1]) {
			err = fault.New(fault.Invalid, "arrow %d needs two places: x y, x y", i+1)
		}
	}
	fails(f, "stretch", err)
	t.Checks, err = readChecks(f.Raw("checks"))
	fails(f, "checks", err)
}

// readLines reads places: those of a line of text belong together where it has
// several, and such of one to a line belong together up to an empty one.
func readLines(text string) ([][]geom.Point, error) {
	var list [][]geom.Point
	var open []geom.Point
	end := func() {
		if len(open) > 0 {
			list, open = append(list, open), nil
		}
	}
	for line := range strings.Lines(text) {
		v, err := shapein.Numbers(line)
		if err != nil {
			return nil, err
		}
		if len(v)%2 != 0 {
			return nil, fault.New(fault.Invalid, "%q has an odd number of numbers: x and y belong together", strings.TrimSpace(line))
		}
		if len(v) != 2 {
			end()
		}
		for i := 0; i < len(v); i += 2 {
			open = append(open, geom.Point{X: v[i], Y: v[i+1]})
		}
		if len(v) > 2 {
			end()
		}
	}
	end()
	return list, nil
}

// readReference makes the patches of a reference.
func readReference(text, with string, across, up float64) ([][]lens.Mark, error) {
	if with == byPoints {
		return readMeasured(text)
	}
	lines, err := readLines(text)
	if err != nil {
		return nil, err
	}
	at := slices.Concat(lines...)
	need, of := 4, "corners"
	if with == byStick {
		need, of = 2, "ends"
	}
	whole := len(at) == need || with == bySheets && len(at) > need && len(at)%need == 0
	if !whole {
		return nil, fault.New(fault.Invalid, "has %d places: mark %d %s", len(at), need, of)
	}
	if with == byStick {
		return [][]lens.Mark{lens.Stick(at[0], at[1], across)}, nil
	}
	var list [][]lens.Mark
	for i := 0; i < len(at); i += 4 {
		list = append(list, lens.Rectangle([4]geom.Point(at[i:i+4]), across, up))
	}
	return list, nil
}

// readMeasured reads marks with a place of their own, one a line: x y in the
// photo and x y in mm.
func readMeasured(text string) ([][]lens.Mark, error) {
	var marks []lens.Mark
	for line := range strings.Lines(text) {
		v, err := shapein.Numbers(line)
		switch {
		case err != nil:
			return nil, err
		case len(v) == 0:
			continue
		case len(v) != 4:
			return nil, fault.New(fault.Invalid, "%q is not x y in the photo and x y in mm", strings.TrimSpace(line))
		}
		marks = append(marks, lens.Mark{At: geom.Point{X: v[0], Y: v[1]}, Is: geom.Point{X: v[2], Y: v[3]}})
	}
	return [][]lens.Mark{marks}, nil
}

// readFaults reads marks of a hide, one a line: flay cut C: x y, x y, x y.
func readFaults(text string) ([]tracedFault, error) {
	var list []tracedFault
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		head, places, _ := strings.Cut(line, ":")
		m := tracedFault{Kind: strings.TrimSpace(head)}
		if cut := strings.LastIndex(m.Kind, " "); cut > 0 && slices.Contains(build.Grades(), m.Kind[cut+1:]) {
			m.Kind, m.Grade = strings.TrimSpace(m.Kind[:cut]), m.Kind[cut+1:]
		}
		if !slices.Contains(build.MarkKinds(), m.Kind) {
			return nil, fault.New(fault.Invalid, "%.40q does not begin with a kind of mark and a colon, such as scar B: (%s)", line, strings.Join(build.MarkKinds(), ", "))
		}
		at, err := readLines(places)
		if err != nil {
			return nil, fault.Within(err, head)
		}
		if m.At = slices.Concat(at...); len(m.At) < 2 {
			return nil, fault.New(fault.Invalid, "have a %s of %d: two places are its middle and its rim, three and more its edge", head, len(m.At))
		}
		if len(m.At) > 2 {
			if err := geom.Ring(m.At).Check(); err != nil {
				return nil, fault.Within(err, head)
			}
		}
		list = append(list, m)
	}
	return list, nil
}

// readChecks reads distances, one a line: x y, x y = 1500.
func readChecks(text string) ([]tracedCheck, error) {
	var list []tracedCheck
	for line := range strings.Lines(text) {
		if strings.TrimSpace(line) == "" {
			continue
		}
		places, mm, found := strings.Cut(line, "=")
		at, err := shapein.Numbers(places)
		if err != nil {
			return nil, err
		}
		size, err := shapein.Numbers(mm)
		if err != nil {
			return nil, err
		}
		if !found || len(at) != 4 || len(size) != 1 || size[0] <= 0 {
			return nil, fault.New(fault.Invalid, "%q is not two places and what the tape says, such as 100 200, 900 210 = 1500", strings.TrimSpace(line))
		}
		list = append(list, tracedCheck{geom.Point{X: at[0], Y: at[1]}, geom.Point{X: at[2], Y: at[3]}, size[0]})
	}
	return list, nil
}

// disc is a small circle of twelve corners around its middle, outside its rim.
func disc(mid, rim geom.Point) []geom.Point {
	const corners = 12
	r := mid.Distance(rim) / math.Cos(math.Pi/corners)
	list := make([]geom.Point, corners)
	for i := range list {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		list[i] = mid.Add(geom.Point{X: r * cos, Y: r * sin})
	}
	return list
}
