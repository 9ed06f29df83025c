// Package lens takes a photo to millimetres on the flat table that it shows.
//
// The picture is straightened first: a place q from the middle of the picture,
// in half diagonals, lies at q(1 + k1 r² + k2 r⁴) for a lens that bends nothing
// [Brown1971]. A homography then takes it to the table [HartleyZisserman2004].
// Both are found together by least squares of what is marked in the picture, in
// pixels: points of a reference whose size is known, beginning with a normalised
// direct linear solution and refined by damped Gauss-Newton steps [Marquardt1963];
// and points along lines that are straight in truth, each held to a line of its
// own (plumb lines [Brown1971] [DevernayFaugeras2001]). A reference is one or
// more rigid patches, such as a rectangle taped on the floor, or sheets of paper
// that lie anywhere: each further patch has a place and an angle of its own.
//
// What is not marked is not made up: unknown bend, and unknown tilt in a photo
// that was taken square on with one stick, have a stated spread as if measured
// (priors), and so go into the error. The covariance of the fit, with the noise
// of a tap estimated from what is left over and the error of the tape, is carried
// to every place and to the area. Errors are the radius that holds 95 of 100;
// lens_test.go counts that they do, in simulated cameras.
//
// Limits: what is measured must lie flat in the plane of the reference; the
// picture must not be cropped, since its middle is taken for that of the lens;
// fish-eye lenses are beyond two coefficients. Pixels are counted from the upper
// left corner with y down, of the upright picture; the table has y up.
//
// Input at fault is refused with a fault of kind Invalid that says where.
package lens
