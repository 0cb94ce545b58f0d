package tyre

import (
	"errors"
	"math"
	"math/rand"
	"strings"
	"testing"

	"armscribe/kinematics/tyre/internal/checkdata"
)

func TestWheelTable(t *testing.T) {
	for _, row := range checkdata.Read(t, tables+"wheels.csv") {
		w, err := NewWheel(row.Number("rim_width_in")*inch, row.Number("offset_mm"))
		if err != nil {
			t.Fatalf("%s: %v", row, err)
		}
		var got float64
		switch q := row.Text("quantity"); q {
		case "backspacing over the flange":
			got = w.Backspacing()
		case "backspacing to the bead seat":
			got = w.BeadBackspacing()
		default:
			t.Fatalf("%s: unknown quantity %q", row, q)
		}
		switch u := row.Text("unit"); u {
		case "in":
			got /= inch
		case "mm":
		default:
			t.Fatalf("%s: unknown unit %q", row, u)
		}
		if want, tol := row.Number("expected"), row.Number("tolerance"); !(math.Abs(got-want) <= tol) {
			t.Errorf("%s: %s %v, want %v within %v", row, row.Text("quantity"), got, want, tol)
		}
	}
}

// Laws: the lips are an overall width apart, their middle is the rim centre,
// which stands the offset inboard; backspacing leads back to the offset.
func TestWheelLaws(t *testing.T) {
	const seed, tol = 285, 1e-9 // mm: a few roundings
	r := rand.New(rand.NewSource(seed))
	for range 500 {
		width, offset := MinRimWidth+r.Float64()*(MaxRimWidth-MinRimWidth), (2*r.Float64()-1)*MaxOffset
		w, err := NewWheel(width, offset)
		if err != nil {
			t.Fatal(err)
		}
		inner, outer := w.Lips()
		if math.Abs(outer-inner-w.OverallWidth()) > tol || math.Abs((inner+outer)/2+offset) > tol ||
			math.Abs(inner+w.Backspacing()) > tol || math.Abs(w.OverallWidth()-width-25.4) > tol ||
			math.Abs(OffsetFromBackspacing(width, w.Backspacing())-offset) > tol ||
			w.RimWidth() != width || w.Offset() != offset {
			t.Fatalf("seed %d: width %v offset %v: lips %v %v, backspacing %v", seed, width, offset, inner, outer, w.Backspacing())
		}
	}
}

func TestLipsStandTheRightWayRound(t *testing.T) {
	w, err := NewWheel(10.5*inch, 20) // 266.7: half 133.35, with flange 146.05
	if err != nil {
		t.Fatal(err)
	}
	if inner, outer := w.Lips(); math.Abs(inner+166.05) > 1e-9 || math.Abs(outer-126.05) > 1e-9 {
		t.Errorf("lips %v, %v; want -166.05, 126.05", inner, outer)
	}
}

func TestNewWheelRefuses(t *testing.T) {
	for _, tt := range []struct {
		width, offset float64
		says          string
	}{
		{10.5, 20, "rim width 10.5 mm"},
		{2667, 20, "rim width 2667 mm"},
		{math.NaN(), 20, "rim width NaN mm"},
		{266.7, -301, "offset -301 mm"},
		{266.7, math.Inf(1), "offset +Inf mm"},
	} {
		w, err := NewWheel(tt.width, tt.offset)
		var wheel *WheelError
		if !errors.As(err, &wheel) || w != (Wheel{}) || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("NewWheel(%v, %v) = %v, %v; want %q", tt.width, tt.offset, w, err, tt.says)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("Backspacing of the zero Wheel did not panic")
		}
	}()
	Wheel{}.Backspacing()
}
