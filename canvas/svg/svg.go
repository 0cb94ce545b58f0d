// Package svg writes a drawing as SVG 1.1 in true millimetres: width and height
// carry the unit and the viewBox has the same numbers, so one unit is one
// millimetre in any reader. Layers are groups with ids; arcs stay arcs.
package svg

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"

	"armscribe/canvas/draw"
	"armscribe/canvas/draw/font"
)

// writer writes with a sticky error: the first failure of w is kept by bufio and
// reported by Flush.
type writer struct {
	*bufio.Writer
	sheet *draw.Sheet
	num   []byte
}

// Write writes the sheet. It reports an error of w; a sheet without styles,
// palette or a view of positive size and zoom panics.
func Write(w io.Writer, s draw.Sheet) error {
	v := s.View
	if s.List == nil || s.Styles == nil || s.Palette == nil || !(v.W > 0) || !(v.H > 0) || !(v.Zoom > 0) {
		panic(fmt.Sprintf("svg: incomplete sheet, view %+v", v))
	}
	o := &writer{Writer: bufio.NewWriter(w), sheet: &s}
	wide, high := v.W/draw.PerMM, v.H/draw.PerMM
	o.text(`<?xml version="1.0" encoding="UTF-8"?>`, "\n")
	o.text(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1"`)
	o.text(` width="`).number(wide).text(`mm" height="`).number(high).text(`mm"`)
	o.text(` viewBox="0 0 `).number(wide).text(" ").number(high).text(`">`, "\n")
	if s.Title != "" {
		o.text("<title>").escaped([]byte(s.Title)).text("</title>\n")
	}
	if s.Palette[draw.Paper] != draw.Print()[draw.Paper] {
		o.text(`<rect width="100%" height="100%" fill="`).colour(draw.Paper).text(`"/>`, "\n")
	}
	for layer := range draw.Layer(draw.Layers) {
		o.layer(layer)
	}
	o.text("</svg>\n")
	if err := o.Flush(); err != nil {
		return fmt.Errorf("writing SVG: %w", err)
	}
	return nil
}

// layer writes the group of a layer, nothing if the layer is empty.
func (o *writer) layer(layer draw.Layer) {
	open := false
	items := o.sheet.List.Items()
	for i := range items {
		it := &items[i]
		if it.Layer != layer {
			continue
		}
		if !open {
			o.text(`<g id="`, layer.String(), `">`, "\n")
			open = true
		}
		o.item(it)
	}
	if open {
		o.text("</g>\n")
	}
}

func (o *writer) item(it *draw.Item) {
	switch it.Kind {
	case draw.KindPath:
		o.path(it)
	case draw.KindText:
		o.label(it)
	case draw.KindCircle:
		x, y := o.sheet.Millimetres(it.Centre)
		o.text(`<circle cx="`).number(x).text(`" cy="`).number(y)
		o.text(`" r="`).number(o.radius(it)).text(`"`)
		o.style(&o.sheet.Styles[it.Role], it.Closed || it.Kind == draw.KindCircle)
	case draw.KindArc:
		o.arc(it)
	}
}

func (o *writer) path(it *draw.Item) {
	o.text(`<path d="`)
	for i, c := range o.sheet.List.Corners(it) {
		x, y := o.sheet.Millimetres(c)
		switch i {
		case 0:
			o.text("M")
		default:
			o.text(" L")
		}
		o.number(x).text(",").number(y)
	}
	if it.Closed {
		o.text(" Z")
	}
	o.text(`"`)
	o.style(&o.sheet.Styles[it.Role], it.Closed || it.Kind == draw.KindCircle)
}

// radius returns the radius of a circle or arc in mm of paper.
func (o *writer) radius(it *draw.Item) float64 {
	return (it.R*o.sheet.View.Zoom + it.RBy) / draw.PerMM
}

// arc writes an arc in parts of at most a third of a turn, for the arc command
// leaves open which way to go between the ends of half a turn.
func (o *writer) arc(it *draw.Item) {
	r := o.radius(it)
	x, y := o.sheet.Millimetres(it.Centre)
	parts := max(1, int(math.Ceil(math.Abs(it.Sweep)/(2*math.Pi/3))))
	// Seen on paper with y down, anticlockwise is the sweep flag 0.
	flag := "0"
	if it.Sweep < 0 {
		flag = "1"
	}
	o.text(`<path d="M`)
	for i := range parts + 1 {
		s, c := math.Sincos(it.From + it.Sweep*float64(i)/float64(parts))
		if i > 0 {
			o.text(" A").number(r).text(",").number(r).text(" 0 0 ", flag, " ")
		}
		o.number(x + r*c).text(",").number(y - r*s)
	}
	o.text(`"`)
	o.style(&o.sheet.Styles[it.Role], it.Closed || it.Kind == draw.KindCircle)
}

func (o *writer) label(it *draw.Item) {
	st := &o.sheet.Styles[it.Role]
	text := o.sheet.List.TextOf(it)
	off := o.sheet.Styles.TextOrigin(it.Role, draw.OnPaper, it.Align, text)
	// The anchor stays the anchor, so that a reader with another typeface keeps
	// centred texts centred; only the height is worked out here.
	x, y := o.sheet.Millimetres(it.Centre.Off(0, off.Y))
	o.text(`<text x="`).number(x).text(`" y="`).number(y)
	o.text(`" font-family="Noto Sans, sans-serif" font-size="`).number(st.PaperSize).text(`"`)
	if st.Face == font.Bold {
		o.text(` font-weight="bold"`)
	}
	switch it.Align.Horizontal() {
	case draw.Centre:
		o.text(` text-anchor="middle"`)
	case draw.Right:
		o.text(` text-anchor="end"`)
	}
	o.text(` fill="`).colour(st.Stroke).text(`" class="`, st.Name, `" xml:space="preserve">`)
	o.escaped(text).text("</text>\n")
}

// style closes an element with the attributes of its style: attributes rather
// than a style sheet, which cutters' and drawing programs often leave out.
func (o *writer) style(st *draw.Style, shut bool) {
	if st.Fill == draw.None || !shut { // an open line has no inside
		o.text(` fill="none"`)
	} else {
		o.text(` fill="`).colour(st.Fill).text(`"`)
		if st.FillAlpha < 1 {
			o.text(` fill-opacity="`).number(st.FillAlpha).text(`"`)
		}
	}
	if st.Stroke != draw.None {
		o.text(` stroke="`).colour(st.Stroke).text(`" stroke-width="`).number(st.PaperPen).text(`"`)
		if p := st.DashOn(draw.OnPaper); p.N > 0 {
			o.text(` stroke-dasharray="`)
			for i, l := range p.L[:p.N] {
				if i > 0 {
					o.text(",")
				}
				o.number(l / draw.PerMM)
			}
			o.text(`"`)
		}
		o.text(` stroke-linejoin="round"`)
		if st.Round {
			o.text(` stroke-linecap="round"`)
		}
	}
	o.text(` class="`, st.Name, `"/>`, "\n")
}

func (o *writer) text(parts ...string) *writer {
	for _, p := range parts {
		o.WriteString(p)
	}
	return o
}

// decimals is the number of digits after the point: a tenth of a thousandth of a
// millimetre, below any plotter, so that long chains of points do not drift.
const decimals = 4

// number writes v without trailing zeros and never as -0.
func (o *writer) number(v float64) *writer {
	k := math.Pow10(decimals)
	v = math.Round(v*k)/k + 0 // adding 0 turns -0 into 0
	o.num = strconv.AppendFloat(o.num[:0], v, 'f', -1, 64)
	o.Write(o.num)
	return o
}

func (o *writer) colour(t draw.Token) *writer {
	c := o.sheet.Palette[t]
	fmt.Fprintf(o, "#%02X%02X%02X", c.R, c.G, c.B)
	return o
}

// escaped writes s with the marks of XML escaped; characters XML forbids become
// U+FFFD.
func (o *writer) escaped(s []byte) *writer {
	// An error of the writer is kept by bufio and comes back from Flush.
	_ = xml.EscapeText(o.Writer, s)
	return o
}
