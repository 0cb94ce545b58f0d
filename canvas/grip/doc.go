// Package grip says what a hand does to a corner: which handle a pointer meets,
// and what the corner becomes when that handle is dragged, nudged or placed. It
// knows no toolkit.
//
// A gesture is a Drag, begun from the corner as it stood when the hand closed.
// Every answer is computed from that corner and from where the pointer is now,
// never from where it has been: the same place gives the same bits, whatever
// the way or the speed.
//
// An edit changes the RESTING coordinates. What is dragged is seen in the SHOWN
// pose, at some travel, rack and roll. A point that moves with the wheel is
// therefore solved for: the resting coordinates are sought that put it under
// the pointer in the shown pose.
//
// Where the linkage would no longer assemble in the shown pose, the gesture
// stops at the edge, on the straight line from start to pointer, and the
// message says what is short and by how much.
//
// Places in the front view are draw.Points: X is y of the car (outboard), Y is
// z (up), in mm.
package grip
