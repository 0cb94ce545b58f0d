package draw

import "armscribe/canvas/draw/font"

// Append adds what o draws, seen through v with the lower left corner of its window
// at the place p: a drawing in millimetres on a picture in points.
func (l *List) Append(o *List, v View, p Point) {
	put := func(at Pos) Pos {
		s := v.Sheet(On(at.At))
		return Pos{At: Point{p.X + v.W/2 + s.X, p.Y + v.H/2 + s.Y}, By: at.By}
	}
	for i := range o.items {
		it := o.items[i]
		l.On(it.Layer)
		switch it.Kind {
		case KindPath:
			for _, c := range o.Corners(&it) {
				l.Add(put(c))
			}
			l.End(it.Role, it.Closed)
		case KindText:
			l.TextBytes(it.Role, put(it.Centre), it.Align, o.TextOf(&it))
		default:
			it.Centre, it.R = put(it.Centre), it.R*v.Zoom
			l.round(it)
		}
	}
}

// TextBox is the place that a text takes in the units of a list in points: from its
// baseline to the top of its capitals.
func (s *Styles) TextBox(l *List, it *Item, m Medium) Box {
	text := l.TextOf(it)
	w, _, _ := s.TextSize(it.Role, m, text)
	from := it.Centre.At.Add(it.Centre.By).Add(s.TextOrigin(it.Role, m, it.Align, text))
	return Box{from, from.Add(Point{w, font.CapHeight * s[it.Role].SizeOn(m)})}
}
