package loom

import "math"

// bundleTable is the factor by wires in the bundle (rows, from one) and by how
// much of their ratings they carry: 20, 40, 60, 80, 100 %. MIL-W-5088, an
// aircraft table and so on the safe side.
var bundleTable = [19][5]float64{
	{1, 1, 1, 1, 1},
	{0.9675, 0.92, 0.91, 0.87, 0.825},
	{0.935, 0.855, 0.815, 0.77, 0.725},
	{0.9075, 0.805, 0.75, 0.705, 0.66},
	{0.875, 0.76, 0.695, 0.65, 0.61},
	{0.85, 0.725, 0.655, 0.605, 0.5725},
	{0.82, 0.695, 0.625, 0.57, 0.54},
	{0.795, 0.6675, 0.595, 0.5425, 0.5125},
	{0.775, 0.645, 0.575, 0.52, 0.485},
	{0.755, 0.6225, 0.55, 0.5, 0.465},
	{0.735, 0.6, 0.53, 0.48, 0.445},
	{0.715, 0.585, 0.515, 0.465, 0.43},
	{0.6975, 0.5675, 0.495, 0.4475, 0.415},
	{0.685, 0.5525, 0.48, 0.435, 0.3975},
	{0.67, 0.54, 0.465, 0.42, 0.385},
	{0.6575, 0.5275, 0.455, 0.41, 0.37},
	{0.645, 0.515, 0.4425, 0.3975, 0.36},
	{0.635, 0.505, 0.4325, 0.3875, 0.35},
	{0.625, 0.495, 0.4225, 0.38, 0.3425},
}

// BundleFactor returns what is left of a free-air rating in a bundle of so many
// wires that carry a share of their ratings, 0 to 1. Between columns it runs
// straight, below 20 % it is held; beyond 19 wires it falls as √(19/n), as heat
// leaves by the surface.
func BundleFactor(wires int, share float64) float64 {
	if wires < 2 {
		return 1
	}
	row := bundleTable[min(wires, len(bundleTable))-1]
	at := min(max(share*5-1, 0), 4)
	k := min(int(at), 3)
	f := row[k] + float64((at-float64(k))*(row[k+1]-row[k]))
	if n := len(bundleTable); wires > n {
		f *= math.Sqrt(float64(n) / float64(wires))
	}
	return f
}
