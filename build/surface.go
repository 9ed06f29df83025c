package build

import "fettle/unit"

// SurfaceID names a surface.
type SurfaceID string

// ScanHash is the SHA-256 of the bytes of a packed mesh, in hex.
type ScanHash string

// SurfaceUse is what a surface is laid flat for.
type SurfaceUse string

// What surfaces are laid flat for.
const (
	ForTrim  SurfaceUse = "trim"
	ForMetal SurfaceUse = "metal"
)

// Surface is a scanned or modelled surface: a mesh in the vault, and what was
// read of it. A new scan takes the place of the old one under the same ID; a
// pattern names the scan it was made from.
type Surface struct {
	ID       SurfaceID  `json:"id"`
	Name     string     `json:"name"`
	Scan     ScanHash   `json:"scan"`           // the mesh in the vault, in millimetres
	File     string     `json:"file,omitempty"` // what it was read from
	Scale    float64    `json:"to_mm"`          // millimetres to a unit of that file
	Vertices int        `json:"vertices"`
	Faces    int        `json:"faces"`
	Area     unit.Area  `json:"area_m2"`
	Repairs  []string   `json:"repairs,omitempty"` // what was put right when it was read
	Use      SurfaceUse `json:"use"`
	Panel    PanelID    `json:"panel,omitempty"` // of sheet metal: the panel that is made
	Note     string     `json:"note,omitempty"`
}

// Surface returns the surface of that ID, or nil.
func (b *Build) Surface(id SurfaceID) *Surface {
	return find(b.Surfaces, id, (*Surface).key)
}

// SurfacesFor are the surfaces that are laid flat for that.
func (b *Build) SurfacesFor(use SurfaceUse) []Surface {
	var list []Surface
	for _, one := range b.Surfaces {
		if one.Use == use {
			list = append(list, one)
		}
	}
	return list
}

// check refuses what is no hash.
func (h ScanHash) check(where string) error {
	if !hexHash.MatchString(string(h)) {
		return rule(ruleID, "a scan is named by the 64 hex digits of its SHA-256").At(where)
	}
	return nil
}

func (s *Surface) key() SurfaceID { return s.ID }
