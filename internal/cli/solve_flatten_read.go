package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fettle/engine/flatten"
	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/geom/obj"
	"fettle/geom/ply"
	"fettle/geom/stl"
)

// flattenInput is a surface as it is to be laid flat, and how it was read.
type flattenInput struct {
	problem flatten.Problem // in millimetres where the unit is known
	unit    float64         // millimetres in one unit of the file, 0 where nothing says
	source  []int32         // by vertex of the surface, that of the file
	repairs []string
}

// scale is what lengths of the file were multiplied by.
func (in flattenInput) scale() float64 {
	if in.unit == 0 {
		return 1
	}
	return in.unit
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
	model, err := readMesh(c.File)
	if err != nil {
		return flattenInput{}, within(err, c.File)
	}
	var in flattenInput
	if in.unit, err = c.unit(model.Unit); err != nil {
		return in, err
	}
	for _, l := range model.Left {
		in.repairs = append(in.repairs, fmt.Sprintf("left out: %s (%d)", l.What, l.Count))
	}
	m, source, did := model.Mesh.Repair(mesh.RepairOptions{Weld: c.Weld})
	for _, r := range did {
		in.repairs = append(in.repairs, r.String())
	}
	in.source = source
	if in.unit > 0 && in.unit != 1 {
		m = m.Scale(in.unit)
	}
	in.problem.Surface = m
	return in, c.ask(&in)
}

// readMesh reads a surface by what its name ends in.
func readMesh(path string) (mesh.Model, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return mesh.Model{}, fault.New(fault.NotFound, "cannot be opened: %v", err)
	}
	switch strings.ToLower(filepath.Ext(path)) {
	case ".obj":
		return obj.Read(data, mesh.Limits{})
	case ".ply":
		return ply.Read(data, mesh.Limits{})
	case ".stl":
		return stl.Read(data, mesh.Limits{})
	}
	return mesh.Model{}, fault.New(fault.Invalid, "no file of surfaces by its name").WithHint("OBJ, PLY or STL")
}

var unitMillimetres = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4}

// unit is the file's, or what --unit says where it has none. Drawings to cut by
// and metal need one.
func (c *solveFlattenCmd) unit(file float64) (float64, error) {
	if c.Unit != "" {
		said, known := unitMillimetres[c.Unit]
		switch {
		case !known:
			return 0, fault.New(fault.Invalid, "%.20q is no unit of length here", c.Unit).At("--unit").WithHint("mm, cm, m or in")
		case file != 0 && file != said:
			return 0, fault.New(fault.Invalid, "%s, but %s says that 1 is %g mm", c.Unit, c.File, file).At("--unit")
		}
		return said, nil
	}
	if file == 0 && (c.DXF != "" || c.SVG != "" || c.Material == "steel") {
		return 0, fault.New(fault.Invalid, "the file does not say in which unit its lengths are").At(c.File).WithHint("say --unit mm, cm, m or in")
	}
	return file, nil
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
