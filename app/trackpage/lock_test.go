package trackpage

import (
	"math"
	"strings"
	"testing"

	fynecanvas "fyne.io/fyne/v2/canvas"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/pages/pagetest"
	"armscribe/app/report"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// With spacers the demo's tyre comes too near to the footwell; the button goes to
// where the gap is the wished one, on the left side.
func TestLockSaysWhatIsInTheWay(t *testing.T) {
	s := openAt(t, frontDemo, spacersOnly, "Lock and circle")
	text := pagetest.Said(s.lock.view)
	for _, word := range []string{"Turning right: the wished gaps are kept up to", "footwell corner, right wheel, at travel −70 mm", "footwell corner, left wheel", "It touches at"} {
		if !strings.Contains(text, word) {
			t.Errorf("it does not say %q:\n%s", word, text)
		}
	}
	list := s.buttons("Show it at −70 / ")
	if len(list) != 2 {
		t.Fatalf("%d buttons", len(list))
	}
	j := s.Doc.Job()
	c := j.Variants[spacersOnly].Corner()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	body, _ := clearance.TyreOf(&j.Variants[spacersOnly])
	for i, b := range list {
		b.OnTapped()
		if s.Gone[0] != -70 || s.Gone[1] <= 0 || s.Gone[2] != 0 {
			t.Errorf("%s goes to %v", b.Text, s.Gone)
		}
		least := math.Inf(1)
		for k := range j.Obstacles {
			if j.Obstacles[k].On != job.OnBody {
				continue
			}
			o := clearance.ObstacleOf(&j.Obstacles[k], kinematics.Vec{})
			gaps, err := swept.GapAt(&m, swept.Case{Tyre: body, Obstacles: []swept.Obstacle{o}}, s.Gone[0], s.Gone[1])
			if err != nil {
				t.Fatal(err)
			}
			least = min(least, gaps[0]-o.Wish)
		}
		if math.Abs(least) > 0.01 {
			t.Errorf("button %d: the least gap there is the wished one and %+.3f mm", i, least)
		}
	}
	if !strings.Contains(headings(s.lock.view), "Beside the measured corner, turning left") {
		t.Error("nothing stands beside the measured corner")
	}
	s.Doc.Show(asMeasured)
	s.Show()
	if text := pagetest.Said(s.lock.view); !strings.Contains(text, "✓ Turning left: all 60.0 mm of rack, every wished gap kept.") || len(s.buttons("Show")) != 0 || strings.Contains(headings(s.lock.view), "Beside") {
		t.Errorf("as measured: %s", text)
	}
}

// The wheelbase is the job's, under a name for Undo; without it there is neither
// Ackermann error nor circle.
func TestWheelbaseIsTyped(t *testing.T) {
	s := openAt(t, frontDemo, longerArms, "Lock and circle")
	before := s.lock.now.Ways[1].AtEnd.Circle.WallToWall
	pagetest.Enter(s.lock.wheelbase.Field, "2860")
	if got := s.Doc.Job().Wheelbase; !got.Given || got.MM != 2860 || s.Doc.UndoName() != "type the wheelbase" {
		t.Errorf("the job holds %+v, Undo %q", got, s.Doc.UndoName())
	}
	if now := s.lock.now.Ways[1].AtEnd.Circle.WallToWall; now <= before+100 {
		t.Errorf("150 mm more wheelbase: circle %.0f, was %.0f", now, before)
	}
	pagetest.Enter(s.lock.wheelbase.Field, "long")
	if s.Doc.Job().Wheelbase.MM != 2860 || !s.lock.note.Visible() || !strings.Contains(s.lock.note.Text, "the wheelbase: ") {
		t.Errorf("a wheelbase in words: %q", s.lock.note.Text)
	}
	pagetest.Enter(s.lock.wheelbase.Field, "")
	if s.Doc.Job().Wheelbase.Given || s.lock.now.Ways[1].AtEnd.HasCircle {
		t.Error("a circle without wheelbase")
	}
	if texts := picturedTexts(s.lock.picture.Plate.Draw, 520, 680); !strings.Contains(texts, "the circle needs the wheelbase") {
		t.Errorf("the picture says %q", texts)
	}
}

func TestARearAxleDoesNotSteer(t *testing.T) {
	s := openAt(t, rearDemo, asMeasured, "Lock and circle")
	if !strings.Contains(s.lock.note.Text, "does not steer") || s.lock.rest.Visible() {
		t.Errorf("%q", s.lock.note.Text)
	}
	if texts := picturedTexts(s.lock.picture.Plate.Draw, 520, 680); texts != "no steering here" {
		t.Errorf("the picture says %q", texts)
	}
}

// picturedTexts are the texts of a picture.
func picturedTexts(compose func(l *draw.List, w, h float64), w, h float64) string {
	var l draw.List
	compose(&l, w, h)
	var texts []string
	for i := range l.Items() {
		if it := &l.Items()[i]; it.Kind == draw.KindText {
			texts = append(texts, string(l.TextOf(it)))
		}
	}
	return strings.Join(texts, "\n")
}

// The plan is to scale: the circles are as large beside each other as their
// diameters, the outer front tyre touches the large one, and turning right is the
// mirror image of turning left.
func TestPlanIsToScale(t *testing.T) {
	s := openAt(t, frontDemo, asMeasured, "Lock and circle")
	const w, h = 520, 450
	var found [2]struct {
		wall, kerb float64
		centre     draw.Point
		far        float64 // the farthest corner of a steered tyre from the centre
		tyres      []draw.Point
	}
	for way := range found {
		s.lock.way.SetSelected(report.LockWays[way])
		var l draw.List
		s.lock.picture.Plate.Draw(&l, w, h)
		f := &found[way]
		for i := range l.Items() {
			switch it := &l.Items()[i]; {
			case it.Kind == draw.KindCircle && it.Role == draw.CurveNow:
				f.wall, f.centre = it.R, it.Centre.At
			case it.Kind == draw.KindCircle && it.Role == draw.TieRodArc:
				f.kerb = it.R
			case it.Kind == draw.KindPath && it.Role == draw.Outline:
				for _, c := range l.Corners(it) {
					f.tyres = append(f.tyres, c.At)
				}
			}
		}
		for _, c := range f.tyres {
			f.far = max(f.far, c.Sub(f.centre).Len())
		}
		e := &s.lock.now.Ways[way].Touch
		if math.Abs(f.wall/f.kerb-e.Circle.WallToWall/e.Circle.KerbToKerb) > 1e-9 || len(f.tyres) != 8 {
			t.Errorf("%s: circles %.3f and %.3f points, %d corners of tyres", report.LockWays[way], f.wall, f.kerb, len(f.tyres))
		}
		mm := e.Circle.WallToWall / 2 / f.wall
		if off := (f.far - f.wall) * mm; math.Abs(off) > 40 { // the tyre's shoulders are round, the drawn one's square
			t.Errorf("%s: the outer tyre stands %.0f mm past the circle", report.LockWays[way], off)
		}
	}
	left, right := found[1], found[0]
	for _, p := range left.tyres {
		mirror := draw.Point{X: w - p.X, Y: p.Y}
		near := math.Inf(1)
		for _, q := range right.tyres {
			near = min(near, q.Sub(mirror).Len())
		}
		if near > 0.02 {
			t.Errorf("no mirror image of %v, the nearest is %.3f points off", p, near)
		}
	}
	for _, p := range left.tyres { // seen from above, nose down, the car's left is on the right
		if p.X >= left.centre.X {
			t.Errorf("turning left, a front tyre stands at %v, right of the turn's centre", p)
		}
	}
}

// headings are the texts of a view that are neither sentences nor notes.
func headings(v *pages.View) (list string) {
	for _, t := range pagetest.All[*fynecanvas.Text](v.Object()) {
		list += t.Text + "\n"
	}
	return list
}
