package bumppage

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/cli"
	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// takenOnTheCar are toe changes of the demo's car with its rack 5.3 mm higher
// than measured, in degrees to three decimals, at some of the sheet's travels.
func takenOnTheCar(t *testing.T, b *bench) map[float64]float64 {
	t.Helper()
	c := b.setup.Corner
	c.TieRod.RackEnd.Z += 5.3
	at := []float64{-60, -40, -20, 20, 40, 70}
	curve, err := bumpsteer.ToeCurve(c, bumpsteer.OverTravel, at)
	if err != nil {
		t.Fatal(err)
	}
	out := map[float64]float64{}
	for i := range at {
		out[at[i]] = math.Round(curve.Toe[i]*pages.Degree*1000) / 1000
	}
	return out
}

// typeIn types readings of the left side into the table.
func (b *bench) typeIn(t *testing.T, readings map[float64]float64) {
	t.Helper()
	n := 0
	for i := range b.gauge.rows {
		row := &b.gauge.rows[i]
		if v, ok := readings[row.travel]; ok && row.typed == nil {
			row.sides[0].fields[0].SetText(strconv.FormatFloat(v, 'f', -1, 64))
			n++
		}
	}
	if n != len(readings) {
		t.Fatalf("%d of %d readings have a row", n, len(readings))
	}
}

func (b *bench) fit() *fit { return b.sections[fitAt].(*fit) }

func TestTypedReadingsGiveTheFitOfArmcalc(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(gaugeAt)
	b.typeIn(t, takenOnTheCar(t, b))
	b.gauge.take()
	if n := len(b.Doc.Variant().ToeReadings); n != 6 {
		t.Fatalf("%d readings written down; the page says %q", n, b.gauge.note.Text)
	}
	b.Select(fitAt)
	f := b.fit()
	if f.fitted == nil {
		t.Fatal(f.note.Text)
	}
	path := filepath.Join(t.TempDir(), "car.armscribe.yaml")
	if err := os.WriteFile(path, []byte(b.File(t)), 0o600); err != nil {
		t.Fatal(err)
	}
	var out, wrong bytes.Buffer
	if code := cli.Run([]string{"fit", path, "--variant", b.Doc.Variant().Name, "--format", "json"}, &out, &wrong); code != 0 {
		t.Fatalf("armcalc: %s", wrong.String())
	}
	var theirs struct {
		Corrections []struct {
			MM float64 `json:"mm"`
		} `json:"corrections"`
	}
	if err := json.Unmarshal(out.Bytes(), &theirs); err != nil {
		t.Fatal(err)
	}
	ours := f.fitted.Result.Corrections
	if len(ours) != len(theirs.Corrections) {
		t.Fatalf("%d corrections, armcalc has %d", len(ours), len(theirs.Corrections))
	}
	const written = 1e-9 // mm: digits of the file
	for i := range ours {
		if d := ours[i].MM - theirs.Corrections[i].MM; math.Abs(d) > written {
			t.Errorf("correction %d: %g mm, armcalc %g", i, ours[i].MM, theirs.Corrections[i].MM)
		}
	}
	test.Tap(f.keep)
	if v := b.Doc.Variant(); v.Name != "longer arms, fitted" || v.Corner() != f.p.setup.Corner || len(v.ToeReadings) != 0 {
		t.Fatalf("kept %q", v.Name)
	}
}

