package recovery

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"armscribe/app/job"
	"armscribe/app/safefile"
	"armscribe/app/safefile/faulty"
	"armscribe/app/units"
	"armscribe/assets"
)

var errDisk = errors.New("injected")

// people are the processes of a test: those in the map run.
type people struct {
	self Process
	runs map[Process]bool
}

func (p *people) Self() Process       { return p.self }
func (p *people) Runs(q Process) bool { return p.runs[q] }

func process(pid int) Process { return Process{"bench", pid, "4711"} }

// bench is a store on a folder of its own, with the clock in the test's hand.
type bench struct {
	*Store
	people *people
	now    time.Time
	faults *faulty.System
}

func newBench(t *testing.T) *bench {
	t.Helper()
	b := &bench{now: time.Date(2026, 11, 25, 8, 20, 0, 0, time.UTC)}
	b.people = &people{process(100), map[Process]bool{process(100): true}}
	b.faults = &faulty.System{Under: safefile.Disk{}, Err: errDisk}
	b.Store = &Store{Dir: filepath.Join(t.TempDir(), "state", "armscribe"), Sys: b.faults, Processes: b.people, Now: func() time.Time { return b.now }}
	return b
}

// after is the same store seen from a later run, with the first one gone.
func (b *bench) after() *bench {
	c := *b
	c.people = &people{process(200), map[Process]bool{process(200): true}}
	c.faults = &faulty.System{Under: safefile.Disk{}, Err: errDisk}
	c.Store = &Store{Dir: b.Dir, Sys: c.faults, Processes: c.people, Now: func() time.Time { return c.now }}
	return &c
}

// edited is the demo job with a travel that tells one edit from the next.
func edited(t testing.TB, bump float64) *job.Job {
	t.Helper()
	data, ok := assets.Demo("gravel-estate")
	if !ok {
		t.Fatal("no demo")
	}
	j, err := job.Read("demo", data)
	if err != nil {
		t.Fatal(err)
	}
	j.Travel.Bump = units.Length{MM: bump}
	return j
}

func open(t *testing.T, s *Store, path string) (*Session, []Other) {
	t.Helper()
	x, others, err := s.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return x, others
}

