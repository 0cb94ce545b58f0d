package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// ObstacleShape is what an obstacle looks like.
type ObstacleShape uint8

// The shapes. The zero value is none.
const (
	PointShape ObstacleShape = iota + 1
	LineShape
	CircleShape
	ArcShape
)

// ObstacleOn names what an obstacle is fixed to.
type ObstacleOn uint8

// The carriers. The zero value is the body, which a file need not say.
const (
	OnBody ObstacleOn = iota
	OnUpright
	OnDamper
)

// Obstacle is something that the wheel must not touch, on the left side of the
// car as it was measured. What its shape does not have is nought.
type Obstacle struct {
	Name   string
	Shape  ObstacleShape
	On     ObstacleOn
	At     Position  // the point, one end of line or arc, the centre of the circle
	To     Position  // the other end of line or arc
	Via    Position  // a place of the arc between its ends
	Facing Direction // square to the circle
	Radius units.Length
	// Angles tell an arc about its centre, which At then is: To and Via are nought.
	Angles Angles
	// Diameter of the tube, damper or joint about point or line; 0 is an edge.
	Diameter units.Length
	Gap      Optional // wished
}

// Angles are from where to where an arc about its centre goes, degrees. For one
// that faces outboard 0 is forward of the centre, 90 above it and 180 rearward;
// see package app/clearance for the others.
type Angles struct{ From, To Degrees }

// Centred tells an arc by its centre from one by three places.
func (o *Obstacle) Centred() bool { return o.Shape == ArcShape && o.Angles != Angles{} }

// Limits of obstacles.
const (
	// LeastArc and MostArc are how far round an arc goes, degrees.
	LeastArc, MostArc Degrees = 1, 350
	// MaxArcAngle catches an angle in the wrong unit, degrees.
	MaxArcAngle Degrees = 720
	// MaxObstacles is the most obstacles of one job.
	MaxObstacles = 60
	// MaxGap catches a wished gap or a diameter in the wrong unit, mm.
	MaxGap = 500.0
)

var (
	shapeWords = []word[ObstacleShape]{{PointShape, "point"}, {LineShape, "line"}, {CircleShape, "circle"}, {ArcShape, "arc"}}
	onWords    = []word[ObstacleOn]{{OnBody, "body"}, {OnUpright, "upright"}, {OnDamper, "damper"}}
)

// String returns the word the file uses.
func (s ObstacleShape) String() string { return wordOf(shapeWords, s) }

// String returns the word the file uses.
func (o ObstacleOn) String() string { return wordOf(onWords, o) }

func (o *Obstacle) fields() []field {
	return []field{
		{"name", "inner wing", "", true, textCodec{to: &o.Name}},
		{"shape", "point", "", true, wordCodec[ObstacleShape]{&o.Shape, shapeWords}},
		{"on", "body", "", false, onCodec{&o.On}},
		{"at", "{x: -120, y: 560, z: 610}", "", true, sectionCodec{sec: (*place)(&o.At), flow: true}},
		{"to", "{x: 180, y: 560, z: 640}", "", false, sectionCodec{sec: (*place)(&o.To), flow: true, lacks: func() bool { return o.Shape != LineShape && (o.Shape != ArcShape || o.Centred()) }}},
		{"via", "{x: 0, y: 560, z: 690}", "", false, sectionCodec{sec: &o.Via, flow: true, lacks: func() bool { return o.Shape != ArcShape || o.Centred() }}},
		{"facing", "{y: 1}", "", false, sectionCodec{sec: &o.Facing, flow: true, lacks: func() bool { return o.Facing == Direction{} }}},
		{"radius", "340", "", false, lengthCodec{to: &o.Radius, mayLack: true}},
		{"angles", "{from: 15, to: 165}", "", false, sectionCodec{sec: &o.Angles, flow: true, lacks: func() bool { return o.Angles == Angles{} }}},
		{"diameter", "40", "", false, lengthCodec{to: &o.Diameter, mayLack: true}},
		{"gap", "10", "", false, optionalCodec{&o.Gap}},
	}
}

func (a *Angles) fields() []field {
	return []field{
		{"from", "15", "", true, degreesCodec{to: &a.From}},
		{"to", "165", "", true, degreesCodec{to: &a.To}},
	}
}

// shapeKeys are those that not every shape has.
var shapeKeys = []string{"to", "via", "facing", "radius", "angles"}

// ownKeys tells which of them a shape has; an arc those of one of its two ways.
func (o *Obstacle) ownKeys(has func(string) bool) []string {
	switch {
	case o.Shape == LineShape:
		return []string{"to"}
	case o.Shape == CircleShape:
		return []string{"facing", "radius"}
	case o.Shape == ArcShape && !has("via") && (has("angles") || has("radius") || has("facing")):
		return []string{"facing", "radius", "angles"}
	case o.Shape == ArcShape:
		return []string{"to", "via"}
	}
	return nil
}

