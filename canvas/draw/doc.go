// Package draw describes a drawing once for every output: screen, PNG, SVG and
// the other papers. It knows no toolkit and paints nothing itself.
//
// A List holds lines, circles, arcs and texts in millimetres of the world, x to
// the right and y UP. What a thing looks like is its Role; a Styles table turns
// the role into pen, dashes and colour token, a Palette the token into a colour.
//
// Two lengths exist. Millimetres belong to the world and grow with the zoom.
// Points (1/96 in, one pixel of a plain screen) belong to the sheet: the size
// of a handle, the distance of a label from what it names. A Pos is a place in
// the world plus an offset in points, so marks keep their size at any zoom.
//
// Three spaces exist, and View leads between them:
//
//	world   mm, y up                       Point
//	sheet   points from the middle, y up   Point, used by the Placer
//	screen  points from the top left, y down
//
// View holds the project's only y flip.
package draw