func TestAReadingInAnotherUnitIsAskedAbout(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(gaugeAt)
	readings := takenOnTheCar(t, b)
	readings[40] *= 25.4
	b.typeIn(t, readings)
	first := b.File(t)
	b.gauge.take()
	if b.File(t) != first {
		t.Fatal("written down without a question")
	}
	b.Press(t, "Put them right")
	b.Select(fanAt)
	b.Select(gaugeAt)
	if got := b.row(t, 40).sides[0].fields[0].Text; got == "" {
		t.Fatalf("what was typed at +40 is lost: %q", got)
	}
	b.gauge.take()
	b.Press(t, "Take them as they are")
	if len(b.Doc.Variant().ToeReadings) != 6 {
		t.Fatal("not written down")
	}
	b.Select(fitAt)
	f := b.fit()
	if f.fitted != nil || !f.asRead.Visible() || !strings.Contains(f.note.Text, "another unit") {
		t.Fatalf("the fit does not ask: %q", f.note.Text)
	}
	test.Tap(f.asRead)
	if f.fitted == nil {
		t.Fatalf("the fit does not take them: %q", f.note.Text)
	}
}

func TestWhatCannotBeReadIsNamedAndStays(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(b *bench)
		says string
	}{
		{"a comma", func(b *bench) { b.row(t, 50).sides[1].fields[0].SetText("0,31") }, "travel +50.0, right: "},
		{"no travel", func(b *bench) { b.last(1).sides[0].fields[0].SetText("0.31") }, "travel of spare row 2: is blank"},
		{"no reading", func(b *bench) { b.last(0).typed.SetText("33") }, "no reading stands beside it"},
		{"one dial", func(b *bench) {
			b.gauge.way.SetSelected(onDials)
			b.gauge.rows[1].sides[0].fields[1].SetText("0.7")
		}, "one dial of two"},
		{"a spacing below zero", func(b *bench) { b.gauge.spacing.SetText("-0.7") }, "must be above zero"},
		{"no spacing", func(b *bench) {
			b.gauge.way.SetSelected(onDials)
			b.gauge.rows[1].sides[0].fields[0].SetText("0.2")
			b.gauge.rows[1].sides[0].fields[1].SetText("0.7")
		}, "without the distance between them"},
	} {
		b := open(t, "gravel-estate")
		b.Select(gaugeAt)
		c.do(b)
		first := b.File(t)
		b.gauge.take()
		if !strings.Contains(b.gauge.note.Text, c.says) || b.File(t) != first {
			t.Errorf("%s: the page says %q", c.name, b.gauge.note.Text)
		}
	}
}

// row is the one of a travel.
func (b *bench) row(t *testing.T, travel float64) *sheetRow {
	t.Helper()
	for i := range b.gauge.rows {
		if b.gauge.rows[i].travel == travel {
			return &b.gauge.rows[i]
		}
	}
	t.Fatalf("no row at %g mm", travel)
	return nil
}

// last is one of the spare rows.
func (b *bench) last(i int) *sheetRow { return &b.gauge.rows[len(b.gauge.rows)-spareRows+i] }

func TestLengthsAndDialsAreKeptAsTheyWereRead(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(gaugeAt)
	b.gauge.spacing.SetText("412")
	b.gauge.spacing.Hand()
	b.gauge.way.SetSelected(asLength)
	b.row(t, 50).sides[1].fields[0].SetText("1.7")
	b.last(0).typed.SetText("33")
	b.last(0).sides[0].fields[0].SetText("-2.3")
	b.gauge.take()
	b.gauge.way.SetSelected(onDials)
	b.row(t, 20).sides[0].fields[0].SetText("0.4")
	b.row(t, 20).sides[0].fields[1].SetText("-0.9")
	b.gauge.take()
	mm := func(v float64) job.Optional { return job.Given(units.Length{MM: v}) }
	want := []job.ToeReading{
		{Travel: units.Length{MM: 50}, Side: job.RightSide, ToeLength: mm(1.7)},
		{Travel: units.Length{MM: 33}, Side: job.LeftSide, ToeLength: mm(-2.3)},
		{Travel: units.Length{MM: 20}, Side: job.LeftSide, FrontDial: mm(0.4), RearDial: mm(-0.9)},
	}
	got := b.Doc.Variant().ToeReadings
	if len(got) != len(want) {
		t.Fatalf("%d readings; the page says %q", len(got), b.gauge.note.Text)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("reading %d: %+v, want %+v", i, got[i], want[i])
		}
	}
	b.row(t, 50).sides[1].fields[0].SetText("")
	b.row(t, 50).sides[1].fields[1].SetText("")
	b.gauge.take()
	if left := b.Doc.Variant().ToeReadings; len(left) != 2 || left[0] != want[1] || left[1] != want[2] {
		t.Fatalf("after blanking the first one: %+v", left)
	}
}

