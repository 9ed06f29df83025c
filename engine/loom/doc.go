// Package loom works out the electrical net of a vehicle: what every wire
// carries in every position of the switches that matters, which section it
// needs and which rule says so, whether its fuse protects it, and what is wrong.
//
// Under construction: types first.
package loom
