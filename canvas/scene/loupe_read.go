package scene

import (
	"math"
	"sort"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// leastGap is the gap, mm, below which no rod is called long or short.
const leastGap = 0.05

// roundingBand is the band, mm, below which it is rounding: at rest the gap is
// nothing whatever the error.
const roundingBand = 1e-4

// gap is the tie-rod error at the travel shown, with the rack in the middle.
func (b *builder) gap() (float64, bool) {
	if b.out.Rack == 0 {
		return b.out.Readings.Of(kinematics.TieRodError)
	}
	p, err := b.in.Now.Study.Mechanism.At(b.out.Travel, 0)
	if err != nil {
		return 0, false
	}
	r := p.Readings()
	return r.Of(kinematics.TieRodError)
}

// figureOf writes a tie-rod error with its band as figure does.
func (b *builder) figureOf(dst []byte, v, half float64) []byte {
	kept := b.text
	b.text = dst
	b.figure(kinematics.TieRodError, v, half)
	b.text, dst = kept, b.text
	return dst
}

// appendGap appends a gap in words: "gap 0.7 ± 0.2 mm, rod short".
func appendGap(dst []byte, in *Input, figure Formatter, gap, half float64) []byte {
	if half < roundingBand {
		half = 0
	}
	dst = figure(append(dst, "gap "...), math.Abs(gap), half)
	if math.Abs(gap) > max(half, leastGap) {
		dst = append(dst, pick(in.Rear, ", link ", ", rod ")...)
		dst = append(dst, pick(gap < 0, "long", "short")...)
	}
	return dst
}

// OnLoupe tells whether a place of the picture is on the loupe.
func (o *Output) OnLoupe(p draw.Point) bool {
	return !o.Loupe.IsEmpty() && p.Sub(o.Loupe.Mid()).Len() <= o.Loupe.W()/2
}

// ReadLoupe says in words what the loupe shows at the height of a place on it: the
// travel, and the gap there. Empty where there is none.
func (o *Output) ReadLoupe(p draw.Point) string {
	b, a := &o.work, &o.work.arcs
	if !o.OnLoupe(p) || len(a.held) < 2 {
		return ""
	}
	z := b.loupe.z + (p.Y-o.Loupe.Mid().Y)*b.v.Zoom/b.loupe.perMM
	last := len(a.held) - 1
	i := max(1, min(sort.Search(last, func(i int) bool { return a.held[i].Z >= z }), last))
	lo, hi := a.held[i-1].Z, a.held[i].Z
	share := max(0, min((z-lo)/max(hi-lo, kinematics.MinSpan), 1))
	travel := a.at[i-1] + (a.at[i]-a.at[i-1])*share
	st := b.in.Now.Study
	pose, err := st.Mechanism.At(travel, 0)
	if err != nil {
		return ""
	}
	r := pose.Readings()
	gap, ok := r.Of(kinematics.TieRodError)
	if !ok {
		return ""
	}
	half := 0.0
	if !o.Rolled {
		half, _ = st.BandAt(kinematics.TieRodError, travel)
	}
	text := append([]byte("at "), pick(travel < 0, "droop ", "bump ")...)
	text = append(b.format(text, math.Round(math.Abs(travel)), 0), ": "...)
	return string(appendGap(text, b.in, b.figureOf, gap, half))
}
