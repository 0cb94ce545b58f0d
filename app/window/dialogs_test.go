package window

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/recovery"
	"armscribe/app/safefile"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// strike gives a key to whatever has the keyboard, as the toolkit does.
func (w *Window) strike(key fyne.KeyName) {
	e := &fyne.KeyEvent{Name: key}
	if f := w.win.Canvas().Focused(); f != nil {
		f.TypedKey(e)
		return
	}
	w.win.Canvas().OnTypedKey()(e)
}

// asked is the text of the dialog on top, with its buttons; empty without one.
func (w *Window) asked() string {
	var text strings.Builder
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	for _, o := range test.LaidOutObjects(top) {
		switch o := o.(type) {
		case *widget.Label:
			text.WriteString(o.Text + "\n")
		case *keyed.Button:
			text.WriteString("[" + o.Text + "]")
		}
	}
	return text.String()
}

func (w *Window) pull3(t *testing.T) { w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5) }

// formerRun is a run of the program that has ended.
type formerRun struct{ recovery.System }

func (formerRun) Self() recovery.Process {
	p := recovery.System{}.Self()
	p.PID = 1 << 30 // beyond any that runs
	return p
}

// crashed is a window on a store in which a crash has left pieces of work of
// jobs in different folders.
func crashed(t *testing.T, files ...string) *Window {
	t.Helper()
	w := open(t, "gravel-estate")
	for _, file := range files {
		again := New(w.app, document.New(w.doc.Job(), file, true))
		again.kept.store.Processes = formerRun{}
		again.keepFor(again.doc)
		again.view.Modifiers, again.prefs = w.view.Modifiers, w.prefs
		again.win.Resize(fyne.NewSize(1280, 800))
		again.refresh()
		again.pull3(t)
		if err := again.kept.keeper.Flush(); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(again.endKeeping)
		again.win.SetCloseIntercept(nil)
		again.win.Close() // keys go to the last window
	}
	return w
}

// The first key that a person strikes destroys nothing.
func TestRecoveryIsSafeByKeyboard(t *testing.T) {
	w := crashed(t, "/home/kim/one/car.armscribe.yaml", "/home/kim/two/car.armscribe.yaml")
	left := func() int {
		t.Helper()
		list, err := w.kept.store.Recoverable()
		if err != nil {
			t.Fatal(err)
		}
		return len(list)
	}
	w.offerRecovery()
	for _, folder := range []string{"one", "two"} { // one name, told apart
		if !strings.Contains(w.asked(), "of car.armscribe.yaml in /home/kim/"+folder) {
			t.Errorf("offered is %q", w.asked())
		}
	}
	w.strike(fyne.KeyEscape)
	if w.asked() != "" || left() != 2 {
		t.Fatalf("Esc leaves %d pieces and %q", left(), w.asked())
	}
	w.offerRecovery()
	w.win.Canvas().Unfocus() // as a click beside the buttons does
	w.strike(fyne.KeyEscape)
	if w.asked() != "" || left() != 2 {
		t.Fatalf("Esc without focus leaves %d pieces and %q", left(), w.asked())
	}

	w.offerRecovery()
	w.press(t, "Discard it")
	if !strings.Contains(w.asked(), "Discard this work?") || left() != 2 {
		t.Fatalf("%d pieces are left, asked is %q", left(), w.asked())
	}
	w.strike(fyne.KeySpace) // the safe one
	if left() != 2 || !strings.Contains(w.asked(), "[Recover it]") {
		t.Fatalf("%d pieces are left, asked is %q", left(), w.asked())
	}
	w.press(t, "Discard it")
	w.press(t, "Discard it")
	if left() != 1 {
		t.Fatalf("%d pieces are left", left())
	}
	w.strike(fyne.KeyEscape)
	w.showDiscarded()
	w.strike(fyne.KeySpace)
	if !w.doc.Changed() || !strings.HasPrefix(w.doc.Path(), "/home/kim/") {
		t.Error("what was discarded lately is not recovered")
	}
}

// One that is recovered does not hide the others.
func TestTheOthersAreOfferedAfterOne(t *testing.T) {
	w := crashed(t, "/home/kim/one/car.armscribe.yaml", "/home/kim/two/car.armscribe.yaml")
	w.offerRecovery()
	w.strike(fyne.KeySpace)
	if !w.doc.Changed() {
		t.Fatal("Space does not recover")
	}
	first := w.doc.Path()
	if !strings.Contains(w.asked(), "[Recover it]") {
		t.Fatalf("the other is not offered: %q", w.asked())
	}
	w.strike(fyne.KeySpace)
	if !strings.Contains(w.asked(), "Save before you recover it?") {
		t.Fatalf("asked is %q", w.asked())
	}
	w.press(t, "Discard changes")
	if w.doc.Path() == first {
		t.Error("the other is not recovered")
	}
}

