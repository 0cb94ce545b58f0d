package report

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// The bands of a report and of the mechanism are two programs for one rule.
func TestBandsAreThoseOfTheMechanism(t *testing.T) {
	for _, path := range allJobs {
		for _, s := range sourcesOf(t, path) {
			for _, at := range []figures.Position{{}, {Travel: 23.7}, {Travel: -31.3, Rack: 7.9}} {
				bands, err := mechanism(t, s.Corner).Bands(s.Within, at.Travel, at.Rack)
				if err != nil {
					t.Fatal(err)
				}
				r := mustReadings(t, s, at)
				for q := range kinematics.QuantityCount {
					l := r.Find(q.String())
					if l == nil {
						continue
					}
					want, ok := bands.Of(q)
					if ok != l.HasBand {
						t.Errorf("%s %s at %v: has a band %v, the mechanism %v", s.Variant, q, at, l.HasBand, ok)
					}
					// Both are central differences, of 0.01 and of 0.001 mm.
					near(t, fmt.Sprintf("%s, %s at %v", s.Variant, q, at), l.Band, want, 1e-4*want+l.Kind.Rounding())
				}
			}
		}
	}
}

func TestReadingsAreThoseOfTheMechanism(t *testing.T) {
	s := sourcesOf(t, frontJob)[2]
	at := figures.Position{Travel: -17.5, Rack: 21.25, Steering: true}
	r, here := mustReadings(t, s, at), readingsAt(t, s.Corner, -17.5, 21.25)
	for q := range kinematics.QuantityCount {
		near(t, q.String(), find(t, r, q.String()).Value, value(t, here, q), 0)
	}
	rest := readingsAt(t, s.Corner, 0, 0)
	near(t, "camber gain at rest", find(t, r, "camber_gain_at_rest").Value, value(t, rest, kinematics.CamberGain), 0)
	near(t, "ride toe at rest", find(t, r, "ride_toe_at_rest").Value, value(t, rest, kinematics.RideToe), 0)
	near(t, "inverse", find(t, r, "motion_ratio_inverse").Value*value(t, here, kinematics.MotionRatio), 1, 1e-15)
	// 15 inches are 381 mm.
	near(t, "toe at the rim", find(t, r, "toe_at_rim").Value, 381*value(t, here, kinematics.Toe), 1e-12)
	bump := readingsAt(t, s.Corner, 90, 0)
	near(t, "toe to bump", find(t, r, "toe_change_to_bump").Value,
		value(t, bump, kinematics.Toe)-value(t, rest, kinematics.Toe), 1e-15)
	droop := readingsAt(t, s.Corner, -70, 0)
	near(t, "camber to droop", find(t, r, "camber_change_to_droop").Value,
		value(t, droop, kinematics.Camber)-value(t, rest, kinematics.Camber), 1e-15)
	reach, err := mechanism(t, s.Corner).Range(21.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "droop limit", find(t, r, figures.DroopLimit).Value, reach.Droop.Travel, 0)
	near(t, "bump limit", find(t, r, figures.BumpLimit).Value, reach.Bump.Travel, 0)
	if l := find(t, r, figures.BumpLimit); l.Binds != reach.Bump.Link || l.HasBand {
		t.Errorf("bump limit %+v, want %v and no band", l, reach.Bump)
	}
}

// Both sides of a finite roll, set against the slopes in roll of the report.
func TestSlopesInRoll(t *testing.T) {
	s := sourcesOf(t, frontJob)[0]
	r := mustReadings(t, s, figures.Position{})
	const step = 0.004 // rad
	up, err := mechanism(t, s.Corner).Roll(step, 0)
	if err != nil {
		t.Fatal(err)
	}
	left, right := up.Readings()
	// By symmetry the right wheel in roll is the left wheel in the opposite roll.
	camber := (value(t, left, kinematics.Camber) - value(t, right, kinematics.Camber)) / (2 * step)
	toe := (value(t, left, kinematics.Toe) - value(t, right, kinematics.Toe)) / (2 * step)
	near(t, "camber in roll", find(t, r, "camber_in_roll_at_rest").Value, camber, 1e-4)
	near(t, "toe in roll", find(t, r, "toe_in_roll_at_rest").Value, toe, 1e-4)
	if l := find(t, r, "camber_in_roll_at_rest"); !l.HasBand || !(l.Band > 1e-3 && l.Band < 0.1) {
		t.Errorf("band of camber in roll: %+v", l)
	}
}

