package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

// assumable is a number of a job that may be assumed: one of a variant, or an end of
// travel or rack.
type assumable struct {
	key string
	set func(j *job.Job)             // marks it
	add func(j *job.Job, by float64) // moves it
	by  float64
	// reach is how often by goes into what the assumption may be off.
	reach float64
	end   bool // of travel or rack, which rows of some tables stand at
}

// assumables of a job, in all of its variants alike.
func assumables(j *job.Job) []assumable {
	var list []assumable
	all := j.Variants[0]
	all.Assumed = math.MaxUint64
	for _, x := range all.Assumptions() {
		at, isPoint := x.Coordinate()
		a := assumable{key: all.KeyOf(x), by: 1.5, reach: x.Range() / 1.5, set: func(j *job.Job) {
			for i := range j.Variants {
				j.Variants[i].Assumed = j.Variants[i].Assumed.With(x, true)
			}
		}}
		number := func(v *job.Variant) *units.Length {
			p := v.Position(at.Point)
			return [...]*units.Length{&p.X, &p.Y, &p.Z}[at.Axis]
		}
		switch x {
		case job.CamberValue, job.ToeValue:
			a.by, a.reach = 0.15, x.Range()/0.15
			a.add = func(j *job.Job, by float64) {
				for i := range j.Variants {
					v := &j.Variants[i]
					*map[job.Value]*job.Degrees{job.CamberValue: &v.Camber, job.ToeValue: &v.Toe}[x] += job.Degrees(by)
				}
			}
		default:
			if !isPoint {
				number = func(v *job.Variant) *units.Length {
					return map[job.Value]*units.Length{job.RimWidthValue: &v.Wheel.RimWidth, job.OffsetValue: &v.Wheel.Offset}[x]
				}
				a.by, a.reach = 7, x.Range()/7
			}
			a.add = func(j *job.Job, by float64) {
				for i := range j.Variants {
					to := number(&j.Variants[i])
					*to = units.Length{MM: to.MM + by}
				}
			}
		}
		list = append(list, a)
	}
	for k, of := range []func(j *job.Job) (*units.Length, *bool){
		func(j *job.Job) (*units.Length, *bool) { return &j.Travel.Bump, &j.Travel.Assumed[0] },
		func(j *job.Job) (*units.Length, *bool) { return &j.Travel.Droop, &j.Travel.Assumed[1] },
		func(j *job.Job) (*units.Length, *bool) { return &j.Rack.Left, &j.Rack.Assumed[0] },
		func(j *job.Job) (*units.Length, *bool) { return &j.Rack.Right, &j.Rack.Assumed[1] },
	} {
		list = append(list, assumable{key: [...]string{"travel.bump", "travel.droop", "rack.left", "rack.right"}[k], by: -4, reach: math.Inf(1), end: true,
			set: func(j *job.Job) { _, marked := of(j); *marked = true }, add: func(j *job.Job, by float64) { mm, _ := of(j); mm.MM += by; mm.Typed = "" }})
	}
	return list
}

var faces = []string{"json", "table"}

// asks are every command that answers about a job, in every face; where rows stand at
// places of travel or rack, these are no figures that rest on them.
var asks = []struct {
	args  string
	faces []string
	rows  bool
	never string // what it does not rest on
	marks bool   // its rows have marks of their own
}{
	{"readings JOB", faces, false, "rack", true}, {"readings JOB --travel -31 --rack 12", faces, false, "rack", true},
	{"compare JOB", faces, false, "rack", true}, {"check JOB", []string{""}, false, "", false},
	{"sweep JOB", []string{"csv", "json", "table"}, true, "rack travel", false}, {"sweep JOB --over roll", []string{"csv"}, true, "rack travel", false},
	{"diagnose JOB", faces, false, "rack spring", false}, {"diagnose JOB --from -41 --to 37", faces, false, "rack spring travel", false},
	{"tune JOB --free outer_end.z=-15..25", faces, false, "", false}, {"gauge JOB", faces, true, "rack spring travel", false},
	{"fit JOB --readings CSV", faces, false, "rack spring", false}, {"adjust JOB", faces, false, "rack spring travel", false}, {"adjust JOB --toe 0.1", faces, false, "", false},
	{"arms JOB --lower 10", faces, false, "", false}, {"effort JOB", faces, false, "rack spring travel", false}, {"clearance JOB", faces, false, "", false},
	{"lock JOB --step 20", []string{"csv", "json", "table"}, true, "", false}, {"joints JOB", faces, false, "spring", false}, {"widen JOB --by 10", faces, false, "", false},
	{"reach JOB --half-track 745", faces, false, "", false}, {"offsets JOB", []string{"json", "csv", "table"}, false, "rack spring travel", false},
}

