package job

import (
	"fmt"
	"math"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// AdjusterKind is what an adjuster is.
type AdjusterKind uint8

// The kinds. The zero value is none.
const (
	RodEnd     AdjusterKind = iota + 1 // one threaded end on a leg
	RightLeft                          // a right-hand and a left-hand thread on a leg
	Eccentric                          // a pivot on an eccentric bolt in a guide
	ShimPack                           // shims that move a pivot, or both of an arm
	kindsCount = iota
)

// Place is a leg or a pivot that an adjuster sits on.
type Place uint8

// The places. The zero value is none. A leg is one of the first five; a pivot
// is one of the arm legs' own, both of an arm, or the rack end.
const (
	UpperFrontPlace Place = iota + 1
	UpperRearPlace
	LowerFrontPlace
	LowerRearPlace
	TieRodPlace
	UpperArmPlace // both pivots
	LowerArmPlace
	RackEndPlace
)

// Sets is what an adjuster is meant to set.
type Sets uint8

// What can be set. The zero value is for an adjuster that does not say.
const (
	SetsNothing Sets = iota
	SetsCamber
	SetsCaster
	SetsToe
)

// Thread is a threaded end.
type Thread struct {
	Diameter, Pitch units.Length
	Engaged         units.Length // thread in engagement as it stands
}

// Direction is the way in which a pivot moves; its length does not matter.
type Direction struct{ X, Y, Z float64 }

// Vec returns the direction, its largest part between a half and 1: whatever was
// written, its length can be computed. Scaled by a power of two, it leads
// exactly the same way. Nought stays nought.
func (d Direction) Vec() kinematics.Vec {
	_, exp := math.Frexp(max(math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z)))
	scaled := func(v float64) float64 { return math.Ldexp(v, -exp) }
	return kinematics.Vec{X: scaled(d.X), Y: scaled(d.Y), Z: scaled(d.Z)}
}

// Adjuster is something on the car that can be set. What its kind does not
// have is nought.
type Adjuster struct {
	Name       string
	Kind       AdjusterKind
	Leg        Place        // of a rod end or a pair
	Thread     Thread       // the right-hand one of a pair
	LeftThread Thread       // of a pair
	Pivot      Place        // of an eccentric bolt or shims
	Direction  Direction    // of positive settings
	Throw, Now units.Length // of an eccentric bolt: most it moves from the middle, and where it stands
	// Out is by how much the leg can still grow or shims be added, In by how
	// much it can shrink or shims be taken out.
	Out, In units.Length
	Sets    Sets
}

// MaxAdjusters is the most adjusters of one job.
const MaxAdjusters = 40

var (
	kindWords = []word[AdjusterKind]{{RodEnd, "rod_end"}, {RightLeft, "right_left"}, {Eccentric, "eccentric"}, {ShimPack, "shims"}}
	legWords  = []word[Place]{{UpperFrontPlace, "upper_arm_front"}, {UpperRearPlace, "upper_arm_rear"},
		{LowerFrontPlace, "lower_arm_front"}, {LowerRearPlace, "lower_arm_rear"}, {TieRodPlace, "tie_rod"}}
	pivotWords = []word[Place]{{UpperFrontPlace, "upper_arm_front"}, {UpperRearPlace, "upper_arm_rear"},
		{LowerFrontPlace, "lower_arm_front"}, {LowerRearPlace, "lower_arm_rear"},
		{UpperArmPlace, "upper_arm"}, {LowerArmPlace, "lower_arm"}, {RackEndPlace, "rack_end"}}
	setsWords = []word[Sets]{{SetsCamber, "camber"}, {SetsCaster, "caster"}, {SetsToe, "toe"}}
)

// String returns the word the file uses.
func (k AdjusterKind) String() string { return wordOf(kindWords, k) }

func (a *Adjuster) onLeg() bool { return a.Kind == RodEnd || a.Kind == RightLeft }

const threadSample = "{diameter: 12, pitch: 1.75, engaged: 25}"