func TestSteeringOnlyWhenAsked(t *testing.T) {
	s := sourcesOf(t, frontJob)[0]
	if r := mustReadings(t, s, figures.Position{Rack: 24.5}); r.Find("steering_angle_left") != nil {
		t.Error("steering angles that nobody asked for")
	}
	r := mustReadings(t, s, figures.Position{Rack: 24.5, Steering: true})
	want, err := mechanism(t, s.Corner).Steering(24.5, 2710)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "left", find(t, r, "steering_angle_left").Value, want.Left, 0)
	near(t, "right", find(t, r, "steering_angle_right").Value, want.Right, 0)
	near(t, "Ackermann", find(t, r, "ackermann_error").Value, want.AckermannError, 0)
	s.Wheelbase = 0
	if r := mustReadings(t, s, figures.Position{Rack: 24.5, Steering: true}); r.Find("ackermann_error") != nil {
		t.Error("an Ackermann error without a wheelbase")
	}
	rear := sourcesOf(t, rearJob)[0]
	if r := mustReadings(t, rear, figures.Position{Steering: true}); r.Find("steering_angle_left") != nil {
		t.Error("a rear axle that steers")
	}
}

func TestNoSpringNoMotionRatio(t *testing.T) {
	r := mustReadings(t, sourcesOf(t, flatJob)[0], figures.Position{})
	for _, key := range []string{"motion_ratio", "motion_ratio_inverse", "spring_length"} {
		if r.Find(key) != nil {
			t.Errorf("%s of a corner without a spring", key)
		}
	}
}

func TestEstimateIsMarkedWithItsSpread(t *testing.T) {
	s := sourcesOf(t, shortJob)[0]
	// 205/65R15: half of 381 + 2 * 133 less 20, 15 and 10 % of 133 mm.
	near(t, "low", s.RadiusLow, 296.9, 0.1)
	near(t, "radius", s.Corner.Wheel.LoadedRadius, 303.55, 0.1)
	near(t, "high", s.RadiusHigh, 310.2, 0.1)
	r := mustReadings(t, s, figures.Position{})
	low, high := s.Corner, s.Corner
	low.Wheel.LoadedRadius, high.Wheel.LoadedRadius = s.RadiusLow, s.RadiusHigh
	a, b := readingsAt(t, low, 0, 0), readingsAt(t, high, 0, 0)
	for _, q := range []kinematics.Quantity{kinematics.ScrubRadius, kinematics.Trail, kinematics.HalfTrack, kinematics.RollCentreHeight} {
		l := find(t, r, q.String())
		if !l.Estimate {
			t.Errorf("%s is not marked as an estimate", q)
		}
		near(t, q.String(), l.Spread, math.Abs(value(t, b, q)-value(t, a, q))/2, 1e-12)
	}
	for _, q := range []kinematics.Quantity{kinematics.Camber, kinematics.Caster, kinematics.InstantCentreY, kinematics.RideToe} {
		if l := r.Find(q.String()); l != nil && l.Estimate {
			t.Errorf("%s is marked, though the radius does not show in it: spread %g, band %g", q, l.Spread, l.Band)
		}
	}
	if table := r.Sheet().String(); !strings.Contains(table, "estimated from 205/65R15") {
		t.Errorf("the table does not say what was estimated:\n%s", table)
	}
	for _, l := range mustReadings(t, sourcesOf(t, frontJob)[0], figures.Position{}).Lines {
		if l.Estimate {
			t.Errorf("%s is marked, though the radius was measured", l.Key)
		}
	}
}

func TestSignOpen(t *testing.T) {
	s := sourcesOf(t, frontJob)[0]
	toe := func(within float64) *Line {
		s.Within = kinematics.Evenly(within)
		return find(t, mustReadings(t, s, figures.Position{Travel: 12.5}), "toe")
	}
	// Toe is about -0.002 degrees there.
	if l := toe(1); !l.SignOpen {
		t.Errorf("toe %g ± %g: its sign is said to be known", l.Value, l.Band)
	}
	if l := toe(1e-3); l.SignOpen {
		t.Errorf("toe %g ± %g: its sign is said to be open", l.Value, l.Band)
	}
	s.Within = kinematics.Evenly(1)
	if l := find(t, mustReadings(t, s, figures.Position{}), "half_track"); l.SignOpen {
		t.Error("half track has no sign to leave open")
	}
}

