package bumpsteer

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/kinematics"
)

func fitOf(t *testing.T, q FitRequest) Fitted {
	t.Helper()
	f, err := Fit(q)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// request reads a car that differs from the measured points in several places.
func request(t *testing.T, seed uint64) (FitRequest, kinematics.Corner) {
	t.Helper()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 7))
	measured, car := behind(), behind()
	for _, at := range measured.Coordinates() {
		car.Shift(at, 0.8*(2*r.Float64()-1))
	}
	return FitRequest{Corner: measured, Within: kinematics.Evenly(0.8), Sigma: gaugeSigma, Readings: readCar(t, r, car, 0), From: -55, To: 60}, car
}

// The fitted corner is the bottom of the misfit, which the test adds up itself.
func TestFitIsTheLeastMisfit(t *testing.T) {
	q, _ := request(t, 31)
	f := fitOf(t, q)
	misfit := func(mm map[kinematics.Coordinate]float64) float64 {
		c, sum := q.Corner, 0.0
		for at, x := range mm {
			c.Shift(at, x)
			sum += x * x / (0.8 * 0.8 / 3)
		}
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range q.Readings {
			p, _ := m.At(r.Travel, 0)
			read := p.Readings()
			toe, _ := read.Of(kinematics.Toe)
			sum += math.Pow((r.Toe-toe+c.Toe)/gaugeSigma, 2)
		}
		return sum
	}
	best := map[kinematics.Coordinate]float64{}
	for _, c := range f.Corrections {
		best[c.At] = c.MM
		if c.Sigma > c.Prior*(1+1e-12) || c.Prior != 0.8/math.Sqrt(3) {
			t.Errorf("%v: deviation %g from %g", c.At, c.Sigma, c.Prior)
		}
	}
	least := misfit(best)
	if none := misfit(nil); none < 10*least {
		t.Errorf("the readings are no test: misfit %g without corrections, %g with", none, least)
	}
	for _, c := range f.Corrections {
		for _, d := range []float64{0.02, -0.02} {
			best[c.At] = c.MM + d
			if got := misfit(best); got < least {
				t.Errorf("%v %+g mm: misfit %.9f, below %.9f", c.At, d, got, least)
			}
			best[c.At] = c.MM
		}
	}
}

// Freed of its prior, a coordinate goes where Size says, and the misfit falls
// by the square of its statistic.
func TestSizeIsWhereAFreedCoordinateGoes(t *testing.T) {
	q, _ := request(t, 32)
	car := q.Corner
	car.TieRod.RackEnd.Z += 3.1
	q.Readings = readCar(t, rand.New(rand.NewPCG(8, 8)), car, 0)
	f := fitOf(t, q)
	for _, c := range f.Corrections {
		if c.At != RackHeight.Coordinate() {
			continue
		}
		freed := q
		freed.Prior = map[kinematics.Coordinate]float64{c.At: 1000}
		g := fitOf(t, freed)
		for _, d := range g.Corrections {
			if d.At == c.At && (math.Abs(d.MM-c.Size.Value) > 0.03*math.Abs(d.MM) || math.Abs(kinematics.Normal95*d.Sigma/c.Size.Half-1) > 0.03) {
				t.Errorf("freed it goes to %.4f, deviation %.4f; said %+v", d.MM, d.Sigma, c.Size)
			}
		}
		if math.Abs(c.Size.Value-3.1) > c.Size.Half {
			t.Errorf("3.1 mm hidden, %+v found", c.Size)
		}
	}
}

func TestBadReadingIsFlagged(t *testing.T) {
	for _, index := range []int{1, 4, 6} {
		q, car := request(t, 40+uint64(index))
		q.ZeroFree = true
		clean := fitOf(t, q)
		for i, r := range clean.Residuals {
			if r.Bad {
				t.Errorf("reading %d is good but was flagged, %+v", i, r)
			}
		}
		q.Readings[index].Toe += 25 * gaugeSigma
		kept := fitOf(t, q)
		q.LeaveOutBad = true
		without := fitOf(t, q)
		for i := range q.Readings {
			if kept.Residuals[i].Bad != (i == index) || kept.Residuals[i].LeftOut || without.Residuals[i].LeftOut != (i == index) {
				t.Errorf("reading %d bad: reading %d has %+v and %+v", index, i, kept.Residuals[i], without.Residuals[i])
			}
		}
		truth, err := Diagnose(car, kinematics.Evenly(0), -55, 60)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(without.Advice.Slope.Value - truth.Slope.Value); d > 1.5*without.Advice.Slope.Half {
			t.Errorf("without the bad reading the slope is off by %g, band %g", d, without.Advice.Slope.Half)
		}
	}
}

