// Package targets sets what a corner does against what the job aims at: met,
// not met, or not decidable within the measuring error.
//
// The rule. A figure has a 95 % interval: its value, less and plus its band
// (kinematics, SweepBands), less and plus what an estimated loaded radius may
// still move it. All of the interval inside the range: met. All of it outside:
// not met. Else the tape cannot tell. What must hold over a travel has the
// interval of its worst station: at every station the band of that station
// counts. A figure that does not exist, or a travel beyond reach, meets no
// target.
//
// Camber and toe at rest are taken as typed, so a target for camber is decided
// without a band.
package targets
