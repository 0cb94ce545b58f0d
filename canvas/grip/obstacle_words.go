package grip

import (
	"armscribe/canvas/scene"
	"armscribe/kinematics/clearance"
)

// ObstacleName names an end of an obstacle: "inner wing", "chassis rail, far
// end", "wing lip, radius".
func ObstacleName(o *clearance.Obstacle, end int) string {
	name := o.Name
	if name == "" {
		name = "obstacle"
	}
	switch {
	case end == 0 && o.Shape == clearance.Circle:
		return name + ", centre"
	case end == 0 && (o.Shape == clearance.Line || o.Shape == clearance.Arc):
		return name + ", first end"
	case end == 2:
		return name + ", between its ends"
	case end == 0:
		return name
	case o.Shape == clearance.Circle:
		return name + ", radius"
	}
	return name + ", second end"
}

// ObstacleCoordinates returns the numbers at rest of an end of an obstacle in
// words.
func ObstacleCoordinates(o *clearance.Obstacle, end int, format scene.Formatter) string {
	v := o.A
	switch {
	case end == 1 && o.Shape == clearance.Circle:
		return "radius " + length(format, o.Radius)
	case end == 1:
		v = o.B
	case end == 2:
		v = o.C
	}
	return "x " + length(format, v.X) + "  y " + length(format, v.Y) + "  z " + length(format, v.Z)
}

// Deed names what the gesture does, for undo: "move inner wing", or "nudge inner
// wing" if a key did.
func (d *ObstacleDrag) Deed(nudged bool) string {
	switch {
	case d.isRim():
		return "change radius of " + d.start.Name
	case nudged:
		return "nudge " + ObstacleName(&d.start, d.end)
	}
	return "move " + ObstacleName(&d.start, d.end)
}

// Note returns what stands at the pointer: the numbers at rest, the change since
// the start, and what it snapped to.
func (d *ObstacleDrag) Note(r *ObstacleResult) []string {
	f := d.job.Format
	note := []string{ObstacleCoordinates(&r.Obstacle, d.end, f)}
	was, is := d.setting(&d.start), d.setting(&r.Obstacle)
	switch {
	case d.isRim():
		if by := r.Obstacle.Radius - d.start.Radius; by != 0 {
			note = append(note, "change "+signed(f, by))
		}
	case was == is:
	case d.job.Plan:
		note = append(note, "out "+signed(f, is[0]-was[0])+"  ahead "+signed(f, was[1]-is[1]))
	default:
		note = append(note, "out "+signed(f, is[0]-was[0])+"  up "+signed(f, is[1]-was[1]))
	}
	if r.Snapped != "" {
		note = append(note, r.Snapped)
	}
	return note
}
