package threemf

import (
	"archive/zip"
	"bufio"
	"fmt"
	"io"

	"fettle/fault"
	"fettle/geom/mesh"
)

const (
	contents = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
`
	relations = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/` + usual + `" Id="rel0" Type="` + startPart + `"/></Relationships>
`
	head = `<?xml version="1.0" encoding="UTF-8"?>
<model unit="%s" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
<resources><object id="1" type="%s"><mesh><vertices>
`
)

// Write writes one object, a surface where the mesh is open, with the fewest
// digits that read back the same. A unit of 0 is the millimetre; the errors are
// an Invalid fault for a unit that the format does not know, or what w says.
func Write(w io.Writer, m mesh.Model) error {
	name, err := unitName(m.Unit)
	if err != nil {
		return err
	}
	z := zip.NewWriter(w)
	for _, part := range []struct{ name, text string }{{"[Content_Types].xml", contents}, {"_rels/.rels", relations}} {
		out, err := z.Create(part.name)
		if err == nil {
			_, err = io.WriteString(out, part.text)
		}
		if err != nil {
			return err
		}
	}
	part, err := z.Create(usual)
	if err != nil {
		return err
	}
	out, kind := bufio.NewWriter(part), "model"
	if len(m.Mesh.BoundaryLoops()) > 0 {
		kind = "surface"
	}
	fmt.Fprintf(out, head, name, kind) // the last Flush says what went wrong
	for _, p := range m.Mesh.Points {
		fmt.Fprintf(out, "<vertex x=\"%v\" y=\"%v\" z=\"%v\"/>\n", p.X, p.Y, p.Z)
	}
	fmt.Fprintln(out, "</vertices><triangles>")
	for _, f := range m.Mesh.Faces {
		fmt.Fprintf(out, "<triangle v1=\"%d\" v2=\"%d\" v3=\"%d\"/>\n", f[0], f[1], f[2])
	}
	fmt.Fprintln(out, "</triangles></mesh></object></resources>\n<build><item objectid=\"1\"/></build></model>")
	if err := out.Flush(); err != nil {
		return err
	}
	return z.Close()
}

func unitName(unit float64) (string, error) {
	if unit == 0 {
		unit = 1
	}
	for _, name := range []string{"millimeter", "micron", "centimeter", "inch", "foot", "meter"} {
		if units[name] == unit {
			return name, nil
		}
	}
	return "", fault.New(fault.Invalid, "the format knows no unit of %g mm", unit)
}
