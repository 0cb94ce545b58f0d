package pages

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/canvas/plates"
)

func useLook(t testing.TB) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Mode: look.Light})
}

func TestANumberFollowsTheUnitWhileItHoldsOneValue(t *testing.T) {
	useLook(t)
	n := NewLength("travel", 70)
	n.Set(63.5, units.Millimetre)
	n.Show(units.Inch)
	if v, err := n.Value(); n.Text != "2 1/2" || err != nil || v != 63.5 {
		t.Errorf("63.5 mm in inches is %q, %g (%v)", n.Text, v, err)
	}
	n.SetText("2 ½ or so")
	n.Show(units.Millimetre)
	if n.Text != "2 ½ or so" {
		t.Errorf("what was typed became %q", n.Text)
	}
	if _, err := n.Value(); err == nil || !strings.Contains(err.Error(), "travel") {
		t.Errorf("the error does not name its field: %v", err)
	}
	n.SetText("  ")
	if _, err := n.Value(); !errors.Is(err, ErrBlank) {
		t.Errorf("a blank field: %v", err)
	}
}

func TestAFieldHandsInOnLeavingAndEscPutsBack(t *testing.T) {
	useLook(t)
	var got []string
	f := NewField(60)
	f.Done = func(text string) { got = append(got, text) }
	f.Hold("17")
	f.FocusGained()
	f.FocusLost()
	if len(got) != 0 {
		t.Errorf("a field that nobody touched handed in %q", got)
	}
	f.SetText("19")
	f.Hold("18") // the job changes meanwhile
	if f.Text != "19" || !f.Owing() {
		t.Errorf("what was typed is lost: %q", f.Text)
	}
	f.FocusLost()
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if strings.Join(got, " ") != "19 18" || f.Owing() {
		t.Errorf("handed in %q, then owing %v", got, f.Owing())
	}
}

func TestALiveFieldHoldsWhatWasEntered(t *testing.T) {
	useLook(t)
	f := NewField(60)
	f.Live = true
	test.NewTempWindow(t, f).Canvas().Focus(f)
	key := func(k fyne.KeyName) { f.TypedKey(&fyne.KeyEvent{Name: k}) }
	f.SetText("30")
	key(fyne.KeyReturn)
	f.SetText("305")
	key(fyne.KeyEscape)
	focused := func() bool { return fyne.CurrentApp().Driver().CanvasForObject(f).Focused() == f }
	if f.Text != "30" || !focused() {
		t.Errorf("Esc puts back %q, with the keyboard %v", f.Text, focused())
	}
	key(fyne.KeyEscape)
	if f.Text != "30" || focused() {
		t.Errorf("a second Esc makes it %q, with the keyboard %v", f.Text, focused())
	}
}

func TestAJobLengthThatIsRefusedChangesNothingAndStaysTyped(t *testing.T) {
	useLook(t)
	j := &job.Job{Wheelbase: job.Given(units.Length{MM: 2431})}
	refused := errors.New("wheelbase: too long")
	var answer error
	h := &Host{Job: func() *job.Job { return j }, Unit: func() units.Unit { return units.Millimetre }}
	h.Edit = func(name string, change func(*job.Job)) error {
		if name != "type wheelbase" {
			t.Errorf("undo would say %q", name)
		}
		if answer == nil {
			change(j)
		}
		return answer
	}
	note := NewNotice()
	l := NewJobLength(h, "wheelbase", note, func(j *job.Job) *job.Optional { return &j.Wheelbase })
	l.Show()
	if l.Text != "2\u2009431" {
		t.Errorf("the field shows %q", l.Text)
	}
	answer = refused
	l.SetText("9e")
	l.Hand()
	if !note.Visible() || j.Wheelbase.MM != 2431 || l.Text != "9e" {
		t.Errorf("%q: the job holds %g, the note says %q", l.Text, j.Wheelbase.MM, note.Text)
	}
	l.SetText("2600.5")
	l.Hand()
	if !strings.Contains(note.Text, refused.Error()) || !l.Owing() {
		t.Errorf("a refusal is not told: %q", note.Text)
	}
	answer = nil
	l.Hand()
	if j.Wheelbase.MM != 2600.5 || note.Visible() || l.Owing() {
		t.Errorf("the job holds %g, the note says %q", j.Wheelbase.MM, note.Text)
	}
	l.SetText("")
	l.Hand()
	if j.Wheelbase.Given {
		t.Error("an emptied field leaves the length in the job")
	}
}

func TestFiguresOfATableStandToTheRight(t *testing.T) {
	useLook(t)
	g := NewGrid("lr")
	g.Row(Plain("rack force"), Plain("7"))
	g.Row(Plain("pull"), Plain("1234.5"))
	g.Row(Plain("a row without its last cell"))
	g.Done()
	g.Content.Resize(g.Content.MinSize())
	edge := func(o fyne.CanvasObject) float32 { return o.Position().X + o.Size().Width }
	short, long := g.Content.Objects[1], g.Content.Objects[3]
	if edge(short) != edge(long) || short.Position().X <= long.Position().X {
		t.Errorf("figures end at %g and %g", edge(short), edge(long))
	}
	if n := len(g.Content.Objects); n != 5 {
		t.Errorf("%d objects for five cells", n)
	}
}