func (a *Adjuster) fields() []field {
	// The others must say how far they go either way, be it nought.
	noRoom := a.Kind == Eccentric
	lacks := func(t *Thread) func() bool { return func() bool { return *t == Thread{} } }
	return []field{
		{"name", "upper front rod end", "", true, textCodec{to: &a.Name}},
		{"kind", "rod_end", "", true, wordCodec[AdjusterKind]{&a.Kind, kindWords}},
		{"leg", "upper_arm_front", "", false, choiceCodec[Place]{&a.Leg, legWords}},
		{"thread", threadSample, "", false, sectionCodec{sec: &a.Thread, flow: true, lacks: lacks(&a.Thread)}},
		{"left_thread", threadSample, "", false, sectionCodec{sec: &a.LeftThread, flow: true, lacks: lacks(&a.LeftThread)}},
		{"pivot", "lower_arm_front", "", false, choiceCodec[Place]{&a.Pivot, pivotWords}},
		{"direction", "{y: 1}", "", false, sectionCodec{sec: &a.Direction, flow: true, lacks: func() bool { return a.Direction == Direction{} }}},
		{"throw", "6", "", false, lengthCodec{to: &a.Throw, mayLack: true}},
		{"now", "0", "", false, lengthCodec{to: &a.Now, mayLack: true}},
		{"out", "8", "", false, lengthCodec{to: &a.Out, mayLack: noRoom}},
		{"in", "5", "", false, lengthCodec{to: &a.In, mayLack: noRoom}},
		{"sets", "camber", "", false, choiceCodec[Sets]{&a.Sets, setsWords}},
	}
}

// keysOf tells which keys a kind must have, and which it may.
var keysOf = [kindsCount + 1]struct{ must, may []string }{
	RodEnd:    {[]string{"leg", "thread", "out", "in"}, nil},
	RightLeft: {[]string{"leg", "thread", "left_thread", "out", "in"}, nil},
	Eccentric: {[]string{"pivot", "direction", "throw"}, []string{"now"}},
	ShimPack:  {[]string{"pivot", "direction", "out", "in"}, nil},
}

// check asks for the keys of the kind, and refuses those of others.
func (a *Adjuster) check(r *reader, at string, line int, has func(string) bool) {
	if a.Kind == 0 {
		return // reported already
	}
	wanted := map[string]bool{"name": true, "kind": true, "sets": true}
	for _, key := range keysOf[a.Kind].may {
		wanted[key] = true
	}
	fields := a.fields()
	for _, key := range keysOf[a.Kind].must {
		wanted[key] = true
		if f, _ := fieldNamed(fields, key); !has(key) {
			r.missing(line, at, f)
		}
	}
	for _, f := range fields {
		if has(f.key) && !wanted[f.key] {
			r.add(r.lineOf(join(at, f.key)), join(at, f.key), "", "does not belong to kind "+a.Kind.String(), "remove it, or choose another kind")
		}
	}
}

func (t *Thread) fields() []field {
	return []field{
		{"diameter", "12", "", true, lengthCodec{to: &t.Diameter}},
		{"pitch", "1.75", "", true, lengthCodec{to: &t.Pitch}},
		{"engaged", "25", "", true, lengthCodec{to: &t.Engaged}},
	}
}

func (d *Direction) fields() []field {
	return []field{
		{"x", "0", "", false, numberCodec{to: &d.X, mayLack: true}},
		{"y", "1", "", false, numberCodec{to: &d.Y, mayLack: true}},
		{"z", "0", "", false, numberCodec{to: &d.Z, mayLack: true}},
	}
}

// choiceCodec is a word that may be missing.
type choiceCodec[T comparable] struct {
	to    *T
	words []word[T]
}

func (c choiceCodec[T]) read(r *reader, n *yaml.Node, at string) {
	wordCodec[T](c).read(r, n, at)
}

func (c choiceCodec[T]) write(w *writer, old *yaml.Node) *yaml.Node {
	if wordOf(c.words, *c.to) == "" {
		return nil
	}
	return wordCodec[T](c).write(w, old)
}

