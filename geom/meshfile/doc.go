// Package meshfile reads a surface out of a file of any format we know, in
// millimetres, says what unit the file is in and how that is known, and writes
// surfaces by the ending of a name.
//
// What comes out of Read is as the file has it. Mesh.Repair puts small faults
// right, Mesh.Check says what stands against laying it flat.
package meshfile
