// Package ply reads and writes surfaces in PLY files: text and both binary
// orders, any elements and properties, lists among them. What is read are x, y,
// z and flat places of the vertices, and the vertices and flat places of the
// faces. The format has no unit.
package ply
