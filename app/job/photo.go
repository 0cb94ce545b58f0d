package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Photo is a picture of the real corner to lay under the view. Without a file
// there is none; the parts that place it come one after the other.
type Photo struct {
	// File is the picture's path: beside the job with slashes, or absolute. The
	// job does not know whether it is there.
	File        string
	Calibration Calibration
	Level       Level
	Anchor      Anchor
	Mirrored    bool    // turned over: of the right corner from in front, or of the left one from behind
	Opacity     float64 // 0 not seen, 1 solid
	// CameraDistance is from the lens to the wheel's plane, for the error of
	// perspective.
	CameraDistance Optional
}

// Pixel is a place in the picture as it is stored, from its top left corner,
// x to the right and y down. It may lie outside.
type Pixel struct{ X, Y float64 }

// Calibration is two picked places and how far apart they are on the car.
type Calibration struct {
	Given    bool
	A, B     Pixel
	Distance units.Length
	// Within is how far off either place may be picked, pixels; 0 not known.
	Within float64
	// Ahead is how much nearer to the camera than the wheel's middle the distance stands,
	// as a ruler before the tyre does; not given: about there.
	Ahead Optional
}

// Level is two picked places of the same height on the car, A nearer to its
// middle than B.
type Level struct {
	Given  bool
	A, B   Pixel
	Within float64 // as of a Calibration
}

// Anchor is a picked place whose y and z on the car are known.
type Anchor struct {
	Given bool
	Pixel Pixel
	Y, Z  units.Length
}

// Given tells whether the job has a photo.
func (p *Photo) Given() bool { return p.File != "" }

const (
	// DefaultOpacity shows the picture and what is drawn over it alike.
	DefaultOpacity = 0.5
	// MaxPixel is how far from its corner a place in a picture may lie, either
	// way: several times the largest picture.
	MaxPixel = 100_000.0
	// minPixels apart, two picked places give no scale or level worth the name.
	minPixels = 2.0
	// maxAhead is as far as a ruler is held before a wheel, or behind it, mm.
	maxAhead = 1000.0
	// maxPath is the longest path kept, in characters.
	maxPath = 1000
)

const pixelSample = "{x: 812, y: 644}"

func (p *Photo) fields() []field {
	return []field{
		{"file", "left-front.jpg", "", true, textCodec{to: &p.File}},
		{"calibration", "{a: {x: 812, y: 644}, b: {x: 1630, y: 650}, distance: 457 mm}", "", false,
			givenCodec{sectionCodec{sec: &p.Calibration}, &p.Calibration.Given}},
		{"level", "{a: {x: 812, y: 1210}, b: {x: 2730, y: 1198}}", "", false,
			givenCodec{sectionCodec{sec: &p.Level}, &p.Level.Given}},
		{"anchor", "{pixel: {x: 1221, y: 647}, y: 762, z: 315}", "", false,
			givenCodec{sectionCodec{sec: &p.Anchor}, &p.Anchor.Given}},
		{"mirrored", "true", "", false, boolCodec{&p.Mirrored}},
		{"opacity", "0.5", "", false, numberCodec{to: &p.Opacity, mayLack: true, absent: DefaultOpacity}},
		{"camera_distance", "4 m", "", false, optionalCodec{&p.CameraDistance}},
	}
}

func (c *Calibration) fields() []field {
	return []field{
		{"a", pixelSample, "", true, sectionCodec{sec: &c.A, flow: true}},
		{"b", pixelSample, "", true, sectionCodec{sec: &c.B, flow: true}},
		{"distance", "457 mm", "", true, lengthCodec{to: &c.Distance}},
		{"within", "1.5", "", false, numberCodec{to: &c.Within, mayLack: true}},
		{"ahead", "260 mm", "", false, optionalCodec{&c.Ahead}},
	}
}

func (l *Level) fields() []field {
	return []field{
		{"a", pixelSample, "", true, sectionCodec{sec: &l.A, flow: true}},
		{"b", pixelSample, "", true, sectionCodec{sec: &l.B, flow: true}},
		{"within", "1.5", "", false, numberCodec{to: &l.Within, mayLack: true}},
	}
}

func (a *Anchor) fields() []field {
	return []field{
		{"pixel", pixelSample, "", true, sectionCodec{sec: &a.Pixel, flow: true}},
		{"y", "762", "", true, lengthCodec{to: &a.Y}},
		{"z", "315", "", true, lengthCodec{to: &a.Z}},
	}
}

func (p *Pixel) fields() []field {
	return []field{
		{"x", "812", "", true, numberCodec{to: &p.X}},
		{"y", "644", "", true, numberCodec{to: &p.Y}},
	}
}

// check refuses a photo without a picture, which would be no photo.
func (p *Photo) check(r *reader, at string, line int, has func(string) bool) {
	if has("file") && strings.TrimSpace(p.File) == "" && !r.bad[at+".file"] {
		p.File = ""
		r.add(r.lineOf(at+".file"), at+".file", "", "is empty", "write the picture's name, or remove the photo")
	}
}