// Without the distance between the dials an angle cannot be shown on dials: the
// table leaves it out, and writing the table down does not.
func TestReadingsThatTheTableCannotShowStay(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(gaugeAt)
	b.gauge.rows[4].sides[1].fields[0].SetText("-0.19")
	b.gauge.take()
	b.gauge.way.SetSelected(onDials)
	first := b.File(t)
	b.gauge.take()
	if list := b.Doc.Variant().ToeReadings; len(list) != 1 || b.File(t) != first {
		t.Fatalf("readings %+v; the page says %q", list, b.gauge.note.Text)
	}
}

func TestPastedReadings(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(gaugeAt)
	first := b.File(t)
	b.gauge.importText("pasted", "travel_mm,toe_deg\n-40,0,2\n")
	if !strings.Contains(b.gauge.note.Text, "pasted:2") || b.File(t) != first {
		t.Fatalf("a wrong line: %q", b.gauge.note.Text)
	}
	const text = "travel_mm\ttoe_mm\tside\n-40\t2.6\tleft\n-20\t1.1\tleft\n30\t-1.7\tright\n"
	fyne.CurrentApp().Clipboard().SetContent(text)
	b.gauge.paste()
	list := b.Doc.Variant().ToeReadings
	if len(list) != 3 || list[2].Side != job.RightSide || math.Abs(float64(list[0].Toe.Degrees)-2.6/520*pages.Degree) > 1e-8 {
		t.Fatalf("pasted %+v; the page says %q", list, b.gauge.note.Text)
	}
	b.gauge.importText("more", "travel_mm,toe_deg\n55,-0.27\n")
	b.Press(t, "Add to them")
	if n := len(b.Doc.Variant().ToeReadings); n != 4 {
		t.Fatalf("%d readings after adding one", n)
	}
	if side := b.gauge.sidesShown(); len(side) != 3 {
		t.Fatalf("a reading that does not say its side has no column: %v", side)
	}
}

func TestEnterGoesDownTheColumn(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(gaugeAt)
	f := b.gauge.rows[3].sides[1].fields[0]
	b.Win.Canvas().Focus(f)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if b.Win.Canvas().Focused() != fyne.Focusable(b.gauge.rows[4].sides[1].fields[0]) {
		t.Fatalf("the keyboard went to %v", b.Win.Canvas().Focused())
	}
}

// Two columns without names are read as travel and toe after one question, decimal
// commas and all.
func TestBareColumnsAreAskedOnce(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(gaugeAt)
	first := b.File(t)
	b.gauge.importText("pasted", "-40\t0,26\n-20\t0,12\n30\t-0,17\n")
	if b.File(t) != first {
		t.Fatal("read before it was asked")
	}
	b.Press(t, "Read it so")
	list := b.Doc.Variant().ToeReadings
	if len(list) != 3 || list[0].Travel.MM != -40 || math.Abs(float64(list[2].Toe.Degrees)+0.17) > 1e-9 {
		t.Fatalf("%+v; the page says %q", list, b.gauge.note.Text)
	}
}

// No travel stands twice on the sheet of an inch job.
func TestNoTravelStandsTwice(t *testing.T) {
	for _, ends := range [][2]float64{{38.1, 63.5}, {50.8, 76.2}, {60, 70}} {
		list := sheetTravels(ends[0], ends[1], 25.4/2)
		for i := range list[1:] {
			if list[i]-list[i+1] < 0.1 {
				t.Errorf("%v: %v", ends, list)
			}
		}
	}
}