func TestEachSideHasItsZero(t *testing.T) {
	q, car := request(t, 51)
	r := rand.New(rand.NewPCG(51, 2))
	q.ZeroFree, q.Readings = true, nil
	for _, s := range []struct {
		side Side
		zero float64
	}{{LeftSide, 0.0021}, {RightSide, -0.0037}} {
		for _, reading := range readCar(t, r, car, s.zero) {
			reading.Side = s.side
			q.Readings = append(q.Readings, reading)
		}
	}
	f := fitOf(t, q)
	if math.Abs(f.Zero[LeftSide].Value-0.0021) > 1.5*f.Zero[LeftSide].Half || math.Abs(f.Zero[RightSide].Value+0.0037) > 1.5*f.Zero[RightSide].Half ||
		f.Zero[SideNotGiven] != (Banded{}) || f.Zero[LeftSide].Half == 0 {
		t.Errorf("zeros %+v", f.Zero)
	}
	for i, res := range f.Residuals {
		if math.Abs(res.Fitted+res.Miss-res.Reading.Toe) > 1e-15 || math.Abs(res.Miss) > 5*gaugeSigma {
			t.Errorf("reading %d: %+v", i, res)
		}
	}
	if again := fitOf(t, q); again.Corner != f.Corner {
		t.Error("the same request gave another corner")
	}
}

func TestExactPointsStayAndReadingsHaveTheirOwnDeviation(t *testing.T) {
	q, _ := request(t, 61)
	q.Prior = map[kinematics.Coordinate]float64{}
	for _, at := range q.Corner.Coordinates() {
		if at.Point != kinematics.RackEnd {
			q.Prior[at] = 0
		}
	}
	for i := range q.Readings {
		q.Readings[i].Sigma = gaugeSigma * float64(1+i%3)
	}
	f := fitOf(t, q)
	moved := q.Corner
	moved.TieRod.RackEnd = f.Corner.TieRod.RackEnd
	if f.Corner != moved || f.Corner == q.Corner {
		t.Errorf("only the rack end may move: %+v", f.Corner)
	}
	for i, r := range f.Residuals {
		coarse := q
		coarse.Readings = append([]Reading(nil), q.Readings...)
		coarse.Readings[i].Sigma = 1 // as good as not taken
		if g := fitOf(t, coarse); math.Abs(g.Residuals[i].Miss) < math.Abs(r.Miss) {
			t.Errorf("reading %d misses by %g without its weight, %g with", i, g.Residuals[i].Miss, r.Miss)
		}
	}
}

func TestFitRefuses(t *testing.T) {
	good, _ := request(t, 71)
	for name, row := range map[string]struct {
		change func(*FitRequest)
		want   error
	}{
		"two readings":  {func(q *FitRequest) { q.Readings = q.Readings[:2] }, ErrTooFewReadings},
		"no reading":    {func(q *FitRequest) { q.Readings = nil }, ErrTooFewReadings},
		"out of reach":  {func(q *FitRequest) { q.Readings[3].Travel = 612 }, kinematics.ErrUnreachable},
		"reading named": {func(q *FitRequest) { q.Readings[3].Travel = 612 }, ErrReading},
		"travel NaN":    {func(q *FitRequest) { q.Readings[2].Travel = math.NaN() }, ErrReading},
		"toe NaN":       {func(q *FitRequest) { q.Readings[2].Toe = math.NaN() }, ErrReading},
		"toe in mm":     {func(q *FitRequest) { q.Readings[2].Toe = 3.5 }, ErrReading},
		"sigma below 0": {func(q *FitRequest) { q.Readings[2].Sigma = -1e-4 }, ErrReading},
		"exact gauge":   {func(q *FitRequest) { q.Sigma = 0 }, ErrGauge},
		"range":         {func(q *FitRequest) { q.From = 3 }, ErrRange},
		"geometry":      {func(q *FitRequest) { q.Corner.Upper.Ball = q.Corner.Lower.Ball }, kinematics.ErrGeometry},
	} {
		q := good
		q.Readings = append([]Reading(nil), good.Readings...)
		row.change(&q)
		if _, err := Fit(q); !errors.Is(err, row.want) || err.Error() == "" {
			t.Errorf("%s: %v, want %v", name, err, row.want)
		}
	}
}
