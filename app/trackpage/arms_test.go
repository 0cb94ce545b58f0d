package trackpage

import (
	"math"
	"strings"
	"testing"

	"armscribe/app/pages/pagetest"
	"armscribe/kinematics"
)

// A longer lower arm is typed, answered and kept as a variant with the upright
// as it was.
func TestArmLengthsAreTypedAndKept(t *testing.T) {
	s := openAt(t, frontDemo, longerArms, "Arm lengths")
	a := s.arms
	if a.keep.Visible() || a.keepRoll.Visible() || !strings.Contains(a.note.Text, "same ride height") {
		t.Fatalf("blank: %q", a.note.Text)
	}
	was := s.Doc.Variant().Corner()
	pagetest.Enter(a.lower.Field, "20")
	if a.now == nil || a.view.Sheet() == nil || !a.keep.Visible() {
		t.Fatal(a.note.Text)
	}
	n := len(s.Doc.Job().Variants)
	a.keep.OnTapped()
	list := s.Doc.Job().Variants
	kept := list[len(list)-1]
	is := kept.Corner()
	m0, err0 := kinematics.New(&was)
	m1, err1 := kinematics.New(&is)
	if err0 != nil || err1 != nil || len(s.Doc.Job().Variants) != n+1 {
		t.Fatal(err0, err1, a.after.Text)
	}
	u0, l0 := m0.ArmLengths()
	u1, l1 := m1.ArmLengths()
	if math.Abs(l1-l0-20) > 1e-9 || math.Abs(u1-u0) > 1e-9 || math.Abs(is.Toe-was.Toe) > 1e-12 || kept.Notes != "" {
		t.Errorf("arms %g, %g longer, toe %g", u1-u0, l1-l0, is.Toe-was.Toe)
	}
	pagetest.Enter(a.lower.Field, "")
	pagetest.Enter(a.upper.Field, "-230")
	if !strings.Contains(a.note.Text, "pper arm is ") || a.now != nil || a.keep.Visible() {
		t.Errorf("parts that do not meet: %q", a.note.Text)
	}
	pagetest.Enter(a.upper.Field, "")
	pagetest.Enter(a.roll.Field, "2.5")
	if said := pagetest.Said(a.view); !strings.Contains(said, "pper arm keeps it") && !strings.Contains(said, "keeps its camber") || a.keep.Visible() || a.keepRoll.Visible() != (a.rolled() != nil) {
		t.Errorf("roll: %q, %s", a.note.Text, said)
	}
}
