package tyre

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Form is the way a size code is written.
type Form uint8

// The forms. Metric is width/aspect and rim, 205/65R15, or without an aspect ratio
// 155R13. Flotation is overall diameter x width and rim, in inches: 31x10.50R15.
// Inches is width and rim alone: 7.50-16.
const (
	Metric Form = iota + 1
	Flotation
	Inches
)

// Construction is how the carcass is laid.
type Construction uint8

// The constructions. A code marks radial by R, diagonal by a hyphen or D.
const (
	Radial Construction = iota + 1
	Diagonal
)

// Use is the service the code marks.
type Use uint8

// The uses: Unmarked has no letters, Passenger is P, LightTruck is LT.
const (
	Unmarked Use = iota
	Passenger
	LightTruck
)

// Tyre is a size as its code states it. Make one with [Parse]; the methods of
// any other Tyre panic.
type Tyre struct {
	Form         Form
	Construction Construction
	Use          Use
	Width        float64 // nominal section width, mm
	Aspect       int     // nominal aspect ratio, per cent; 0 if the code states none
	RimCode      float64 // nominal rim diameter, inches
	Speed        string  // letter before the R: Z in ZR; empty for none
	Service      string  // what stands behind the size, such as "97Y"; not interpreted

	outside float64 // inches, for Flotation
}

// Limits of a code. They are wide of every size the trade makes for cars and
// light trucks, and catch a digit too few or too many.
const (
	minWidth, maxWidth     = 100, 500  // mm
	minAspect, maxAspect   = 20, 100   // per cent
	minRim, maxRim         = 8.0, 30.0 // inches
	minOutside, maxOutside = 15.0, 60.0
	minInches, maxInches   = 4.0, 25.0 // flotation width
	maxCode                = 60        // characters
)

// service is a load index with or without a speed symbol, and marks for extra
// load or plies, as they stand behind the size. They are kept, not judged. mark is
// the construction, with a speed letter before the R as older codes have it.
const (
	service = `((?: *C)?(?: *\(?\d{2,3}(?:/\d{2,3})? ?[A-Z]{0,2}\d?\)?)?(?: *(?:XL|RF|C|D|E|F|\d{1,2} ?PR))?)`
	mark    = `([HNPQSTUVWYZ]?R|-|D)`
)

var (
	metricCode = regexp.MustCompile(`^(P|LT)? *(\d+)(?: */ *(\d+))? *` + mark + ` *(\d+(?:\.5)?) *(LT)?` + service + `$`)
	inchCode   = regexp.MustCompile(`^(LT)? *(?:(\d+(?:\.\d{1,2})?) *[X×])? *(\d+(?:\.\d{1,2})?) *` + mark + ` *(\d+(?:\.5)?) *(LT)?` + service + `$`)
)

const example = "write it as in 205/65R15, 155R13, LT235/85R16, 31x10.50R15 or 7.50-16"

// Parse reads a tyre size code: metric such as 205/65R15, 205/65ZR15 94V,
// P205/55R16, 205/50-10, 155SR13, or in inches such as 31x10.50R15LT and 7.50-16. Letters may
// be lower case, spaces may stand between the parts. Every error is a
// *CodeError.
func Parse(code string) (Tyre, error) {
	text := strings.ToUpper(strings.Join(strings.Fields(code), " "))
	refuse := func(problem, cure string) (Tyre, error) {
		return Tyre{}, &CodeError{Code: code, Problem: problem, Cure: cure}
	}
	switch {
	case text == "":
		return refuse("no size", example)
	case !utf8.ValidString(code) || utf8.RuneCountInString(text) > maxCode:
		return refuse(fmt.Sprintf("not a size code of at most %d characters", maxCode), example)
	case strings.Contains(text, ","):
		return refuse("a comma", "use a point for decimals, as in 31x10.50R15")
	}
	if m := metricCode.FindStringSubmatch(text); m != nil {
		return metric(code, m)
	}
	if m := inchCode.FindStringSubmatch(text); m != nil {
		return inches(code, m)
	}
	return refuse("not a size this program reads", example)
}