func TestReadingsErrors(t *testing.T) {
	s := sourcesOf(t, frontJob)[1]
	_, err := ReadingsOf(s, figures.Position{Travel: 415})
	if !errors.Is(err, kinematics.ErrUnreachable) {
		t.Fatalf("got %v", err)
	}
	for _, want := range []string{`"spacers only"`, "lower arm", "short at travel +415.0 mm", "from −178.1 mm to +371.9 mm"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not say %q", err, want)
		}
	}
	s.Corner.Upper.Ball = s.Corner.Lower.Ball
	if _, err := ReadingsOf(s, figures.Position{}); !errors.Is(err, kinematics.ErrGeometry) || !strings.Contains(err.Error(), `"spacers only"`) {
		t.Errorf("got %v", err)
	}
}

func TestReadingsJSON(t *testing.T) {
	s := sourcesOf(t, rearJob)[0]
	r := mustReadings(t, s, figures.Position{Travel: 12.7})
	var got struct {
		Travel   float64 `json:"travel_mm"`
		Readings []struct {
			Key   string
			Value *float64
			Unit  string
			Band  *float64 `json:"band_95"`
		}
		Assembled map[string]struct {
			Travel float64 `json:"travel_mm"`
			Link   string
		} `json:"assembled_travel"`
	}
	if err := json.Unmarshal([]byte(r.Sheet().JSON()), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Readings)+2 != len(r.Lines) || got.Travel != 12.7 {
		t.Fatalf("%d readings of %d lines, travel %g", len(got.Readings), len(r.Lines), got.Travel)
	}
	units := map[string]string{"camber": "deg", "scrub_radius": "mm", "camber_gain": "deg/mm", "motion_ratio": "", "toe_in_roll_at_rest": "deg/deg"}
	for _, x := range got.Readings {
		l := find(t, r, x.Key)
		want := l.Value
		if strings.HasPrefix(x.Unit, "deg") && x.Unit != "deg/deg" {
			want *= 180 / math.Pi
		}
		near(t, x.Key, *x.Value, want, 1e-11*math.Abs(want))
		if unit, ok := units[x.Key]; ok && unit != x.Unit {
			t.Errorf("%s is in %q, want %q", x.Key, x.Unit, unit)
		}
		if x.Band == nil {
			t.Errorf("%s has no band", x.Key)
		}
	}
	near(t, "bump limit", got.Assembled["bump"].Travel, find(t, r, figures.BumpLimit).Value, 1e-8)
	if got.Assembled["droop"].Link != "lower arm" {
		t.Errorf("droop is bound by %q", got.Assembled["droop"].Link)
	}
}

// Parallel arms have no instant centre: words in the table, null in JSON.
func TestAtInfinity(t *testing.T) {
	r := mustReadings(t, sourcesOf(t, flatJob)[1], figures.Position{})
	l := find(t, r, "swing_arm")
	if l.Known || l.Missing != "at infinity" || l.Value != 0 {
		t.Errorf("swing arm %+v", l)
	}
	if text := r.Sheet().JSON(); !strings.Contains(text, "\"key\": \"swing_arm\",\n      \"name\": \"Swing arm\",\n      \"value\": null") {
		t.Errorf("no null in\n%s", text)
	}
}

// A variant with another size has its readings marked, with the span of the
// radius, in every table; with its own radius measured it has not.
func TestAnotherTyreIsMarkedInReadings(t *testing.T) {
	j := opened(t, frontJob)
	j.Variants[1].Wheel.SetTyre("195/60R15")
	for variant, marked := range []bool{false, true} {
		s := SourceOf(j, variant)
		r, err := ReadingsOf(s, figures.Position{})
		if err != nil {
			t.Fatal(err)
		}
		l := r.Find(kinematics.ScrubRadius.String())
		if l.Estimate != marked || (s.RadiusFrom == "195/60R15 by the 308.0 mm measured with 205/65R15") != marked {
			t.Errorf("variant %d: %+v from %q", variant, l, s.RadiusFrom)
		}
		if text := r.Sheet().String(); strings.Contains(text, "293.9 mm, estimated from 195/60R15 by the 308.0 mm measured with 205/65R15 (likely 288.0 to 299.7)") != marked {
			t.Error(text)
		}
	}
	j.Variants[1].Wheel.SetRadius(job.Given(units.Length{MM: 306}))
	if s := SourceOf(j, 1); s.RadiusFrom != "" || s.Corner.Wheel.LoadedRadius != 306 {
		t.Errorf("measured: %+v", s)
	}
}
