package panels

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// roomBench is the owner of a panel on a demo with obstacles of the test.
type roomBench struct {
	*bench
	panel  *Room
	win    fyne.Window
	picked []int
	drafts []clearance.Draft
	roll   float64
	shown  bool
	live   clearance.Live
}

func newRoomBench(t *testing.T, mode look.Mode, h float32, obstacles ...job.Obstacle) *roomBench {
	t.Helper()
	b := &roomBench{bench: newBench(t, "gravel-estate"), panel: NewRoom()}
	if err := b.doc.EditJob("prepare", "", func(j *job.Job) { j.Obstacles, j.Brake, j.Housings = obstacles, job.Brake{}, job.Housings{} }); err != nil {
		t.Fatal(err)
	}
	b.win = show(t, b.panel, mode, 256, h)
	p := b.panel
	p.OnEdit = func(name string, change func(j *job.Job)) error {
		b.names = append(b.names, name)
		err := b.doc.EditJob(name, "", change)
		b.fill()
		return err
	}
	p.OnPicked = func(i int) { b.picked = append(b.picked, i) }
	p.OnAdd = func(d clearance.Draft) { b.drafts = append(b.drafts, d) }
	p.OnRoll = func(rad float64) { b.roll = rad; b.fill() }
	p.OnShow = func(on bool) { b.shown = on; b.fill() }
	b.fill()
	return b
}

// fill answers as the window does.
func (b *roomBench) fill() {
	b.t.Helper()
	j, c := b.doc.Job(), b.doc.Variant().Corner()
	in := RoomInput{Job: j, Unit: b.unit, Shown: b.shown, Roll: b.roll, By: clearance.Carried(j, b.doc.Current(), c.Hub)}
	q, err := clearance.QueryOf(j, b.doc.Current(), &c, b.roll)
	if err != nil {
		in.Problem = err.Error()
	} else if in.Answers, err = b.live.Look(&q, clearance.Gaps); err != nil {
		b.t.Fatal(err)
	}
	m, err := kinematics.New(&c)
	if err != nil {
		b.t.Fatal(err)
	}
	in.Rim, in.RimErr = clearance.RimOf(j, b.doc.Current(), &m)
	b.panel.SetInput(in)
}

func length(mm float64) units.Length { return units.Length{MM: mm} }

func someObstacles() []job.Obstacle {
	at := func(x, y, z float64) job.Position { return job.At(kinematics.Vec{X: x, Y: y, Z: z}) }
	return []job.Obstacle{
		{Name: "inner wing", Shape: job.PointShape, At: at(-121, 552, 608), Gap: job.Given(length(13))},
		{Name: "rail", Shape: job.LineShape, At: at(-310, 531, 247), To: at(290, 463, 262), Diameter: length(38)},
		{Name: "arch lip", Shape: job.CircleShape, At: at(7, 985, 318), Facing: job.Direction{Y: 1}, Radius: length(347)},
		{Name: "caliper", Shape: job.PointShape, On: job.OnUpright, At: at(-93, 731, 361), Diameter: length(52)},
		{Name: "bracket", Shape: job.PointShape, At: at(-40, 760, 420)},
	}
}

