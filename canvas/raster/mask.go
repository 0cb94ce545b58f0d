package raster

import (
	"image"
	"image/color"
	"math"

	"armscribe/canvas/draw"
)

// mask gathers the coverage of one stroke, 0 to 255 a pixel. A pixel keeps the
// largest coverage any part gives it, which is that of the part nearest to it.
type mask struct {
	w, h    int
	cov     []uint8
	touched []int32 // pixels with coverage, in the order they got it
}

func (m *mask) resize(w, h int) {
	m.w, m.h = w, h
	m.cov = make([]uint8, w*h)
	m.touched = m.touched[:0]
}

// flush blends colour c through the mask onto img and empties the mask.
func (m *mask) flush(img *image.RGBA, c color.NRGBA) {
	for _, i := range m.touched {
		a := uint32(m.cov[i])
		m.cov[i] = 0
		d := img.Pix[4*i : 4*i+3 : 4*i+3]
		if a == 255 {
			d[0], d[1], d[2] = c.R, c.G, c.B
			continue
		}
		d[0] = mix(d[0], c.R, a)
		d[1] = mix(d[1], c.G, a)
		d[2] = mix(d[2], c.B, a)
	}
	m.touched = m.touched[:0]
}

// mix returns the colour a/255 of the way from d to s, rounded.
func mix(d, s uint8, a uint32) uint8 {
	v := uint32(d)*(255-a) + uint32(s)*a + 127
	return uint8((v + 1 + v>>8) >> 8) // v/255 for v < 65535
}

// cut is a straight end of a stroke: nothing is painted more than half a pixel
// behind p, seen along u.
type cut struct{ p, u draw.Point }

// segment is a piece of a stroke with round ends; a and b may cut it.
type segment struct {
	from, to   draw.Point
	half       float64 // of the pen
	start, end bool    // the segment's own ends are straight, not round
	cuts       [2]*cut
}

// add gives every pixel the coverage of s.
//
// Across a line of half width h the coverage at distance d is h + 1/2 - d, at
// most 1 and, of a line thinner than a pixel, at most its width: summed over a
// cross-section this is the width.
func (m *mask) add(s *segment) {
	dx, dy := s.to.X-s.from.X, s.to.Y-s.from.Y
	length := math.Hypot(dx, dy)
	ux, uy := 1.0, 0.0
	if length > 0 {
		ux, uy = dx/length, dy/length
	}
	reach := s.half + 0.5
	y0 := max(0, int(math.Floor(min(s.from.Y, s.to.Y)-reach)))
	y1 := min(m.h-1, int(math.Ceil(max(s.from.Y, s.to.Y)+reach)))
	peak := min(1, 2*s.half) * 255
	plain := s.cuts[0] == nil && s.cuts[1] == nil
	for y := y0; y <= y1; y++ {
		ry := float64(y) + 0.5 - s.from.Y
		x0, x1 := rowSpan(ry, ux, uy, length, reach)
		c0 := max(0, int(math.Floor(x0+s.from.X)))
		c1 := min(m.w-1, int(math.Ceil(x1+s.from.X)))
		if c0 > c1 {
			continue
		}
		rx := float64(c0) + 0.5 - s.from.X
		t := rx*ux + ry*uy
		d := ry*ux - rx*uy
		at := y*m.w + c0
		row := m.cov[at : y*m.w+c1+1]
		for k := range row {
			dist := math.Abs(d)
			switch {
			case t < 0 && !s.start:
				dist = math.Sqrt(t*t + d*d)
			case t > length && !s.end:
				dist = math.Sqrt((t-length)*(t-length) + d*d)
			}
			t += ux
			d -= uy
			c := (reach - dist) * 255
			if c <= 0 {
				continue
			}
			c = min(c, peak)
			if !plain {
				c *= s.kept(float64(c0+k)+0.5, float64(y)+0.5)
			}
			if v := uint8(c + 0.5); v > row[k] {
				if row[k] == 0 {
					m.touched = append(m.touched, int32(at+k))
				}
				row[k] = v
			}
		}
	}
}

// rowSpan returns where a row at height ry above the start of a segment along
// (ux, uy) may be covered: within reach of the line and of its length.
func rowSpan(ry, ux, uy, length, reach float64) (x0, x1 float64) {
	const flat = 1e-9 // below this the row runs along the strip and is bounded by its length alone
	x0, x1 = math.Inf(-1), math.Inf(1)
	if math.Abs(uy) > flat {
		a, b := (ry*ux-reach)/uy, (ry*ux+reach)/uy
		x0, x1 = min(a, b), max(a, b)
	}
	if math.Abs(ux) > flat {
		a, b := (-reach-ry*uy)/ux, (length+reach-ry*uy)/ux
		x0, x1 = max(x0, min(a, b)), min(x1, max(a, b))
	}
	return x0, x1
}

// kept returns which part of the pixel about x, y lies before both cuts.
func (s *segment) kept(x, y float64) float64 {
	k := 1.0
	for _, c := range s.cuts {
		if c != nil {
			t := (x-c.p.X)*c.u.X + (y-c.p.Y)*c.u.Y + 0.5
			k += min(1, max(0, t)) - 1
		}
	}
	return max(0, k)
}