// photo checks the values of a photo. Whether its file is there and may be
// opened is not for the job to say: without it the job is as good.
func (c *checker) photo(p *Photo) {
	if !p.Given() {
		return
	}
	const at = "photo."
	c.text(at+"file", p.File, maxPath, "")
	if cal := p.Calibration; cal.Given {
		c.apart(at+"calibration", cal.A, cal.B, cal.Within)
		c.length(at+"calibration.distance", cal.Distance, kinematics.MinSpan, units.MaxLength)
		if far := maxAhead; cal.Ahead.Given {
			if p.CameraDistance.MM > 0 {
				far = min(far, p.CameraDistance.MM/2)
			}
			c.length(at+"calibration.ahead", cal.Ahead.Length, -maxAhead, far)
		}
	}
	if p.Level.Given {
		c.apart(at+"level", p.Level.A, p.Level.B, p.Level.Within)
	}
	if p.Anchor.Given {
		c.pixel(at+"anchor.pixel", p.Anchor.Pixel)
		c.length(at+"anchor.y", p.Anchor.Y, -units.MaxLength, units.MaxLength)
		c.length(at+"anchor.z", p.Anchor.Z, -units.MaxLength, units.MaxLength)
	}
	if !c.skips(at+"opacity") && !(p.Opacity >= 0 && p.Opacity <= 1) {
		c.add(at+"opacity", fmt.Sprint(p.Opacity), "is not between 0 and 1", "write 0.5, say", nil)
	}
	if p.CameraDistance.Given {
		c.length(at+"camera_distance", p.CameraDistance.Length, kinematics.MinSpan, units.MaxLength)
	}
}

// apart refuses two places in a picture that are one, and an error of theirs that
// is none.
func (c *checker) apart(key string, a, b Pixel, within float64) {
	if !c.skips(key+".within") && !(within >= 0 && within <= MaxPixel) {
		c.add(key+".within", fmt.Sprint(within), "is not between 0 and 100000 pixels", "leave it out", nil)
	}
	if ok := c.pixel(key+".a", a); !c.pixel(key+".b", b) || !ok || c.skips(key) {
		return
	}
	if d := math.Hypot(b.X-a.X, b.Y-a.Y); d < minPixels {
		c.add(key, fmt.Sprintf("%.3g pixels", d), "has both places in one", "pick two places far apart", nil)
	}
}

func (c *checker) pixel(key string, p Pixel) bool {
	for _, v := range []struct {
		axis string
		at   float64
	}{{".x", p.X}, {".y", p.Y}} {
		if c.skips(key + v.axis) {
			return false
		}
		if !(math.Abs(v.at) <= MaxPixel) {
			c.add(key+v.axis, fmt.Sprint(v.at), "is not within ±100000 pixels", "pick it in the picture", nil)
			return false
		}
	}
	return true
}

// photoCodec is the whole photo.
type photoCodec struct{ photo *Photo }

func (c photoCodec) read(r *reader, n *yaml.Node, at string) {
	c.photo.Opacity = DefaultOpacity
	r.section(n, at, c.photo)
}

func (c photoCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.photo.Given() {
		return nil
	}
	return w.section(old, c.photo, false)
}

// givenCodec is a section that marks itself as given.
type givenCodec struct {
	sectionCodec
	given *bool
}

func (c givenCodec) read(r *reader, n *yaml.Node, at string) {
	*c.given = true
	c.sectionCodec.read(r, n, at)
}

func (c givenCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !*c.given {
		return nil
	}
	return c.sectionCodec.write(w, old)
}

// numberCodec is a plain number. With mayLack, a file that lacks the key means
// absent.
type numberCodec struct {
	to      *float64
	mayLack bool
	absent  float64
}

func (c numberCodec) read(r *reader, n *yaml.Node, at string) {
	if !r.isScalar(n, at, "a number") {
		return
	}
	v, ok := parseNumber(n.Value)
	switch {
	case ok:
		*c.to = v
	case !r.noNumber(n, at):
		r.add(n.Line, at, n.Value, "is not a plain number", "write digits and a decimal point, without a unit")
	}
}

// parseNumber reads a plain decimal number: no exponent, no hex, no unit.
func parseNumber(text string) (float64, bool) {
	const longest = 1100 // characters: what the smallest float64 takes
	if len(text) > longest || !plainNumber.MatchString(text) {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v + 0, err == nil
}

func (c numberCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.mayLack && old == nil && *c.to == c.absent {
		return nil
	}
	same := false
	if old != nil && old.Kind == yaml.ScalarNode {
		was, ok := parseNumber(old.Value)
		same = ok && was == *c.to
	}
	return w.scalar(old, strconv.FormatFloat(*c.to, 'f', -1, 64), same)
}

// boolCodec is true or false; a file that lacks the key means false.
type boolCodec struct{ to *bool }

var boolWords = []word[bool]{{true, "true"}, {false, "false"}}

func (c boolCodec) read(r *reader, n *yaml.Node, at string) {
	wordCodec[bool]{c.to, boolWords}.read(r, n, at)
}

func (c boolCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if old == nil && !*c.to {
		return nil
	}
	text := wordOf(boolWords, *c.to)
	return w.scalar(old, text, old != nil && old.Value == text)
}
