package loom

import (
	"math"
	"strconv"
)

// metric reads a row: section, mΩ/m, amps (0: FreeAir), outer diameter.
func metric(r [4]float64) Conductor {
	c := Conductor{Name: strconv.FormatFloat(r[0], 'f', -1, 64), MM2: r[0], MilliOhmPerM: r[1], Amps: r[2], OD: r[3]}
	if c.MM2 == math.Trunc(c.MM2) && c.MM2 < 10 {
		c.Name += ".0"
	}
	if c.Amps == 0 {
		c.Amps = math.Floor(FreeAir(c.MM2))
	}
	return c
}

// awg: sizes by the geometry d = 0.127·92^((36−n)/39) mm and 17.241 nΩ·m, 2 %
// more for the lay of the strands; diameters of cross-linked cable.
func awg() Cable {
	c := Cable{Name: AWGXLPE, Says: "AWG geometry, 17.241 nΩ·m + 2 % lay; diameters of a GXL sheet; amps 16.58·S^0.619 as of thin wall; guide fuses of a handbook table", MaxC: 125, AmbientC: 30, K: 123.5}
	for _, r := range []struct {
		name      string
		n         float64
		od, guide float64
	}{
		{"AWG 22", 22, 0, 0}, {"AWG 20", 20, 2.4, 0}, {"AWG 18", 18, 2.6, 0}, {"AWG 16", 16, 3, 7.5}, {"AWG 14", 14, 3.5, 15}, {"AWG 12", 12, 4.1, 20},
		{"AWG 10", 10, 4.8, 30}, {"AWG 8", 8, 5.9, 50}, {"AWG 6", 6, 0, 80}, {"AWG 4", 4, 0, 125}, {"AWG 2", 2, 0, 200},
		{"AWG 1/0", 0, 0, 325}, {"AWG 2/0", -1, 0, 400},
	} {
		mm2 := GaugeMM2(r.n)
		c.Sizes = append(c.Sizes, Conductor{Name: r.name, MM2: mm2, MilliOhmPerM: 1.02 * 17.241 / mm2, Amps: math.Floor(10*FreeAir(mm2)) / 10, OD: r.od, GuideFuse: r.guide})
	}
	return c
}

// GaugeMM2 returns the section in mm² of a gauge number; 1/0 is 0, 2/0 is −1.
func GaugeMM2(n float64) float64 {
	d := 0.127 * math.Pow(92, (36-n)/39)
	return math.Pi / 4 * d * d
}
