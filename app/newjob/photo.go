package newjob

import (
	"fmt"
	"math"

	"armscribe/app/job"
	"armscribe/app/photo"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
)

// Drop is a place that is dropped on a photo: a point of the corner, or the tyre's
// bottom or top.
type Drop struct {
	Name  string
	Point kinematics.Point
	tyre  int8
	Hint  string // which part of it is meant
	// Optional: without it, something stays assumed.
	Optional bool
}

const nearEnd = "the end nearer to the camera"

const (
	tyreBottom = 1 + iota
	tyreTop
)

// Drops are the places in the order in which they are asked for.
var Drops = []Drop{
	{Name: "lower pivot", Point: kinematics.LowerFront, Hint: nearEnd},
	{Name: "upper pivot", Point: kinematics.UpperFront, Hint: nearEnd},
	{Name: "lower ball joint", Point: kinematics.LowerBall},
	{Name: "upper ball joint", Point: kinematics.UpperBall},
	{Name: "rack end", Point: kinematics.RackEnd},
	{Name: "outer tie-rod end", Point: kinematics.OuterEnd},
	{Name: "middle of the hub", Point: kinematics.HubFace},
	{Name: "ground under the tyre", tyre: tyreBottom},
	{Name: "top of the tyre", tyre: tyreTop, Optional: true},
}

// Dropped is where one of Drops was clicked, and how many pixels that may be off.
type Dropped struct {
	Pixel  job.Pixel
	Within float64
}

// What is seen of a tyre and of an arm stands nearer to the camera than the axle
// line, mm: the edge of the contact, the top of its outline, the near end of a pivot
// axis. How far off that may be; how far the axis may run off the car's line; and how
// unevenly the tyre bulges. Common practice, no source.
const (
	contactShare = 0.75 // of half the chord that the ground cuts off the tyre's circle
	contactDepth = 30.0
	topDepth     = 40.0
	axisBeside   = 6.0
	bulge        = 2.0
)

// contactAhead is where the tyre leaves the ground, ahead of the axle line.
func contactAhead(r *Result) float64 {
	t, err := tyre.Parse(r.Tyre)
	if err != nil {
		panic("newjob: a job with the tyre " + r.Tyre) // Make has read it
	}
	free, loaded := t.Diameter()/2, t.EstimateLoadedRadius().Radius
	return contactShare * math.Sqrt(max(0, free*free-loaded*loaded))
}

// FromPhoto makes the job of a form and of places on its photo. Side distances count from where the tyre stands on half the track,
// heights from the ground there; no camber is needed for that. Each point is known
// as well as the photo shows it. With the tyre's top, camber follows too. It returns
// the job with the photo in it, laid under its points.
func FromPhoto(f Form, ph job.Photo, h photo.Header, dropped []Dropped) (*Result, error) {
	first, err := Make(f) // for what stands along the car
	if err != nil {
		return nil, err
	}
	s := sketch{variant: &first.Job.Variants[0], doubt: photo.DoubtOf(&ph, h, first.Job.MeasuredWithin.MM), dropped: dropped, contact: contactAhead(first)}
	s.facing = 1
	if f.Axle == job.Rear {
		s.facing = -1 // it is looked at from behind
	}
	for i := range dropped {
		switch Drops[i].tyre {
		case tyreBottom:
			s.ground = s.spot(i)
		case tyreTop:
			s.top, s.hasTop = s.spot(i), true
		}
	}
	camberWithin := s.camber(&f)
	half := first.Values[Track] / 2
	off := make([]job.Within, len(dropped))
	for i := range dropped {
		if Drops[i].tyre != 0 {
			continue
		}
		dy, dz, by := s.doubt.Between(s.ground, s.spot(i))
		off[i] = s.off(Drops[i].Point, &by, first.Job.MeasuredWithin.MM)
		if Drops[i].Point != kinematics.HubFace {
			f.Place(Drops[i].Point, half+dy, dz)
			continue
		}
		if err := f.hubAt(dz); err != nil {
			return nil, err
		}
	}
	r, err := Make(f)
	if err != nil {
		return nil, err
	}
	v := &r.Job.Variants[0]
	for i := range dropped {
		if Drops[i].tyre == 0 {
			v.Position(Drops[i].Point).Within = off[i]
		}
	}
	v.CamberWithin = camberWithin
	for _, t := range s.together {
		if t.Moves() {
			v.Together = append(v.Together, t)
		}
	}
	y, z := s.doubt.Beside(s.ground) // as it is seen, the plane of the scale under the points
	ph.Anchor = job.Anchor{Given: true, Pixel: s.ground.Pixel, Y: units.Length{MM: half + y}, Z: units.Length{MM: z}}
	r.Job.Photo = ph
	return r, nil
}