// typeInto types a text into a field of the panel and presses Enter.
func typeInto(t *testing.T, f *field, text string) {
	t.Helper()
	f.FocusGained()
	f.SetText(text)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func TestEveryObstacleSaysHowItStandsAndWhere(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	for i, l := range b.panel.lines {
		g := &b.panel.in.Answers.Gaps[i]
		sign := "✕ "
		if g.Verdict() == clearance.Kept {
			sign = "✓ "
		}
		if l.name.text != sign+b.doc.Job().Obstacles[i].Name || !strings.Contains(l.words.text, g.Verdict().String()) {
			t.Errorf("%q, %q, %q for %+v", l.name.text, l.words.text, l.where.text, g.Answer)
		}
	}
	if got := b.panel.lines[4].words.text; !strings.Contains(got, "INSIDE TYRE OR RIM AT REST") {
		t.Errorf("a bracket inside the tyre: %q", got)
	}
	if got := b.panel.lines[0].where.text; !strings.Contains(got, "at ") || !strings.Contains(got, "rack ") {
		t.Errorf("where %q", got)
	}
	if got := b.panel.state.text; !strings.Contains(got, "more not kept") {
		t.Errorf("summary %q", got)
	}
}

func TestAClickPicksAndOpensTheFields(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	w := b.win
	test.Tap(b.panel.lines[2])
	if len(b.picked) != 1 || b.picked[0] != 2 || b.panel.Selected() != 2 || b.panel.one.radius.field.Text != "347" {
		t.Fatalf("picked %v, selected %d, radius %q", b.picked, b.panel.Selected(), b.panel.one.radius.field.Text)
	}
	w.Canvas().Focus(b.panel.lines[2])
	b.panel.lines[2].TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if w.Canvas().Focused() != fyne.Focusable(b.panel.lines[1]) || len(b.picked) != 1 {
		t.Fatalf("an arrow leads to %T and picks", w.Canvas().Focused())
	}
	b.panel.lines[1].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(b.picked) != 2 || b.picked[1] != 1 || b.panel.one.to.fields[0].Text != "290" {
		t.Fatalf("Enter picked %v, the line's other end is at x %q", b.picked, b.panel.one.to.fields[0].Text)
	}
}

// A lip is told by centre and angles, or by three places on it, and stands where it
// stood.
func TestAnArcIsToldInEitherWay(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	b.panel.Select(1)
	o := func() job.Obstacle { return b.doc.Job().Obstacles[1] }
	one := &b.panel.one
	one.shape.list.SetSelected("arc")
	if got := o(); !got.Centred() || got.Facing != (job.Direction{Y: 1}) || got.Angles != (job.Angles{To: 180}) {
		t.Fatalf("as an arc %+v", got)
	}
	typeInto(t, one.radius.field, "361")
	typeInto(t, one.from.field, "12 1/2")
	typeInto(t, one.until.field, "171")
	typeInto(t, one.at.fields[1], "951")
	was := o()
	if was.Angles != (job.Angles{From: 12.5, To: 171}) || was.Radius.MM != 361 || one.from.field.Text != "12.5" {
		t.Fatalf("%+v, %q", was, one.from.field.Text)
	}
	one.told.list.SetSelected("three places")
	got := o()
	top := got.Via.Vec()
	if got.Centred() || math.Abs(got.At.X.MM-(was.At.X.MM+361*math.Cos(12.5*math.Pi/180))) > 0.06 || math.Hypot(top.X-was.At.X.MM, top.Z-was.At.Z.MM)-361 > 0.1 || top.Y != 951 {
		t.Fatalf("by three places %+v", got)
	}
	typeInto(t, one.via.fields[2], units.Trimmed(top.Z+7, 1))
	if now := o().Via.Z.MM; math.Abs(now-top.Z-7) > 0.06 {
		t.Errorf("the place between is at %g", now)
	}
	b.doc.Undo()
	one.told.list.SetSelected("centre and angles")
	if got := o(); !got.Centred() || math.Abs(got.Radius.MM-361) > 0.2 || math.Abs(float64(got.Angles.From)-12.5) > 0.1 || math.Abs(float64(got.Angles.To)-171) > 0.1 {
		t.Errorf("by its centre again %+v", got)
	}
	one.shape.list.SetSelected("circle")
	if got := o(); got.Shape != job.CircleShape || math.Abs(got.Radius.MM-361) > 0.2 || got.Angles != (job.Angles{}) {
		t.Errorf("as a circle %+v", got)
	}
}

func TestFieldsEditTheSelectedObstacle(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	b.panel.Select(1)
	o := func() job.Obstacle { return b.doc.Job().Obstacles[1] }
	one := &b.panel.one
	typeInto(t, one.name.field, "chassis rail")
	typeInto(t, one.at.fields[1], "52.5 cm")
	typeInto(t, one.to.fields[2], "271")
	typeInto(t, one.diameter.field, "1 1/2 in")
	typeInto(t, one.gap.field, "17")
	if got := o(); got.Name != "chassis rail" || got.At.Y.MM != 525 || got.At.Y.Typed != "52.5 cm" || got.To.Z.MM != 271 || got.Diameter.MM != 38.1 || got.Gap.MM != 17 {
		t.Fatalf("%+v", got)
	}
	typeInto(t, one.gap.field, "")
	if o().Gap.Given || one.gap.under.text == "" {
		t.Errorf("an empty gap leaves %+v", o().Gap)
	}
	if last := b.names[len(b.names)-1]; last != "type chassis rail gap" || b.names[0] != "type rail name" {
		t.Errorf("undo names %q", b.names)
	}
	one.shape.list.SetSelected("circle")
	if got := o(); got.Shape != job.CircleShape || got.Facing != (job.Direction{Y: 1}) || got.At.Y.Typed != "52.5 cm" {
		t.Fatalf("as a circle %+v", got)
	}
	typeInto(t, one.facing.fields[2], "0.5")
	typeInto(t, one.radius.field, "88")
	if got := o(); got.Facing != (job.Direction{Y: 1, Z: 0.5}) || got.Radius.MM != 88 {
		t.Fatalf("%+v", got)
	}
	// On the upright of a variant whose hub stands 32 mm outboard it is seen where
	// it was: it was measured 32 mm inboard of there.
	one.on.list.SetSelected("upright")
	if got := o(); got.On != job.OnUpright || got.At.Y.MM != 493 || !strings.Contains(one.moved.text, "32.0 mm outboard") {
		t.Fatalf("%+v, %q", got, one.moved.text)
	}
	for range b.names {
		b.doc.Undo()
	}
	b.fill()
	if got := o(); got != someObstacles()[1] {
		t.Errorf("after undoing all: %+v", got)
	}
}

func TestWrongInputSaysSoInPlaceAndChangesNothing(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	b.panel.Select(2)
	was := b.doc.Job().Obstacles[2]
	one := &b.panel.one
	for _, c := range []struct {
		row  *valueRow
		text string
		want string
	}{
		{one.gap, "-4", "0 mm and 500 mm"}, {one.gap, "5,2", "comma"}, {one.radius, "0", "above zero"}, {one.radius, "-3", "above zero"},
		{one.diameter, "900", "500"}, {one.name, "  ", "needs a name"}, {one.name, "rail", "nother obstacle"},
		{b.panel.roll, "-2", "without a sign"}, {b.panel.roll, "44", "30°"},
	} {
		typeInto(t, c.row.field, c.text)
		got := c.row.under.text
		if !strings.HasPrefix(got, "✕ ") || !strings.Contains(got, c.want) {
			t.Errorf("%q into %s: %q, want something of %q", c.text, c.row.field.name, got, c.want)
		}
		c.row.field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	}
	typeInto(t, one.facing.fields[1], "0")
	if got := one.facing.under.text; !strings.Contains(got, "eads nowhere") {
		t.Errorf("a facing that leads nowhere: %q", got)
	}
	if got := b.doc.Job().Obstacles[2]; got != was {
		t.Errorf("refused input left %+v", got)
	}
}

func TestBackToRestIsOfferedAwayFromIt(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	rests := 0
	b.panel.OnRest = func() { rests++ }
	in := b.panel.in
	for _, at := range []bool{true, false} {
		in.AtRest = at
		b.panel.SetInput(in)
		test.Tap(b.panel.rest)
		if b.panel.rest.Disabled() != at || (rests == 0) != at {
			t.Errorf("at rest %v: disabled %v, asked %d times", at, b.panel.rest.Disabled(), rests)
		}
	}
}

func TestDuplicateRemoveAndAdd(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	b.panel.Select(3)
	test.Tap(b.panel.deeds.double)
	list := b.doc.Job().Obstacles
	if len(list) != 6 || list[5].Name != "caliper 2" || list[5].At.Z.MM != list[3].At.Z.MM+20 || b.panel.Selected() != 5 || b.doc.UndoName() != "copy obstacle caliper" {
		t.Fatalf("%d obstacles, selected %d, undo %q", len(list), b.panel.Selected(), b.doc.UndoName())
	}
	b.panel.Select(1)
	test.Tap(b.panel.deeds.remove)
	if list = b.doc.Job().Obstacles; len(list) != 5 || list[1].Name != "arch lip" || b.panel.Selected() != -1 || b.doc.UndoName() != "remove obstacle rail" {
		t.Fatalf("%d obstacles, selected %d, undo %q", len(list), b.panel.Selected(), b.doc.UndoName())
	}
	if !b.panel.deeds.remove.Disabled() || !b.panel.deeds.double.Disabled() {
		t.Error("with nothing selected there is something to remove")
	}
	for _, i := range b.panel.DraftItems() {
		if i.Action != nil {
			i.Action()
		}
	}
	if len(b.drafts) != 9 || b.drafts[2].Shape != job.ArcShape || b.drafts[3].Facing != (job.Direction{Z: 1}) || !b.drafts[3].Drawn || b.drafts[6].Drawn {
		t.Errorf("drafts %+v", b.drafts)
	}
}

func TestWithoutObstaclesOrTyreThePanelSaysWhatToDo(t *testing.T) {
	b := newRoomBench(t, look.Light, 900)
	if got := b.panel.state.text; !strings.Contains(got, "Add what the wheel must not touch") {
		t.Errorf("without obstacles: %q", got)
	}
	if got := b.panel.rim.joints[0].text; !strings.Contains(got, "mm, wished 5: kept") {
		t.Errorf("the rim without obstacles: %q", got)
	}
	in := b.panel.in
	in.Answers, in.Problem = nil, "the tyre's size is not known; give a size code"
	b.panel.SetInput(in)
	if got := b.panel.state.text; got != "✕ The tyre's size is not known; give a size code." {
		t.Errorf("without a tyre: %q", got)
	}
}

func TestTheRimFollowsHousingsBrakeAndOffset(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	rim := &b.panel.rim
	was := rim.joints[0].text
	if rim.housing[0].field.Text != "" || !strings.Contains(rim.housing[0].under.text, "assumed") {
		t.Errorf("an assumed housing is shown as %q, %q", rim.housing[0].field.Text, rim.housing[0].under.text)
	}
	if got := rim.joints[0].name.text; got != "Outer tie-rod end" {
		t.Errorf("named %q", got)
	}
	typeInto(t, rim.housing[0].field, "41")
	if b.doc.Job().Housings.OuterEnd.MM != 41 || rim.joints[0].text == was || strings.Contains(rim.housing[0].under.text, "assumed until") {
		t.Errorf("housings %v, %q, %q", b.doc.Job().Housings, rim.joints[0].text, rim.housing[0].under.text)
	}
	typeInto(t, rim.housing[0].field, "153")
	if got := rim.joints[0].text; !strings.HasPrefix(got, "✕ ") || !strings.HasSuffix(got, "mm deep: TOUCHES rim or tyre") {
		t.Errorf("a housing larger than its room: %q", got)
	}
	typeInto(t, rim.housing[1].field, "900")
	if got := rim.housing[1].under.text; !strings.Contains(got, "200 mm") || b.doc.Job().Housings.LowerBall.Given {
		t.Errorf("a housing of 900 mm: %q", got)
	}
	if got := rim.brake.text; !strings.Contains(got, "no size stated") {
		t.Errorf("no brake: %q", got)
	}
	change := func(c func(j *job.Job)) {
		t.Helper()
		if err := b.panel.OnEdit("change", c); err != nil {
			t.Fatal(err)
		}
	}
	change(func(j *job.Job) { j.Brake.Diameter = job.Given(length(409)) })
	if got := rim.brake.text; !strings.HasPrefix(got, "✕") || !strings.Contains(got, "does not pass through the rim") {
		t.Errorf("a brake too large: %q", got)
	}
	change(func(j *job.Job) {
		j.Axle, j.Rack, j.Steering, j.Targets = job.Rear, job.Rack{}, job.Steering{}, job.Targets{}
	})
	if got := rim.joints[0].name.text; got != "Toe link's outer end" {
		t.Errorf("at a rear axle named %q", got)
	}
	change(func(j *job.Job) { j.Variants[2].Wheel.Offset = length(-160) })
	if got := rim.problem.text; !strings.HasPrefix(got, "✕") || !strings.Contains(got, "outside the rim") {
		t.Errorf("an offset outside the rim: %q", got)
	}
}

func TestARemarkStaysUntilAPlaceIsTyped(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	one := &b.panel.one
	b.panel.Select(0)
	b.panel.Remark("Drawn, not measured.")
	typeInto(t, one.gap.field, "14")
	if one.remark.text != "Drawn, not measured." {
		t.Errorf("after another gap: %q", one.remark.text)
	}
	typeInto(t, one.at.fields[0], "-117")
	if one.remark.text != "" {
		t.Errorf("after x was typed: %q", one.remark.text)
	}
	b.panel.Remark("Drawn, not measured.")
	b.panel.Select(1)
	if one.remark.text != "" {
		t.Errorf("at another obstacle: %q", one.remark.text)
	}
}

func TestWhatIsTypedStaysWhileAHandMoves(t *testing.T) {
	b := newRoomBench(t, look.Light, 900, someObstacles()...)
	b.panel.Select(0)
	f := b.panel.one.at.fields[1]
	f.FocusGained()
	f.SetText("573.5")
	in := b.panel.in
	in.Moving = true
	b.panel.SetInput(in)
	in.Moving = false
	b.panel.SetInput(in)
	if f.Text != "573.5" {
		t.Errorf("the field holds %q", f.Text)
	}
}

func TestTheRoomPanelLooksRight(t *testing.T) {
	for name, mode := range modes {
		b := newRoomBench(t, mode, 1500, someObstacles()...)
		b.panel.Select(2)
		picture(t, "room-"+name, b.win)
		for _, o := range b.panel.content.Objects {
			if o.Visible() && o.Position().X+o.Size().Width > 256 {
				t.Errorf("%T reaches to %g of 256", o, o.Position().X+o.Size().Width)
			}
		}
	}
}