// Undone up to what is saved there is nothing to recover.
func TestUndoneToTheSavedStateKeepsNothing(t *testing.T) {
	w := open(t, "gravel-estate")
	w.pull3(t)
	if found := w.left(t); len(found) != 1 {
		t.Fatalf("%d snapshots", len(found))
	}
	w.undo()
	if found := w.left(t); len(found) != 0 {
		t.Fatalf("%d snapshots of what is in the file", len(found))
	}
	w.redo()
	if found := w.left(t); len(found) != 1 || !found[0].Job.Equal(w.doc.Job()) {
		t.Fatalf("redone, a crash would leave %+v", found)
	}
}

// Opening asks once about changes, when a file that opens has been chosen.
func TestOpeningAsksOnce(t *testing.T) {
	w := open(t, "gravel-estate")
	path := filepath.Join(t.TempDir(), "a.armscribe.yaml")
	if err := job.Save(path, w.doc.Job()); err != nil {
		t.Fatal(err)
	}
	w.pull3(t)
	w.askOpen()
	if strings.Contains(w.asked(), "not saved") || !w.asks() {
		t.Fatalf("before a file is chosen: %q", w.asked())
	}
	w.win.Canvas().Unfocus()
	w.strike(fyne.KeyEscape)
	if w.asks() {
		t.Fatal("Esc does not leave the dialog")
	}
	w.openPath(filepath.Join(t.TempDir(), "none.armscribe.yaml"))
	if !strings.Contains(w.asked(), "does not exist") {
		t.Errorf("a file that is not there: %q", w.asked())
	}
	w.strike(fyne.KeyEscape)
	w.openPath(path)
	w.strike(fyne.KeyEscape)
	if w.asks() || !w.doc.Changed() {
		t.Fatal("Esc does not keep editing")
	}
	w.openPath(path)
	w.press(t, "Discard changes")
	if w.asks() || w.doc.Path() != path {
		t.Errorf("opened %q, asked %q", w.doc.Path(), w.asked())
	}
}

// A file that another program has changed can be reloaded, and that undone; Esc
// leaves all as it is.
func TestAChangedFileCanBeReloaded(t *testing.T) {
	w := open(t, "gravel-estate")
	path := filepath.Join(t.TempDir(), "shared.armscribe.yaml")
	w.saveTo(path, nil)
	w.pull3(t)
	mine := w.doc.Job()
	other, err := document.Open(path)
	if err == nil {
		err = errors.Join(other.EditJob("travel", "", func(j *job.Job) { j.Travel.Bump.MM = 66 }), other.Save(path))
	}
	if err != nil {
		t.Fatal(err)
	}
	w.save(nil)
	w.strike(fyne.KeyEscape)
	if w.asks() || !w.doc.Changed() || !w.doc.Job().Equal(mine) {
		t.Fatal("Esc does not leave the question")
	}
	w.save(nil)
	w.strike(fyne.KeySpace) // keep editing has the keyboard
	if now, err := job.Load(path); err != nil || !now.Equal(other.Job()) {
		t.Fatal("a key has replaced the other's work")
	}
	w.save(nil)
	w.press(t, "Reload it")
	if w.doc.Changed() || !w.doc.Job().Equal(other.Job()) || strings.Contains(w.win.Title(), "*") {
		t.Error("it is not reloaded")
	}
	w.undo()
	if !w.doc.Job().Equal(mine) {
		t.Error("undo does not bring the person's own work back")
	}
}

