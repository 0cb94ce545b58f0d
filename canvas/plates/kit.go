// Package plates draws the pictures that stand beside an answer: a corner over the
// one before, a wheel's section, lock and turning circle, forces as bars, the tilt
// of joints, toe curves. Each is plain data with a Draw for any size in points, the
// origin in the lower left corner, so that a window, a file and a paper show the
// same. Words and figures come in as texts.
package plates

import (
	"math"
	"strings"

	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
)

var styles = draw.HouseStyles()

const (
	degree = 180 / math.Pi
	inch   = 25.4
)

// Room on every plate, points.
const (
	edge   = 8.0  // kept free at the edges
	row    = 16.0 // from one line of words to the next
	rise   = 5.0  // of a last line over the lower edge
	gap    = 10.0 // between words on one line
	sample = 26.0 // of a line in a legend
)

// Note is what a plate says of itself at its edge.
type Note struct {
	Words string
	Stale bool // it belongs to an earlier input, and says so instead
}

func (n *Note) text() (role draw.Role, words string) {
	if n.Stale {
		return draw.TextBold, "OF THE EARLIER INPUT"
	}
	return draw.TextQuiet, n.Words
}

// Plate is a picture for any size in points.
type Plate interface {
	Draw(l *draw.List, w, h float64)
}

// Words say why there is nothing to draw.
type Words string

// Draw writes the words in the middle.
func (s Words) Draw(l *draw.List, w, h float64) {
	centred(l, draw.Box{Max: draw.Point{X: w, Y: h}}, string(s))
}

// centred writes quiet words in the middle of a box.
func centred(l *draw.List, b draw.Box, words string) {
	l.On(draw.LayerNotes)
	lines := wrap(draw.TextQuiet, words, b.W()-2*edge)
	for i, line := range lines {
		l.Text(draw.TextQuiet, draw.On(b.Mid()).Off(0, row*(float64(len(lines)-1)/2-float64(i))), draw.Centre, line)
	}
}

func width(role draw.Role, text string) float64 {
	return styles[role].Face.Width(text) * styles[role].SizeOn(draw.OnScreen)
}

// first is the first of some texts that fits in a room, or the last of them.
func first(role draw.Role, room float64, texts ...string) string {
	for _, t := range texts {
		if width(role, t) <= room {
			return t
		}
	}
	return cut(role, texts[len(texts)-1], room)
}

// cut shortens a text to a room.
func cut(role draw.Role, text string, room float64) string {
	if width(role, text) <= room {
		return text
	}
	for r := []rune(text); len(r) > 1; {
		r = r[:len(r)-1]
		if short := strings.TrimRight(string(r), " ") + "…"; width(role, short) <= room {
			return short
		}
	}
	return "…"
}

// wrap breaks a text into lines that fit in a room; a word too long for it is cut.
func wrap(role draw.Role, text string, room float64) (lines []string) {
	for _, word := range strings.Fields(text) {
		if n := len(lines); n > 0 {
			if next := lines[n-1] + " " + word; width(role, next) <= room {
				lines[n-1] = next
				continue
			}
		}
		lines = append(lines, cut(role, word, room))
	}
	return lines
}

// words writes a text down from the top of a box, in as many lines as it needs, and
// takes them from the box.
func words(l *draw.List, role draw.Role, box *draw.Box, text string) {
	l.On(draw.LayerNotes)
	for _, line := range wrap(role, text, box.W()-2*edge) {
		box.Max.Y -= row
		l.Text(role, draw.At(box.Min.X+edge, box.Max.Y), draw.Left, line)
	}
}

// foot writes words at the left of a box's lower edge and the note at its right, and
// takes the lines from the box. Where one line does not hold both, the note is left out,
// but for that it is stale.
func foot(l *draw.List, box *draw.Box, role draw.Role, left string, n *Note) {
	l.On(draw.LayerNotes)
	room := box.W() - 2*edge
	quiet, right := n.text()
	y := box.Min.Y + rise
	left, right = cut(role, left, room), cut(quiet, right, room)
	l.Text(role, draw.At(box.Min.X+edge, y), draw.Left, left)
	switch {
	case left == "" || right == "" || width(role, left)+gap+width(quiet, right) <= room:
	case n.Stale:
		y += row
	default:
		right = ""
	}
	l.Text(quiet, draw.At(box.Max.X-edge, y), draw.Right, right)
	if left+right != "" {
		box.Min.Y = y + row - rise
	}
}

