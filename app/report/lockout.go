package report

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"

	"armscribe/app/units"
)

// wayNames name the ways that the wheels turn, as Lock.Ways has them.
var wayNames = [2]string{"right", "left"}

// Table prints the lock for a person.
func (l *Lock) Table() string {
	s := &l.Source
	head := fmt.Sprintf("%s: %s, steering from stop to stop at rest height\npoints measured within ±%s\n", oneLine(s.Job), oneLine(s.Variant), s.within())
	return strings.Join([]string{head, l.angles(), l.ends(), foot(l.Notes())}, "\n")
}

// angles are the steering angles over the rack.
func (l *Lock) angles() string {
	s := &l.Source
	g := grid{columns: []align{point, point, left, point, left, point, left, left},
		titles: []span{{0, "rack, " + s.Unit.String()}, {1, "left wheel, deg"}, {3, "right wheel, deg"}, {5, "Ackermann error, deg"}}}
	for i := range l.Rows {
		r := &l.Rows[i]
		if r.Missing != "" {
			g.row(placeText(units.In(r.Rack, s.Unit)), "", "", "", "", "", "", "out of reach: "+r.Missing)
			continue
		}
		cells := []string{placeText(units.In(r.Rack, s.Unit))}
		for _, a := range [...]struct{ rad, band float64 }{{r.Left, r.LeftBand}, {r.Right, r.RightBand}} {
			number, half := r.half(a.band).cells(degrees(a.rad), lockDecimals)
			cells = append(cells, units.Signed(number), half)
		}
		switch {
		case r.HasError:
			number, half := r.half(r.ErrorBand).cells(degrees(r.AckermannError), lockDecimals)
			cells = append(cells, units.Signed(number), half, AckermannWord(r.AckermannError, r.ErrorBand))
		case s.Wheelbase > 0:
			cells = append(cells, "none", "", "straight ahead, or wheels not both turned one way")
		default:
			cells = append(cells, "not known", "")
		}
		g.row(cells...)
	}
	return g.String()
}

// AckermannWord says what an Ackermann error means; both in rad.
func AckermannWord(err, band float64) string {
	switch {
	case err > band:
		return "outer wheel turned too far"
	case err < -band:
		return "outer wheel turned too little"
	}
	return "open: within its band"
}

// ends are what ends the lock each way.
func (l *Lock) ends() string {
	s := &l.Source
	_, far := farUnit(s.Unit)
	g := grid{columns: []align{left, point, point, left, point, left, point, left, point, left, left},
		titles: []span{{1, "rack, " + s.Unit.String()}, {2, "left, deg"}, {4, "right, deg"}, {6, "wall to wall, " + far}, {8, "kerb to kerb, " + far}, {10, "ends at"}}}
	for i := range l.Ways {
		g.row("Turning " + wayNames[i])
		for _, e := range l.Ways[i].ends() {
			g.row(e.cells(s)...)
		}
	}
	return g.String()
}

// namedEnd is an end of a way with what it is an end of.
type namedEnd struct {
	*LockEnd
	key, name string
}

// ends are the ends of a way that differ.
func (w *LockWay) ends() []namedEnd {
	list := []namedEnd{{&w.AtEnd, "rack", "as far as the rack goes"}}
	if w.Kept.By == ByObstacle {
		list = append(list, namedEnd{&w.Kept, "gaps_kept", "wished gaps kept"})
	}
	if w.Touch.By == ByObstacle {
		list = append(list, namedEnd{&w.Touch, "touch", "before it touches"})
	}
	return list
}

func (e namedEnd) cells(s *Source) []string {
	cells := []string{"  " + e.name, units.Signed(gapCell(e.Rack, s.Unit)), "", "", "", "", "", "", "", "", e.Words(s.Unit)}
	if e.Missing == "" {
		cells[2], cells[3] = e.half(e.LeftBand).cells(degrees(e.Left), lockDecimals)
		cells[4], cells[5] = e.half(e.RightBand).cells(degrees(e.Right), lockDecimals)
		cells[2], cells[4] = units.Signed(cells[2]), units.Signed(cells[4])
	}
	if e.HasCircle {
		unit, _ := farUnit(s.Unit)
		band := half{units.In(e.CircleBand, unit), e.HasCircleBand}
		if e.HasWall {
			cells[6], cells[7] = band.cells(units.In(e.Circle.WallToWall, unit), circleDecimals)
		}
		cells[8], cells[9] = band.cells(units.In(e.Circle.KerbToKerb, unit), circleDecimals)
	}
	return cells
}