// leaf is a section of a test.
type leaf struct {
	Part
	shown *[]string
}

func (l *leaf) Show() { *l.shown = append(*l.shown, l.name) }

func TestABookOpensItsSectionsByTabAndByName(t *testing.T) {
	useLook(t)
	var shown []string
	second := &leaf{NewPart("second", widget.NewLabel("words"), nil), &shown}
	b := NewBook("Steering", &leaf{NewPart("first", widget.NewLabel("words"), nil), &shown}, second)
	test.NewTempWindow(t, b.Object()).Resize(fyne.NewSize(400, 600))
	b.Show()
	test.Tap(b.tabs[1])
	b.Open("first")
	b.Opened = func() { shown = append(shown, "told") }
	b.tabs[1].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := strings.Join(shown, ", "); got != "first, second, first, told" || b.Section() != second {
		t.Errorf("shown: %s", got)
	}
	if b.body.Objects[0] != second.Object() || !b.tabs[1].chosen || b.tabs[0].chosen {
		t.Error("the second section is not the one that is seen")
	}
}

// Tabs stand in as many rows as they need, none of them cut off.
func TestTabsWrapInANarrowColumn(t *testing.T) {
	useLook(t)
	var shown []string
	var list []Section
	for _, name := range []string{"Diagnosis", "Cure", "Spacers", "Rack moved", "Toe gauge", "Fit to the car", "Adjusters"} {
		list = append(list, &leaf{NewPart(name, widget.NewLabel(""), nil), &shown})
	}
	b := NewBook("Steering", list...)
	win := test.NewTempWindow(t, b.Object())
	for _, width := range []float32{250, 330, 430, 900} {
		win.Resize(fyne.NewSize(width, 500))
		b.Show()
		rows := map[float32]bool{}
		for i, k := range b.tabs {
			rows[k.Position().Y] = true
			if right := k.Position().X + k.Size().Width; right > width || k.Size().Height < 24 {
				t.Errorf("at %g: tab %d ends at %g and is %g high", width, i, right, k.Size().Height)
			}
		}
		if want := width < 500; (len(rows) > 1) != want {
			t.Errorf("at %g: %d rows of tabs", width, len(rows))
		}
	}
}

// A picture stands under the words, at least as high as axes need; a wide table is
// told of.
func TestAPictureStandsUnderTheWords(t *testing.T) {
	useLook(t)
	table := fynecanvas.NewRectangle(nil)
	picture := NewPicture()
	picture.Put(plates.Words("no lock here"))
	p := NewPart("lock", table, picture)
	win := test.NewTempWindow(t, p.Object())
	for _, high := range []float32{100, 300, 900} {
		table.SetMinSize(fyne.NewSize(310, high))
		p.Settle()
		win.Resize(fyne.NewSize(400, 640))
		if y := picture.Position().Y; y < table.Position().Y+high || picture.Size().Height < pictureLeast || picture.Size().Width < 350 {
			t.Errorf("under words %g high the picture stands at %g and is %v", high, y, picture.Size())
		}
		if got := p.Wants(); got < 310 || got > 350 {
			t.Errorf("a table of 310 wants %g", got)
		}
	}
	if img := picture.Paint(450, 300); img.Bounds().Dx() != 450 {
		t.Errorf("the picture is %v", img.Bounds())
	}
}

func TestWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{units.Trimmed(12.5000, 3), "12.5"}, {units.Trimmed(700, 0), "700"}, {units.Signed("3.1"), "+3.1"}, {units.Signed("0.0"), "0.0"},
		{ShortLength(50.8, units.Inch), "2"}, {ShortLength(1.5875, units.Inch), "1/16"}, {ShortLength(-15.875, units.Inch), "−5/8"}, {ShortLength(1, units.Inch), "0.039"}, {ShortLength(7.256, units.Millimetre), "7.26"}, {UpperFirst("bow"), "Bow"}, {Pick(false, "a", "b"), "b"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// A text across widens no column, and the table has room for it all the same.
func TestAcrossWidensNoColumn(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Mode: look.Light})
	g := NewGrid("llr")
	g.Texts("1", "its own wheel", "26.0")
	g.Done()
	narrow, last := g.Content.MinSize().Width, g.Content.Objects[2]
	g.Content.Resize(g.Content.MinSize())
	at := last.Position()
	long := Bold("TOUCHES the wing lip over there, 3.8 mm deep, and seven more of what stands around it")
	g.Across(1, long)
	g.Done()
	g.Content.Resize(g.Content.MinSize())
	if last.Position() != at {
		t.Errorf("the last column stands at %v, before at %v", last.Position(), at)
	}
	if right := long.Position().X + long.Size().Width; right > g.Content.MinSize().Width || g.Content.MinSize().Width <= narrow {
		t.Errorf("the text ends at %g, the table at %g, before at %g", right, g.Content.MinSize().Width, narrow)
	}
	g.Clear()
	g.Texts("1", "its own wheel", "26.0")
	if w := g.Content.MinSize().Width; w != narrow {
		t.Errorf("cleared and filled anew %g wide, before %g", w, narrow)
	}
}
