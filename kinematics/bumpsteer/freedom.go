package bumpsteer

import (
	"errors"
	"fmt"
	"math"

	"armscribe/kinematics"
)

// Freedom names one coordinate of the tie rod that a fabricator can move.
type Freedom uint8

// The freedoms, in the order in which they are listed everywhere. After each
// move the rod is cut, or its end turned, so that the resting toe stays.
const (
	OuterEndHeight  Freedom = iota // spacer under or above the joint
	OuterEndSide                   // steering arm moved or bent
	OuterEndForeAft                // longer or shorter steering arm
	RackHeight                     // rack mounts
	RackEndSide                    // rack width, clevis, or longer rack end
	RackForeAft                    // rack mounts
	FreedomCount
)

var freedoms = [FreedomCount]struct {
	key, name string
	at        kinematics.Coordinate
}{
	OuterEndHeight:  {"outer_end.z", "outer end height", kinematics.Coordinate{Point: kinematics.OuterEnd, Axis: 2}},
	OuterEndSide:    {"outer_end.y", "outer end side position", kinematics.Coordinate{Point: kinematics.OuterEnd, Axis: 1}},
	OuterEndForeAft: {"outer_end.x", "outer end fore-aft", kinematics.Coordinate{Point: kinematics.OuterEnd, Axis: 0}},
	RackHeight:      {"rack_end.z", "rack height", kinematics.Coordinate{Point: kinematics.RackEnd, Axis: 2}},
	RackEndSide:     {"rack_end.y", "rack end side position", kinematics.Coordinate{Point: kinematics.RackEnd, Axis: 1}},
	RackForeAft:     {"rack_end.x", "rack fore-aft", kinematics.Coordinate{Point: kinematics.RackEnd, Axis: 0}},
}

// Key returns the stable name for files: outer_end.z, rack_end.y and so on.
func (f Freedom) Key() string { return f.entry().key }

// String returns the freedom in the trade's words.
func (f Freedom) String() string { return f.entry().name }

// Coordinate returns the coordinate that moves, positive as in the axes of
// package kinematics.
func (f Freedom) Coordinate() kinematics.Coordinate { return f.entry().at }

func (f Freedom) entry() *struct {
	key, name string
	at        kinematics.Coordinate
} {
	if f >= FreedomCount {
		panic(fmt.Sprintf("kinematics: no freedom %d", f))
	}
	return &freedoms[f]
}

// FreedomOf returns the freedom with a key; false when there is none.
func FreedomOf(key string) (Freedom, bool) {
	for f := range FreedomCount {
		if freedoms[f].key == key {
			return f, true
		}
	}
	return 0, false
}

// of returns the coordinate's present value.
func (f Freedom) of(c *kinematics.Corner) float64 {
	at := f.Coordinate()
	v := c.At(at.Point)
	return [3]float64{v.X, v.Y, v.Z}[at.Axis]
}

// Free is a freedom with the moves, mm from the present place, that the car
// allows: Min < Max, of either sign. Zero need not lie between them.
type Free struct {
	Freedom  Freedom
	Min, Max float64
}

// Errors of this package, for errors.Is. Poses out of reach match
// kinematics.ErrUnreachable.
var (
	ErrNothingFreed = errors.New("nothing is free to move: free at least one of outer end and rack end")
	ErrLimits       = errors.New("the limits leave nothing to choose")
	ErrRange        = errors.New("the range does not hold rest")
)

// LimitError is a pair of limits that cannot be used. It matches ErrLimits.
type LimitError struct {
	Free    Free
	Problem string
}

// Error names the freedom, its limits and what is wrong with them.
func (e *LimitError) Error() string {
	return fmt.Sprintf("%s from %+.4g to %+.4g mm: %s", e.Free.Freedom, e.Free.Min, e.Free.Max, e.Problem)
}

// Say is Error with the limits printed in another unit.
func (e *LimitError) Say(_, place func(mm float64) string) string {
	return fmt.Sprintf("%s from %s to %s: %s", e.Free.Freedom, place(e.Free.Min), place(e.Free.Max), e.Problem)
}

// Is makes errors.Is(err, ErrLimits) true.
func (e *LimitError) Is(target error) bool { return target == ErrLimits }

// checkFree reports every pair of limits that cannot be used.
func checkFree(free []Free) error {
	if len(free) == 0 {
		return ErrNothingFreed
	}
	var errs []error
	var seen [FreedomCount]bool
	for _, f := range free {
		problem := ""
		switch {
		case !(math.Abs(f.Min) <= kinematics.MaxLength && math.Abs(f.Max) <= kinematics.MaxLength):
			problem = "must be numbers within ±10 m"
		case f.Min > f.Max:
			problem = "are the wrong way round; write the lower limit first"
		case f.Max-f.Min < leastRoom:
			problem = "leave no room to move; widen them or leave this one fixed"
		case seen[f.Freedom]:
			problem = "is freed twice; keep one pair of limits"
		}
		if f.Freedom < FreedomCount {
			seen[f.Freedom] = true
		}
		if problem != "" {
			errs = append(errs, &LimitError{f, problem})
		}
	}
	return errors.Join(errs...)
}

// leastRoom is the narrowest pair of limits that counts as free, mm: nobody
// places a joint to a hundredth.
const leastRoom = 0.01
