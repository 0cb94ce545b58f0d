package photo

import (
	"math"

	"armscribe/app/job"
)

// Placement lays a picture on the front view of the left corner: y grows to
// the right of the view, z upward, both in mm; pixels go right and down.
type Placement struct {
	Scale    float64 // mm for each pixel, on the wheel's plane
	Turn     float64 // rad that the picture is turned, counter-clockwise on the view
	Mirrored bool
	Pixel    job.Pixel // this place in the picture
	Y, Z     float64   // stands here on the car
}

// PlacementOf follows from what was picked. complete tells that scale and
// place are known; what is not picked yet is taken as 1 mm a pixel, level, and
// the picture's corner at y 0 and z 0; without a level it stands as its camera was
// held.
func PlacementOf(p *job.Photo, held Held) (pl Placement, complete bool) {
	pl = Placement{Scale: 1, Mirrored: p.Mirrored != held.Mirrored, Turn: held.Turn}
	if p.Mirrored {
		pl.Turn = -pl.Turn
	}
	if c := p.Calibration; c.Given {
		pl.Scale = c.Distance.MM / math.Hypot(c.B.X-c.A.X, c.B.Y-c.A.Y)
		if far := distanceOf(p); c.Ahead.Given { // a pixel covers more on the wheel's plane
			pl.Scale *= far / (far - c.Ahead.MM)
		}
	}
	if l := p.Level; l.Given { // from a, inboard, to b, outboard, is to run along y
		across, up := pl.side()*(l.B.X-l.A.X), -(l.B.Y - l.A.Y)
		pl.Turn = -math.Atan2(up, across)
	}
	if a := p.Anchor; a.Given {
		pl.Pixel, pl.Y, pl.Z = a.Pixel, a.Y.MM, a.Z.MM
	}
	return pl, p.Calibration.Given && p.Anchor.Given
}

// distanceOf is the camera's from the wheel's plane, mm, or what it counts as.
func distanceOf(p *job.Photo) float64 {
	if p.CameraDistance.Given {
		return p.CameraDistance.MM
	}
	return UsualDistance
}

// side is the sign of y along the picture's x.
func (pl Placement) side() float64 {
	if pl.Mirrored {
		return -1
	}
	return 1
}

// OnCar returns where a place in the picture stands on the car.
func (pl Placement) OnCar(p job.Pixel) (y, z float64) {
	across, up := pl.side()*(p.X-pl.Pixel.X)*pl.Scale, -(p.Y-pl.Pixel.Y)*pl.Scale
	sin, cos := math.Sincos(pl.Turn)
	return pl.Y + across*cos - up*sin, pl.Z + across*sin + up*cos
}

// InPicture is the other way round.
func (pl Placement) InPicture(y, z float64) job.Pixel {
	sin, cos := math.Sincos(pl.Turn)
	dy, dz := y-pl.Y, z-pl.Z
	across, up := dy*cos+dz*sin, -dy*sin+dz*cos
	return job.Pixel{X: pl.Pixel.X + pl.side()*across/pl.Scale, Y: pl.Pixel.Y - up/pl.Scale}
}

// PerspectiveError is how far off, mm, a point appears that is not in the
// plane of the calibration: depth behind it (negative: before it), at an offset
// from the middle of the picture, seen from a distance to that plane. By the
// similar triangles of a pinhole: offset * depth / (distance + depth), toward
// the middle for a point behind. ok is false for a point at or behind the lens.
func PerspectiveError(distance, offset, depth float64) (mm float64, ok bool) {
	if !(distance > 0) || !(distance+depth > 0) {
		return 0, false
	}
	return math.Abs(offset * depth / (distance + depth)), true
}

// DistanceFor is how far back to stand for an error of no more than mm: the
// same formula solved for the distance, the point behind the plane.
func DistanceFor(mm, offset, depth float64) float64 {
	return math.Abs(depth) * max(0, math.Abs(offset)/mm-1)
}

// A point as far off as pivots are, for a warning in one number: an inner pivot
// stands about so far behind the wheel's face and from the hub. Common
// practice, no source.
const (
	UsualDepth  = 250.0 // mm
	UsualOffset = 350.0 // mm
)
