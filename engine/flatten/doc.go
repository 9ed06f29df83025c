// Package flatten lays a curved surface flat: a disc of triangles in space
// becomes one in the plane, with as little strain as can be, or with strain
// that the material bears.
package flatten
