package window

import (
	"fmt"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/recovery"
)

// keeping is what sees to it that no work is lost: after every gesture the job
// is written outside the user's file, until it is saved or given up.
type keeping struct {
	store  *recovery.Store // nil where the computer has no folder for it
	keeper *recovery.Keeper
	taken  *job.Job // what was last given to the keeper
}

// startKeeping finds the folder; without one the person is told once.
func (w *Window) startKeeping() {
	store, err := recovery.Default()
	if err != nil {
		w.tellKept(err)
		return
	}
	w.kept.store = store
}

// keepFor opens the document's place in the store, closing the last one's.
func (w *Window) keepFor(d *document.Document) {
	w.endKeeping()
	if w.kept.store == nil {
		return
	}
	// A store is for one goroutine at a time, and the keeper has its own.
	own := *w.kept.store
	session, others, err := own.Open(d.Path())
	if err != nil {
		w.tellKept(err)
	}
	failing := err != nil || w.notices.has(notKept)
	w.kept.keeper = recovery.NewKeeper(session, failing, func(err error) { fyne.Do(func() { w.tellKept(err) }) })
	w.tellOthers(others)
}

// endKeeping gives up what is kept of the present document.
func (w *Window) endKeeping() {
	if w.kept.keeper == nil {
		return
	}
	if err := w.kept.keeper.Close(); err != nil {
		fmt.Fprintln(w.stderr, "armscribe:", err)
	}
	w.kept.keeper, w.kept.taken = nil, nil
}

// keep has the present job written, if it is not as in its file. It costs
// nothing when nothing has changed, and never waits for the disk.
func (w *Window) keep() {
	j := w.doc.Job()
	if w.kept.keeper == nil || j == w.kept.taken {
		return
	}
	if !w.doc.Changed() {
		if w.kept.taken != nil { // undone up to what is saved
			w.kept.keeper.Drop()
			w.kept.taken = nil
		}
		return
	}
	w.kept.taken = j
	w.kept.keeper.Take(recovery.Snapshot{Job: j, Path: w.doc.Path(), After: w.doc.UndoName(), Base: w.doc.Base()})
}

// keptSaved follows a save: the file holds it all.
func (w *Window) keptSaved() {
	if w.kept.keeper == nil {
		return
	}
	if err := w.kept.keeper.Forget(); err != nil {
		w.tellKept(err)
	}
	w.kept.taken = nil
	others, err := w.kept.keeper.Move(w.doc.Path())
	if err != nil {
		w.tellKept(err)
	}
	w.tellOthers(others)
}

// notKept is what the notice is about that work is not being kept.
const notKept = "kept"

// tellKept says that unsaved work cannot be kept, or, without an error, that it
// can be again.
func (w *Window) tellKept(err error) {
	switch {
	case err != nil:
		w.notices.put(notKept, "Unsaved work is not being kept in case of a crash: "+err.Error()+". Save often.")
	case w.notices.drop(notKept):
		w.say("Unsaved work is being kept in case of a crash again.")
	}
}

func (w *Window) tellOthers(others []recovery.Other) {
	if len(others) == 0 {
		return
	}
	w.showText("This file is open in another window",
		"Whichever window saves second is asked before it replaces what the other saved. Close one of them, or save this one under another name.", "Close", nil)
}

// offerRecovery asks about work that a crash has left behind.
func (w *Window) offerRecovery() {
	if w.kept.store == nil {
		return
	}
	found, err := w.kept.store.Recoverable()
	if err != nil {
		w.tellKept(err)
	}
	if len(found) > 0 {
		w.showFound(found)
	}
}

// showFound offers unsaved work. The first that can be recovered has the
// keyboard; Esc leaves all for later.
func (w *Window) showFound(found []recovery.Found) {
	w.listFound("Work from before was not saved", "Later", found, func(f recovery.Found, hide func()) fyne.CanvasObject {
		return keyed.NewButton("Discard it", func() { hide(); w.askDiscard(f) })
	})
}

// showDiscarded offers what was discarded lately.
func (w *Window) showDiscarded() {
	var found []recovery.Found
	var err error
	if w.kept.store != nil {
		found, err = w.kept.store.Discarded()
	}
	switch {
	case err != nil:
		w.showProblems("It cannot be looked for", err)
	case len(found) == 0:
		w.showText("Nothing has been discarded", "Unsaved work that you discard is kept for a week and offered here.", "Close", nil)
	default:
		w.listFound("Work discarded in the last week", "Close", found, nil)
	}
}

