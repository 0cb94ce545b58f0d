package pages

import (
	"fmt"
	"strings"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Host is the window that a page stands in. All of it belongs to the toolkit's
// goroutine, but for Do.
type Host struct {
	Job     func() *job.Job
	Variant func() int // index of the variant shown
	Unit    func() units.Unit
	// Edit changes the job under a name for Undo, Keep adds a variant. Both show
	// the changed job before they return; what is refused changes nothing. also, if
	// not nil, sets what of the new variant is no point.
	Edit func(name string, change func(j *job.Job)) error
	Keep func(name, notes string, c kinematics.Corner, also func(v *job.Variant)) error
	// GoTo closes the page and shows the corner at a place of travel and rack,
	// mm, and roll, rad.
	GoTo func(travel, rack, roll float64)
	// Advice is the program's one sentence on the toe curve, and why it is so; nil for
	// none.
	Advice func() (sentence, why string)
	// Do runs f on the toolkit's goroutine; it may be called from any other.
	Do func(f func())
	// Go runs f beside the toolkit's goroutine; nil for a goroutine of its own.
	Go      func(f func())
	Dialogs *keyed.Dialogs // for questions
	Folder  func() string  // where files are looked for first
}

// Apart runs f beside the toolkit's goroutine.
func (h *Host) Apart(f func()) {
	if h.Go != nil {
		h.Go(f)
		return
	}
	go f()
}

// Shown is the variant shown.
func (h *Host) Shown() *job.Variant { return &h.Job().Variants[h.Variant()] }

// ShownWords say of which variant is shown, and on how much it rests that nobody has
// measured.
func (h *Host) ShownWords() string {
	v := h.Shown()
	known := h.Job().Known(v)
	c := v.Corner()
	n := 0
	for _, at := range known.Coordinates(&c) {
		if known.RestsOn(at) {
			n++
		}
	}
	switch n {
	case 0:
		return "of " + v.Name
	case 1:
		return "of " + v.Name + "; rests on an assumed value"
	}
	return fmt.Sprintf("of %s; rests on %d assumed values", v.Name, n)
}

// JobLength is a field for a length of the job that may be missing.
type JobLength struct {
	*Field
	host *Host
	name string // for Undo and messages
	of   func(j *job.Job) *job.Optional
	note *Notice
}

// NewJobLength makes a field for a length of the host's job; of finds it, and
// what is wrong with what was typed goes to note.
func NewJobLength(h *Host, name string, note *Notice, of func(j *job.Job) *job.Optional) *JobLength {
	const width = 82
	l := &JobLength{Field: NewField(width), host: h, name: name, of: of, note: note}
	l.Done = l.take
	return l
}

// Show puts in what the job holds, unless something else has been typed.
func (l *JobLength) Show() {
	text := ""
	if o := l.of(l.host.Job()); o.Given {
		text = ShortLength(o.MM, l.host.Unit())
	}
	l.Hold(text)
}

func (l *JobLength) take(text string) {
	if !l.Owing() {
		return
	}
	var next job.Optional
	if strings.TrimSpace(text) != "" {
		mm, err := units.Parse(text, l.host.Unit())
		if err != nil {
			l.note.Wrong(l.name+": ", err)
			return
		}
		next = job.Given(units.Length{MM: mm})
	}
	held := l.Held
	l.Taken()
	if err := l.host.Edit("type "+l.name, func(j *job.Job) { *l.of(j) = next }); err != nil {
		l.Held = held
		l.note.Wrong("", err)
		return
	}
	l.note.Say("")
}
