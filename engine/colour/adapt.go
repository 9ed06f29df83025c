package colour

// cones turns XYZ into the sharpened cone responses in which the eye gets used
// to a light, each by its own factor [Bradford].
var cones = matrix{
	{0.8951, 0.2664, -0.1614},
	{-0.7502, 1.7135, 0.0367},
	{0.0389, -0.0685, 1.0296},
}

// Adapt returns how a colour seen with one white looks to an eye that has got
// used to another, so that colours under lamp and tube can stand beside
// daylight on one screen. Adaptation is taken as complete.
func Adapt(c, from, to XYZ) XYZ {
	m := bradford(from, to)
	var d XYZ
	d.X, d.Y, d.Z = m.at(c.X, c.Y, c.Z)
	return d
}

func bradford(from, to XYZ) matrix {
	a, b, c := cones.at(from.X, from.Y, from.Z)
	p, q, r := cones.at(to.X, to.Y, to.Z)
	return cones.inverse().of(scale(p/a, q/b, r/c).of(cones))
}