func (c choiceCodec[T]) schema(s *schemer) object { return wordCodec[T](c).schema(s) }

// adjusterItem is one adjuster of the list.
type adjusterItem struct{}

func (adjusterItem) readItem(r *reader, n *yaml.Node, at string, to *Adjuster) { r.section(n, at, to) }

func (adjusterItem) writeItem(w *writer, old *yaml.Node, a *Adjuster) *yaml.Node {
	return w.section(old, a, false)
}

func (adjusterItem) schemaItem(s *schemer) object { return s.refer(&Adjuster{}) }

// maxDiameter of a thread and of an eccentric bolt's throw, mm.
const maxDiameter = 100.0

// adjusters checks the values of every adjuster.
func (c *checker) adjusters(list []Adjuster) {
	const section = "adjusters"
	if len(list) > MaxAdjusters {
		c.add(section, "", fmt.Sprintf("holds %d adjusters, more than %d", len(list), MaxAdjusters), "keep those that matter", nil)
		return
	}
	first := map[string]int{}
	for i := range list {
		a, at := &list[i], itemKey(section, i)
		c.name(at+".name", a.Name)
		if k, taken := first[a.Name]; taken && !c.skips(at+".name") {
			c.add(at+".name", a.Name, "is the name of "+itemKey(section, k)+" too", "give each adjuster its own name", nil)
		} else {
			first[a.Name] = i
		}
		if c.skips(at) {
			continue
		}
		switch {
		case a.Kind.String() == "":
			c.add(at+".kind", "", "is none", "choose rod_end, right_left, eccentric or shims", nil)
		case a.onLeg():
			c.onLeg(a, at)
		default:
			c.onPivot(a, at)
		}
	}
}

func (c *checker) onLeg(a *Adjuster, at string) {
	if wordOf(legWords, a.Leg) == "" {
		c.add(at+".leg", "", "is none", "choose the leg that it makes longer", nil)
	}
	c.thread(&a.Thread, at+".thread")
	if a.Kind == RightLeft {
		c.thread(&a.LeftThread, at+".left_thread")
	}
	c.room(a, at)
}

func (c *checker) thread(t *Thread, at string) {
	c.length(at+".diameter", t.Diameter, kinematics.MinSpan, maxDiameter)
	c.length(at+".pitch", t.Pitch, kinematics.MinSpan, maxDiameter)
	c.length(at+".engaged", t.Engaged, 0, units.MaxLength)
	if t.Pitch.MM > t.Diameter.MM {
		c.add(at+".pitch", valueOf(t.Pitch, c.units), "is more than the diameter, "+valueOf(t.Diameter, c.units), "write the distance from one turn of the thread to the next", nil)
	}
}

func (c *checker) onPivot(a *Adjuster, at string) {
	if wordOf(pivotWords, a.Pivot) == "" {
		c.add(at+".pivot", "", "is none", "choose the pivot that it moves", nil)
	}
	c.direction(a.Direction, at+".direction")
	if a.Kind == ShimPack {
		c.room(a, at)
		return
	}
	if a.Pivot == UpperArmPlace || a.Pivot == LowerArmPlace {
		c.add(at+".pivot", wordOf(pivotWords, a.Pivot), "is two pivots", "an eccentric bolt is in one: name it, as "+wordOf(pivotWords, a.Pivot)+"_front", nil)
	}
	c.length(at+".throw", a.Throw, kinematics.MinSpan, maxDiameter)
	if !(math.Abs(a.Now.MM) <= a.Throw.MM) {
		c.add(at+".now", valueOf(a.Now, c.units), "is beyond the throw, "+valueOf(a.Throw, c.units), "write how far from the middle it stands", nil)
	}
}

// room checks how far an adjuster can go either way.
func (c *checker) room(a *Adjuster, at string) {
	c.length(at+".out", a.Out, 0, units.MaxLength)
	c.length(at+".in", a.In, 0, units.MaxLength)
	if a.Out.MM == 0 && a.In.MM == 0 {
		c.add(at, "", "can go neither out nor in", "write how far it can still be set either way", nil)
	}
}
