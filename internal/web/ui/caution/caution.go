// Package caution draws the cautions of a work: a box with a hatched edge, as
// the card of a figure has it, where the work is planned and on its paper.
package caution
