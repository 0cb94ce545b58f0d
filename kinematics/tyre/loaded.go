package tyre

// Shares of the section height by which a tyre is squashed on the ground.
const (
	leastSquash  = 0.10
	middleSquash = 0.15
	mostSquash   = 0.20
)

// MostLoaded is how far a loaded radius may exceed half the design diameter before
// number or size must be wrong: the load takes a tenth of the section height and
// more, which is what a tyre may be larger than its code. Common practice, no source.
const MostLoaded = 1.01

// LoadedRadius is a height of the wheel centre over the ground.
type LoadedRadius struct {
	Radius    float64 // mm
	Low, High float64 // mm, the span it may well lie in; alike where it is measured
	Estimate  bool    // not measured: show it as an estimate
}

// LoadedLimits are the least and the most that a loaded radius of the size can be,
// mm: the rim's radius, and a little over half the overall diameter, the largest
// that may be where the code does not give it.
func (t Tyre) LoadedLimits() (least, most float64) {
	d, _ := t.DiameterSpan()
	return t.RimDiameter() / 2, MostLoaded * d.High / 2
}

// EstimateLoadedRadius is half the diameter less 15 % of the section height,
// with a span from 20 % to 10 %. Common practice, no source: pressure, load
// and carcass decide, and a lightly loaded stiff tyre may stand higher still.
// Measure it on the car when you can.
func (t Tyre) EstimateLoadedRadius() LoadedRadius { return t.loadedBy(middleSquash) }

// LoadedLike estimates the loaded radius from one that was measured with a tyre of
// another size, mm: squashed by the same share of its section height, and no less
// than not at all, with the span of EstimateLoadedRadius about it. Common practice,
// no source.
func (t Tyre) LoadedLike(other Tyre, measured float64) LoadedRadius {
	return t.loadedBy(max(0, (other.Diameter()/2-measured)/other.SectionHeight()))
}

// loadedBy is the radius of the tyre squashed by a share of its section height.
func (t Tyre) loadedBy(share float64) LoadedRadius {
	h, _ := t.HeightSpan()
	rim := t.RimDiameter() / 2
	return LoadedRadius{
		Radius:   rim + (1-share)*h.Value,
		Low:      rim + (1-min(1, share+(mostSquash-middleSquash)))*h.Low,
		High:     rim + (1-max(0, share-(middleSquash-leastSquash)))*h.High,
		Estimate: true,
	}
}

// SameSize tells whether two tyres have the same overall diameter and section
// height, so that one stands as high as the other under the same load.
func (t Tyre) SameSize(other Tyre) bool {
	return t.Diameter() == other.Diameter() && t.SectionHeight() == other.SectionHeight()
}
