package bumppage

import (
	"armscribe/app/units"
	"armscribe/canvas/plates"
	"armscribe/kinematics/bumpsteer"
)

// stations are n+1 even places of a range, with rest among them.
func stations(from, end float64, n int) []float64 {
	list := make([]float64, 0, n+2)
	for i := range n + 1 {
		v := from + (end-from)*float64(i)/float64(n)
		if k := len(list); k > 0 && list[k-1] < 0 && v > 0 {
			list = append(list, 0)
		}
		list = append(list, v)
	}
	return list
}

// curvePlaces is how many stretches a curve is drawn with.
const curvePlaces = 60

// travelPicture is an empty chart over the job's travel.
func (p *Page) travelPicture() plates.Toe {
	return plates.Toe{Inch: p.setup.Unit == units.Inch, From: -p.setup.Droop, To: p.setup.Bump}
}

// present is the toe curve of the corner shown; empty where it does not reach.
func (p *Page) present() bumpsteer.Curve {
	c, err := bumpsteer.ToeCurve(p.setup.Corner, bumpsteer.OverTravel, stations(-p.setup.Droop, p.setup.Bump, curvePlaces))
	if err != nil {
		return bumpsteer.Curve{} // the section says why
	}
	return c
}
