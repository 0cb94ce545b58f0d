// Package sheet is the model of an answer, and its faces. An answer is written
// once as a [Sheet]: fields, tables and sentences whose cells hold values in mm,
// rad and N. Text, JSON and CSV are made from it here, the window's face in
// package pages. Digits, signs, units, bands and the words for what is missing
// are decided in this package and in units; a face knows no capability, and a
// capability knows no face. Package answers makes sheets; anyone may show them.
package sheet