// Decimals of a steering angle, deg, and of a circle, m or ft, without a band.
const (
	lockDecimals   = 1
	circleDecimals = 1
)

// farUnit is the unit for a turning circle, with its name.
func farUnit(u units.Unit) (units.Unit, string) {
	if u == units.Inch {
		return units.Foot, "ft"
	}
	return units.Metre, "m"
}

// Notes say what the numbers rest on.
func (l *Lock) Notes() []string {
	s := &l.Source
	list := []string{"Angles: left turn positive, toe included. Rack: to the car's left positive. Bands are 95 %."}
	if s.Wheelbase > 0 {
		list = append(list, fmt.Sprintf("Ackermann error: how much farther the outer wheel is turned than it would be if both rolled about one point of the other axle's line, wheelbase %s; positive is toward parallel steering.",
			lengthText(s.Wheelbase, s.Unit)),
			"Circles are diameters at low speed, the other axle's wheels straight. "+l.slip()+"Wall to wall: the farthest point of the tyres; bodywork ahead of the wheel sweeps more and is not in it. Kerb to kerb: the outer tyre's contact.")
	} else {
		list = append(list, "Ackermann error and turning circle need the wheelbase: add wheelbase to the job.")
	}
	switch {
	case l.NoTyre:
		list = append(list, "The tyre's size is not known, so neither the circle from wall to wall nor obstacles are looked at: give a size code and a rim that belong together, as 285/30R18 on 10.5 in.")
	case l.Obstacles == 0:
		list = append(list, "The job states no obstacles on body or damper: whether the tyre touches before the stop is not looked at.")
	default:
		list = append(list, fmt.Sprintf("Obstacles: the tyre over travel %s to %s at every lock, without roll. They are those of the left side; the right side is taken as its mirror image.",
			signedLength(-s.Droop, s.Unit), signedLength(s.Bump, s.Unit)))
	}
	return list
}

// slip says how far the circles are from a turn without slip.
func (l *Lock) slip() string {
	apart := 0.0
	for i := range l.Ways {
		for _, e := range l.Ways[i].ends() {
			apart = max(apart, e.Circle.Spread)
		}
	}
	if apart < leastApart {
		return ""
	}
	far, name := farUnit(l.Source.Unit)
	return fmt.Sprintf("At these locks the two wheels' own turn centres lie up to %s %s apart, so that neither rolls without slip: the circle is taken about the middle between them, and which one the car drives depends on the wheel that carries more. ",
		units.FormatNumber(units.In(apart, far), circleDecimals+1), name)
}

// leastApart is how far apart, mm, turn centres may lie and count as one.
const leastApart = 10.0

type lockRowJSON struct {
	Rack      float64  `json:"rack_mm"`
	Left      *float64 `json:"left_deg"`
	LeftBand  *float64 `json:"left_band_95"`
	Right     *float64 `json:"right_deg"`
	RightBand *float64 `json:"right_band_95"`
	Error     *float64 `json:"ackermann_error_deg"`
	ErrorBand *float64 `json:"ackermann_error_band_95"`
	Missing   string   `json:"missing,omitempty"`
}

type lockEndJSON struct {
	Key      string   `json:"key"`
	Rack     float64  `json:"rack_mm"`
	Left     *float64 `json:"left_deg"`
	Right    *float64 `json:"right_deg"`
	Ends     string   `json:"ends_at"` // stop, obstacle or linkage
	Obstacle *string  `json:"obstacle"`
	Wheel    *string  `json:"wheel"`
	Travel   *float64 `json:"travel_mm"`
	Wall     *float64 `json:"wall_to_wall_mm"`
	WallBand *float64 `json:"wall_to_wall_band_95"`
	Kerb     *float64 `json:"kerb_to_kerb_mm"`
	KerbBand *float64 `json:"kerb_to_kerb_band_95"`
	Apart    *float64 `json:"turn_centres_apart_mm"`
}

