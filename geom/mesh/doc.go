// Package mesh holds triangle surfaces: vertices in space and faces by vertex
// index, with what a surface must pass before it is worked on: welding, one
// direction of all faces, named repairs, boundary loops, cuts along paths.
//
// Lengths are millimetres once Scale has been asked; a mesh itself knows no
// unit. Faces run anticlockwise seen from outside.
package mesh
