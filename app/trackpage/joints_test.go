package trackpage

import (
	"math"
	"strings"
	"testing"

	"armscribe/app/pages/pagetest"
	"armscribe/canvas/draw"
	"armscribe/kinematics/jointangle"
)

// Limits are the job's, typed in the table, and judged at once.
func TestJointLimitsAreTyped(t *testing.T) {
	s := openAt(t, frontDemo, longerArms, "Joint angles")
	a := s.joints
	if !strings.Contains(pagetest.Said(a.view), "✓ Within the limit: upper ball joint, lower ball joint") {
		t.Errorf("%s", pagetest.Said(a.view))
	}
	pagetest.Enter(a.limits[jointangle.UpperBall], "9.7")
	if got := s.Doc.Job().JointLimits.UpperBall; !got.Given || got.Degrees != 9.7 || s.Doc.UndoName() != "type the limit of the upper ball joint" {
		t.Errorf("the job holds %+v, Undo %q", got, s.Doc.UndoName())
	}
	if !strings.Contains(pagetest.Said(a.view), "✕ The upper ball joint would tilt by 17.78 ± 0.09 deg, past its limit of 9.7 deg.") {
		t.Errorf("%s", pagetest.Said(a.view))
	}
	if texts := picturedTexts(a.picture.Plate.Draw, 540, 690); !strings.Contains(texts, "of 9.7°, OVER ITS LIMIT") {
		t.Errorf("the picture says %s", texts)
	}
	pagetest.Enter(a.limits[jointangle.LowerBall], "steep")
	if !strings.Contains(a.note.Text, "limit of the lower ball joint: ") || s.Doc.Job().JointLimits.LowerBall.Degrees != 19 {
		t.Errorf("a limit in words: %q", a.note.Text)
	}
	pagetest.Enter(a.limits[jointangle.LowerBall], "-3")
	if s.Doc.Job().JointLimits.LowerBall.Degrees != 19 || !a.note.Visible() {
		t.Errorf("a limit below nought: %q", a.note.Text)
	}
	pagetest.Enter(a.limits[jointangle.LowerBall], "")
	if s.Doc.Job().JointLimits.LowerBall.Given || !strings.Contains(pagetest.Said(a.view), "No limit stated: lower ball joint.") {
		t.Errorf("%s", pagetest.Said(a.view))
	}
}

// Each row leads to the pose in which its joint tilts most.
func TestJointRowsLeadToTheirPose(t *testing.T) {
	s := openAt(t, frontDemo, spacersOnly, "Joint angles")
	list := s.buttons("Show it at")
	if len(list) != int(jointangle.JointCount) {
		t.Fatalf("%d buttons", len(list))
	}
	for i, b := range list {
		b.OnTapped()
		if m := s.joints.now.List[i].Most; s.Gone[0] != m.Travel || s.Gone[1] != m.Rack || s.Gone[2] != 0 {
			t.Errorf("%s goes to %v, the most is at %+v", b.Text, s.Gone, m)
		}
	}
	r := openAt(t, rearDemo, asMeasured, "Joint angles")
	for _, b := range r.buttons("Show it at") {
		if strings.Contains(b.Text, " / ") {
			t.Errorf("a rear axle has no rack: %q", b.Text)
		}
	}
}

// The stud is drawn at its true angle, and the cone at its limit's.
func TestJointPictureIsTrue(t *testing.T) {
	s := openAt(t, frontDemo, longerArms, "Joint angles")
	var l draw.List
	s.joints.picture.Plate.Draw(&l, 560, 720)
	var studs, cones []float64
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Kind != draw.KindPath || it.Role != draw.Upright && it.Role != draw.RollCentreLine {
			continue
		}
		c := l.Corners(it)
		d := c[1].At.Sub(c[0].At)
		angle := math.Atan2(d.X, d.Y)
		if it.Role == draw.Upright {
			studs = append(studs, angle)
		} else {
			cones = append(cones, angle)
		}
	}
	if len(studs) != 4 || len(cones) != 8 {
		t.Fatalf("%d studs, %d edges of cones", len(studs), len(cones))
	}
	for i := range s.joints.now.List {
		k := &s.joints.now.List[i]
		if math.Abs(studs[i]-k.Tilt) > 1e-9 || math.Abs(cones[2*i]-k.Limit) > 1e-9 || math.Abs(cones[2*i+1]+k.Limit) > 1e-9 {
			t.Errorf("%s: drawn at %.4f in %.4f, want %.4f in %.4f", k.Name, studs[i], cones[2*i], k.Tilt, k.Limit)
		}
	}
}
