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
		w.tellNotKept(err)
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
		w.tellNotKept(err)
	}
	w.kept.keeper = recovery.NewKeeper(session, err != nil, func(err error) { fyne.Do(func() { w.tellNotKept(err) }) })
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
	if w.kept.keeper == nil || j == w.kept.taken || w.kept.taken == nil && !w.doc.Changed() {
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
		w.tellNotKept(err)
	}
	w.kept.taken = nil
	others, err := w.kept.keeper.Move(w.doc.Path())
	if err != nil {
		w.tellNotKept(err)
	}
	w.tellOthers(others)
}

func (w *Window) tellNotKept(err error) {
	w.say("Unsaved work is not being kept in case of a crash: " + err.Error() + ". Save often.")
}

func (w *Window) tellOthers(others []recovery.Other) {
	if len(others) == 0 {
		return
	}
	w.showText("This file is open in another window",
		"Whichever window saves last replaces what the other saved. Close one of them, or save this one under another name.", "Close", nil)
}

// offerRecovery asks about work that a crash has left behind.
func (w *Window) offerRecovery() {
	if w.kept.store == nil {
		return
	}
	found, err := w.kept.store.Recoverable()
	if err != nil {
		w.tellNotKept(err)
	}
	if len(found) > 0 {
		w.showFound(found)
	}
}

func (w *Window) showFound(found []recovery.Found) {
	var d *dialog.CustomDialog
	rows := container.NewVBox()
	for _, f := range found {
		text := widget.NewLabel(foundText(f))
		text.Wrapping = fyne.TextWrapWord
		recover := importantButton("Recover it", func() { d.Hide(); w.recover(f) })
		if f.Err != nil {
			recover.Disable()
		}
		discard := widget.NewButton("Discard it", func() {
			if err := w.kept.store.Drop(f); err != nil {
				w.showProblems("It cannot be discarded", err)
				return
			}
			d.Hide()
			w.offerRecovery()
		})
		rows.Add(container.NewBorder(nil, nil, nil, container.NewHBox(discard, recover), text))
	}
	d = dialog.NewCustom("Work from before was not saved", "Later", container.NewVScroll(rows), w.win)
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(700, size.Width-40), min(140+60*float32(len(found)), size.Height-40)))
	d.Show()
}

func foundText(f recovery.Found) string {
	if f.Err != nil {
		return f.Err.Error()
	}
	where := "not saved in any file"
	if f.Path != "" {
		where = "of " + filepath.Base(f.Path)
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
				w.tellNotKept(err)
				return // the old one stays
			}
		}
		if err := w.kept.store.Drop(f); err != nil {
			w.tellNotKept(err)
		}
		w.say("Recovered. It is not saved yet.")
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
