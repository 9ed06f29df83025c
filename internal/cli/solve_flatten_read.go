package cli

import (
	"fmt"
	"os"
	"strconv"
	"strings"

	"fettle/engine/flatten"
	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/geom/meshfile"
)

// flattenInput is a surface as it is to be laid flat, and how it was read.
type flattenInput struct {
	problem flatten.Problem // in millimetres
	unit    float64         // millimetres in one unit of the file
	known   meshfile.Known
	source  []int32 // by vertex of the surface, that of the file
	notes   []string
}

// named gives vertices of the surface their numbers in the file.
func (in flattenInput) named(list []int32) []int32 {
	out := make([]int32, len(list))
	for i, v := range list {
		out[i] = in.source[v]
	}
	return out
}

// read reads the surface and what is asked of it.
func (c *solveFlattenCmd) read() (flattenInput, error) {
	told, known := map[string]float64{"": 0, "mm": 1, "cm": 10, "m": 1000, "in": 25.4}[c.Unit]
	if !known {
		return flattenInput{}, fault.New(fault.Invalid, "%.20q is no unit of length here", c.Unit).At("--unit").WithHint("mm, cm, m or in")
	}
	in, err := readSurface(c.File, told, c.Weld)
	if err != nil {
		return in, within(err, c.File)
	}
	if in.known == meshfile.Assumed && (c.DXF != "" || c.SVG != "" || c.Material == "steel") {
		return in, fault.New(fault.Invalid, "the file does not say in which unit its lengths are").At(c.File).WithHint("say --unit mm, cm, m or in")
	}
	return in, c.ask(&in)
}

// readSurface reads a surface, puts small faults right and notes what there is
// to know of it.
func readSurface(path string, told float64, weld bool) (flattenInput, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return flattenInput{}, fault.New(fault.NotFound, "cannot be opened: %v", err)
	}
	file, err := meshfile.Read(path, data, told, mesh.Limits{})
	if err != nil {
		return flattenInput{}, err
	}
	in := flattenInput{unit: file.Unit, known: file.Known}
	for _, l := range file.Model.Left {
		in.notes = append(in.notes, fmt.Sprintf("left out: %s (%d)", l.What, l.Count))
	}
	if file.Doubt != nil {
		in.notes = append(in.notes, file.Doubt.String())
	}
	m, source, did := file.Model.Mesh.Repair(mesh.RepairOptions{Weld: weld})
	for _, r := range did {
		if r.What != mesh.HoleLeft {
			in.notes = append(in.notes, r.String())
		}
	}
	for _, f := range m.Check() {
		if f.What != mesh.Small && f.What != mesh.Large {
			in.notes = append(in.notes, f.String())
		}
	}
	in.problem.Surface, in.source = m, source
	return in, nil
}

// ask adds cuts, grain and material to what was read.
func (c *solveFlattenCmd) ask(in *flattenInput) error {
	at := make(map[int32]int32, len(in.source))
	for v := len(in.source) - 1; v >= 0; v-- {
		at[in.source[v]] = int32(v)
	}
	m := in.problem.Surface
	adjacency := m.Adjacency()
	for _, text := range c.Cut {
		ends, err := vertices(text, at)
		if err != nil || len(ends) < 2 {
			return within(wantVertices(err, "two vertices at least"), "--cut "+text)
		}
		path := ends[:1]
		for _, to := range ends[1:] {
			way, _ := adjacency.ShortestPath(path[len(path)-1:], []int32{to}, m.EdgeLength)
			if len(way) < 2 {
				return fault.New(fault.Invalid, "no way along edges leads to vertex %d", in.source[to]).At("--cut " + text)
			}
			path = append(path[:len(path):len(path)], way[1:]...)
		}
		in.problem.Cuts = append(in.problem.Cuts, path)
	}
	if c.Grain != "" {
		ends, err := vertices(c.Grain, at)
		if err != nil || len(ends) != 2 || ends[0] == ends[1] {
			return within(wantVertices(err, "two different vertices"), "--grain "+c.Grain)
		}
		in.problem.Grain = flatten.Grain{From: ends[0], To: ends[1]}
	}
	var err error
	in.problem.Material, err = c.material()
	return err
}

func wantVertices(err error, what string) error {
	if err != nil {
		return err
	}
	return fault.New(fault.Invalid, "%s are wanted, numbers with commas between", what)
}

// vertices reads numbers of vertices of the file.
func vertices(text string, at map[int32]int32) ([]int32, error) {
	var list []int32
	for word := range strings.SplitSeq(text, ",") {
		n, err := strconv.ParseInt(strings.TrimSpace(word), 10, 32)
		v, known := at[int32(n)]
		if err != nil || !known {
			return nil, fault.New(fault.Invalid, "%.20q is no vertex of the surface", word).WithHint("vertices are counted from 0 in the order of the file")
		}
		list = append(list, v)
	}
	return list, nil
}

// material is what --material and the limits beside it say.
func (c *solveFlattenCmd) material() (*flatten.Material, error) {
	var m flatten.Material
	switch c.Material {
	case "leather":
		m = flatten.Leather()
	case "vinyl":
		m = flatten.Vinyl()
	case "cloth":
		m = flatten.Cloth()
	}
	soft := m.Name != ""
	if c.Propose && c.Material == "" {
		return nil, fault.New(fault.Invalid, "cuts are proposed for a material").At("--propose").WithHint("say --material")
	}
	if !soft && (c.Glued || c.Tension != nil || c.Squeeze != nil) {
		return nil, fault.New(fault.Invalid, "--tension, --squeeze and --glued are for leather, vinyl and cloth").At("--material")
	}
	switch {
	case c.Material == "steel":
		sheet, err := flatten.Sheet(c.Grade, c.Thickness)
		return &sheet, within(err, "--material steel")
	case !soft:
		return nil, nil
	case c.Glued:
		m = m.Glued()
	}
	for _, set := range []struct {
		flag    string
		percent []float64
		limit   *[2]float64
	}{{"--tension", c.Tension, &m.Tension}, {"--squeeze", c.Squeeze, &m.Squeeze}} {
		switch len(set.percent) {
		case 0:
		case 2:
			*set.limit = [2]float64{set.percent[0] / 100, set.percent[1] / 100}
		default:
			return nil, fault.New(fault.Invalid, "%d numbers: percent along and percent across are wanted", len(set.percent)).At(set.flag)
		}
	}
	return &m, within(m.Validate(), "--material "+c.Material)
}
