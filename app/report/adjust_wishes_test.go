package report

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// A turn of a sleeve with two threads of 1.5 mm makes the rod 3 mm longer:
// the toe that this gives at rest, solved by moving the outer end on a circle
// about the steering axis until the rod fits.
func TestAdjustersAgainstTheRodAlone(t *testing.T) {
	a, err := AdjustOf(jobAt(t, frontJob), 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	var out adjustJSON
	if err := json.Unmarshal([]byte(a.Sheet().JSON()), &out); err != nil {
		t.Fatal(err)
	}
	sleeve := out.Adjusters[2]
	if sleeve.Unit != "turn" || math.Abs(sleeve.Min+10.0/3) > 1e-9 || math.Abs(sleeve.Max-8.0/3) > 1e-9 || sleeve.Sets != "toe" || len(sleeve.Threads) != 2 || !out.Adjusters[0].Threads[0].ShortOut || out.Adjusters[0].Threads[0].Short {
		t.Errorf("%+v", out.Adjusters)
	}
	c := a.Source.Corner
	steer := func(angle float64) (longer, toe float64) {
		turn := r3.NewRotation(angle, r3.Sub(c.Upper.Ball, c.Lower.Ball))
		spin := turn.Rotate(kinematics.Vec{X: math.Cos(c.Camber) * math.Sin(c.Toe), Y: math.Cos(c.Camber) * math.Cos(c.Toe), Z: -math.Sin(c.Camber)})
		end := r3.Add(c.Lower.Ball, turn.Rotate(r3.Sub(c.TieRod.OuterEnd, c.Lower.Ball)))
		return r3.Norm(r3.Sub(end, c.TieRod.RackEnd)) - r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.TieRod.RackEnd)), math.Atan2(spin.X, spin.Y)
	}
	const d = 1e-4
	l1, t1 := steer(d)
	l0, t0 := steer(-d)
	near(t, "toe by a turn", *effect(&sleeve, "toe").Value, 3*(t1-t0)/(l1-l0)/degree, 0.01)
	near(t, "caster by a turn", *effect(&sleeve, "caster").Value, 0, 0.002)
	if want := []string{"upper rear rod end", "upper front rod end", "tie rod sleeve"}; !slices.Equal(out.Order, want) {
		t.Errorf("order %q", out.Order)
	}
}

func effect(a *adjusterJSON, key string) *effectJSON {
	for i := range a.Effects {
		if a.Effects[i].Key == key {
			return &a.Effects[i]
		}
	}
	panic("no effect on " + key)
}

func TestAdjustWishes(t *testing.T) {
	j := jobAt(t, frontJob)
	wishes := []bumpsteer.Wish{{Quantity: kinematics.Camber, Value: -2 * degree}, {Quantity: kinematics.Caster, Value: 5 * degree}}
	a, err := AdjustOf(j, 0, wishes)
	if err != nil || a.NotMet() != nil || !a.ToeKept || len(wishes) != 2 {
		t.Fatalf("%v, %v", err, a.NotMet())
	}
	r := readingsAt(t, a.Setting.Corner, 0, 0)
	near(t, "camber", value(t, r, kinematics.Camber), -2*degree, 2e-5)
	near(t, "caster", value(t, r, kinematics.Caster), 5*degree, 2e-5)
	near(t, "toe", value(t, r, kinematics.Toe), 0.08*degree, 2e-5)
	wishes[0].Value = -9 * degree
	if a, err = AdjustOf(j, 0, wishes); err != nil || !errors.Is(a.NotMet(), ErrNotMet) || !strings.Contains(a.Sheet().String(), "not met together") {
		t.Errorf("%v, %v", err, a.NotMet())
	}
	if _, err := AdjustOf(jobAt(t, flatJob), 0, nil); !errors.Is(err, bumpsteer.ErrAdjuster) || !strings.Contains(err.Error(), "states no adjusters") {
		t.Error(err)
	}
	j.Adjusters = j.Adjusters[:1]
	if a, err = AdjustOf(j, 0, nil); err != nil || a.Order != nil || !strings.Contains(a.Sheet().String(), "No order of adjusting") {
		t.Errorf("%v", err)
	}
}

// An adjuster that does not say what it sets is used where those that say do not
// reach, and shims under an arm in the short form move its one pivot.
func TestAdjustersThatDoNotSayAreUsed(t *testing.T) {
	j := jobAt(t, frontJob)
	j.Adjusters[1].Sets = job.SetsNothing
	j.Adjusters[0].Sets = job.SetsCamber
	wishes := []bumpsteer.Wish{{Quantity: kinematics.Camber, Value: -1.6 * degree}}
	if a, err := AdjustOf(j, 0, wishes); err != nil || a.NotMet() != nil || len(a.Used) != 2 {
		t.Errorf("%v, %v, used %v: one that sets camber and the toe's are enough", err, a.NotMet(), a.Used)
	}
	j.Adjusters[0].In.MM, j.Adjusters[0].Out.MM = 2, 2
	a, err := AdjustOf(j, 0, wishes)
	if err != nil || a.NotMet() != nil || len(a.Used) != 3 {
		t.Errorf("%v, %v, used %v", err, a.NotMet(), a.Used)
	}
	if n := a.Setting.Built.Units[0] * 2; n != math.Round(n) {
		t.Errorf("a rod end is to be turned by %g", a.Setting.Built.Units[0])
	}
	j = jobAt(t, flatJob)
	j.Adjusters = []job.Adjuster{{Name: "shims", Kind: job.ShimPack, Pivot: job.UpperArmPlace, Direction: job.Direction{Y: 0.6, Z: 0.8}, Out: units.Length{MM: 9}, In: units.Length{MM: 7}}}
	if p := j.Problems(); len(p) > 0 {
		t.Fatal(p)
	}
	c := SourceOf(j, 0).Corner
	wishes[0].Value = c.Camber + 0.3*degree
	if a, err = AdjustOf(j, 0, wishes); err != nil || a.NotMet() != nil {
		t.Fatalf("%v", err)
	}
	by := r3.Sub(a.Setting.Corner.Upper.Front, c.Upper.Front)
	near(t, "y of the pivot", by.Y, 0.6*a.Setting.Units[0], 1e-9)
	near(t, "z of the pivot", by.Z, 0.8*a.Setting.Units[0], 1e-9)
}
