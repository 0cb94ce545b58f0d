// Package job is the job file: one car's axle with its measured corner and
// every proposal. It reads and writes YAML, strictly and without losing what
// was typed, and hands corners to the mechanism.
//
// A file is read whole or refused whole. Then every problem of the file is
// reported at once, each on one line with its place, value and cure. Refused
// are: an unknown or repeated key, an alias, anchor, tag or merge key, a number
// that is none, a length beyond 10 m, a file over 1 MiB or nested deeper than
// 32, more than one document, a newer format, and points that make no mechanism.
//
// A plain number is a length in the file's own units; a text may carry its
// unit ("10 1/2 in"). Angles are in degrees. A value that nobody changed is
// written back as it was typed, and comments stay with their keys; blank lines
// and the alignment inside a line do not.
package job
