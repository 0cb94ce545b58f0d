package draw

// Sheet is a drawing on paper: what every file writer takes.
type Sheet struct {
	Title   string // of the document, for the file's own title field
	List    *List
	Styles  *Styles
	Palette *Palette
	View    View // places the world on the paper; its window is the paper
}

// PaperView returns the view of a paper of w by h mm that shows the world at
// 1 : scale with the world point centre in its middle.
func PaperView(w, h, scale float64, centre Point) View {
	return View{Centre: centre, Zoom: PerMM / scale, W: w * PerMM, H: h * PerMM}
}

// Millimetres returns p on the paper in mm from its top left corner, y down.
func (s *Sheet) Millimetres(p Pos) (x, y float64) {
	x, y = s.View.Place(p)
	return x / PerMM, y / PerMM
}
