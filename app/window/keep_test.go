package window

import (
	"os"
	"path/filepath"
	"testing"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/recovery"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// gone is a world in which every program but this test has ended.
type gone struct{}

func (gone) Self() recovery.Process     { return recovery.System{}.Self() }
func (gone) Runs(recovery.Process) bool { return false }

// left lists what a crash at this moment would leave behind.
func (w *Window) left(t *testing.T) []recovery.Found {
	t.Helper()
	if err := w.kept.keeper.Flush(); err != nil {
		t.Fatal(err)
	}
	store := *w.kept.store
	store.Processes = gone{}
	found, err := store.Recoverable()
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestEveryGestureIsKeptUntilItIsSaved(t *testing.T) {
	w := open(t, "gravel-estate")
	if found := w.left(t); len(found) != 0 {
		t.Fatalf("%d snapshots of a job that nobody has changed", len(found))
	}
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	w.drag(t, scene.OfPoint(kinematics.OuterEnd), -2, 4)
	found := w.left(t)
	if len(found) != 1 || !found[0].Job.Equal(w.doc.Job()) || found[0].After != "move outer tie-rod end" {
		t.Fatalf("a crash would leave %+v", found)
	}
	w.undo()
	if found = w.left(t); len(found) != 1 || !found[0].Job.Equal(w.doc.Job()) {
		t.Fatal("an undo is not kept")
	}
	w.saveTo(filepath.Join(t.TempDir(), "kept.armscribe.yaml"), nil)
	if found = w.left(t); len(found) != 0 {
		t.Fatalf("%d snapshots after the save", len(found))
	}
}

func TestRecoveredWorkIsUnsavedAndKeptAnew(t *testing.T) {
	w := open(t, "gravel-estate")
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	want := w.doc.Job()
	found := w.left(t)
	if len(found) != 1 {
		t.Fatalf("%d snapshots", len(found))
	}
	// The next start: the same folder, another window, and the first one's program gone.
	again := New(w.app, document.New(want, "", true))
	t.Cleanup(again.endKeeping)
	again.recover(found[0])
	if !again.doc.Job().Equal(want) || !again.doc.Changed() {
		t.Fatalf("recovered job equal %v, changed %v", again.doc.Job().Equal(want), again.doc.Changed())
	}
	if now := again.left(t); len(now) != 1 || now[0].File == found[0].File {
		t.Fatalf("after recovery: %+v", now)
	}
}

func TestAFileChangedByAnotherProgramIsAskedAbout(t *testing.T) {
	w := open(t, "gravel-estate")
	path := filepath.Join(t.TempDir(), "shared.armscribe.yaml")
	w.saveTo(path, nil)
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	other := append(data, "# by another program\n"...)
	if err := os.WriteFile(path, other, 0o644); err != nil {
		t.Fatal(err)
	}
	w.lookAtDisk()
	if w.diskState != document.OtherOnDisk {
		t.Errorf("state %d", w.diskState)
	}
	w.saveTo(path, nil)
	if now, _ := os.ReadFile(path); string(now) != string(other) || !w.doc.Changed() {
		t.Fatal("the other program's work was replaced without asking")
	}
	if w.win.Canvas().Overlays().Top() == nil {
		t.Fatal("nothing is asked")
	}
	w.saved(path, w.doc.SaveOver(path), nil)
	j, err := job.Load(path)
	if err != nil || !j.Equal(w.doc.Job()) {
		t.Fatalf("saving over: %v", err)
	}
	if was, _ := os.ReadFile(path + ".bak"); string(was) != string(other) {
		t.Error("what the other program wrote is lost")
	}
}

func TestRecentFilesAreListed(t *testing.T) {
	w := open(t, "gravel-estate")
	path := filepath.Join(t.TempDir(), "late.armscribe.yaml")
	w.saveTo(path, nil)
	if list := w.recent(); len(list) != 1 || list[0] != path {
		t.Errorf("recent files %v", list)
	}
}