func recoverable(t *testing.T, s *Store) []Found {
	t.Helper()
	list, err := s.Recoverable()
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func wantFolder(t *testing.T, s *Store, suffixes ...string) {
	t.Helper()
	entries, err := os.ReadDir(s.Dir)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	if len(entries) != len(suffixes) {
		t.Errorf("the folder holds %v, want %q", entries, suffixes)
		return
	}
	for i, e := range entries {
		if !strings.HasSuffix(e.Name(), suffixes[i]) {
			t.Errorf("the folder holds %v, want %q", entries, suffixes)
		}
	}
}

func TestACrashIsFoundAndDropped(t *testing.T) {
	b := newBench(t)
	path := filepath.Join(t.TempDir(), "car.armscribe.yaml")
	x, _ := open(t, b.Store, path)
	base := [32]byte{3, 1, 4}
	for _, bump := range []float64{61, 62.5} {
		b.now = b.now.Add(time.Minute)
		if err := x.Keep(Snapshot{Job: edited(t, bump), Path: path, After: "set bump", Base: base}); err != nil {
			t.Fatal(err)
		}
	}
	if list := recoverable(t, b.Store); len(list) != 0 {
		t.Errorf("the running program's own work is offered: %+v", list)
	}
	late := b.after()
	list := recoverable(t, late.Store)
	if len(list) != 1 {
		t.Fatalf("found %+v", list)
	}
	f := list[0]
	if f.Err != nil || !f.Job.Equal(edited(t, 62.5)) || f.Path != path || f.After != "set bump" || f.Base != base ||
		!f.Time.Equal(b.now) || f.Name != "Gravel estate, front" {
		t.Errorf("found %+v", f)
	}
	// Until it is dropped it is offered again.
	if again := recoverable(t, late.Store); len(again) != 1 {
		t.Errorf("the second time %+v", again)
	}
	if err := late.Drop(f); err != nil {
		t.Fatal(err)
	}
	wantFolder(t, b.Store)
}

// What is discarded can be had back for a week.
func TestDiscardedIsKeptForAWeek(t *testing.T) {
	b := newBench(t)
	for _, bump := range []float64{61, 62} {
		x, _ := open(t, b.Store, "")
		if err := x.Keep(Snapshot{Job: edited(t, bump)}); err != nil {
			t.Fatal(err)
		}
		b.now = b.now.Add(time.Minute)
	}
	late := b.after()
	late.now = late.now.Add(30 * 24 * time.Hour) // it is the discarding that counts
	found := recoverable(t, late.Store)
	if err := late.Discard(found[1]); err != nil {
		t.Fatal(err)
	}
	late.now = late.now.Add(KeepDiscarded - time.Second)
	if list := recoverable(t, late.Store); len(list) != 1 || !list[0].Job.Equal(edited(t, 62)) {
		t.Errorf("left is %+v", list)
	}
	gone, err := late.Discarded()
	if err != nil || len(gone) != 1 || !gone[0].Job.Equal(edited(t, 61)) {
		t.Fatalf("discarded is %+v, %v", gone, err)
	}
	late.now = late.now.Add(2 * time.Second)
	recoverable(t, late.Store)
	wantFolder(t, b.Store, openSuffix, snapshotSuffix)
	if err := late.Discard(found[0]); err != nil {
		t.Fatal(err)
	}
	if gone, _ = late.Discarded(); len(gone) != 1 {
		t.Fatalf("discarded is %+v", gone)
	}
	if err := late.Drop(gone[0]); err != nil { // recovered after all
		t.Fatal(err)
	}
	wantFolder(t, b.Store)
}

// Giants, folders and pipes in the store stop nothing.
func TestWhatIsNoSnapshotStopsNothing(t *testing.T) {
	b := newBench(t)
	x, _ := open(t, b.Store, "")
	if err := x.Keep(Snapshot{Job: edited(t, 61)}); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"giant" + snapshotSuffix, "giant" + openSuffix, recentName} {
		path := filepath.Join(b.Dir, name)
		if err := errors.Join(os.WriteFile(path, nil, 0o600), os.Truncate(path, 3<<30)); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"folder" + snapshotSuffix, "folder" + openSuffix, "folder" + discardedSuffix} {
		if err := os.Mkdir(filepath.Join(b.Dir, name), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	late := b.after()
	list := recoverable(t, late.Store)
	if len(list) != 2 || list[0].Err != nil || !errors.Is(list[1].Err, safefile.ErrTooLarge) {
		t.Errorf("found %+v", list)
	}
	if err := late.Discard(list[1]); err != nil {
		t.Error(err)
	}
	if err := late.Opened("/home/kim/a.armscribe.yaml"); err != nil {
		t.Errorf("a giant list of files: %v", err)
	}
}

func TestSavedOrGivenUpLeavesNothing(t *testing.T) {
	b := newBench(t)
	x, _ := open(t, b.Store, "")
	if err := x.Keep(Snapshot{Job: edited(t, 61)}); err != nil {
		t.Fatal(err)
	}
	wantFolder(t, b.Store, openSuffix, snapshotSuffix)
	if err := x.Forget(); err != nil {
		t.Fatal(err)
	}
	wantFolder(t, b.Store, openSuffix)
	if err := errors.Join(x.Forget(), x.Close(), x.Close()); err != nil {
		t.Errorf("forgetting nothing: %v", err)
	}
	wantFolder(t, b.Store)
}

func TestTwoWindowsOnOneFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "car.armscribe.yaml")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link.armscribe.yaml")
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	b := newBench(t)
	first, others := open(t, b.Store, path)
	if len(others) != 0 {
		t.Errorf("the first finds %v", others)
	}
	since := b.now
	b.now = b.now.Add(time.Minute)
	if _, others = open(t, b.Store, link); len(others) != 1 || !others[0].Same || !others[0].Since.Equal(since) {
		t.Errorf("a second window of the same run finds %+v", others)
	}
	if _, others = open(t, b.Store, filepath.Join(dir, "other.armscribe.yaml")); len(others) != 0 {
		t.Errorf("another file finds %+v", others)
	}
	third := b.after()
	third.people.runs[process(100)] = true // still there
	if _, others = open(t, third.Store, path); len(others) != 2 || others[0].Same {
		t.Errorf("another run finds %+v", others)
	}
	fourth := b.after() // the runs before are gone
	fourth.people.self = process(300)
	fourth.people.runs = map[Process]bool{process(300): true}
	if _, others = open(t, fourth.Store, path); len(others) != 0 {
		t.Errorf("after a crash it finds %+v", others)
	}
	if others, err := first.Move(filepath.Join(dir, "other.armscribe.yaml")); err != nil || len(others) != 1 {
		t.Errorf("saved under a name that is open: %v, %v", others, err)
	}
}

// On a home folder that two computers share the other's silence decides.
func TestAnotherComputerGoesSilent(t *testing.T) {
	b := newBench(t)
	path := filepath.Join(t.TempDir(), "car.armscribe.yaml")
	x, _ := open(t, b.Store, path)
	far := b.after()
	far.people.self.Host = "shop"
	far.people.runs[far.people.self] = true
	if _, others := open(t, far.Store, path); len(others) != 1 {
		t.Errorf("at once it finds %v", others)
	}
	b.now = b.now.Add(silence - time.Second)
	far.now = b.now
	if err := x.Beat(); err != nil {
		t.Fatal(err)
	}
	far.now = far.now.Add(silence - time.Second)
	if _, others := open(t, far.Store, path); len(others) != 2 { // that and its own first
		t.Errorf("after a beat it finds %v", others)
	}
	far.now = far.now.Add(2 * time.Second)
	x2, others := open(t, far.Store, "")
	if len(others) != 0 {
		t.Errorf("a new job finds %v", others)
	}
	if others, err := x2.Move(path); err != nil || len(others) != 2 || others[0].Process.Host != "shop" {
		t.Errorf("after silence it finds %v, %v", others, err)
	}
}

