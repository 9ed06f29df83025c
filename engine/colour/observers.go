package colour

// Observer is how an average eye weighs each wavelength. Take Degrees2 or
// Degrees10.
type Observer struct {
	Name string
	bars [fine]XYZ // the colour matching functions at the rows of the tables
}

// Degrees2 returns the observer of 1931 for small fields such as a chip at
// arm's length [CIE15]; screens are defined by it.
func Degrees2() Observer {
	o := Observer{Name: "2°"}
	for i, r := range tables {
		o.bars[i] = XYZ{r.x2, r.y2, r.z2}
	}
	return o
}

// Degrees10 returns the observer of 1964 for large fields, the one vehicle
// colours are compared with [CIE15].
func Degrees10() Observer {
	o := Observer{Name: "10°"}
	for i, r := range tables {
		o.bars[i] = XYZ{r.x10, r.y10, r.z10}
	}
	return o
}
