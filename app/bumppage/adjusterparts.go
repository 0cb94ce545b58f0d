package bumppage

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
)

// offer is a value with the words that it is offered under.
type offer[T comparable] struct {
	value T
	words string
}

var (
	kindChoices = []offer[job.AdjusterKind]{{job.RodEnd, "rod end"}, {job.RightLeft, "right and left thread"}, {job.Eccentric, "eccentric bolt"}, {job.ShimPack, "shims"}}
	legChoices  = []offer[job.Place]{{job.UpperFrontPlace, "upper arm, front leg"}, {job.UpperRearPlace, "upper arm, rear leg"},
		{job.LowerFrontPlace, "lower arm, front leg"}, {job.LowerRearPlace, "lower arm, rear leg"}, {job.TieRodPlace, "tie rod or toe link"}}
	pivotChoices = []offer[job.Place]{{job.UpperFrontPlace, "upper arm, front pivot"}, {job.UpperRearPlace, "upper arm, rear pivot"},
		{job.LowerFrontPlace, "lower arm, front pivot"}, {job.LowerRearPlace, "lower arm, rear pivot"}, {job.RackEndPlace, "rack end"}}
	shimChoices = append(slices.Clone(pivotChoices), offer[job.Place]{job.UpperArmPlace, "upper arm, both pivots"}, offer[job.Place]{job.LowerArmPlace, "lower arm, both pivots"})
	setsChoices = []offer[job.Sets]{{job.SetsNothing, "nothing alone"}, {job.SetsCamber, "camber"}, {job.SetsCaster, "caster"}, {job.SetsToe, "toe"}}
)

// placesOf are where an adjuster of a kind can be.
func placesOf(k job.AdjusterKind) []offer[job.Place] {
	switch k {
	case job.Eccentric:
		return pivotChoices
	case job.ShimPack:
		return shimChoices
	}
	return legChoices
}

// placeOfAdjuster is the leg or the pivot, whichever the kind has.
func placeOfAdjuster(a *job.Adjuster) *job.Place {
	if a.Kind == job.Eccentric || a.Kind == job.ShimPack {
		return &a.Pivot
	}
	return &a.Leg
}

func wordsOf[T comparable](list []offer[T]) []string {
	words := make([]string, len(list))
	for i, c := range list {
		words[i] = c.words
	}
	return words
}

// wordOf is what a value is offered under; the first where it is not.
func wordOf[T comparable](list []offer[T], v T) string {
	for _, c := range list {
		if c.value == v {
			return c.words
		}
	}
	return list[0].words
}

// valueOf is what stands behind the words; the first where nothing does.
func valueOf[T comparable](list []offer[T], words string) T {
	for _, c := range list {
		if c.words == words {
			return c.value
		}
	}
	return list[0].value
}

// part is a number of an adjuster in its field: a length, or a plain number of a
// direction.
type part struct {
	label  string
	group  int
	length func(a *job.Adjuster) *units.Length // nil for a plain number
	plain  func(a *job.Adjuster) *float64
	blank  bool // a blank field means 0
	field  *pages.Field
}

// The groups of parts, and their titles.
const (
	threadGroup = iota
	leftGroup
	wayGroup
	throwGroup
	roomGroup
)

var groupTitles = [...]string{threadGroup: "thread", leftGroup: "left-hand thread", wayGroup: "moves toward", throwGroup: "bolt", roomGroup: "can still go"}

// groupsOf are the groups that an adjuster of a kind has.
func groupsOf(k job.AdjusterKind) []int {
	switch k {
	case job.RightLeft:
		return []int{threadGroup, leftGroup, roomGroup}
	case job.Eccentric:
		return []int{wayGroup, throwGroup}
	case job.ShimPack:
		return []int{wayGroup, roomGroup}
	}
	return []int{threadGroup, roomGroup}
}

// newParts makes every part with its field.
func newParts() []*part {
	thread := func(group int, of func(a *job.Adjuster) *job.Thread) []*part {
		return []*part{
			{label: "diameter", group: group, length: func(a *job.Adjuster) *units.Length { return &of(a).Diameter }},
			{label: "pitch", group: group, length: func(a *job.Adjuster) *units.Length { return &of(a).Pitch }},
			{label: "engaged", group: group, length: func(a *job.Adjuster) *units.Length { return &of(a).Engaged }},
		}
	}
	list := append(thread(threadGroup, func(a *job.Adjuster) *job.Thread { return &a.Thread }),
		thread(leftGroup, func(a *job.Adjuster) *job.Thread { return &a.LeftThread })...)
	list = append(list,
		&part{label: "x, forward", group: wayGroup, blank: true, plain: func(a *job.Adjuster) *float64 { return &a.Direction.X }},
		&part{label: "y, outboard", group: wayGroup, blank: true, plain: func(a *job.Adjuster) *float64 { return &a.Direction.Y }},
		&part{label: "z, up", group: wayGroup, blank: true, plain: func(a *job.Adjuster) *float64 { return &a.Direction.Z }},
		&part{label: "throw", group: throwGroup, length: func(a *job.Adjuster) *units.Length { return &a.Throw }},
		&part{label: "stands at", group: throwGroup, blank: true, length: func(a *job.Adjuster) *units.Length { return &a.Now }},
		&part{label: "out", group: roomGroup, length: func(a *job.Adjuster) *units.Length { return &a.Out }},
		&part{label: "in", group: roomGroup, length: func(a *job.Adjuster) *units.Length { return &a.In }})
	for _, p := range list {
		p.field = pages.NewField(76)
	}
	return list
}

// text is what the field shows of an adjuster; empty for what a new one has not
// yet, and for what its kind has not.
func (p *part) text(a *job.Adjuster, unit units.Unit) string {
	switch {
	case a.Name == "" || !slices.Contains(groupsOf(a.Kind), p.group):
		return ""
	case p.length == nil:
		return units.Trimmed(*p.plain(a), directionDecimals)
	case p.length(a).Typed != "":
		return p.length(a).Typed
	}
	return pages.ShortLength(p.length(a).MM, unit)
}

const directionDecimals = 4

// take puts the field's number into an adjuster; what nobody has typed over
// stays as the adjuster has it.
func (p *part) take(a *job.Adjuster, unit units.Unit) error {
	if !p.field.Owing() && p.field.Text != "" {
		return nil
	}
	text := strings.TrimSpace(p.field.Text)
	switch {
	case text == "" && !p.blank:
		return p.wrong(pages.ErrBlank)
	case p.length != nil && text == "":
		*p.length(a) = units.Length{}
	case p.length != nil:
		l, err := units.ParseLength(text, unit)
		if err != nil {
			return p.wrong(err)
		}
		*p.length(a) = l
	case text == "":
		*p.plain(a) = 0
	default:
		v, err := strconv.ParseFloat(strings.Replace(text, "−", "-", 1), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return p.wrong(fmt.Errorf("%q is no plain number; a direction has no unit, such as 1", text))
		}
		*p.plain(a) = v
	}
	return nil
}

func (p *part) wrong(err error) error {
	return fmt.Errorf("%s, %s: %w", groupTitles[p.group], p.label, err)
}