// What cannot be read is said and kept; it is never taken for nothing.
func TestADamagedSnapshotIsListedWithItsError(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(string) string
		want  string
	}{
		"cut short":     {func(s string) string { return s[:len(s)/2] }, "is damaged"},
		"a bit changed": {func(s string) string { return strings.Replace(s, "bump: 61", "bump: 63", 1) }, "is damaged"},
		"empty":         {func(string) string { return "" }, "cannot be read"},
		"other release": {func(s string) string { return strings.Replace(s, `snapshot":1`, `snapshot":2`, 1) }, "another release"},
	} {
		b := newBench(t)
		x, _ := open(t, b.Store, "")
		if err := x.Keep(Snapshot{Job: edited(t, 61)}); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(b.Dir, x.id+snapshotSuffix)
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(c.spoil(string(data))), 0o600); err != nil {
			t.Fatal(err)
		}
		list := recoverable(t, b.after().Store)
		if len(list) != 1 || list[0].Err == nil || !strings.Contains(list[0].Err.Error(), c.want) || list[0].Job != nil {
			t.Errorf("%s: %+v", name, list)
			continue
		}
		if _, err := os.Stat(file); err != nil {
			t.Errorf("%s: the file is gone: %v", name, err)
		}
	}
}

func TestRecordsLeftBehindAreClearedUp(t *testing.T) {
	b := newBench(t)
	open(t, b.Store, "")
	temp := filepath.Join(b.Dir, ".x.snapshot.0123.tmp")
	if err := os.WriteFile(temp, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(temp, b.now, b.now); err != nil {
		t.Fatal(err)
	}
	late := b.after()
	if list := recoverable(t, late.Store); len(list) != 0 {
		t.Errorf("found %+v", list)
	}
	wantFolder(t, b.Store, safefile.TempSuffix) // perhaps being written
	late.now = late.now.Add(2 * tempAge)
	recoverable(t, late.Store)
	wantFolder(t, b.Store)
}

func TestRecent(t *testing.T) {
	b := newBench(t)
	dir := t.TempDir()
	if list, err := b.Recent(); err != nil || len(list) != 0 {
		t.Errorf("at first %v, %v", list, err)
	}
	name := func(i int) string { return filepath.Join(dir, string(rune('a'+i))+".armscribe.yaml") }
	for _, i := range []int{0, 1, 2, 1} {
		if err := b.Opened(name(i)); err != nil {
			t.Fatal(err)
		}
	}
	want := func(names ...string) {
		t.Helper()
		list, err := b.Recent()
		if err != nil || strings.Join(list, "|") != strings.Join(names, "|") {
			t.Errorf("%v (%v), want %v", list, err, names)
		}
	}
	want(name(1), name(2), name(0))
	if err := b.NotRecent(name(2)); err != nil {
		t.Fatal(err)
	}
	want(name(1), name(0))
	for i := range maxRecent + 3 {
		if err := b.Opened(name(i)); err != nil {
			t.Fatal(err)
		}
	}
	if list, err := b.Recent(); err != nil || len(list) != maxRecent || list[0] != name(maxRecent+2) {
		t.Errorf("%v, %v", list, err)
	}
	for _, text := range []string{`["rel`, `{"a": 1}`, `[1, 2]`, "\x00"} {
		if err := os.WriteFile(filepath.Join(b.Dir, recentName), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if list, err := b.Recent(); err == nil || len(list) != 0 {
			t.Errorf("%q: %v, %v", text, list, err)
		}
		if err := b.Opened(name(5)); err != nil {
			t.Errorf("%q: %v", text, err)
		}
		want(name(5))
	}
}

func TestStateFolder(t *testing.T) {
	for _, c := range []struct {
		goos, xdg, local, want string
	}{
		{"linux", "", "", "/home/kim/.local/state/armscribe"},
		{"linux", "/var/kim", "", "/var/kim/armscribe"},
		{"linux", "relative", "", "/home/kim/.local/state/armscribe"},
		{"windows", "/var/kim", "/l", "/l/armscribe"},
		{"windows", "", "", "/home/kim/AppData/Local/armscribe"},
		{"darwin", "", "", "/home/kim/Library/Application Support/armscribe"},
	} {
		env := Environment{func(name string) string {
			return map[string]string{"XDG_STATE_HOME": c.xdg, "LOCALAPPDATA": c.local}[name]
		}, func() (string, error) { return "/home/kim", nil }, c.goos}
		if got, err := StateFolder(env); err != nil || filepath.ToSlash(got) != c.want {
			t.Errorf("%+v: %q (%v)", c, got, err)
		}
	}
	env := Environment{func(string) string { return "" }, func() (string, error) { return "", errDisk }, "linux"}
	if _, err := StateFolder(env); !errors.Is(err, errDisk) {
		t.Errorf("without a home: %v", err)
	}
}