// WithinOf returns how well the best and the worst coordinate on a photo is known.
func WithinOf(r *Result) (least, most float64) {
	least = math.Inf(1)
	v := &r.Job.Variants[0]
	for _, d := range Drops {
		if d.tyre != 0 {
			continue
		}
		for axis := range 3 {
			if mm, ok := v.WithinOf(kinematics.Coordinate{Point: d.Point, Axis: axis}); ok {
				least, most = min(least, mm), max(most, mm)
			}
		}
	}
	return least, most
}

// hubSide follows from the track, whatever the photo shows.
var hubSide = kinematics.Coordinate{Point: kinematics.HubFace, Axis: 1}

// digits are as many as an error in a file needs.
func digits(v float64) float64 { return math.Round(v*1000) / 1000 }

// roundUp goes up to the next digit that a place on a picture has.
func roundUp(mm float64) float64 { return math.Ceil(mm*10) / 10 }

// sketch is a corner that is being read from a photo.
type sketch struct {
	variant     *job.Variant
	doubt       photo.Doubt
	dropped     []Dropped
	ground, top photo.Spot
	hasTop      bool
	contact     float64 // mm, of the tyre's edge on the ground ahead of the axle line
	together    [photo.ErrorCount + 1]job.Together
	facing      float64 // sign of x toward the camera
}

// spot is a place with what stands along the car, toward the camera.
func (s *sketch) spot(i int) photo.Spot {
	d := &Drops[i]
	spot := photo.Spot{Pixel: s.dropped[i].Pixel, Within: s.dropped[i].Within}
	switch {
	case d.tyre == tyreBottom:
		spot.Ahead, spot.Depth = s.contact, contactDepth
	case d.tyre == tyreTop:
		// A ray from a lens at hub height grazes the tyre there.
		loaded := s.variant.Hub.Z.MM
		spot.Ahead, spot.Depth = loaded*loaded/s.doubt.Distance(), topDepth
	case d.Point == kinematics.LowerFront || d.Point == kinematics.UpperFront:
		at := kinematics.Coordinate{Point: d.Point}
		spot.Ahead, spot.Depth, spot.Beside = job.UsualPivot, job.Coordinate(at).Range(), axisBeside
	default:
		at := kinematics.Coordinate{Point: d.Point}
		spot.Ahead, spot.Depth = s.facing*s.variant.Point(d.Point).X, job.Coordinate(at).Range()
	}
	return spot
}

// off is how well a point is known by itself; what it is off by with all else is kept.
// Side distances all count from the same track, and the hub's is that.
func (s *sketch) off(p kinematics.Point, by *photo.Off, tape float64) (own job.Within) {
	for k := range by.Own {
		own[1+k] = job.Given(units.Length{MM: roundUp(by.Own[k])})
		at := kinematics.Coordinate{Point: p, Axis: 1 + k}
		if at == hubSide {
			own[1+k] = job.Given(units.Length{})
			continue
		}
		for e := range by.Together {
			s.together[e].Name = photo.ErrorNames[e]
			s.together[e].By[job.Coordinate(at)] = digits(by.Together[e][k])
		}
	}
	track := &s.together[photo.ErrorCount]
	track.Name = "track"
	track.By[job.Coordinate(kinematics.Coordinate{Point: p, Axis: hubSide.Axis})] = tape
	return own
}

// camber types the camber as the tyre leans, if its top was clicked, and returns
// how far off that may be by itself; what it is off by with all else is kept.
func (s *sketch) camber(f *Form) job.Degrees {
	if !s.hasTop || f.Typed[Camber] != "" {
		return 0
	}
	const each = 180 / math.Pi
	lean, off, by := s.doubt.Lean(s.ground, s.top)
	for e := range by {
		s.together[e].By[job.CamberValue] = digits(by[e] * each)
	}
	_, tall, _ := s.doubt.Between(s.ground, s.top)
	f.Typed[Camber] = fmt.Sprintf("%.2f", lean*each)
	return job.Degrees(math.Ceil(math.Hypot(off, bulge/tall)*each*100) / 100)
}

// hubAt types the wheel centre's height that puts the hub's face there.
func (f *Form) hubAt(z float64) error {
	put := func(mm float64) { f.Typed[HubHeight] = fmt.Sprintf("%.2f mm", mm) }
	put(z)
	r, err := Make(*f)
	if err != nil {
		return err
	}
	put(2*z - r.Job.Variants[0].Hub.Z.MM)
	return nil
}
