package report

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armscribe/app/figures"

	"armscribe/kinematics"
)

// promised are the columns as readers of the files know them.
const promised = "side,travel_mm,rack_mm,roll_deg,camber_deg,toe_deg,caster_deg,steering_axis_inclination_deg," +
	"scrub_radius_mm,trail_mm,half_track_mm,instant_centre_y_mm,instant_centre_z_mm,swing_arm_mm," +
	"roll_centre_y_mm,roll_centre_height_mm,tie_rod_error_mm,variant," +
	"camber_deg_band_95,toe_deg_band_95,caster_deg_band_95,steering_axis_inclination_deg_band_95," +
	"scrub_radius_mm_band_95,trail_mm_band_95,half_track_mm_band_95,instant_centre_y_mm_band_95,instant_centre_z_mm_band_95,swing_arm_mm_band_95," +
	"roll_centre_y_mm_band_95,roll_centre_height_mm_band_95,tie_rod_error_mm_band_95"

func mustSweep(t *testing.T, s Source, sp Spec) *Sweep {
	t.Helper()
	w, err := SweepOf(s, sp)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// table reads a CSV back as columns by name; infinity where a cell is empty.
func table(t *testing.T, text string) (sides []string, columns map[string][]float64) {
	t.Helper()
	if strings.Count(text, "\n") != strings.Count(text, "\r\n") {
		t.Error("a line that does not end in CR LF")
	}
	if head, _, _ := strings.Cut(text, "\r\n"); head != promised {
		t.Fatalf("columns\n%s, want\n%s", head, promised)
	}
	records, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	columns = map[string][]float64{}
	for _, r := range records[1:] {
		sides = append(sides, r[0])
		for i, cell := range r[1:] {
			if records[0][i+1] == "variant" {
				continue
			}
			v := math.Inf(1)
			if cell != "" {
				if v, err = strconv.ParseFloat(cell, 64); err != nil {
					t.Fatal(err)
				}
				if _, decimals, _ := strings.Cut(cell, "."); len(decimals) < 6 {
					t.Errorf("%q has fewer than six decimals", cell)
				}
			}
			columns[records[0][i+1]] = append(columns[records[0][i+1]], v)
		}
	}
	return sides, columns
}

const (
	csvTol = 0.6e-9 // half a unit of the ninth decimal, and rounding
	deg    = 180 / math.Pi
)

// wants are the readings of a row as the file should hold them.
func wants(r *kinematics.Readings) map[string]float64 {
	list := map[string]float64{}
	for q := kinematics.Camber; q <= kinematics.TieRodError; q++ {
		v, ok := r.Of(q)
		unit := "_mm"
		if q.Kind() == kinematics.Angle {
			v, unit = v*deg, "_deg"
		}
		if !ok {
			v = math.Inf(1)
		}
		list[q.String()+unit] = v
	}
	return list
}

func compareRow9(t *testing.T, columns map[string][]float64, row int, r *kinematics.Readings) {
	t.Helper()
	for name, want := range wants(r) {
		got := columns[name][row]
		if math.IsInf(want, 1) != math.IsInf(got, 1) {
			t.Errorf("row %d, %s: %g, want %g", row, name, got, want)
		} else if !math.IsInf(want, 1) {
			near(t, fmt.Sprintf("row %d, %s", row, name), got, want, csvTol+1e-15*math.Abs(want))
		}
	}
}

func TestSweepOverTravel(t *testing.T) {
	for _, path := range allJobs {
		for _, s := range sourcesOf(t, path) {
			sides, c := table(t, mustSweep(t, s, Spec{From: -43.5, To: 31, Step: 12.5, Rack: 6.25}).Sheet().CSV())
			want := []float64{-43.5, -31, -18.5, -6, 6.5, 19, 31}
			if !slices.Equal(c["travel_mm"], want) {
				t.Errorf("travels %v, want %v", c["travel_mm"], want)
			}
			for i, h := range want {
				r := readingsAt(t, s.Corner, h, 6.25)
				compareRow9(t, c, i, &r)
				if sides[i] != "left" || c["rack_mm"][i] != 6.25 || c["roll_deg"][i] != 0 {
					t.Errorf("row %d: %s, rack %g, roll %g", i, sides[i], c["rack_mm"][i], c["roll_deg"][i])
				}
			}
		}
	}
}

func TestSweepOverRack(t *testing.T) {
	s := sourcesOf(t, frontJob)[2]
	_, c := table(t, mustSweep(t, s, Spec{Over: OverRack, From: 13, To: -27, Step: 20, Travel: -8.5}).Sheet().CSV())
	for i, x := range []float64{13, -7, -27} {
		r := readingsAt(t, s.Corner, -8.5, x)
		compareRow9(t, c, i, &r)
		if c["rack_mm"][i] != x || c["travel_mm"][i] != -8.5 {
			t.Errorf("row %d at travel %g, rack %g", i, c["travel_mm"][i], c["rack_mm"][i])
		}
	}
	if n := len(c["rack_mm"]); n != 3 {
		t.Errorf("%d rows, want 3", n)
	}
}

func TestSweepOverRoll(t *testing.T) {
	s := sourcesOf(t, frontJob)[1]
	angles := []float64{-3.25, -1, 1.25, 2.5}
	sides, c := table(t, mustSweep(t, s, Spec{Over: OverRoll, From: -3.25 / deg, To: 2.5 / deg, Step: 2.25 / deg, Rack: 4.75}).Sheet().CSV())
	if len(sides) != 2*len(angles) {
		t.Fatalf("%d rows, want two an angle", len(sides))
	}
	for i, a := range angles {
		ax, err := mechanism(t, s.Corner).Roll(c["roll_deg"][2*i]/deg, 4.75)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "roll", c["roll_deg"][2*i], a, csvTol)
		l, r := ax.Readings()
		for side, x := range []*kinematics.Readings{&l, &r} {
			row := 2*i + side
			// The angle comes back rounded to nine decimals, hence the room.
			for name, want := range wants(x) {
				near(t, fmt.Sprintf("row %d, %s", row, name), c[name][row], want, 1e-6*(1+math.Abs(want)))
			}
			if sides[row] != []string{"left", "right"}[side] || c["rack_mm"][row] != 4.75 {
				t.Errorf("row %d: %s, rack %g", row, sides[row], c["rack_mm"][row])
			}
		}
		// Each wheel's own travel: the mean is nought, and the side that lifts droops.
		near(t, "mean travel", c["travel_mm"][2*i]+c["travel_mm"][2*i+1], 0, 2*csvTol)
		near(t, "left travel", c["travel_mm"][2*i], -779*math.Tan(a/deg), 3)
	}
}

