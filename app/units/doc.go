// Package units stands at the edge between what a person types or reads and
// what the program computes with: millimetres and radians.
//
// # Entry
//
// [Parse] reads a length and [ParseAngle] an angle. The grammar, spaces being
// free between the parts unless said otherwise:
//
//	value    = decimal "tpi" | sum .                 threads per inch: the pitch
//	sum      = [ sign ] product { ( "+" | "-" ) product } .
//	product  = part { ( "*" | "/" ) part } .
//	part     = number [ unit ]
//	         | number feet number inch          5' 6 1/2"
//	         | "(" sum ")" [ unit ] .         the unit only if the value has none
//	number   = decimal | fraction | whole " " fraction | whole "-" fraction .
//	fraction = whole "/" whole .
//	decimal  = digits [ "." [ digits ] ] | "." digits .
//	unit     = mm | cm | m | in | inch | " | ft | ' | deg | ° .   in either case
//	sign     = "+" | "-" | U+2212 .
//
// Readings that could surprise:
//
//   - A fraction belongs to the unit behind it: 1/8 in is an eighth of an
//     inch, never 1 / (8 in).
//   - A sign binds the whole part after it: -2 1/4 in is -2.25 in, and
//     -5' 6" is -66 in. A sign may open a value or a bracket, nowhere else:
//     write 57 mm * (-2).
//   - A hyphen directly between a whole number and a fraction joins them, with
//     no space inside: 2-1/4" is two and a quarter. It subtracts as soon as a
//     unit, a space or the minus sign U+2212 stands there: 57mm-1/8in, 2 - 1/4.
//   - A number joined by a hyphen is not multiplied or divided until it stands
//     in brackets, because 3*2-1/4 has two readings.
//   - The fraction behind a whole number is less than one: 2 5/4 is refused.
//   - 5'-6" is refused for the same reason: write 5' 6" or 5' - 6".
//   - A number without a unit is in the unit on display when it stands for a
//     length, and is a plain factor when a length is multiplied or divided by
//     it: 57 mm * 2. A length over a length is a plain factor too, but never
//     a length: 100 mm / 50 mm is refused as a result.
//   - A comma is refused and named, never guessed at. So are exponents,
//     hexadecimal, underscores, NaN and Inf.
//   - The thin space that this package prints between thousands is read back.
//
// Computing is exact (rational numbers) and rounded once, to the nearest
// float64, so 1/8in + 57mm and 57mm + 1/8in are the same bits.
//
// # Printing
//
// A negative number carries the minus sign U+2212, thousands are set apart by
// the thin space U+2009, the decimal mark is a point. A number that rounds to
// nought carries no sign. Printing a NaN or an Inf panics: none may get here.
package units
