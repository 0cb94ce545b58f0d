// Package kinematics solves one front or rear corner of a double-wishbone
// suspension: two arms, an upright, a tie rod (or a fixed toe link) and a
// wheel. It holds maths only: no files, no units but millimetres and radians,
// no drawing.
//
// # Conventions
//
// This is the one page of conventions; every other comment refers to it.
//
// Axes follow ISO 8855 for the car's LEFT corner:
//
//	x  forward, 0 at the axle line (through the wheel centres at rest)
//	y  outboard from the car's centre plane
//	z  up, from the floor the points were measured from
//
// The right corner is the mirror image in y = 0. The front view is seen from
// in front of the car, so the left wheel stands on the right of the picture:
//
//	                      upper ball joint
//	       upper pivot o------------*   ______
//	                                |  |      |
//	z  ^                            |==| hub  |  wheel
//	   |   lower pivot o------------*  |______|
//	   |                   lower ball joint
//	   +----> y  (outboard)            ground under the tyre
//	 centre plane
//
// Lengths are float64 millimetres, angles float64 radians.
//
//	quantity        positive when               definition
//	travel          wheel up (bump)             rise of the wheel centre relative to the body, 0 at rest
//	rack            rack moves to the car's     shift of the rack ends along y
//	                left
//	roll            car's left side up          body relative to ground, about x
//	camber          top leans outboard          -asin(s_z), s the unit spin axis pointing outboard
//	toe             toe-in                      atan2(s_x, s_y), per wheel
//	caster          axis top leans rearward     side view, atan2(-a_x, a_z), a from lower to upper ball joint
//	steering-axis   axis top leans inboard      front view, atan2(-a_y, a_z)
//	inclination
//	scrub radius    axis meets ground inboard   (C - G) . l
//	                of the tyre centre
//	trail           axis meets ground ahead     (G - C) . f
//	                of the tyre centre
//	half track      -                           y of C
//	instant centre  -                           where both arm planes and the transverse plane through C meet
//	swing arm       instant centre inboard      horizontal distance from C to the instant centre
//	                of C
//	roll centre     above ground                where the line from C to the instant centre crosses y = 0
//	height
//	motion ratio    always                      spring travel / wheel travel
//	tie-rod error   rod too short               rack end to outer end with the upright held at its resting
//	                                            toe with the rack in the same place, minus the rod's length
//
// C is the tyre contact centre: the wheel centre plus R d, with d the unit
// vector in the wheel plane that points most steeply down and R the loaded
// radius. G is where the steering axis meets the ground plane through C. f is
// the wheel's heading (horizontal, forward), l is horizontal, outboard, square
// to f.
//
// Parallel arms have no instant centre. That is a named state, reported by
// the second result of [Readings.Of], never an infinite number. No exported
// result of this package holds a NaN or an Inf.
//
// # The mechanism
//
// One primitive, circle meets sphere, is used three times (see circle):
// the lower ball joint rides a circle about the lower pivot axis, and its
// angle is the drive; the upper ball joint is where its own circle meets a
// sphere about the lower ball joint; the tie rod's outer end circles the
// steering axis and meets a sphere about the rack end. The side of each root
// is fixed by the resting position and kept, so the same input gives the same
// bits whatever was solved before. Only the drive angle that reaches a wished
// travel, the ends of the range, and the roll that sets both tyres on the
// ground are found by bracketed root finding.
//
// A front view cannot know everything: with one pivot per arm the pivot axes
// are taken as square to the view, and then caster change and anti-dive are
// those of a flat linkage.
package kinematics
