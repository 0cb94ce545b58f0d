package photo

import (
	"math"

	"armscribe/app/job"
)

// How a photo is taken, where nobody has measured it. Common practice, no source.
const (
	// UsualDistance is the camera's from the wheel's plane where it is not known: in
	// the middle, by what perspective does, of 2 m in a garage and 6 m in a yard.
	UsualDistance = 3000.0 // mm
	// ScaleDepth is how far before or behind where it was said to stand the length of
	// the scale may be.
	ScaleDepth   = 30.0 // mm
	unknownShare = 0.5  // of what perspective does from there, that it may be off
	squareWithin = 2.0  // degrees that the camera may look askew
	levelWithin  = 1.5  // degrees that a picture is turned that nobody has levelled
	pickedWithin = 2.0  // pixels that scale and level may be off where it is not kept
	handWithin   = 1.5  // screen points that a click may be off
)

// Doubt is how far off what is picked in a photo may be.
type Doubt struct {
	pl       Placement
	distance float64 // camera to the plane of the scale, mm
	known    bool    // it was measured
	lens     [2]float64
	scale    float64 // a share
	level    float64 // rad
	// ends are where the length of the scale, and what is level, were picked, from the lens.
	ends [LevelError + 1][2][2]float64
}

// DoubtOf takes the photo's scale, level and camera, and its header: the lens looks
// at the picture's middle. within is the tape's error, mm.
func DoubtOf(p *job.Photo, h Header, within float64) Doubt {
	d := Doubt{distance: distanceOf(p), known: p.CameraDistance.Given, level: radians(levelWithin)}
	d.pl, _ = PlacementOf(p, h.Held)
	d.lens[0], d.lens[1] = d.pl.OnCar(job.Pixel{X: float64(h.Width) / 2, Y: float64(h.Height) / 2})
	ends := func(a, b job.Pixel) (list [2][2]float64) {
		for i, at := range [...]job.Pixel{a, b} {
			y, z := d.pl.OnCar(at)
			list[i] = [2]float64{y - d.lens[0], z - d.lens[1]}
		}
		return list
	}
	if c := p.Calibration; c.Given {
		d.ends[ScaleError] = ends(c.A, c.B)
		long := math.Hypot(c.B.X-c.A.X, c.B.Y-c.A.Y)
		d.scale = root(math.Sqrt2*picked(c.Within)/long, within/c.Distance.MM, ScaleDepth/d.distance, d.unknown()*c.Ahead.MM/d.distance)
	}
	if l := p.Level; l.Given {
		d.ends[LevelError] = ends(l.A, l.B)
		d.level = math.Sqrt2 * picked(l.Within) / math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y)
	}
	return d
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

func picked(within float64) float64 {
	if within == 0 {
		return pickedWithin
	}
	return within
}

// root gathers even errors into one that spreads as far.
func root(errors ...float64) float64 {
	sum := 0.0
	for _, e := range errors {
		sum += e * e
	}
	return math.Sqrt(sum)
}

// ClickWithin is how far off a click may be, in pixels of the picture: a hand on the
// screen, and what a pixel there and one of the picture as shown hide. mmEach are of
// a screen point, reduced the picture's pixels to one that is shown.
func ClickWithin(mmEach, mmPixel float64, reduced int) float64 {
	return root(handWithin*mmEach/mmPixel, float64(reduced))
}

// Spot is a place picked in a photo, with how far ahead of the plane of the scale
// what was picked stands, mm, nearer to the camera, and how far off that may be.
type Spot struct {
	Pixel        job.Pixel
	Within       float64 // pixels that the click may be off
	Ahead, Depth float64
	Beside       float64 // mm, up and across, that it may stand from what is looked for
}

// OnCar returns where a spot stands on the car: straight from the lens, nearer or
// farther than the plane of the scale as much as it stands ahead.
func (d *Doubt) OnCar(s Spot) (y, z float64) {
	y, z = d.pl.OnCar(s.Pixel)
	share := (d.distance - s.Ahead) / d.distance
	return d.lens[0] + (y-d.lens[0])*share, d.lens[1] + (z-d.lens[1])*share
}

// Beside returns by how much a spot appears beside where it stands.
func (d *Doubt) Beside(s Spot) (dy, dz float64) {
	seenY, seenZ := d.pl.OnCar(s.Pixel)
	y, z := d.OnCar(s)
	return seenY - y, seenZ - z
}

