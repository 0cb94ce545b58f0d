// Package tyre reads tyre size codes and computes the sizes of tyres and wheels
// that decide where a wheel stands and what it needs around it. It holds maths
// only.
//
// Lengths are float64 millimetres, rim widths too (10.5 in is 266.7). Rim
// codes are the numbers in the size code, in inches.
//
// What comes out is the design size of the standard. Real tyres vary: deeper
// treads of one maker's light-truck range are listed up to 0.3 in larger in
// diameter, and some listings depart from the rule by 25 mm. Measure the tyre
// before cutting anything.
//
// # Rules
//
//	section height      H = width x aspect, rounded to mm, half up
//	                    0.82 width where a radial's code names no aspect ratio
//	                    (155R13), the width itself for 7.50-16: estimates
//	                    (common practice, from memory)
//	diameter            D = d + 2 H, d the rim diameter rounded to mm
//	                    (UN Regulation 30, 6.1.2, from memory; agrees with a
//	                    published maker's table, see the tests)
//	section width       S = width + 0.4 (A - x width), A the rim width
//	                    (UN Regulation 30, 6.1.1.1)
//	rolling             3.05 D for a radial tyre (UN Regulation 30 and ETRTO,
//	circumference       from memory; agrees with the same table)
//
// No strength, speed or load is judged here: the service description behind a
// code is kept as typed and not read.
package tyre