// roomy tells whether a chart has room for its curves, and says so if not.
func roomy(l *draw.List, c *chart.Chart) bool {
	const least = 12.0
	if p := c.Plot(); p.W() >= least && p.H() >= least {
		return true
	}
	centred(l, c.Box, tooLittle)
	return false
}

// reach is from where to where values go, with nought among them.
type reach struct{ lo, hi float64 }

func (r *reach) see(v float64) { r.lo, r.hi = min(r.lo, v), max(r.hi, v) }

const tooLittle = "too little room; make the window larger"

// split cuts a box in two side by side, or one over the other where it is narrow.
func split(b draw.Box) (one, other draw.Box) {
	const flat = 1.2
	one, other = b, b
	if mid := b.Mid(); b.W() > flat*b.H() {
		one.Max.X, other.Min.X = mid.X, mid.X
	} else {
		one.Min.Y, other.Max.Y = mid.Y, mid.Y
	}
	return one, other
}

// dimension draws the way between two places at a level: extension lines, a line drop
// points under it, negative over it, and its words over that line, within a width. Lines
// are broken there. Of ways too short to see it writes the words alone.
func dimension(l *draw.List, w float64, line, arrow, text draw.Role, from, to, y, drop float64, words string) {
	const least, tight, over = 1.0, 26.0, 5.0
	a, b := draw.Point{X: min(from, to), Y: y}, draw.Point{X: max(from, to), Y: y}
	if b.X-a.X >= least {
		l.On(draw.LayerDimensions)
		l.DimensionLine(line, arrow, a, b, drop, tight)
	}
	half := width(text, words) / 2
	at := draw.At(max(edge+half, min((a.X+b.X)/2, w-edge-half)), y-drop+over)
	l.On(draw.LayerNotes)
	it := draw.Box{Min: at.At.Sub(draw.Point{X: half + 2, Y: 2}), Max: at.At.Add(draw.Point{X: half + 2, Y: 11})}
	l.Rect(draw.Knockout, it)
	l.Text(text, at, draw.Centre, words)
}

// names finds places for words beside what they name, off all that is drawn.
type names struct {
	l      *draw.List
	placer draw.Placer
}

func newNames(l *draw.List, w, h float64) *names {
	n := &names{l: l}
	v := draw.View{Centre: draw.Point{X: w / 2, Y: h / 2}, Zoom: 1, W: w, H: h}
	n.placer.Reset(v, styles, draw.OnScreen)
	n.placer.Within(v.Window().Grow(-edge / 2))
	n.placer.Avoid(l)
	return n
}

// put writes words clear points from a place, and tells whether there was room.
func (n *names) put(role draw.Role, at draw.Point, clear float64, words string, prefer ...draw.Direction) bool {
	p, ok := n.placer.Place(&draw.Label{Role: role, Text: []byte(words), Anchor: draw.On(at), Clear: clear, Prefer: prefer})
	if !ok {
		return false
	}
	n.l.On(draw.LayerNotes)
	if p.Leader {
		n.l.LineBy(draw.Leader, p.From, p.To)
	}
	n.l.Text(role, p.Pos, draw.Left, words)
	return true
}

// key is a line of a legend: a sample of what it names, and its words.
func key(l *draw.List, line, text draw.Role, x, y float64, words string) {
	const lift = 4
	l.Line(line, draw.Point{X: x, Y: y + lift}, draw.Point{X: x + sample, Y: y + lift})
	l.Text(text, draw.At(x+sample+6, y), draw.Left, words)
}

// keyWidth is how wide a line of a legend is.
func keyWidth(text draw.Role, words string) float64 { return sample + 6 + width(text, words) }

// hatch draws strokes across what is laid between two places.
func hatch(l *draw.List, n int, put func(across, along float64) draw.Point) {
	for i := range n {
		l.Line(draw.OutlineInner, put(0, float64(i)/float64(n)), put(1, float64(i+1)/float64(n)))
	}
}
