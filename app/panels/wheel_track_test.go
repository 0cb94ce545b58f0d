package panels

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
)

// A track typed stays, whatever is typed of the wheel after it; a hub typed lets
// it go.
func TestTrackField(t *testing.T) {
	s := newStand(t, "flat-teaching")
	half := func() float64 {
		c := s.doc.Variant().Corner()
		return c.RestContact().Y
	}
	was := half()
	if s.wheel.track.field.Text != "" || s.wheel.track.field.PlaceHolder == "" {
		t.Errorf("not measured: %q, %q", s.wheel.track.field.Text, s.wheel.track.field.PlaceHolder)
	}
	s.enter(s.wheel.track, "4 ft 11 in")
	if got := s.doc.Variant().Track; got.Typed != "4 ft 11 in" || math.Abs(half()-1498.6/2) > 1e-9 || half() == was {
		t.Errorf("track %+v, half %v", got, half())
	}
	s.enter(s.wheel.offset, "31.5")
	s.enter(s.wheel.gap, "7")
	if err := s.edit("type camber at rest", func(v *job.Variant) { v.Camber = -2.25 }); err != nil {
		t.Fatal(err)
	}
	s.wheel.SetInput(s.input())
	if math.Abs(half()-1498.6/2) > 1e-9 || s.wheel.track.field.Text == "" {
		t.Errorf("half track %v, field %q", half(), s.wheel.track.field.Text)
	}
	if err := s.edit("type hub face y", func(v *job.Variant) { v.Hub.Y.MM += 5 }); err != nil {
		t.Fatal(err)
	}
	s.wheel.SetInput(s.input())
	if s.wheel.track.field.Text != "" || s.wheel.track.field.PlaceHolder != units.Trimmed(1508.6, 1) {
		t.Errorf("the hub moved: %q, %q", s.wheel.track.field.Text, s.wheel.track.field.PlaceHolder)
	}
	s.enter(s.wheel.track, "1490")
	if got := s.doc.Variant().Track.MM; got != 1490 {
		t.Errorf("typed into a field that had been cleared: %v", got)
	}
	s.enter(s.wheel.track, "")
	if s.doc.Variant().Track.Given || math.Abs(half()-745) > 1e-9 {
		t.Errorf("dropped: %+v, half %v", s.doc.Variant().Track, half())
	}
}

func TestTrackPicture(t *testing.T) {
	s := newStand(t, "flat-teaching")
	s.window = show(t, s.wheel, look.Light, 248, 760)
	s.enter(s.wheel.track, "1490")
	s.window.Canvas().Focus(nil)
	s.window.Resize(fyne.NewSize(248, 761))
	picture(t, "wheel-track", s.window)
}