// check asks for the keys of the shape, and refuses those of others.
func (o *Obstacle) check(r *reader, at string, line int, has func(string) bool) {
	if o.Shape == 0 {
		return // reported already
	}
	fields, mine := o.fields(), o.ownKeys(has)
	for _, key := range shapeKeys {
		f, _ := fieldNamed(fields, key)
		switch own := slices.Contains(mine, key); {
		case own && !has(key):
			r.missing(line, at, f)
		case !own && has(key):
			what := "shape " + o.Shape.String()
			if o.Shape == ArcShape {
				what = "an arc with " + strings.Join(mine, " and ")
			}
			r.add(r.lineOf(join(at, key)), join(at, key), "", "does not belong to "+what, "remove it, or choose another shape")
		}
	}
}

// onCodec is the carrier, which a file leaves out for the body.
type onCodec struct{ to *ObstacleOn }

func (c onCodec) words() wordCodec[ObstacleOn] { return wordCodec[ObstacleOn]{c.to, onWords} }

func (c onCodec) read(r *reader, n *yaml.Node, at string) { c.words().read(r, n, at) }

func (c onCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if *c.to == OnBody && old == nil {
		return nil
	}
	return c.words().write(w, old)
}

func (c onCodec) schema(s *schemer) object { return c.words().schema(s) }

// obstacleItem is one obstacle of the list.
type obstacleItem struct{}

func (obstacleItem) readItem(r *reader, n *yaml.Node, at string, to *Obstacle) {
	r.section(n, at, to)
}

func (obstacleItem) writeItem(w *writer, old *yaml.Node, o *Obstacle) *yaml.Node {
	return w.section(old, o, true)
}

func (obstacleItem) schemaItem(s *schemer) object { return s.refer(&Obstacle{}) }

// obstacles checks the values of every obstacle.
func (c *checker) obstacles(list []Obstacle) {
	const section = "obstacles"
	if len(list) > MaxObstacles {
		c.add(section, "", fmt.Sprintf("holds %d obstacles, more than %d", len(list), MaxObstacles), "keep those that matter", nil)
		return
	}
	first := map[string]int{}
	for i := range list {
		o, at := &list[i], itemKey(section, i)
		c.name(at+".name", o.Name)
		if k, taken := first[o.Name]; taken && !c.skips(at+".name") {
			c.add(at+".name", o.Name, "is the name of "+itemKey(section, k)+" too", "give each obstacle its own name", nil)
		} else {
			first[o.Name] = i
		}
		if c.skips(at) {
			continue
		}
		c.obstacle(o, at)
	}
}

func (c *checker) obstacle(o *Obstacle, at string) {
	if o.On.String() == "" {
		c.add(at+".on", "", "is nothing", "choose body, upright or damper", nil)
	}
	c.place(o.At, at+".at")
	c.length(at+".diameter", o.Diameter, 0, MaxGap)
	if o.Gap.Given {
		c.length(at+".gap", o.Gap.Length, 0, MaxGap)
	}
	switch o.Shape {
	case PointShape:
	case LineShape:
		c.place(o.To, at+".to")
		a, b := o.At.Vec(), o.To.Vec()
		if d := math.Hypot(math.Hypot(b.X-a.X, b.Y-a.Y), b.Z-a.Z); d < kinematics.MinSpan {
			c.add(at+".to", computedOf(d, c.units), "is less than "+limitOf(kinematics.MinSpan, c.units)+" from the other end", "give both ends of the line, or choose shape point", nil)
		}
	case CircleShape:
		c.length(at+".radius", o.Radius, kinematics.MinSpan, units.MaxLength)
		c.direction(o.Facing, at+".facing")
	case ArcShape:
		c.arc(o, at)
	default:
		c.add(at+".shape", "", "is none", "choose point, line, circle or arc", nil)
	}
}

func (c *checker) arc(o *Obstacle, at string) {
	if !o.Centred() {
		c.place(o.To, at+".to")
		c.place(o.Via, at+".via")
		if _, ok := clearance.ArcThrough(o.At.Vec(), o.Via.Vec(), o.To.Vec()); !ok {
			c.add(at+".via", "", "makes no arc with at and to: they stand in line, or in one place", "give a place of the lip between its ends, or choose shape line", nil)
		}
		return
	}
	c.length(at+".radius", o.Radius, kinematics.MinSpan, units.MaxLength)
	c.direction(o.Facing, at+".facing")
	a := o.Angles
	if span := a.To - a.From; !(span >= LeastArc && span <= MostArc && a.From >= -MaxArcAngle && a.To <= MaxArcAngle) {
		c.add(at+".angles", fmt.Sprintf("%g to %g deg", float64(a.From), float64(a.To)), fmt.Sprintf("is no arc of %g to %g degrees", float64(LeastArc), float64(MostArc)),
			"give the smaller angle first; shape circle goes all the way round", nil)
	}
}

func (c *checker) place(p Position, at string) {
	c.length(at+".x", p.X, -units.MaxLength, units.MaxLength)
	c.length(at+".y", p.Y, -units.MaxLength, units.MaxLength)
	c.length(at+".z", p.Z, -units.MaxLength, units.MaxLength)
}

// direction refuses one that leads nowhere.
func (c *checker) direction(d Direction, at string) {
	if v := d.Vec(); !(v.X != 0 || v.Y != 0 || v.Z != 0) || math.IsNaN(v.X+v.Y+v.Z) || math.IsInf(d.X, 0) || math.IsInf(d.Y, 0) || math.IsInf(d.Z, 0) {
		c.add(at, "", "leads nowhere", "write a direction, as {y: 1} for outboard", nil)
	}
}
