// Package report says what is computed from a job and prints it: the readings
// of one position, a sweep, the variants side by side, and what is wrong with
// a job. Each is first a value, then a table, CSV or JSON; every text is built
// whole before it is written, and the same input gives the same bytes.
//
// Tables are for people: lengths in the job's own unit, digits that follow the
// 95 % band, the minus sign U+2212. CSV and JSON are for programs: always mm
// and degrees, the ASCII hyphen, nine decimals or twelve digits. Signs are those of the package
// page of kinematics.
package report

// Caution closes every table: what a geometry program does not decide.
const Caution = "Geometry only: strength, welding, fasteners and road legality are for qualified people and local codes."