func TestSweepEmptyCellsAtInfinity(t *testing.T) {
	w := mustSweep(t, sourcesOf(t, flatJob)[1], Spec{From: -25, To: 35, Step: 30})
	text := w.Sheet().CSV()
	_, c := table(t, text)
	for i := range 3 {
		for _, name := range []string{"instant_centre_y_mm", "instant_centre_z_mm", "swing_arm_mm"} {
			if !math.IsInf(c[name][i], 1) {
				t.Errorf("row %d: %s is %g", i, name, c[name][i])
			}
		}
		if math.IsInf(c["roll_centre_height_mm"][i], 1) {
			t.Errorf("row %d: level parallel lines still cross the centre plane", i)
		}
	}
	if strings.Contains(text, "Inf") || strings.Contains(text, "NaN") {
		t.Error(text)
	}
}

// The bands of a file are the readings' own, in its unit, and it names the variant.
func TestSweepFilesCarryBands(t *testing.T) {
	s := sourcesOf(t, frontJob)[1]
	_, c := table(t, mustSweep(t, s, Spec{From: -20, To: 30, Step: 50}).Sheet().CSV())
	for i, travel := range []float64{-20, 30} {
		r, err := ReadingsOf(s, figures.Position{Travel: travel})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "camber", c["camber_deg_band_95"][i], degrees(r.Find("camber").Band), 1e-6)
		near(t, "scrub radius", c["scrub_radius_mm_band_95"][i], r.Find("scrub_radius").Band, 1e-4)
		near(t, "roll centre", c["roll_centre_height_mm_band_95"][i], r.Find("roll_centre_height").Band, 1e-2)
	}
	records, err := csv.NewReader(strings.NewReader(mustSweep(t, s, Spec{From: 0, To: 5, Step: 5}).Sheet().CSV())).ReadAll()
	if err != nil || records[1][17] != s.Variant || records[0][17] != "variant" {
		t.Errorf("%v, %v", records[1], err)
	}
}

