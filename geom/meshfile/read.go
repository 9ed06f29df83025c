package meshfile

import (
	"fmt"

	"fettle/fault"
	"fettle/geom/mesh"
)

// File is a surface out of a file, in millimetres.
type File struct {
	Format Format
	Model  mesh.Model // its Unit is 1
	Unit   float64    // millimetres in one unit of the file
	Known  Known
	Size   mesh.Vec // mm, along x, y and z
	Doubt  *Doubt   // nil where the size is that of a part
}

// Known says how the unit is known.
type Known uint8

// How a unit is known.
const (
	Assumed Known = iota // nothing says it: taken as millimetres
	Stated               // by the file
	Told                 // by the caller
)

// String says it in words.
func (k Known) String() string {
	return [...]string{"taken as millimetres, for the file does not say", "as the file says", "as you said"}[k]
}

// Doubt is a size that is not that of a part of a vehicle.
type Doubt struct {
	Longest float64 // mm, the longest side as the file was read
	Rather  []Guess // units with which it would be, the likelier first
}

// Guess is a unit, and what the longest side would be with it.
type Guess struct {
	Name    string
	Unit    float64 // mm
	Longest float64 // mm
}

// String asks whether the unit is right.
func (d Doubt) String() string {
	text := fmt.Sprintf("The longest side is %.3g mm, which is not that of a part.", d.Longest)
	for i, g := range d.Rather {
		if i == 0 {
			text += fmt.Sprintf(" If the file is in %s, it is %.4g mm", g.Name, g.Longest)
		} else {
			text += fmt.Sprintf("; in %s, %.4g mm", g.Name, g.Longest)
		}
	}
	if d.Rather != nil {
		text += "."
	}
	return text + " Say which unit is right: nothing was scaled."
}

// The longest sides of parts, mm. What is asked about is wider than what is
// believed: a strap of 100 mm is rare, a seat of 20 inches is not.
const (
	least      = 120
	most       = 8000
	likelyFrom = 200
	likelyTo   = 6500
)

// scales are the units that a file without one is likely to be in.
var scales = []Guess{{Name: "metres", Unit: 1000}, {Name: "inches", Unit: 25.4}, {Name: "centimetres", Unit: 10}, {Name: "millimetres", Unit: 1}, {Name: "micrometres", Unit: 0.001}}

// Read reads a surface of any format we know. A unit that is told, in
// millimetres, counts before that in the file; 0 tells none. A size that no part
// has is doubted and not scaled. Errors are faults of kind Invalid or TooLarge
// with the place in the file, Invalid too for a file without faces.
func Read(name string, data []byte, unit float64, limits mesh.Limits) (File, error) {
	if !(unit >= 0 && unit <= 1e6) {
		return File{}, fault.New(fault.Invalid, "a unit of %g mm is not one", unit)
	}
	format, err := Detect(name, data)
	if err != nil {
		return File{}, err
	}
	model, err := format.read(data, limits)
	if err != nil {
		return File{}, err
	}
	if len(model.Mesh.Faces) == 0 {
		return File{}, nothing(model)
	}
	f := File{Format: format, Model: model, Unit: 1}
	switch {
	case unit > 0:
		f.Unit, f.Known = unit, Told
	case model.Unit > 0:
		f.Unit, f.Known = model.Unit, Stated
	}
	if f.Unit != 1 {
		f.Model.Mesh = model.Mesh.Scale(f.Unit)
	}
	f.Model.Unit = 1
	lo, hi := f.Model.Mesh.Box()
	f.Size = hi.Sub(lo)
	if f.Known != Told {
		f.Doubt = doubt(max(f.Size.X, f.Size.Y, f.Size.Z), f.Unit)
	}
	return f, nil
}

func nothing(m mesh.Model) error {
	if n := len(m.Mesh.Points); n > 0 {
		return fault.New(fault.Invalid, "the file has %d points and no face between them", n).
			WithHint("Make a surface of the points first, in the program of the scanner.")
	}
	return fault.New(fault.Invalid, "there is no face in the file")
}

// doubt asks about a longest side in mm that was read in a unit.
func doubt(longest, unit float64) *Doubt {
	if longest >= least && longest <= most {
		return nil
	}
	d := &Doubt{Longest: longest}
	for _, g := range scales {
		if g.Longest = longest / unit * g.Unit; g.Unit != unit && g.Longest >= likelyFrom && g.Longest <= likelyTo {
			d.Rather = append(d.Rather, g)
		}
	}
	return d
}
