package paint

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
)

// batchesOf returns the batches of a product's paint in tins that hold any.
// Tins boxed together are one.
func batchesOf(b *build.Build, id build.ProductID) []string {
	var heads, list []string
	for _, t := range b.Tins {
		if t.Product != id || t.Part != 0 || t.Left <= 0 || t.Batch == "" {
			continue
		}
		head := batchOf(t)
		if !slices.Contains(heads, head) {
			heads, list = append(heads, head), append(list, t.Batch)
		}
	}
	return list
}

// batchOf tells tins apart: by what they were boxed into, or by their batch.
func batchOf(t build.Tin) string {
	if t.Boxed != "" {
		return "boxed " + string(t.Boxed)
	}
	return t.Batch
}

// notBoxed finds colours in tins of several batches before the first coat.
func notBoxed(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, p := range b.Products {
		batches := batchesOf(b, p.ID)
		if !p.Use.ShowsColour() || len(batches) < 2 || begun(b, p.ID) {
			continue
		}
		list := strings.Join(batches, " and ")
		checks = append(checks, takeoff.Check{
			ID: "box/" + string(p.ID), Weight: takeoff.Tight,
			Says: fmt.Sprintf("%s came in batches %s, which may differ in colour", p.Name, list),
			Do:   "box all tins together before the first coat, and spray no panel from one tin alone",
			Figure: figure.Figure{Name: "batches of " + p.Name, Text: fmt.Sprintf("%d batches", len(batches)), Formula: "batches in tins that hold any, boxed ones counted once",
				With: list, Inputs: tinInputs(b, p.ID)},
		})
	}
	return checks
}

// begun reports whether any of a product is mixed or on.
func begun(b *build.Build, id build.ProductID) bool {
	return slices.ContainsFunc(b.Pours, func(m build.Pour) bool { return m.Product == id }) ||
		slices.ContainsFunc(b.Coats, func(c build.Coat) bool { return c.Product == id })
}

func tinInputs(b *build.Build, id build.ProductID) []figure.Input {
	var list []figure.Input
	for _, t := range b.Tins {
		if t.Product == id && t.Part == 0 {
			list = append(list, figure.Input{Name: "tin " + string(t.ID), Value: t.Left.String(), Source: figure.Measured, Note: "batch " + t.Batch})
		}
	}
	return list
}

// mixedBatches finds zones that got one colour out of batches that were never
// boxed: panels that meet may differ.
func mixedBatches(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, p := range b.Products {
		if !p.Use.ShowsColour() {
			continue
		}
		for _, zone := range p.Zones {
			seen := poured(b, p.ID, zone)
			if len(seen) < 2 {
				continue
			}
			list := strings.Join(seen, " and ")
			checks = append(checks, takeoff.Check{
				ID: "batches/" + string(p.ID) + "/" + string(zone), Weight: takeoff.Slipping,
				Says: fmt.Sprintf("%s was mixed from batches %s for one surface", p.Name, list),
				Do:   "compare panels that meet in daylight before the clear; box what is left",
				Figure: figure.Figure{Name: "batches on one surface", Text: fmt.Sprintf("%d batches", len(seen)), Formula: "batches of the tins that mixes for the zone were poured from",
					With: string(zone) + ": " + list},
			})
		}
	}
	return checks
}

// poured returns the batches that mixes of a product for a zone came from.
func poured(b *build.Build, id build.ProductID, zone build.ZoneID) []string {
	var heads, list []string
	for _, m := range b.Pours {
		if m.Product != id || !slices.Contains(m.Zones, zone) {
			continue
		}
		for _, q := range m.Parts {
			t := b.Tin(q.Tin)
			if t == nil || q.Part != 0 || t.Batch == "" || slices.Contains(heads, batchOf(*t)) {
				continue
			}
			heads, list = append(heads, batchOf(*t)), append(list, t.Batch)
		}
	}
	return list
}