// Saved under another name, a file that is there is asked about; and a name that
// is too long is refused before anything is tried.
func TestSaveAsIsAskedAbout(t *testing.T) {
	w := open(t, "gravel-estate")
	path := filepath.Join(t.TempDir(), "taken.armscribe.yaml")
	if err := os.WriteFile(path, []byte("a letter\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	w.saveTo(path, nil)
	w.strike(fyne.KeyEscape)
	if now, _ := os.ReadFile(path); string(now) != "a letter\n" || w.asks() {
		t.Fatalf("after Esc the file holds %q", now)
	}
	w.saveTo(path, nil)
	w.press(t, "Replace it")
	if was, _ := os.ReadFile(path + ".bak"); string(was) != "a letter\n" || w.doc.Path() != path {
		t.Errorf("the backup holds %q, the document is %q", was, w.doc.Path())
	}
	for name, ok := range map[string]bool{strings.Repeat("n", 251-len(Extension)): true, strings.Repeat("n", 252-len(Extension)): false} {
		if err := fileName(name); (err == nil) != ok || !ok && !strings.Contains(err.Error(), "too long") {
			t.Errorf("%d letters: %v", len(name), err)
		}
		w.saveUnder(t.TempDir(), name, nil)
		if strings.Contains(w.asked(), "too long") == ok {
			t.Errorf("%d letters: %q", len(name), w.asked())
		}
		w.strike(fyne.KeyEscape)
	}
}

// What the heading says is true of the file.
func TestTheHeadingOfAFailedSaveIsTrue(t *testing.T) {
	w := open(t, "gravel-estate")
	for _, c := range []struct {
		err  error
		want string
	}{
		{job.Unsaved("a", &safefile.NotSynced{Err: syscall.EIO}), "Saved, but not yet safe from a power cut"},
		{job.Unsaved("a", syscall.ENOSPC), "Not saved: the file on disk is as it was"},
	} {
		w.saved("a", c.err, func() { t.Error("went on") })
		if !strings.Contains(w.asked(), "\n"+c.want+"\n") && !strings.HasSuffix(w.asked(), "]"+c.want+"\n") {
			t.Errorf("%v: %q", c.err, w.asked())
		}
		w.strike(fyne.KeyEscape)
	}
}

// That a photo is not shown stays said until it is read, or is shown.
func TestAPhotoThatIsRefusedIsSaidUntilRead(t *testing.T) {
	w, folder := withPhoto(t)
	said := func() bool { return w.notices.has(aboutPhoto) && w.notices.shown[aboutPhoto].row != nil }
	w.photo.choose(filepath.Join(folder, "none.png"))
	w.say("something else")
	if !said() {
		t.Error("the next sentence has replaced the refusal")
	}
	w.photo.choose(filepath.Join(folder, "left.png"))
	if said() {
		t.Error("the photo is shown, and still it is refused")
	}
}

// What must be read stays whole until it is closed, and a store that works again
// says so.
func TestNoticesStayUntilRead(t *testing.T) {
	w := open(t, "gravel-estate")
	long := strings.Repeat("/a folder with a long name", 9)
	shown := func() *widget.Label {
		for _, o := range test.LaidOutObjects(w.notices.box) {
			if l, ok := o.(*widget.Label); ok && strings.HasPrefix(l.Text, "▲") {
				return l
			}
		}
		return nil
	}
	w.tellKept(errors.New(long))
	w.say("something else")
	l := shown()
	if l == nil || !strings.Contains(l.Text, long) || l.Truncation != fyne.TextTruncateOff || l.Size().Height <= widget.NewLabel("x").MinSize().Height {
		t.Fatalf("the notice is %+v", l)
	}
	where := w.app.Driver().AbsolutePositionForObject
	if foot := where(l).Y + l.Size().Height; foot > where(w.status).Y || where(l).Y < where(w.adviceLine).Y+w.adviceLine.Size().Height || l.Size().Height < l.MinSize().Height {
		t.Errorf("the notice stands from %g to %g, the status line at %g", where(l).Y, foot, where(w.status).Y)
	}
	w.tellKept(nil)
	if shown() != nil || w.status.Text != "Unsaved work is being kept in case of a crash again." {
		t.Errorf("it works again, and the line says %q", w.status.Text)
	}
	w.say("something else")
	w.tellKept(nil)
	if w.status.Text != "something else" {
		t.Errorf("nothing was wrong, and the line says %q", w.status.Text)
	}
	w.tellKept(errors.New(long))
	for _, o := range test.LaidOutObjects(w.notices.box) {
		if b, ok := o.(*keyed.Button); ok {
			b.OnTapped()
		}
	}
	if shown() != nil {
		t.Error("it cannot be closed")
	}
	w.tellKept(errors.New(long)) // tried again a little later
	if shown() != nil {
		t.Error("what was read comes back")
	}
	w.tellKept(errors.New("another fault"))
	if shown() == nil {
		t.Error("another fault is not said")
	}
}