func TestSweepJSONIsTheCSV(t *testing.T) {
	for _, at := range []struct {
		path string
		sp   Spec
	}{
		{flatJob, Spec{From: -25, To: 35, Step: 30}},
		{frontJob, Spec{Over: OverRoll, From: -0.03, To: 0.05, Step: 0.02}},
	} {
		w := mustSweep(t, sourcesOf(t, at.path)[1], at.sp)
		records, err := csv.NewReader(strings.NewReader(w.Sheet().CSV())).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		var rows []map[string]any
		if err := json.Unmarshal([]byte(w.Sheet().JSON()), &rows); err != nil {
			t.Fatal(err)
		}
		if len(rows) != len(records)-1 {
			t.Fatalf("%d rows, the CSV has %d", len(rows), len(records)-1)
		}
		for i, row := range rows {
			if len(row) != len(records[0]) {
				t.Fatalf("row %d has %d names, the CSV %d", i, len(row), len(records[0]))
			}
			for j, name := range records[0] {
				cell := records[i+1][j]
				v, there := row[name]
				switch x := v.(type) {
				case string:
					if x != cell {
						t.Errorf("row %d, %s: %q, the CSV %q", i, name, x, cell)
					}
				case float64:
					if want, err := strconv.ParseFloat(cell, 64); err != nil || want != x {
						t.Errorf("row %d, %s: %v, the CSV %q", i, name, x, cell)
					}
				default:
					if !there || v != nil || cell != "" {
						t.Errorf("row %d, %s: %v, the CSV %q", i, name, v, cell)
					}
				}
			}
		}
	}
}

func TestPositions(t *testing.T) {
	for _, c := range []struct {
		from, to, step float64
		want           []float64
	}{
		{-7, 8, 5, []float64{-7, -2, 3, 8}},
		{-7, 9, 5, []float64{-7, -2, 3, 8, 9}}, // the last step is shorter
		{8, -7, 5, []float64{8, 3, -2, -7}},    // downward
		{3.5, 3.5, 2, []float64{3.5}},          // one place
		{3, 5, 40, []float64{3, 5}},            // a step beyond the range
		{-0.3, 0.3, 0.3, []float64{-0.3, 0, 0.3}},
	} {
		sp := Spec{From: c.from, To: c.to, Step: c.step}
		if got := sp.positions(); !slices.Equal(got, c.want) {
			t.Errorf("%g to %g by %g: %v, want %v", c.from, c.to, c.step, got, c.want)
		}
	}
	// Tenths are not exact in binary, and must neither drift nor add a row.
	sp := Spec{From: -60, To: 70, Step: 0.1}
	got := sp.positions()
	if len(got) != 1301 || got[0] != -60 || got[600] != 0 || got[1300] != 70 {
		t.Fatalf("%d places, %g ... %g ... %g", len(got), got[0], got[600], got[len(got)-1])
	}
	for i, h := range got {
		near(t, "place", h, float64(i-600)/10, 1e-13*60)
	}
}

func TestSweepRefusesNonsense(t *testing.T) {
	s := sourcesOf(t, frontJob)[0]
	for _, sp := range []Spec{
		{From: -7, To: 9, Step: 0}, {From: -7, To: 9, Step: -3}, {From: -7, To: 9, Step: math.NaN()},
		{From: -60, To: 60, Step: 0.0011}, {From: -60, To: 60, Step: 5e-324},
		{Over: OverRoll, From: -0.06, To: 0.06, Step: 2.3e-6}, // two rows an angle
	} {
		if w, err := SweepOf(s, sp); !errors.Is(err, ErrSpec) || w != nil {
			t.Errorf("%+v: %v", sp, err)
		}
	}
	if n := (&Spec{From: -60, To: 60, Step: 0.00121}).count(); n > MaxRows {
		t.Errorf("%g rows are too many for this test", n)
	}
}

func TestSweepBeyondReachPrintsNothing(t *testing.T) {
	s := sourcesOf(t, frontJob)[0]
	for _, c := range []struct {
		sp   Spec
		want []string
	}{
		{Spec{From: -20, To: 360, Step: 10}, []string{"lower arm", "short at travel +350.0", "binds at +346.5", "from −183.1 mm to +346.5 mm of travel at rack 0 mm"}},
		{Spec{Over: OverRack, From: -20, To: 150, Step: 10}, []string{"tie rod", "too long", "rack +140.0", "from −20 mm of rack to +138.2 mm of rack"}},
		{Spec{Over: OverRoll, From: 0.1, To: 0.4, Step: 0.05}, []string{"left corner", "lower arm", "from +5.73 deg of roll to +12.38 deg of roll"}},
	} {
		w, err := SweepOf(s, c.sp)
		if !errors.Is(err, kinematics.ErrUnreachable) || w != nil {
			t.Errorf("%+v: %v, %v", c.sp, w, err)
			continue
		}
		for _, want := range append(c.want, `"as measured"`) {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%q does not say %q", err, want)
			}
		}
	}
}
