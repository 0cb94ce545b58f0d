package document

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"armscribe/app/job"
)

// What a list of variants refuses, for errors.Is.
var (
	ErrLocked   = errors.New("variant is locked")
	ErrMeasured = errors.New("measured variant stays first")
	ErrLast     = errors.New("last variant")
)

// refusal says in the form of a problem why a variant is not changed.
func refusal(v *job.Variant, what, cure string, err error) error {
	return job.Problems{{What: fmt.Sprintf("%q %s", v.Name, what), Cure: cure, Err: err}}
}

// Locked tells whether a hand in the view may not move the variant shown: the
// measured one, the first, while there are proposals to move instead and the
// person has not unlocked it. Edit itself takes what is typed: whether a window
// offers to type into a locked variant is its own matter.
func (d *Document) Locked() bool {
	return d.hand.current == 0 && len(d.Job().Variants) > 1 && !d.unlocked
}

// SetLocked locks the measured variant, or unlocks it for this session. The
// file does not hold it.
func (d *Document) SetLocked(locked bool) { d.unlocked = !locked }

func (d *Document) refuseLocked() error {
	if !d.Locked() {
		return nil
	}
	return refusal(d.Variant(), "is what was measured, and locked against dragging", "make a variant from it, or unlock it", ErrLocked)
}

// RenameVariant gives variant i another name, without space around it. One
// that is empty or taken is refused.
func (d *Document) RenameVariant(i int, name string) error {
	d.mustHave(i)
	name = strings.TrimSpace(name)
	next := d.Job().Clone()
	old := next.Variants[i].Name
	next.Variants[i].Name = name
	return d.adopt(fmt.Sprintf("rename %s to %s", old, name), "", next)
}

// SetNotes replaces the notes of variant i. run joins the presses of keys; see
// history.Do.
func (d *Document) SetNotes(i int, run, notes string) error {
	d.mustHave(i)
	next := d.Job().Clone()
	next.Variants[i].Notes = notes
	return d.adopt("write notes on "+next.Variants[i].Name, run, next)
}

// MoveVariant moves variant i to a place in the list; both are counted as in
// Job. The measured one stays first: see MakeMeasured.
func (d *Document) MoveVariant(i, to int) error {
	d.mustHave(i)
	d.mustHave(to)
	if i == 0 || to == 0 {
		if i == to {
			return nil
		}
		return refusal(&d.Job().Variants[0], "is what was measured, and stays first", "say that another one is as measured, if it is", ErrMeasured)
	}
	return d.move("move "+d.Job().Variants[i].Name, i, to)
}

// MakeMeasured puts variant i first: it is what the car now is.
func (d *Document) MakeMeasured(i int) error {
	d.mustHave(i)
	return d.move("take "+d.Job().Variants[i].Name+" as measured", i, 0)
}

func (d *Document) move(name string, i, to int) error {
	next := d.Job().Clone()
	v := next.Variants[i]
	next.Variants = slices.Insert(slices.Delete(next.Variants, i, i+1), to, v)
	names, is := next.Names(), d.hand
	is.current = slices.Index(names, d.Variant().Name)
	if c, ok := d.Compared(); ok {
		is.compared = slices.Index(names, c.Name)
	}
	return d.relist(name, next, is)
}

// DeleteVariant removes variant i; undoing it brings it back to its place. The measured one stays, and with it the last of all.
func (d *Document) DeleteVariant(i int) error {
	d.mustHave(i)
	v := &d.Job().Variants[i]
	switch {
	case len(d.Job().Variants) == 1:
		return refusal(v, "is the only variant", "a job has one at least; make another first", ErrLast)
	case i == 0:
		return refusal(v, "is what was measured, and stays", "say that another one is as measured first, if it is", ErrMeasured)
	}
	next, is := d.Job().Clone(), d.hand
	next.Variants = slices.Delete(next.Variants, i, i+1)
	if is.current > i || is.current == len(next.Variants) { // of one that was shown the neighbour comes up
		is.current--
	}
	switch {
	case is.compared == i:
		is.compared = 0
	case is.compared > i:
		is.compared--
	}
	if is.compared == is.current {
		is.compared = 0
	}
	if is.compared == is.current { // 0 is the one shown
		is.compared = -1
	}
	return d.relist("delete "+v.Name, next, is)
}

// Swap shows the variant compared with, and compares it with the one that was
// shown; false when none is compared. It is no edit.
func (d *Document) Swap() bool {
	if d.hand.compared < 0 {
		return false
	}
	d.hand = hand{d.hand.compared, d.hand.current}
	d.history.EndRun()
	return true
}
