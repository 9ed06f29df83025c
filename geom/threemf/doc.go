// Package threemf reads and writes surfaces in 3MF files [3MF]: a zip archive
// with an XML model of objects, components and what of them is built. The unit
// stands in the file.
package threemf
