// Package gltf reads and writes surfaces in glTF 2.0 files: binary ones (GLB),
// and ones of text whose buffers stand in them. The unit is the metre, as the
// standard says.
//
// A file repeats a point for every normal and flat place it has there: points at
// exactly the same place become one. Nodes move what hangs on them.
package gltf