// listFound opens a dialog with a row for each piece of work.
func (w *Window) listFound(title, leave string, found []recovery.Found, beside func(f recovery.Found, hide func()) fyne.CanvasObject) {
	rows := container.NewVBox()
	var d *dialog.CustomDialog
	hide := func() { d.Hide() }
	later := keyed.NewButton(leave, hide)
	var first fyne.Focusable
	for _, f := range found {
		text := widget.NewLabel(foundText(f))
		text.Wrapping = fyne.TextWrapWord
		recover := keyed.NewButton("Recover it", func() { hide(); w.recover(f) })
		recover.Importance = widget.HighImportance
		switch {
		case f.Err != nil:
			recover.Disable()
		case first == nil:
			first = recover
		}
		buttons := container.NewHBox(recover)
		if beside != nil {
			buttons.Add(beside(f, hide))
		}
		rows.Add(container.NewBorder(nil, nil, nil, container.NewCenter(buttons), text))
	}
	if first == nil {
		first = later
	}
	const width, around, row = 760, 140, 80
	d = w.dialogs.Open(keyed.Dialog{Title: title, Content: container.NewVScroll(rows), Size: fyne.NewSize(width, around+row*float32(len(found))),
		Buttons: []*keyed.Button{later}, Focus: first})
}

// askDiscard asks before work is put aside.
func (w *Window) askDiscard(f recovery.Found) {
	w.dialogs.Ask("Discard this work?", foundText(f)+". It is kept for a week more, under File, Discarded work.", keyed.Usual, false,
		keyed.Choice{Text: "Keep it", Do: w.offerRecovery},
		keyed.Choice{Text: "Discard it", Do: func() {
			if err := w.kept.store.Discard(f); err != nil {
				w.showProblems("It cannot be discarded", err)
				return
			}
			w.offerRecovery()
		}})
}

func foundText(f recovery.Found) string {
	if f.Err != nil {
		return f.Err.Error()
	}
	where := "not saved in any file"
	if f.Path != "" {
		where = "of " + filepath.Base(f.Path) + " in " + filepath.Dir(absolute(f.Path))
	}
	text := fmt.Sprintf("%s, %s, left on %s", f.Name, where, f.Time.Local().Format("2 January 15:04"))
	if f.After != "" {
		text += ", after '" + f.After + "'"
	}
	return text
}

// recover opens what was found. It is kept anew before the old one goes.
func (w *Window) recover(f recovery.Found) {
	w.keepOrLose("recover it", func() {
		w.use(document.Recovered(f.Job, f.Path, f.Base))
		w.keep()
		if w.kept.keeper != nil {
			if err := w.kept.keeper.Flush(); err != nil {
				w.tellKept(err)
				return // the old one stays
			}
		}
		if err := w.kept.store.Drop(f); err != nil {
			w.tellKept(err)
		}
		w.say("Recovered. It is not saved yet.")
		w.offerRecovery() // the others
	})
}

// recent lists the files of late, and addRecent puts one first.
func (w *Window) recent() []string {
	if w.kept.store == nil {
		return nil
	}
	list, err := w.kept.store.Recent()
	if err != nil {
		fmt.Fprintln(w.stderr, "armscribe:", err)
	}
	return list
}

func (w *Window) addRecent(path string) {
	if w.kept.store == nil {
		return
	}
	if err := w.kept.store.Opened(path); err != nil {
		fmt.Fprintln(w.stderr, "armscribe:", err)
	}
	w.recentFiles = w.recent()
}

// watchDisk looks now and then whether another program has changed the file.
func (w *Window) watchDisk() {
	go func() {
		for range time.Tick(diskLook) {
			fyne.Do(w.lookAtDisk)
		}
	}()
}

// diskLook is how often the file is looked at.
const diskLook = 5 * time.Second

func (w *Window) lookAtDisk() {
	state, err := w.doc.OnDisk()
	if err != nil || state == w.diskState {
		return
	}
	w.diskState = state
	switch state {
	case document.OtherOnDisk:
		w.say("Another program has changed " + filepath.Base(w.doc.Path()) + ". Saving will ask before it replaces that.")
	case document.GoneOnDisk:
		w.say(filepath.Base(w.doc.Path()) + " is not there any more. Saving writes it again.")
	}
}