func metric(code string, m []string) (Tyre, error) {
	t := Tyre{Form: Metric, Service: strings.TrimSpace(m[7])}
	t.Construction, t.Speed = construction(m[4])
	var problem string
	if t.Use, problem = use(m[1], m[6]); problem != "" {
		return Tyre{}, &CodeError{code, problem, example}
	}
	t.Width = decimal(m[2])
	aspect := fullProfile * 100.0
	if m[3] != "" {
		aspect = decimal(m[3])
		t.Aspect = int(min(aspect, maxAspect+1))
	}
	t.RimCode = decimal(m[5])
	if m[3] == "" && t.Width > maxWidth {
		return Tyre{}, &CodeError{code, fmt.Sprintf("section width %g mm is more than %d mm", t.Width, maxWidth), "a width in inches has a point, as 7.50-16"}
	}
	for _, l := range []limit{
		{"section width", t.Width, minWidth, maxWidth, "mm", "205 in 205/65R15"},
		{"aspect ratio", aspect, minAspect, maxAspect, "%", "65 in 205/65R15"},
		{"rim diameter", t.RimCode, minRim, maxRim, "in", "15 in 205/65R15"},
	} {
		if err := l.check(code); err != nil {
			return Tyre{}, err
		}
	}
	if t.Aspect > 45 && t.Aspect < 50 {
		return Tyre{}, &CodeError{code, fmt.Sprintf("aspect ratio %d is none the rules know between 45 and 50", t.Aspect),
			"check the code: 45 or 50, as in 225/45R17"}
	}
	return t, nil
}

func inches(code string, m []string) (Tyre, error) {
	t := Tyre{Form: Flotation, Service: strings.TrimSpace(m[7])}
	t.Construction, t.Speed = construction(m[4])
	var problem string
	if t.Use, problem = use(m[1], m[6]); problem != "" {
		return Tyre{}, &CodeError{code, problem, example}
	}
	width := decimal(m[3])
	t.RimCode = decimal(m[5])
	list := []limit{
		{"width", width, minInches, maxInches, "in", "10.50 in 31x10.50R15"},
		{"rim diameter", t.RimCode, minRim, maxRim, "in", "15 in 31x10.50R15"},
	}
	if m[2] == "" {
		t.Form = Inches
	} else {
		t.outside = decimal(m[2])
		list = append([]limit{{"overall diameter", t.outside, minOutside, maxOutside, "in", "31 in 31x10.50R15"}}, list...)
	}
	for _, l := range list {
		if err := l.check(code); err != nil {
			return Tyre{}, err
		}
	}
	if t.Form == Flotation && t.outside < t.RimCode+minSidewalls {
		return Tyre{}, &CodeError{code,
			fmt.Sprintf("overall diameter %g in leaves no side wall on a %g in rim", t.outside, t.RimCode),
			"the diameter comes first: 31 in 31x10.50R15"}
	}
	t.Width = width * inch
	return t, nil
}

// limit is what a number of a code may be, and where it stands in an example.
type limit struct {
	name          string
	v, low, high  float64
	unit, example string
}

func (l *limit) check(code string) error {
	if l.v >= l.low && l.v <= l.high {
		return nil
	}
	return &CodeError{code, fmt.Sprintf("%s %g %s is not between %g and %g %s", l.name, l.v, l.unit, l.low, l.high, l.unit),
		"check the code: it is the " + l.example}
}

// minSidewalls is the least by which a tyre stands over its rim, both side
// walls together, in inches: less is a slip of the pen.
const minSidewalls = 2.0

func construction(mark string) (c Construction, speed string) {
	if mark == "-" || mark == "D" {
		return Diagonal, ""
	}
	return Radial, strings.TrimSuffix(mark, "R")
}

// use reads the letters before and behind the size.
func use(before, behind string) (u Use, problem string) {
	switch {
	case before != "" && behind != "":
		return Unmarked, before + " before the size and " + behind + " behind it"
	case before == "P":
		return Passenger, ""
	case before == "LT" || behind == "LT":
		return LightTruck, ""
	}
	return Unmarked, ""
}

// decimal reads digits that a pattern has passed. Too many become Inf, which
// the range check refuses.
func decimal(digits string) float64 {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil && v <= maxWidth {
		panic("kinematics: tyre: not a number: " + digits)
	}
	return v
}

// String returns the size in one spelling, without the service description:
// "LT235/85R16", "31x10.50R15LT".
func (t Tyre) String() string {
	t.must()
	mark := t.Speed + "R"
	if t.Construction == Diagonal {
		mark = "-"
	}
	rim := strconv.FormatFloat(t.RimCode, 'f', -1, 64)
	if t.Form != Metric {
		s := strconv.FormatFloat(t.Width/inch, 'f', 2, 64) + mark + rim
		if t.Form == Flotation {
			s = strconv.FormatFloat(t.outside, 'f', -1, 64) + "x" + s
		}
		if t.Use == LightTruck {
			s += "LT"
		}
		return s
	}
	s := []string{"", "P", "LT"}[t.Use] + strconv.FormatFloat(t.Width, 'f', 0, 64)
	if t.Aspect > 0 {
		s += "/" + strconv.Itoa(t.Aspect)
	}
	return s + mark + rim
}
