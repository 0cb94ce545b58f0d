package kinematics

// bandStep is half the central difference by each coordinate, mm: small against
// a corner, large against rounding (1e-13 mm, and 1e-9 where a value is itself a
// difference).
const bandStep = 1e-2

// angleStep is that of an angle, rad: as small, and as large.
const angleStep = 1e-4

// Bands are the 95 % measuring-error bands of readings.
type Bands struct {
	values  [QuantityCount]float64 // of the readings themselves
	halves  [QuantityCount]float64
	known   uint32
	centres [centreCount]Interval
	placed  [centreCount]bool // the interval is known, that of parallel arms too
	assumed uint32
	needs   [QuantityCount]Coordinate
	needed  uint32
}

// Assumed tells whether a quantity rests on something that is assumed.
func (b *Bands) Assumed(q Quantity) bool { return b.assumed&(1<<q) != 0 }

// assumedShare of a band is less than the last digit printed with it: what of a
// value rests on assumptions by less rests on none.
const assumedShare = 0.01

// roundingSquare bounds from above the square of what is rounding in a band: that
// of toe at rest, for example, which is exact.
const roundingSquare = 1e-18

// restsOn tells whether an effect is more than rounding and shows beside the whole.
func restsOn(square, all float64) bool {
	return all > roundingSquare && square > assumedShare*assumedShare*all
}

// Of returns the half-width for a quantity, in its own unit; false where the
// quantity does not exist, does not in a corner a hundredth of a mm away, or may
// be infinite.
func (b *Bands) Of(q Quantity) (half float64, ok bool) {
	return b.halves[q], b.known&(1<<q) != 0
}

// Interval returns where a quantity lies. Of instant centre, swing arm and roll
// centre it may be lopsided or go through infinity, and is then known for
// parallel arms too, which have no such reading; of all else it is the reading
// less and plus its half-width.
func (b *Bands) Interval(q Quantity) (Interval, bool) {
	if k := centreIndex(q); k >= 0 {
		return b.centres[k], b.placed[k]
	}
	_, ok := b.Of(q)
	return around(b.values[q], b.halves[q]), ok
}

// Bands returns the bands at one pose; see SweepBands.
func (m *Mechanism) Bands(within Within, travel, rack float64) (Bands, error) {
	var b [1]Bands
	err := m.SweepBands(b[:], within, []float64{travel}, rack)
	return b[0], err
}

// bandPoses is how many poses SweepBands holds at once.
const bandPoses = 9

// SweepBands writes, for each travel, the 95 % bands that follow from the
// errors of the measured coordinates, to first order: see Linearise, of which this
// is the quick way for readings. The given angles and wheel sizes are taken as
// exact. Errors are those of At at the travels given.
func (m *Mechanism) SweepBands(dst []Bands, within Within, travel []float64, rack float64) error {
	for len(travel) > 0 {
		n := min(bandPoses, len(travel))
		if err := m.sweepBands(dst[:n], &within, travel[:n], rack); err != nil {
			return err
		}
		dst, travel = dst[n:], travel[n:]
	}
	return nil
}

func (m *Mechanism) sweepBands(dst []Bands, within *Within, travel []float64, rack float64) error {
	var sums [bandPoses]bandSums
	var p Pose
	for i, h := range travel {
		if err := m.solve(h, rack, &p); err != nil {
			return err
		}
		sums[i].start(&p)
	}
	var plus, minus poseValues
	var buffer [maxCoordinates]Coordinate
	for _, at := range within.coordinates(&m.corner, buffer[:0]) {
		size := within.of(at)
		up, down, ok := m.neighbours(within, at)
		for i, h := range travel {
			if !ok || up.solve(h, rack, &p) != nil {
				sums[i].lose()
				continue
			}
			plus.read(&p)
			if down.solve(h, rack, &p) != nil {
				sums[i].lose()
				continue
			}
			minus.read(&p)
			sums[i].add(&plus, &minus, at, size, 1/(2*within.step(at)))
		}
	}
	for i := range travel {
		sums[i].finish(&dst[i])
	}
	return nil
}

