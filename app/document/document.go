// Package document is the open job: which variant is shown and which it is
// compared with, what can be undone, and whether the file on disk is behind.
// It knows no window.
package document

import (
	"fmt"
	"slices"

	"armscribe/app/history"
	"armscribe/app/job"
	"armscribe/kinematics"
)

// Document is an open job. Its methods are for one goroutine.
type Document struct {
	history  *history.History[version]
	saved    *job.Job // as last written or read; nil if never
	path     string
	current  int
	compared int // none when negative
	unlocked bool
	onDisk   content // of the file that the changes began from
	found    content // what the last save found there
}

// version is a job with the variant that the gesture that made it is about, and
// the one shown before; the job is never edited once it is here.
type version struct {
	job           *job.Job
	variant, from int
}

// New opens a job held in memory. path may be empty for a job that has no file
// yet; saved tells whether the file holds just this. The first variant is
// compared with, the last shown.
func New(j *job.Job, path string, saved bool) *Document {
	d := &Document{history: history.Of(version{job: j}), path: path, current: len(j.Variants) - 1}
	if saved {
		d.saved = j
	}
	if d.current == 0 {
		d.compared = -1
	}
	return d
}

// Open reads a job file.
func Open(path string) (*Document, error) {
	j, data, err := job.LoadBytes(path)
	if err != nil {
		return nil, err
	}
	d := New(j, path, true)
	d.onDisk = contentOf(data)
	return d, nil
}

// Job returns the present job. It must not be edited; see Edit.
func (d *Document) Job() *job.Job { return d.history.Now().job }

// Path returns the file, or an empty text where there is none yet.
func (d *Document) Path() string { return d.path }

// Changed tells whether the file is behind what is held.
func (d *Document) Changed() bool {
	return d.saved == nil || d.Job() != d.saved && !d.Job().Equal(d.saved)
}

// Current returns the index of the variant shown, Variant the variant.
func (d *Document) Current() int { return d.current }

// Variant returns the variant shown. It must not be edited; see Edit.
func (d *Document) Variant() *job.Variant { return &d.Job().Variants[d.current] }

// Compared returns the variant compared with, and false where there is none.
func (d *Document) Compared() (*job.Variant, bool) {
	if d.compared < 0 {
		return nil, false
	}
	return &d.Job().Variants[d.compared], true
}

// ComparedIndex returns the index of the variant compared with, -1 for none.
func (d *Document) ComparedIndex() int { return d.compared }

// Show makes variant i the one shown; Compare the one compared with, none when
// negative. Neither is an edit. An index outside the job panics.
func (d *Document) Show(i int) {
	d.mustHave(i)
	d.current = i
	d.history.EndRun()
}

// Compare: see Show.
func (d *Document) Compare(i int) {
	if i >= 0 {
		d.mustHave(i)
	}
	d.compared = max(i, -1)
}

func (d *Document) mustHave(i int) {
	if i < 0 || i >= len(d.Job().Variants) {
		panic(fmt.Sprintf("document: no variant %d of %d", i, len(d.Job().Variants)))
	}
}

// Edit changes the variant shown, under the gesture's name ('move lower ball
// joint'); see history.Do for run. A change that leaves all as it was, or that
// the job refuses, is no gesture; the refusal is a job.Problems.
func (d *Document) Edit(name, run string, change func(v *job.Variant)) error {
	return d.EditJob(name, run, func(j *job.Job) { change(&j.Variants[d.current]) })
}

// EditJob is Edit for the whole job. Variants may be added; the one shown must
// stay at its index. For the other changes of the list see RenameVariant and
// those beside it.
func (d *Document) EditJob(name, run string, change func(j *job.Job)) error {
	next := d.Job().Clone()
	change(next)
	for i := range min(len(next.Variants), len(d.Job().Variants)) {
		next.Variants[i].Measured(&d.Job().Variants[i])
	}
	return d.adopt(name, run, next, d.current)
}

// adopt makes a job the present one, by a gesture that is about a variant.
func (d *Document) adopt(name, run string, next *job.Job, about int) error {
	if next.Equal(d.Job()) {
		return nil
	}
	if problems := next.Problems(); len(problems) > 0 {
		return problems
	}
	compared := d.comparedName()
	d.history.Do(name, run, version{next, about, d.current})
	d.follow(compared)
	return nil
}

// SetCorner is Edit with a corner from the view: what did not move keeps the
// way it was typed. A locked variant refuses, with ErrLocked.
func (d *Document) SetCorner(name, run string, c kinematics.Corner) error {
	if err := d.refuseLocked(); err != nil {
		return err
	}
	return d.Edit(name, run, func(v *job.Variant) { SetCorner(v, c) })
}

// AddVariant adds a proposal that starts as the variant shown, with a change
// to it, and shows it. A name that is taken gets a number.
func (d *Document) AddVariant(name string, change func(v *job.Variant)) error {
	name = d.Job().FreeName(name)
	v := d.Variant().Proposal(name)
	if change != nil {
		change(&v)
	}
	v.Measured(d.Variant())
	next := d.Job().Clone()
	next.Variants = append(next.Variants, v)
	if err := d.adopt("add "+name, "", next, len(next.Variants)-1); err != nil {
		return err
	}
	if d.compared < 0 {
		d.compared = d.current
	}
	d.current = len(d.Job().Variants) - 1
	return nil
}

// Undo takes the last gesture back and shows the variant it was about; false
// when there is none. Redo does it again.
func (d *Document) Undo() (name string, ok bool) {
	before, compared := d.history.Now(), d.comparedName()
	name, ok = d.history.Undo()
	to, added := before.variant, before.variant >= len(d.Job().Variants)
	if added {
		to = before.from
	}
	d.jump(to, compared, ok)
	if ok && added && d.current == d.compared { // beside itself it would show no change
		d.compared = 0
		if d.current == 0 {
			d.compared = -1
		}
	}
	return name, ok
}

// Redo: see Undo.
func (d *Document) Redo() (name string, ok bool) {
	compared, had := d.comparedName(), len(d.Job().Variants)
	name, ok = d.history.Redo()
	now := d.history.Now()
	d.jump(now.variant, compared, ok)
	if ok && now.variant >= had && d.compared < 0 { // added again: beside what it came from
		d.compared = now.from
	}
	return name, ok
}

func (d *Document) jump(variant int, compared string, ok bool) {
	if !ok {
		return
	}
	d.current = variant
	d.follow(compared)
}

// comparedName is the name of the variant compared with; empty for none, which
// no variant's name is.
func (d *Document) comparedName() string {
	if v, ok := d.Compared(); ok {
		return v.Name
	}
	return ""
}

// follow keeps to the same variants in a job whose list has changed: the one
// compared with goes by its name, or by its place if it has another name now.
func (d *Document) follow(compared string) {
	last := len(d.Job().Variants) - 1
	d.current = min(d.current, last)
	if compared == "" {
		return
	}
	if i := slices.Index(d.Job().Names(), compared); i >= 0 {
		d.compared = i
	}
	if d.compared > last {
		d.compared = -1
	}
}

// UndoName returns what Undo would take back, RedoName what Redo would do
// again; empty when there is nothing.
func (d *Document) UndoName() string { return d.history.UndoName() }

// RedoName: see UndoName.
func (d *Document) RedoName() string { return d.history.RedoName() }

// EndRun closes a run of key presses: the next edit counts for itself.
func (d *Document) EndRun() { d.history.EndRun() }
