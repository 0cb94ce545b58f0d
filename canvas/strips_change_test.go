package canvas

import (
	"math"
	"strings"
	"testing"

	"armscribe/canvas/draw"
)

// While a hand works the scales stay, however far the curves go; let go, they are
// those of the curves as they are then.
func TestScalesStayDuringAGesture(t *testing.T) {
	s := NewStrips(travelAxis())
	s.Resize(sizeOf(520, 500))
	s.SetInput(sampleInput())
	scales := func() (list []any) {
		for i := range s.data {
			list = append(list, s.data[i].scale)
		}
		return list
	}
	first := scales()
	s.SetFrozen(true)
	in := sampleInput()
	for i := range in.Strips[1].Now.Value {
		in.Strips[1].Now.Value[i] *= 3.7
	}
	s.SetInput(in)
	for i, want := range first {
		if got := scales()[i]; got != want {
			t.Errorf("strip %d goes to %v in the hand, was %v", i, got, want)
		}
	}
	for i := range in.Strips[1].Now.Value { // the owner fills its memory anew
		in.Strips[1].Now.Value[i] = 0
	}
	s.SetFrozen(false)
	settled := s.data[1].scale
	if settled == first[1] {
		t.Error("the scale does not settle")
	}
	fresh, again := NewStrips(travelAxis()), sampleInput()
	for i := range again.Strips[1].Now.Value {
		again.Strips[1].Now.Value[i] *= 3.7
	}
	fresh.SetInput(again)
	if fresh.data[1].scale != settled {
		t.Errorf("settled at %v, without a gesture %v", settled, fresh.data[1].scale)
	}
	s.SetFrozen(true)
	in.Strips[0], in.Strips[1] = in.Strips[1], in.Strips[0]
	s.SetInput(in)
	if s.data[0].scale == first[0] && s.data[1].scale == settled {
		t.Error("other curves keep scales that were not theirs")
	}
}

// The change from before is one curve, now less before at each travel, on a scale
// of its own and under its own name; without a before it is now itself.
func TestChangeFromBefore(t *testing.T) {
	s := NewStrips(travelAxis())
	s.Resize(sizeOf(520, 500))
	in := sampleInput()
	in.BeforeAt = stations(-50, 71) // other stations
	for i := range in.Strips {
		in.Strips[i].Before = bent(in.BeforeAt, 0.3, -0.4, 0.05, 0, max(in.Strips[i].PerUnit, degree), 0)
	}
	s.SetInput(in)
	both := make([]stripLine, len(s.data))
	befores := make([]stripLine, len(s.data))
	for i := range s.data {
		both[i], befores[i] = copyOf(s.data[i].now), copyOf(s.data[i].before)
	}
	in.Change = true
	s.SetInput(in)
	compared := 0
	for i := range s.data {
		for _, at := range []float64{-61, -48, -31.7, 0, 12.2, 69} {
			now, _, ok1 := both[i].read(at)
			was, _, ok2 := befores[i].read(at)
			got, half, ok := s.data[i].now.read(at)
			if ok != (ok1 && ok2) {
				t.Errorf("strip %d at %g: known %v, now %v and before %v", i, at, ok, ok1, ok2)
			}
			if ok {
				compared++
				if math.Abs(got-(now-was)) > 0.02*(math.Abs(now)+math.Abs(was)) || half != 0 {
					t.Errorf("strip %d at %g: changed by %g ± %g, wanted %g", i, at, got, half, now-was)
				}
			}
		}
	}
	if compared < 12 {
		t.Errorf("%d places compared", compared)
	}
	l := &draw.List{}
	s.Draw(l, 520, 500)
	_, words := barTexts(l, s.styles, draw.OnPaper, 520, 500)
	if text := strings.Join(words, "|"); !strings.Contains(text, "toe|change, deg") || !strings.Contains(text, "|change|") || strings.Contains(text, "|now|") {
		t.Errorf("drawn: %s", text)
	}
	for i := range in.Strips {
		in.Strips[i].Before = StripCurve{}
	}
	s.SetInput(in)
	v, _, ok := s.data[0].now.read(20)
	if want, _, _ := both[0].read(20); !ok || v != want || s.in.Strips[0].Title != "toe" {
		t.Errorf("without a before: %g under %q, wanted %g", v, s.in.Strips[0].Title, want)
	}
}

func copyOf(n stripLine) stripLine {
	n.at, n.value, n.half = append([]float64(nil), n.at...), append([]float64(nil), n.value...), append([]float64(nil), n.half...)
	n.ok = append([]bool(nil), n.ok...)
	return n
}
