package draw

// Role says what a thing is; Styles says what that looks like.
type Role uint8

// The roles. Lines and shapes first, then texts.
const (
	Arm            Role = iota // control arm, from pivot to ball joint
	Upright                    // line between the ball joints
	TieRod                     // tie rod, from rack end to outer end
	Outline                    // visible outline, such as the tyre
	OutlineInner               // outline of lesser rank, such as the rim
	Construction               // thin helping line
	ArmLine                    // prolongation of an arm to the instant centre
	SteeringAxis               // steering axis down to the ground
	Dimension                  // dimension and extension lines
	DimensionNow               // dimension of what is being worked on
	Compared                   // the compared variant: double-dashed chain
	TravelGhost                // bump and droop positions
	CentrePlane                // the car's middle: chain
	Ground                     // ground line
	GroundHatch                // strokes under it
	RollCentre                 // mark of the roll centre
	RollCentreLine             // line that finds it
	TieRodArc                  // path of the outer end about the rack end
	FreePath                   // path of the outer end, wheel held straight
	LowerArmArc                // path of the lower ball joint
	Loupe                      // frame of the loupe, filled with paper
	LoupeOpen                  // the same without paper, where lines run through it
	LoupeLead                  // from the loupe to what it shows
	Leader                     // from a label to what it names
	Mirrored                   // the other side of the car
	Guide                      // snap line of a gesture
	Highlight                  // broad stroke under a line that stands out
	Swept                      // edge of what the tyre covers: double-dashed chain
	Obstacle                   // what the wheel must not touch
	ObstacleShort              // the same, its gap less than wished
	ObstacleHatch              // strokes across it
	CentreLine                 // of wheel and hub: chain

	HandleFixed     // fixed to the body: hollow
	HandleMoving    // moves with the wheel: filled
	HandleFixedNow  // the same on the tie rod
	HandleMovingNow //
	HandleHeld      // ring about the held point
	Focus           // ring about the point the keyboard is on
	Arrow           // arrowhead of a dimension
	ArrowNow        //
	ArrowQuiet      // toward something off the picture
	ArrowGood       // the same, of the roll centre

	BandNow    // shaded: what measuring error allows
	BandBefore // the same of the compared variant
	BandTarget // shaded: aim
	BandGood   // shaded: measuring error of the roll centre
	BandQuiet  // the same of the instant centre
	BandSwept  // shaded: what the tyre covers
	CurveNow
	CurveBefore // double-dashed chain
	Frame       // border of a chart
	Grid        // thin lines at the ticks
	Axis        // zero line, ticks
	Level       // line at the present travel
	Tag         // filled plate under TextTag
	Knockout    // paper laid under a text that must stand over lines

	TextBody
	TextSmall
	TextQuiet
	TextBold
	TextTitle // heading of a sheet
	TextNow
	TextBefore
	TextGood
	TextTag // on a Tag
	TextTick
	roleCount
)

// Roles is the number of roles; they run from 0.
const Roles = int(roleCount)

// Layer orders a drawing: lower layers are painted first, and within a layer
// things are painted in the order they were added. Files keep the layers.
type Layer uint8

// The layers from the lowest to the highest.
const (
	LayerBands Layer = iota
	LayerGrid
	LayerGround
	LayerConstruction
	LayerTravel
	LayerCompared
	LayerOutlines
	LayerLinks
	LayerCurves
	LayerDimensions
	LayerLoupe
	LayerHandles
	LayerNotes
	layerCount
)

// Layers is the number of layers; they run from 0.
const Layers = int(layerCount)

var layerNames = [layerCount]string{
	"bands", "grid", "ground", "construction", "travel", "compared", "outlines",
	"links", "curves", "dimensions", "loupe", "handles", "notes",
}

// String returns the name of the layer as files carry it.
func (l Layer) String() string { return layerNames[l] }
