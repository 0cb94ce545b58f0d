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
	hand     hand
	unlocked bool
	onDisk   content // of the file that the changes began from
	found    content // what the last save found there
}

// hand is which variant is shown and which it is compared with, by index; none
// is compared when negative.
type hand struct{ current, compared int }

// in is the same variants in another job: by their names, or else by their
// places as far as there are any.
func (h hand) in(from, to *job.Job) hand {
	find := func(i int) int {
		if i < 0 {
			return -1
		}
		if at := slices.Index(to.Names(), from.Variants[i].Name); at >= 0 {
			return at
		}
		return min(i, len(to.Variants)-1)
	}
	h = hand{find(h.current), find(h.compared)}
	if h.compared == h.current {
		h.compared = -1
	}
	return h
}

// begun is a job whose variants' changes count from what they are.
func begun(j *job.Job) *job.Job {
	for i := range j.Variants {
		j.Variants[i].Begin()
	}
	return j
}

// version is a job with what was in hand before and after the gesture that made
// it; the job is never edited once it is here.
type version struct {
	job     *job.Job
	was, is hand
	list    bool // the gesture changed which variants there are, or their order
}

// New opens a job held in memory. path may be empty for a job that has no file
// yet; saved tells whether the file holds just this. The first variant is
// compared with, the last shown.
func New(j *job.Job, path string, saved bool) *Document {
	d := &Document{history: history.Of(version{job: begun(j)}), path: path, hand: hand{current: len(j.Variants) - 1}}
	if saved {
		d.saved = j
	}
	if d.hand.current == 0 {
		d.hand.compared = -1
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
func (d *Document) Current() int { return d.hand.current }

// Variant returns the variant shown. It must not be edited; see Edit.
func (d *Document) Variant() *job.Variant { return &d.Job().Variants[d.hand.current] }

// Compared returns the variant compared with, and false where there is none.
func (d *Document) Compared() (*job.Variant, bool) {
	if d.hand.compared < 0 {
		return nil, false
	}
	return &d.Job().Variants[d.hand.compared], true
}

// ComparedIndex returns the index of the variant compared with, -1 for none.
func (d *Document) ComparedIndex() int { return d.hand.compared }

// Show makes variant i the one shown; Compare the one compared with, none when
// negative. Neither is an edit. An index outside the job panics.
func (d *Document) Show(i int) {
	d.mustHave(i)
	d.hand.current = i
	d.history.EndRun()
}

// Compare: see Show.
func (d *Document) Compare(i int) {
	if i >= 0 {
		d.mustHave(i)
	}
	d.hand.compared = max(i, -1)
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
	return d.EditJob(name, run, func(j *job.Job) { change(&j.Variants[d.hand.current]) })
}

// EditJob is Edit for the whole job. Variants may be added; the one shown must
// stay at its index. For the other changes of the list see RenameVariant and
// those beside it.
func (d *Document) EditJob(name, run string, change func(j *job.Job)) error {
	next := d.Job().Clone()
	change(next)
	next.Measured(d.Job())
	return d.adopt(name, run, next)
}

// adopt makes a job the present one, which has the same variants.
func (d *Document) adopt(name, run string, next *job.Job) error {
	_, err := d.replace(name, run, version{job: next, was: d.hand, is: d.hand})
	return err
}

// relist makes a job the present one, which has other variants or another order,
// and takes what is then in hand.
func (d *Document) relist(name string, next *job.Job, is hand) error {
	done, err := d.replace(name, "", version{job: next, was: d.hand, is: is, list: true})
	if done {
		d.hand = is
	}
	return err
}

// replace makes a version the present one; false if it is as the one there is.
func (d *Document) replace(name, run string, v version) (done bool, err error) {
	if v.job.Equal(d.Job()) {
		return false, nil
	}
	if problems := v.job.Problems(); len(problems) > 0 {
		return false, problems
	}
	v.list = v.list || len(v.job.Variants) != len(d.Job().Variants)
	d.history.Do(name, run, v)
	return true, nil
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
	is := hand{len(next.Variants) - 1, d.hand.compared}
	if is.compared < 0 {
		is.compared = d.hand.current
	}
	return d.relist("add "+name, next, is)
}

// Undo takes the last gesture back and returns its name; false when there is
// none. What was in hand at that gesture is in hand again: the variant it was
// made in is shown, so that the next edit goes where this one went. The one
// compared with stays, unless the gesture changed the list of variants or it
// would stand beside itself; then it is the one of that time too.
func (d *Document) Undo() (name string, ok bool) {
	undone := d.history.Now()
	if name, ok = d.history.Undo(); ok {
		d.take(undone.was, undone.list)
	}
	return name, ok
}

// Redo does the last undone gesture again, and leaves in hand what it left.
func (d *Document) Redo() (name string, ok bool) {
	if name, ok = d.history.Redo(); ok {
		now := d.history.Now()
		d.take(now.is, now.list)
	}
	return name, ok
}

// take gives back what was in hand at a gesture.
func (d *Document) take(at hand, list bool) {
	compared := d.hand.compared
	d.hand = at
	if !list && compared != at.current {
		d.hand.compared = compared
	}
}

// UndoName returns what Undo would take back, RedoName what Redo would do
// again; empty when there is nothing.
func (d *Document) UndoName() string { return d.history.UndoName() }

// RedoName: see UndoName.
func (d *Document) RedoName() string { return d.history.RedoName() }

// EndRun closes a run of key presses: the next edit counts for itself.
func (d *Document) EndRun() { d.history.EndRun() }
