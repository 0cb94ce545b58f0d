// Package clearance asks kinematics/clearance how near a job's tyre comes to what
// stands around it: the tyre as a body by its code and rim, the rim about the
// brake, the job's obstacles as those of one variant, and the answers, coarse
// for a hand that still moves and fine for one at rest. It knows no toolkit.
//
// Lengths are mm and angles rad, in the axes of package kinematics.
package clearance
