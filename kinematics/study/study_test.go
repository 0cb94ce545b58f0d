package study

import (
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

func TestUpdateAgreesWithTheMechanism(t *testing.T) {
	var s Study
	c := Case{Corner: checkcorner.Inclined(), Within: kinematics.Evenly(1.5), Span: Span{Bump: 71, Droop: 63}}
	if err := s.Update(c, 4); err != nil {
		t.Fatal(err)
	}
	if s.Travel[0] != -63 || s.Travel[Poses-1] != 71 || s.Clipped {
		t.Fatalf("travel from %v to %v, clipped %v", s.Travel[0], s.Travel[Poses-1], s.Clipped)
	}
	for _, i := range []int{0, 37, 160} {
		p, err := s.Mechanism.At(s.Travel[i], 4)
		if err != nil || p.Readings() != s.Readings[i] {
			t.Fatalf("pose %d: %v, readings differ from a single solution", i, err)
		}
	}
	want, err := s.Mechanism.Bands(kinematics.Evenly(1.5), s.BandTravel[3], 4)
	got, ok := s.BandAt(kinematics.Toe, s.BandTravel[3])
	half, _ := want.Of(kinematics.Toe)
	if err != nil || !ok || got != half {
		t.Fatalf("toe band %v (%v), want %v (%v)", got, ok, half, err)
	}
}

func TestUpdateStaysInsideTheAssembledTravel(t *testing.T) {
	var s Study
	if err := s.Update(Case{Corner: checkcorner.Inclined(), Within: kinematics.Evenly(1), Span: Span{Bump: 900, Droop: 800}}, 0); err != nil {
		t.Fatal(err)
	}
	if !s.Clipped || s.From <= s.Range.Droop.Travel || s.To >= s.Range.Bump.Travel {
		t.Fatalf("clipped %v, %v..%v within %+v", s.Clipped, s.From, s.To, s.Range)
	}
}

func TestUpdateKeepsTheFormerStudyOnError(t *testing.T) {
	var s Study
	if err := s.Update(Case{Corner: checkcorner.Inclined(), Within: kinematics.Evenly(1), Span: Span{Bump: 50, Droop: 40}}, 0); err != nil {
		t.Fatal(err)
	}
	before := s
	bad := checkcorner.Inclined()
	bad.Upper.Ball = bad.Lower.Ball
	if err := s.Update(Case{Corner: bad, Within: kinematics.Evenly(1), Span: Span{Bump: 50, Droop: 40}}, 0); err == nil {
		t.Fatal("ball joints in one place were accepted")
	}
	if err := s.Update(Case{Corner: checkcorner.Inclined(), Within: kinematics.Evenly(1), Span: Span{Bump: 50, Droop: 40}}, 300); err == nil {
		t.Fatal("a rack position out of reach was accepted")
	}
	if s != before {
		t.Fatal("a failed update changed the study")
	}
}

func BenchmarkUpdate(b *testing.B) {
	var s Study
	c := Case{Corner: checkcorner.Inclined(), Within: kinematics.Evenly(1), Span: Span{Bump: 70, Droop: 60}}
	b.ReportAllocs()
	for b.Loop() {
		if err := s.Update(c, 0); err != nil {
			b.Fatal(err)
		}
	}
}