// Errors are what is off alike in all that is picked in a photo: each moves every place.
const (
	ScaleError  = iota // the scale
	LevelError         // the level
	AcrossError        // the click on the ground, to the side
	HeightError        // and upward
	YawError           // the camera looks askew to the side
	PitchError         // and up or down
	FarError           // the camera's distance, where it is not known
	ErrorCount
)

// ErrorNames are those in a job.
var ErrorNames = [ErrorCount]string{"scale", "level", "ground across", "ground height", "camera askew", "camera tipped", "camera's distance"}

// Off is how far off a place may be from another one, across and up, mm: by itself, and by
// each of the errors that move all places, where it is as large as it may be.
type Off struct {
	Own      [2]float64
	Together [ErrorCount][2]float64
}

// Between returns how far b stands from a, the place on the ground that all count from,
// and how far off that may be.
func (d *Doubt) Between(a, b Spot) (dy, dz float64, off Off) {
	ay, az := d.OnCar(a)
	by, bz := d.OnCar(b)
	dy, dz = by-ay, bz-az
	from, to := [2]float64{ay - d.lens[0], az - d.lens[1]}, [2]float64{by - d.lens[0], bz - d.lens[1]}
	askew := math.Tan(radians(squareWithin))
	for i := range off.Own {
		off.Own[i] = root(b.Within*d.pl.Scale, b.Beside, d.depth(b)*to[i]/d.distance, askew*b.Depth)
		off.Together[AcrossError+i][i] = root(a.Within*d.pl.Scale, a.Beside, d.depth(a)*from[i]/d.distance, askew*a.Depth)
		off.Together[FarError][i] = d.unknown() * (b.Ahead*to[i] - a.Ahead*from[i]) / d.distance
	}
	turned := func(by float64) [2]float64 { return [2]float64{-by * dz, by * dy} }
	grown := func(by float64) [2]float64 { return [2]float64{by * dy, by * dz} }
	off.Together[ScaleError], off.Together[LevelError] = grown(d.scale), turned(d.level)
	for axis := range 2 {
		// A camera that looks askew moves what stands ahead, and draws one side out; the
		// scale and the level that are picked in that picture make up for some of it.
		yaw := d.drawn(axis, to, from)
		yaw[axis] += b.Ahead - a.Ahead
		grow, turn := grown(d.calibrated(axis, ScaleError)), turned(d.calibrated(axis, LevelError))
		for i := range yaw {
			off.Together[YawError+axis][i] = askew * (yaw[i] + grow[i] + turn[i])
		}
	}
	return dy, dz, off
}

// drawn is how far, for each unit of the angle that the camera looks askew, the way from
// one place to another is drawn out by it; places count from the lens.
func (d *Doubt) drawn(axis int, to, from [2]float64) (out [2]float64) {
	for i := range out {
		out[i] = -(to[axis]*to[i] - from[axis]*from[i]) / d.distance
	}
	return out
}

// calibrated is by how much, for each unit of the same angle, the scale grows or the level
// turns what is picked, for it was drawn out itself.
func (d *Doubt) calibrated(axis, what int) float64 {
	ends := d.ends[what]
	along := [2]float64{ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]}
	long := along[0]*along[0] + along[1]*along[1]
	if long == 0 {
		return 0
	}
	by := d.drawn(axis, ends[1], ends[0])
	if what == ScaleError {
		return -(by[0]*along[0] + by[1]*along[1]) / long
	}
	return -(by[1]*along[0] - by[0]*along[1]) / long
}

// depth is how far nearer or farther than it was taken for a spot may stand, counted as
// perspective shows it.
func (d *Doubt) depth(s Spot) float64 { return root(s.Depth, d.unknown()*s.Depth) }

// unknown is the share of what perspective does that may be off.
func (d *Doubt) unknown() float64 {
	if d.known {
		return 0
	}
	return unknownShare
}

// Distance is the camera's from the plane of the scale, mm, measured or not.
func (d *Doubt) Distance() float64 { return d.distance }

// Lean returns by how much b stands outboard of plumb over a, rad, and how far off
// that may be, by itself and by each of the errors that move all.
func (d *Doubt) Lean(a, b Spot) (lean, own float64, together [ErrorCount]float64) {
	dy, dz, off := d.Between(a, b)
	far := dy*dy + dz*dz
	for i, m := range off.Together {
		together[i] = (m[0]*dz - m[1]*dy) / far
	}
	return math.Atan2(dy, dz), off.Own[0] / math.Sqrt(far), together
}
