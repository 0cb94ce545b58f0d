package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
)

// variantMenu is the menu of the variant shown.
func (w *Window) variantMenu() *fyne.Menu {
	items := w.variantItems(w.doc.Current())
	items[0].Shortcut = ctrl(fyne.KeyN)
	swap := item("Swap with the one compared", w.swapVariants, ctrl(fyne.KeyE))
	swap.Disabled = w.doc.ComparedIndex() < 0 || w.doc.ComparedIndex() == w.doc.Current()
	all := item("All variants side by side…", w.showCompare, ctrlShift(fyne.KeyE))
	return fyne.NewMenu("Variant", append(items, fyne.NewMenuItemSeparator(), swap, all)...)
}

// variantItems is what can be done with variant i.
func (w *Window) variantItems(i int) []*fyne.MenuItem {
	last, name := len(w.doc.Job().Variants)-1, w.doc.Job().Variants[i].Name
	able := func(on bool, text string, action func()) *fyne.MenuItem {
		m := fyne.NewMenuItem(text, action)
		m.Disabled = !on
		return m
	}
	items := []*fyne.MenuItem{
		fyne.NewMenuItem("Make another from it…", func() { w.showVariant(i); w.askVariant() }),
		fyne.NewMenuItem("Rename…", func() { w.askRename(i) }),
		fyne.NewMenuItem("Notes…", func() { w.showNotes(i) }),
		fyne.NewMenuItemSeparator(),
		able(i > 1, "Move left", func() { w.moveVariant(i, i-1) }),
		able(i > 0 && i < last, "Move right", func() { w.moveVariant(i, i+1) }),
		able(i != w.doc.Current() && i != w.doc.ComparedIndex(), "Compare with it", func() { w.compareWith(i) }),
		able(i > 0, "It is what the car now is", func() { w.makeMeasured(i) }),
	}
	if i == 0 {
		lock := checked("Locked against changes", w.doc.Locked(), w.toggleLock)
		lock.Disabled = i != w.doc.Current() || last == 0
		items = append(items, lock)
	}
	return append(items, fyne.NewMenuItemSeparator(),
		able(i > 0, "Delete "+name, func() { w.deleteVariant(i) }))
}

// variantState is what the Variant menu says.
func (w *Window) variantState() string {
	return fmt.Sprintf("%q %d %d %v", w.doc.Job().Names(), w.doc.Current(), w.doc.ComparedIndex(), w.doc.Locked())
}

// lockReason says why the variant shown cannot be changed; empty if it can.
func (w *Window) lockReason() string {
	if !w.doc.Locked() {
		return ""
	}
	return fmt.Sprintf("%q is locked, as measured: unlock it in the Variant menu, or make a variant.", w.doc.Variant().Name)
}

// refuseLocked refuses to type over the points of a locked variant.
func (w *Window) refuseLocked() error {
	if !w.doc.Locked() {
		return nil
	}
	return job.Problems{{What: fmt.Sprintf("%q is what was measured, and locked", w.doc.Variant().Name),
		Cure: "unlock it in the Variant menu, or make a variant", Err: document.ErrLocked}}
}

// editUnlocked is edit for what was measured of a variant.
func (w *Window) editUnlocked(name string, change func(*job.Variant)) error {
	if err := w.refuseLocked(); err != nil {
		return err
	}
	return w.edit(name, change)
}

func (w *Window) toggleLock() {
	locked := w.doc.Locked()
	w.doc.SetLocked(!locked)
	w.refresh()
	if locked {
		w.sayOfNow(w.doc.Variant().Name + " is unlocked until the job is closed: what you change now is what was measured.")
	} else {
		w.sayOfNow(w.doc.Variant().Name + " is locked against changes.")
	}
}

// did shows a change of the list, or why there was none, and says how to undo.
func (w *Window) did(err error, text string) {
	w.refresh()
	if err != nil {
		w.showProblems("The variants stay as they are", err)
		return
	}
	if text != "" {
		w.sayOfNow(text + " Ctrl+Z takes it back.")
	}
}

