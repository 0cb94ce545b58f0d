package figures

import (
	"testing"

	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Every reading of kinematics has its row under its own key, with all that a face
// shows of it, and no place among the curves is taken twice.
func TestEveryReadingHasItsRow(t *testing.T) {
	for q := range kinematics.QuantityCount {
		f := Of(q)
		if f == nil {
			t.Fatalf("%s has no row", q)
		}
		if f.Key != q.String() || f.Name == "" || f.Short == "" || f.Meaning == "" || f.Missing == "" || f.Lights == 0 {
			t.Errorf("%s: %+v", q, f)
		}
		kinds := map[sheet.Kind]kinematics.Kind{sheet.Length: kinematics.Length, sheet.Toe: kinematics.Angle, sheet.Angle: kinematics.Angle, sheet.Slope: kinematics.Slope, sheet.Ratio: kinematics.Ratio}
		if kinds[f.Kind] != q.Kind() {
			t.Errorf("%s is of another kind there", q)
		}
	}
	keys := map[string]bool{}
	for i := range All() {
		f := &All()[i]
		if keys[f.Key] || f.Key == "" {
			t.Errorf("the key %q stands twice", f.Key)
		}
		keys[f.Key] = true
		if i > 0 && f.Group < All()[i-1].Group {
			t.Errorf("%s stands before its heading", f.Key)
		}
		if f.Of == None && f.compute == nil {
			t.Errorf("nothing computes %s", f.Key)
		}
	}
	for i, f := range Curves() {
		if f.Curve.Place != i+1 {
			t.Errorf("the curve of %s stands at %d, not %d", f.Key, f.Curve.Place, i+1)
		}
	}
}

func TestWordsOfAPlace(t *testing.T) {
	for at, want := range map[Position]string{
		{}:                       "at rest",
		{Travel: -12.5}:          "at 12.5 mm droop",
		{Travel: 30, Rack: -7}:   "at 30.0 mm bump, rack 7.0 mm right",
		{Roll: -0.035, Rack: 11}: "at roll −2.0°, rack 11.0 mm left",
	} {
		if got := at.Words(units.Millimetre); got != want {
			t.Errorf("%+v: %q, want %q", at, got, want)
		}
	}
}