// Whatever is printed of a job and moves with a number that is assumed says so, in every
// command and face, and names it; in JSON the row itself of readings and comparisons. Of
// what an answer does not rest on it says nothing.
func TestWhatRestsOnAnAssumptionSaysSo(t *testing.T) {
	seed, each := uint64(20261203), 1
	if os.Getenv("ARMSCRIBE_LONG") != "" {
		seed, each = rand.Uint64(), 12
	}
	t.Logf("seed %d", seed)
	rnd := rand.New(rand.NewPCG(seed, 1))
	t.Chdir("../..")
	dir := t.TempDir()
	j, err := job.Load(front)
	if err != nil {
		t.Fatal(err)
	}
	list := assumables(j)
	file := func(change func(j *job.Job)) string {
		next := j.Clone()
		change(next)
		data, err := next.Encode()
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, "job.yaml")
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	answer := func(args, face, path string) string {
		var out, errs bytes.Buffer
		if face != "" {
			args += " --format " + face
		}
		Run(strings.Fields(strings.NewReplacer("JOB", path, "CSV", toe).Replace(args)), &out, &errs)
		if out.Len() == 0 {
			t.Fatalf("%s: %s", args, errs.String())
		}
		return out.String()
	}
	moved := 0
	rim := slices.IndexFunc(list, func(a assumable) bool { return a.key == "wheel.rim_width" })
	for n, ask := range asks {
		for _, k := range append(rnd.Perm(len(list))[:each], rim, len(list)-1-n%2, len(list)-3-n%2) {
			a := list[k]
			if ask.rows && a.end {
				continue
			}
			moves := false
			for n, face := range ask.faces {
				is := answer(ask.args, face, file(a.set))
				at := fmt.Sprintf("%s %s, %s assumed", ask.args, face, a.key)
				if n > 0 && !ask.marks { // it says the same of the same figures
					if moves && !saysAssumed(face, is, a.key) {
						t.Errorf("%s: it does not say so", at)
					}
					continue
				}
				var unmarked []string
				unmarked, moves = unmarkedIn(t, face, is, answer(ask.args, face, file(func(j *job.Job) { a.set(j); a.add(j, a.by) })), a)
				for _, place := range unmarked {
					t.Errorf("%s: no mark at %s", at, place)
				}
			}
			if moves {
				moved++
			}
		}
		for _, a := range list {
			if word, _, _ := strings.Cut(a.key, "."); strings.Contains(ask.never, word) && saysAssumed(ask.faces[0], answer(ask.args, ask.faces[0], file(a.set)), a.key) {
				t.Errorf("%s: it says that it rests on %s", ask.args, a.key)
			}
		}
		for _, face := range ask.faces {
			if is := answer(ask.args, face, file(func(*job.Job) {})); strings.Contains(is, "Rests on assumed") || strings.Contains(is, "assumed:") {
				t.Errorf("%s %s: of what is measured it says that it is assumed", ask.args, face)
			}
		}
	}
	if moved < len(asks) {
		t.Errorf("only %d answers moved", moved)
	}
}

func saysAssumed(face, is, key string) bool {
	return strings.Contains(is, key) && (strings.Contains(is, "Rests on assumed") || face == "json" && strings.Contains(is, `"assumed": [`))
}

// unmarkedIn lists the places where two answers differ and the first has no mark.
func unmarkedIn(t *testing.T, face, is, then string, of assumable) (places []string, moved bool) {
	t.Helper()
	if face == "json" {
		var a, b any
		if json.Unmarshal([]byte(is), &a) != nil || json.Unmarshal([]byte(then), &b) != nil {
			t.Fatal("no JSON")
		}
		walk("", a, b, false, of, func(place string, marked bool) {
			if moved = true; !marked {
				places = append(places, place)
			}
		})
		return places, moved
	}
	lines, other := strings.Split(is, "\n"), strings.Split(then, "\n")
	for i, line := range lines {
		if i < len(other) && line == other[i] {
			continue
		}
		moved = true
		if ends := strings.Contains(line, " ends at "); ends && !strings.Contains(line, "assumed") {
			places = append(places, line)
		}
	}
	if moved && !saysAssumed(face, is, of.key) {
		places = append(places, "the whole answer")
	}
	return places, moved
}

// walk calls found for each number that differs, with whether an object around it names
// the key as assumed: of rows that have marks of their own, the row.
func walk(place string, a, b any, marked bool, of assumable, found func(place string, marked bool)) {
	switch x := a.(type) {
	case map[string]any:
		y, ok := b.(map[string]any)
		if !ok {
			found(place, marked)
			return
		}
		own, has := x["assumed"]
		if _, row := x["positive_when"]; row {
			marked = false
		}
		marked = marked || has && strings.Contains(fmt.Sprint(own), of.key)
		if v, ok := x["value"].(float64); ok && !marked { // a row: what shows in no digit needs no mark
			if w, ok := y["value"].(float64); !ok || math.Abs(w-v)*of.reach > shown*bandOf(x) && math.Abs(w-v) > 1e-9 {
				found(place+".value", false)
			}
			return
		}
		for name := range x {
			walk(place+"."+name, x[name], y[name], marked, of, found)
		}
	case []any:
		y, ok := b.([]any)
		if !ok || len(x) != len(y) {
			found(place, marked)
			return
		}
		for i := range x {
			walk(fmt.Sprintf("%s[%d]", place, i), x[i], y[i], marked, of, found)
		}
	case float64:
		if y, ok := b.(float64); !ok || math.Abs(x-y) > 1e-6*max(1, math.Abs(x)) {
			found(place, marked)
		}
	case string:
		if a != b {
			found(place, marked)
		}
	}
}

// shown is a share of a band that may show in a digit.
const shown = 0.03

// bandOf is a row's band, or half its interval; nought where it has none.
func bandOf(row map[string]any) float64 {
	if half, ok := row["band_95"].(float64); ok {
		return half
	}
	low, _ := row["low_95"].(float64)
	high, _ := row["high_95"].(float64)
	return (high - low) / 2
}
