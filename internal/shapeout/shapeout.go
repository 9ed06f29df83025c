// Package shapeout answers with drawings at true size: on paper, tiled with
// crosses and a check bar, or as a DXF or SVG file.
package shapeout

import (
	"bytes"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/dxf"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/geom/svg"
	"fettle/internal/web"
)

// Printed answers with sheets on the paper that the request asks for, A4 where
// it asks for none.
func Printed(r *web.Request, name string, sheets []pdf.Sheet, pens map[string]pdf.Pen) error {
	paper := r.Query("paper")
	if paper == "" {
		paper = "a4"
	}
	on, err := pdf.ParsePaper(paper)
	if err != nil {
		return err
	}
	on.Pens = pens
	var out bytes.Buffer
	if err := pdf.Write(&out, sheets, on); err != nil {
		return err
	}
	return r.File(name, "application/pdf", out.Bytes())
}

// Drawing answers with one plan in the form that the request asks for: pdf,
// svg, dxf, or dxf12 for older programs; DXF where it asks for none, and a fault
// for any other. The name is without an extension.
func Drawing(r *web.Request, name, title string, plan outline.Plan, pens map[string]pdf.Pen) error {
	var out bytes.Buffer
	version := dxf.R2000
	switch r.Query("form") {
	case "pdf":
		return Printed(r, name+".pdf", []pdf.Sheet{{Title: title, Plan: plan}}, pens)
	case "svg":
		if err := svg.Write(&out, plan, svg.Paper{Margin: 10, CheckBar: true}); err != nil {
			return err
		}
		return r.File(name+".svg", "image/svg+xml", out.Bytes())
	case "dxf12":
		version = dxf.R12
	case "", "dxf":
	default:
		return fault.New(fault.Invalid, "a drawing is given as pdf, dxf, dxf12 or svg").At("form")
	}
	if err := dxf.Write(&out, plan, version); err != nil {
		return err
	}
	return r.File(name+".dxf", "image/vnd.dxf", out.Bytes())
}

// Closed are the rings of an area on a layer.
func Closed(layer string, p geom.Polygon) []outline.Outline {
	var list []outline.Outline
	for _, ring := range p.Rings() {
		list = append(list, outline.Outline{Layer: layer, Closed: true, Points: ring})
	}
	return list
}
