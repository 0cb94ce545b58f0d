// Package scene says what the front view shows: it turns a solved corner into
// a drawing in millimetres, seen from in front of the car, the left wheel on
// the right of the picture (drawing x is y of the car, drawing y is z). It
// knows roles, not pixels, and no toolkit, so the same scene goes to screen
// and paper.
package scene

import (
	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/study"
)

// Handle names what a hand can take hold of: first every kinematics.Point, by
// its own number, then the bodies.
type Handle uint16

// The handles that are not points.
const (
	UprightBody  Handle = 64 + iota // ball joints, outer end, hub and wheel together
	WheelOutline                    // the wheel alone: spacer, or offset
	GroundLine                      // the tyre's loaded radius
	NoHandle     Handle = 511
)

// OfPoint returns the handle of a point.
func OfPoint(p kinematics.Point) Handle { return Handle(p) }

// Point returns the point a handle stands for; false for bodies and NoHandle.
func (h Handle) Point() (kinematics.Point, bool) {
	return kinematics.Point(h), h < UprightBody
}

// Section is the wheel and tyre as drawn, mm.
type Section struct {
	OverallDiameter, SectionWidth float64
	RimDiameter, RimOverallWidth  float64

	// Tyre is the body that gaps are computed with; zero if it is not known, and
	// then the plan view draws one made up of the sizes above.
	Tyre clearance.Tyre
}

// Subject is one variant, solved.
type Subject struct {
	Name    string
	Study   *study.Study
	Section Section
}

// Overlays is a set of what is drawn over the corner.
type Overlays uint16

// The overlays.
const (
	ArmLines      Overlays = 1 << iota // to the instant centre
	RollCentre                         // contact to instant centre, and the roll centre
	ScrubAxis                          // steering axis to the ground, scrub radius dimensioned
	TieRodArcs                         // tie-rod arc, path of the wheel held straight, lower-arm arc; with the loupe
	IdealRackEnd                       // where the rack end would have to be
	TravelGhosts                       // bump and droop positions
	BeforeOutline                      // the compared variant
	ErrorMarks                         // 95 % marks of scrub point, instant centre, roll centre
	OtherSide                          // the mirrored corner, faint
	Clearance                          // obstacles, and the outline that the tyre sweeps
	AllOverlays   = 1<<iota - 1
)

// What is drawn only while a reading is lit.
const (
	CamberLine    = (AllOverlays + 1) << iota // the wheel's own plane against the plumb line
	HalfTrackLine                             // from the centre plane to the contact
	SpringLine                                // the spring
)

// Formatter appends a length, with the digits its 95 % half-width deserves, the
// half-width and the unit on display: "32.2 ± 1.8 mm". half 0 means no band is
// known, and then none is written.
type Formatter func(dst []byte, mm, half float64) []byte

// Input is everything a picture depends on: equal inputs give equal pictures.
type Input struct {
	Now    Subject
	Before *Subject // the compared variant, or nil
	// BeforeName is the word on it; empty stands for "before".
	BeforeName string
	// Began is what changes of handles are counted from in words; nil for what a
	// gesture finds.
	Began *kinematics.Corner

	// Bands of the pose shown, so that a figure has the band that it has elsewhere;
	// nil stands for those of the study, straight between its own poses.
	Bands *kinematics.Bands

	Travel, Rack, Roll float64
	Overlays           Overlays
	Format             Formatter   // nil stands for Millimetres
	Medium             draw.Medium // screen or paper: the size of texts
	Rear               bool        // a rear axle: the tie rod is a toe link

	// Obstacles of the left corner, and the outlines, mm, that its tyre sweeps
	// over travel and rack, by clearance.View; nil while not known. Both are drawn
	// with the overlay Clearance.
	Obstacles []Obstacle
	Swept     [2][]r2.Vec

	Selected, Hover, Focus Handle
	Held                   []Handle // locked points: drawn with a ring
	Lit                    Overlays // of the reading under the pointer: they stand out
	Homes                  *Homes   // labels and loupe stay where these have them; nil lays them out anew
	Guides                 []Guide  // snap guides of the gesture in progress
	Note                   []string // lines at the selected handle: coordinates, change, message
}

// Guide is a snap line through a place of the view, level or plumb.
type Guide struct {
	Y, Z  float64 // mm
	Level bool    // level line at Z; otherwise plumb at Y
}

// beforeName is the word on what is compared.
func (in *Input) beforeName() string {
	if in.BeforeName == "" {
		return "before"
	}
	return in.BeforeName
}
