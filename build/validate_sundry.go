package build

import "fettle/unit"

// Bounds of rule 3 for foam, boards, deadening and glue.
const (
	mostDensity = 1_000.0 // kg/m³
	mostILD     = 1_000.0 // lbf
	mostSurface = 1_000 * unit.SquareMetre
	mostPerArea = 50.0  // kg/m²
	mostSpread  = 100.0 // m²/l
	mostHeat    = 400.0 // °C
)

// checkSundries holds foam, boards, deadening and glue to the rules.
func (b *Build) checkSundries() error {
	for _, f := range b.Foams {
		where := "foam " + string(f.ID)
		if err := first(needText(f.Name, where+", name"), needText(f.Kind, where+", kind"), within(f.Density, 1, mostDensity, "density", where),
			within(f.ILD, 0, mostILD, "ILD", where), checkBlock(f.Width, f.Height, f.Thickness, f.Quantity, where),
			b.piecesThere(f.Pieces, where), b.partThere(f.Part, where)); err != nil {
			return err
		}
	}
	for _, d := range b.Boards {
		if err := b.checkBoard(d); err != nil {
			return err
		}
	}
	for _, d := range b.Deadening {
		where := "deadener " + string(d.ID)
		for _, id := range d.Panels {
			if b.Panel(id) == nil {
				return at(missing("panel", id), where+", panels")
			}
		}
		if err := first(needText(d.Name, where+", name"), inRange(d.Area, 1, mostSurface, "area", where),
			within(d.Mass, 0, mostPerArea, "mass", where), b.partThere(d.Part, where)); err != nil {
			return err
		}
	}
	for _, g := range b.Glues {
		where := "glued joint " + string(g.ID)
		if err := first(needText(g.Name, where+", name"), inRange(g.Area, 1, mostSurface, "area", where), inRange(g.Faces, 1, 2, "faces", where),
			within(g.Spread, 0, mostSpread, "spread", where), within(g.HeatTo, coldest, mostHeat, "heat", where),
			b.piecesThere(g.Pieces, where), b.partThere(g.Part, where)); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkBoard(d Board) error {
	where := "board " + string(d.ID)
	if d.Shape.Drawn() {
		if err := d.Shape.check(where + ", shape"); err != nil {
			return err
		}
	}
	return first(needText(d.Name, where+", name"), needText(d.Material, where+", material"), checkBlock(d.Width, d.Height, d.Thickness, d.Quantity, where),
		inRange(d.ClipPitch, 0, mostLength, "clip pitch", where), b.piecesThere(d.Pieces, where), b.partThere(d.Part, where), b.partThere(d.ClipPart, where+", clips"))
}

// checkBlock applies rule 3 to what has three sizes and a number.
func checkBlock(w, h, thick unit.Length, quantity int, where string) error {
	return first(inRange(w, 1, mostLength, "width", where), inRange(h, 1, mostLength, "height", where),
		inRange(thick, 1, mostLength, "thickness", where), inRange(quantity, 1, mostCount, "quantity", where))
}

func (b *Build) piecesThere(list []PieceID, where string) error {
	for _, id := range list {
		if err := b.pieceThere(id, where+", pieces"); err != nil {
			return err
		}
	}
	return nil
}
