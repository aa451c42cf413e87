// Package report makes papers from what a device holds: the card of the board
// inside, for when nothing works but hands and glass, the exposure sheet of one
// person, the record of a case, and the labels of syringes. It decides nothing and asks nobody: the same
// contents give the same bytes, whenever and wherever they are made.
//
// A paper is a PDF in A4; a label is a page of its own size. Its dates are those of its contents. The fonts of the
// screens are embedded, so that a place on the card reads as on the board.
// Persons are tags: names stay on the unit's own list.
package report