// neighbours are the mechanism with one coordinate a step up and down; false
// where one of them is no mechanism.
func (m *Mechanism) neighbours(within *Within, at Coordinate) (up, down Mechanism, ok bool) {
	c := m.corner
	within.Shift(&c, at, within.step(at))
	up, err := New(&c)
	if err != nil {
		return up, down, false
	}
	within.Shift(&c, at, -2*within.step(at))
	down, err = New(&c)
	return up, down, err == nil
}

// poseValues are the readings of a pose, those that may be infinite as ratios too.
type poseValues struct {
	readings Readings
	ratios   [centreCount]ratio
}

func (v *poseValues) read(p *Pose) {
	ic := p.instantCentre()
	p.readAbout(&v.readings, ic)
	v.ratios = p.ratios(ic)
}

// nowhere tells of a pose whose arms leave no line to meet.
func (v *poseValues) nowhere() bool { return v.ratios == [centreCount]ratio{} }

// bandSums gathers the bands of one pose.
type bandSums struct {
	here     poseValues
	known    uint32
	spreads  [QuantityCount]spread
	centres  [centreCount]ratioSpread
	inverted [centreCount]bool // the ratio is taken the other way round, at infinity
	placed   [centreCount]bool
	assumed  [QuantityCount]float64 // squares of what assumptions do
	most     [QuantityCount]float64 // and of what one does most
	needs    [QuantityCount]Coordinate
}

func (s *bandSums) start(p *Pose) {
	s.here.read(p)
	s.known = s.here.readings.known
	for k, r := range s.here.ratios {
		s.inverted[k] = s.known&(1<<centreQuantities[k]) == 0
		s.placed[k] = !s.inverted[k] || r.num != 0
	}
}

// lose gives up the pose: a neighbour does not reach it.
func (s *bandSums) lose() { s.known, s.placed = 0, [centreCount]bool{} }

// add adds the effects of one coordinate.
func (s *bandSums) add(plus, minus *poseValues, at Coordinate, size errorSize, scale float64) {
	// At infinity a centre may come and go; its ratios stay.
	s.known &= plus.readings.known & minus.readings.known
	a, b := &plus.readings.values, &minus.readings.values
	for q := range s.spreads {
		d := (a[q] - b[q]) * scale
		s.spreads[q].add(d, size)
		by := d * d * size.assumed * size.assumed
		if s.assumed[q] += by; by > s.most[q] {
			s.needs[q], s.most[q] = at, by
		}
	}
	if plus.nowhere() || minus.nowhere() {
		s.placed = [centreCount]bool{}
	}
	for k := range s.centres {
		if !s.placed[k] {
			continue
		}
		num := (plus.ratios[k].num - minus.ratios[k].num) * scale
		den := (plus.ratios[k].den - minus.ratios[k].den) * scale
		n, d := s.here.ratios[k].num, s.here.ratios[k].den
		if s.inverted[k] {
			num, den, n, d = den, num, d, n
		}
		s.centres[k].add(num-n/d*den, den, size)
	}
}

// finish turns sums of squares into bands.
func (s *bandSums) finish(b *Bands) {
	*b = Bands{values: s.here.readings.values, placed: s.placed}
	for k, q := range centreQuantities {
		s.known &^= 1 << q
		if !s.placed[k] {
			continue
		}
		r := s.here.ratios[k]
		if s.inverted[k] {
			b.centres[k] = s.centres[k].interval(r.den/r.num, r.num).reciprocal()
			continue
		}
		b.centres[k] = s.centres[k].interval(s.here.readings.values[q], r.den)
		if half, ok := b.centres[k].Half(); ok {
			b.halves[q] = half
			s.known |= 1 << q
		}
	}
	b.known = s.known
	for q := range b.halves {
		if restsOn(s.assumed[q], s.spreads[q].squares) {
			b.assumed |= 1 << q
		}
	}
	for q := range b.halves {
		if s.known&(1<<q) != 0 && centreIndex(Quantity(q)) < 0 {
			b.halves[q] = s.spreads[q].half()
			if saysNothing(b.values[q], b.halves[q], s.assumed[q], s.spreads[q].squares) {
				b.needs[q], b.needed = s.needs[q], b.needed|1<<q
			}
		}
	}
}
