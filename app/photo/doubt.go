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
}

// DoubtOf takes the photo's scale, level and camera, and its header: the lens looks
// at the picture's middle. within is the tape's error, mm.
func DoubtOf(p *job.Photo, h Header, within float64) Doubt {
	d := Doubt{distance: distanceOf(p), known: p.CameraDistance.Given, level: radians(levelWithin)}
	d.pl, _ = PlacementOf(p, h.Held)
	d.lens[0], d.lens[1] = d.pl.OnCar(job.Pixel{X: float64(h.Width) / 2, Y: float64(h.Height) / 2})
	if c := p.Calibration; c.Given {
		long := math.Hypot(c.B.X-c.A.X, c.B.Y-c.A.Y)
		d.scale = root(math.Sqrt2*picked(c.Within)/long, within/c.Distance.MM, ScaleDepth/d.distance, d.unknown()*c.Ahead.MM/d.distance)
	}
	if l := p.Level; l.Given {
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

// Between returns how far b stands from a, and how far off that may be in y and z.
func (d *Doubt) Between(a, b Spot) (dy, dz, offY, offZ float64) {
	ay, az := d.OnCar(a)
	by, bz := d.OnCar(b)
	dy, dz = by-ay, bz-az
	var off [2]float64
	span, other := [2]float64{dy, dz}, [2]float64{dz, dy}
	from, to := [2]float64{ay - d.lens[0], az - d.lens[1]}, [2]float64{by - d.lens[0], bz - d.lens[1]}
	askew := math.Tan(radians(squareWithin))
	for i := range off {
		off[i] = root(
			a.Within*d.pl.Scale, b.Within*d.pl.Scale, a.Beside, b.Beside,
			d.scale*span[i], d.level*other[i],
			d.depth(a)*from[i]/d.distance, d.depth(b)*to[i]/d.distance,
			askew*(b.Ahead-a.Ahead), askew*a.Depth, askew*b.Depth,
			askew*(to[i]*to[i]-from[i]*from[i])/d.distance, askew*(to[i]*to[1-i]-from[i]*from[1-i])/d.distance)
	}
	return dy, dz, off[0], off[1]
}

// depth is how far nearer or farther than it was taken for a spot may stand.
func (d *Doubt) depth(s Spot) float64 {
	return (1+d.unknown())*s.Depth + d.unknown()*math.Abs(s.Ahead)
}

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
// that may be.
func (d *Doubt) Lean(a, b Spot) (lean, off float64) {
	dy, dz, offY, _ := d.Between(a, b)
	return math.Atan2(dy, dz), offY / math.Hypot(dy, dz)
}
