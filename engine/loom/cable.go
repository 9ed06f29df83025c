package loom

import "math"

// Cable is a family of conductors with one insulation, smallest first.
type Cable struct {
	Name     string      `json:"name"`
	Says     string      `json:"says,omitempty"` // where the numbers are from
	MaxC     float64     `json:"max_c"`          // the insulation bears it for years
	AmbientC float64     `json:"ambient_c"`      // of the air that Amps hold in
	K        float64     `json:"k"`              // A√s/mm² from MaxC to the end of the insulation
	Sizes    []Conductor `json:"sizes"`
}

// Conductor is one size of a cable.
type Conductor struct {
	Name         string  `json:"name"` // "1.5", "AWG 16"
	MM2          float64 `json:"mm2"`
	MilliOhmPerM float64 `json:"milliohm_per_m"` // at 20 °C, at most
	Amps         float64 `json:"amps"`           // one wire in free air at AmbientC
	OD           float64 `json:"od_mm,omitempty"`
	GuideFuse    float64 `json:"guide_fuse_a,omitempty"`
}

// Copper: resistance rises by alpha of its value at 20 °C per kelvin.
const alpha = 0.00393

// Ohms returns the resistance of a length in metres at a temperature in °C.
func (c Conductor) Ohms(lengthM, celsius float64) float64 {
	return c.MilliOhmPerM / 1000 * lengthM * (1 + float64(alpha*(celsius-20)))
}

// Adiabatic returns k in A√s/mm² of copper that a short circuit takes from one
// temperature to another with no heat lost, IEC 60949.
func Adiabatic(fromC, toC float64) float64 {
	return 226 * math.Sqrt(math.Log(1+(toC-fromC)/(234.5+fromC)))
}

// FreeAir interpolates the free-air rating in amps of thin-wall cable of a
// section in mm²; within 1.9 % of the printed sizes from 0.5 to 10 mm².
func FreeAir(mm2 float64) float64 { return 16.58 * math.Pow(mm2, 0.619) }

// Names of the cables that are there from the start.
const (
	ThinWall = "thin wall"         // metric, resistance of IEC 60228 class 5
	ListWall = "thin wall by list" // metric, the ten sizes of a circuit list
	PlainPVC = "standard PVC"      // metric, thick wall
	AWGXLPE  = "AWG cross-linked"  // American sizes
)

// Cables returns the tables that are there from the start, for the owner to
// extend in Problem.Own.
func Cables() []Cable {
	return []Cable{thinWall(), listWall(), plainPVC(), awg()}
}

// thinWall: resistance of IEC 60228 class 5, for sizes the standard does not
// have 19.95 Ω·mm²/km, which its own sizes from 1 to 2.5 mm² come to; amps and
// diameters of a maker's thin-wall sheet to 10 mm², beyond it FreeAir.
func thinWall() Cable {
	c := Cable{Name: ThinWall, Says: "IEC 60228 class 5 resistance; a maker's thin-wall sheet for amps and diameter, above 10 mm² 16.58·S^0.619", MaxC: 105, AmbientC: 30, K: 87.6}
	for _, r := range [][4]float64{
		{0.5, 39, 11, 1.7}, {0.75, 26, 14, 1.9}, {1, 19.5, 16.5, 2.1}, {1.5, 13.3, 21, 2.4}, {2, 9.98, 25, 2.8}, {2.5, 7.98, 29, 3},
		{3, 6.65, 33, 3.4}, {4, 4.95, 39, 3.7}, {6, 3.3, 50, 4.3}, {10, 1.91, 70, 6}, {16, 1.21, 0, 7.2}, {25, 0.78, 0, 8.7}, {35, 0.554, 0, 10.4}, {50, 0.386, 0, 12.2}, {70, 0.272, 0, 14.4},
	} {
		c.Sizes = append(c.Sizes, metric(r))
	}
	return c
}

// listWall holds the ten sizes that a circuit list is commonly worked from.
func listWall() Cable {
	c := Cable{Name: ListWall, Says: "ten sizes of a circuit list: largest resistance at 20 °C and nominal amps", MaxC: 105, AmbientC: 30, K: 87.6}
	for _, r := range [][4]float64{
		{0.5, 37.1, 11, 1.7}, {1, 18.5, 16.5, 2.1}, {2, 9.42, 25, 2.8}, {3, 6.15, 33, 3.4}, {4, 4.71, 39, 3.7}, {6, 3.14, 50, 4.3},
		{10, 1.82, 70, 6}, {16, 1.16, 110, 7.2}, {25, 0.743, 170, 8.7}, {35, 0.527, 240, 10.4},
	} {
		c.Sizes = append(c.Sizes, metric(r))
	}
	return c
}

// plainPVC: a towing and trailer catalogue's standard wall.
func plainPVC() Cable {
	c := Cable{Name: PlainPVC, Says: "a catalogue of standard PVC cable, continuous amps", MaxC: 85, AmbientC: 30, K: 103.8}
	for _, r := range [][4]float64{{0.65, 29.4, 5.75, 0}, {1, 18.9, 8.75, 0}, {1.5, 12.5, 12.75, 0}, {2, 9.4, 17.5, 0}, {2.5, 7.5, 21.75, 0}, {3, 6, 25.5, 0}} {
		c.Sizes = append(c.Sizes, metric(r))
	}
	return c
}
