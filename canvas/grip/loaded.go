package grip

import (
	"math"

	"armscribe/canvas/scene"
	"armscribe/kinematics/tyre"
)

// loaded keeps the ground within what a job takes for a loaded radius: no less
// than the rim, and little more than the tyre. It stops at the last step of the
// grid before that; the words say why, and are empty where nothing stops it.
func (d *Drag) loaded(q setting) (setting, string) {
	sec := &d.job.Section
	if d.handle != scene.GroundLine || !(sec.OverallDiameter > 0) {
		return q, ""
	}
	least := math.Ceil(sec.RimDiameter/2/d.job.Step) * d.job.Step
	most := math.Floor(tyre.MostLoaded*sec.OverallDiameter/2/d.job.Step) * d.job.Step
	why := ""
	switch {
	case least > most:
		return q, "" // of a section that makes no tyre
	case q[1] < least:
		q[1], why = least, "; the rim has "+length(d.job.Format, sec.RimDiameter/2)+"."
	case q[1] > most:
		q[1], why = most, "; the unloaded tyre has "+length(d.job.Format, sec.OverallDiameter/2)+"."
	default:
		return q, ""
	}
	return q, "Stops at a loaded radius of " + length(d.job.Format, q[1]) + why
}
