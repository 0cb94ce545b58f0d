// Package clearance carries a tyre through the travel and the lock and tells
// how near it comes to what stands around it: body, brake, joints. It holds
// maths only. Axes, units and signs are those of package kinematics.
//
// # The tyre
//
// A tyre is taken as a round-shouldered cylinder about the spin axis, solid
// down to the axle:
//
//	       |<-- tread -->|
//	   ___.---------------.___   <- radius
//	  (  shoulder radius      )
//	 /                         \
//	|                           |  <- widest
//	|<-------- section -------->|
//	|                           |
//	+- - - - - spin axis - - - -+
//
// Nothing is squashed: the loaded side of a real tyre bulges by some mm more
// over the ground, and a tyre grows with speed. The wished gap is there for
// that. Below its widest place the side wall goes straight in, so that there is
// rather more tyre than less.
//
// For what the upright carries, the wheel is a ring: tyre and rim, hollow
// inside the barrel; see [Ring].
package clearance