type lockWayJSON struct {
	Way  string        `json:"way"`
	Stop float64       `json:"stop_mm"`
	Ends []lockEndJSON `json:"ends"`
}

type lockJSON struct {
	Job       string        `json:"job"`
	Variant   string        `json:"variant"`
	Within    float64       `json:"measured_within_mm"`
	Wheelbase *float64      `json:"wheelbase_mm"`
	Rows      []lockRowJSON `json:"angles"`
	Ways      []lockWayJSON `json:"locks"`
	Notes     []string      `json:"notes"`
	Caution   string        `json:"caution"`
}

var endKeys = map[EndedBy]string{ByStop: "stop", ByObstacle: "obstacle", ByLinkage: "linkage"}

// JSON prints the lock for a program: mm and degrees.
func (l *Lock) JSON() string {
	mm := *l
	mm.Source.Unit = units.Millimetre
	s := &l.Source
	out := lockJSON{Job: s.Job, Variant: s.Variant, Within: s.Within.Common(), Wheelbase: orNull(s.Wheelbase, s.Wheelbase > 0), Notes: mm.Notes(), Caution: Caution}
	for i := range l.Rows {
		r := &l.Rows[i]
		ok := r.Missing == ""
		hasError := ok && r.HasError
		out.Rows = append(out.Rows, lockRowJSON{number12(r.Rack), orNull(degrees(r.Left), ok), bandOrNull(degrees(r.LeftBand), ok && r.HasBands),
			orNull(degrees(r.Right), ok), bandOrNull(degrees(r.RightBand), ok && r.HasBands), orNull(degrees(r.AckermannError), hasError), bandOrNull(degrees(r.ErrorBand), hasError && r.HasBands), r.Missing})
	}
	for i := range l.Ways {
		way := lockWayJSON{Way: wayNames[i], Stop: number12(l.Ways[i].Stop)}
		for _, e := range l.Ways[i].ends() {
			way.Ends = append(way.Ends, e.json())
		}
		out.Ways = append(out.Ways, way)
	}
	return encode(out)
}

func (e namedEnd) json() lockEndJSON {
	ok := e.Missing == ""
	out := lockEndJSON{Key: e.key, Rack: number12(e.Rack), Left: orNull(degrees(e.Left), ok), Right: orNull(degrees(e.Right), ok), Ends: endKeys[e.By],
		Travel: orNull(e.Travel, e.By == ByObstacle), Wall: orNull(e.Circle.WallToWall, e.HasWall), WallBand: bandOrNull(e.CircleBand, e.HasWall && e.HasCircleBand),
		Kerb: orNull(e.Circle.KerbToKerb, e.HasCircle), KerbBand: bandOrNull(e.CircleBand, e.HasCircle && e.HasCircleBand), Apart: orNull(e.Circle.Spread, e.HasCircle)}
	if e.By == ByObstacle {
		out.Obstacle, out.Wheel = &e.Obstacle, &e.Wheel
	}
	return out
}

// CSV prints the angles over the rack after RFC 4180, lines ending in CR LF: mm
// and degrees, an empty cell where there is none.
func (l *Lock) CSV() string {
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.UseCRLF = true
	write := func(record ...string) {
		if err := out.Write(record); err != nil {
			panic(fmt.Sprintf("report: %v", err)) // a buffer takes everything
		}
	}
	write("rack_mm", "left_deg", "right_deg", "ackermann_error_deg")
	for i := range l.Rows {
		r := &l.Rows[i]
		record := []string{plain(r.Rack), "", "", ""}
		if r.Missing == "" {
			record[1], record[2] = plain(degrees(r.Left)), plain(degrees(r.Right))
			if r.HasError {
				record[3] = plain(degrees(r.AckermannError))
			}
		}
		write(record...)
	}
	out.Flush()
	return b.String()
}