func (w *Window) moveVariant(i, to int) {
	w.cancelHand()
	name := w.doc.Job().Variants[i].Name
	w.did(w.doc.MoveVariant(i, to), "Moved "+name+".")
}

func (w *Window) makeMeasured(i int) {
	w.cancelHand()
	name := w.doc.Job().Variants[i].Name
	w.did(w.doc.MakeMeasured(i), name+" now comes first, as what was measured.")
}

func (w *Window) deleteVariant(i int) {
	w.cancelHand()
	name := w.doc.Job().Variants[i].Name
	w.did(w.doc.DeleteVariant(i), "Deleted "+name+".")
}

func (w *Window) swapVariants() {
	w.cancelHand()
	if w.doc.ComparedIndex() == w.doc.Current() || !w.doc.Swap() {
		w.sayOfNow("Nothing to swap with: choose what to compare with first.")
		return
	}
	v, _ := w.doc.Compared()
	w.refresh()
	w.sayOfNow("Now " + w.doc.Variant().Name + ", before " + v.Name + ".")
}

// askRename asks for another name until one is taken or the person gives up.
func (w *Window) askRename(i int) {
	was := w.doc.Job().Variants[i].Name
	name := keyed.NewEntry(was)
	name.Validator = func(text string) error {
		if j, taken := w.doc.Job().Find(text); taken && j != &w.doc.Job().Variants[i] {
			return fmt.Errorf("another variant is called %q", text)
		}
		return nil
	}
	w.dialogs.Form("Rename "+was, "Rename", "Leave it", []*widget.FormItem{widget.NewFormItem("Name", name)}, renameWidth,
		func() { w.did(w.doc.RenameVariant(i, name.Text), "Renamed "+was+".") })
}

// renameWidth is that of the question for another name.
const renameWidth = 440

// notesSheet is the notes of a variant. They are kept as they are typed; what was typed
// in a row is one undo.
type notesSheet struct {
	w       *Window
	entry   *keyed.Entry
	fault   *widget.Label
	content fyne.CanvasObject
	of      int  // the variant that the entry holds the notes of
	filling bool // not by hand
}

func (w *Window) newNotes() *notesSheet {
	n := &notesSheet{w: w, entry: keyed.NewEntry(""), fault: widget.NewLabel("")}
	n.entry.MultiLine = true // Tab writes into it
	n.entry.Wrapping = fyne.TextWrapWord
	n.entry.SetPlaceHolder("What is to be done, what was found, what to look at")
	n.fault.Wrapping = fyne.TextWrapWord
	n.fault.Hide()
	n.entry.OnChanged = func(text string) {
		if !n.filling {
			n.take(text)
		}
	}
	n.content = container.NewPadded(container.NewBorder(nil, n.fault, nil, nil, n.entry))
	return n
}

func (n *notesSheet) take(text string) {
	err := n.w.doc.SetNotes(n.of, "notes "+n.w.doc.Job().Variants[n.of].Name, text)
	n.w.refresh()
	n.fault.Hide()
	if err != nil {
		n.fault.SetText("✕ Not kept: " + err.Error())
		n.fault.Show()
	}
}

// fill shows the notes of the variant shown. What is refused stays to be mended.
func (n *notesSheet) fill() {
	same := n.of == n.w.doc.Current()
	if n.of = n.w.doc.Current(); same && n.fault.Visible() {
		return
	}
	n.fault.Hide()
	if notes := n.w.doc.Variant().Notes; notes != n.entry.Text {
		n.filling = true
		n.entry.SetText(notes)
		n.filling = false
	}
}

// showNotes leads to the notes of variant i.
func (w *Window) showNotes(i int) {
	if i != w.doc.Current() {
		w.showVariant(i)
	}
	w.focusIn(handOver, notesSection, func() fyne.Focusable { return w.answer.notes.entry })
}
