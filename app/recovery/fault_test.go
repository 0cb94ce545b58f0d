package recovery

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// everyFault runs an operation with its n-th file operation failing, once and
// then for good, for every n, each time on a store that prepare has set up. It
// returns how many operations there are.
func everyFault(t *testing.T, prepare func(*bench), do func(*bench) error, check func(b *bench, n int, err error)) int {
	t.Helper()
	for n := 1; ; n++ {
		for _, forever := range []bool{false, true} {
			b := newBench(t)
			prepare(b)
			b.faults.Done, b.faults.FailAt, b.faults.Forever = 0, n, forever
			err := do(b)
			asked := b.faults.Done
			b.faults.FailAt = 0
			if asked < n {
				if err != nil {
					t.Fatalf("without a fault: %v", err)
				}
				return n - 1
			}
			check(b, n, err)
		}
		if n > 200 {
			t.Fatal("no end of file operations")
		}
	}
}

// A snapshot is the new one or the one before, whole, and what failed is told.
func TestEveryFaultWhileKeeping(t *testing.T) {
	var x *Session
	old, next := edited(t, 61), edited(t, 62)
	prepare := func(b *bench) {
		x, _ = open(t, b.Store, "/home/kim/car.armscribe.yaml")
		if err := x.Keep(Snapshot{Job: old}); err != nil {
			t.Fatal(err)
		}
	}
	n := everyFault(t, prepare, func(*bench) error { return x.Keep(Snapshot{Job: next}) }, func(b *bench, n int, err error) {
		list := recoverable(t, b.after().Store)
		if len(list) != 1 || list[0].Err != nil {
			t.Fatalf("fault %d: found %+v", n, list)
		}
		isNew, isOld := list[0].Job.Equal(next), list[0].Job.Equal(old)
		switch {
		case !isNew && !isOld:
			t.Errorf("fault %d: neither snapshot", n)
		case err == nil && !isNew:
			t.Errorf("fault %d: nothing is said and the old one kept", n)
		case err != nil && !errors.Is(err, errDisk):
			t.Errorf("fault %d: %v", n, err)
		}
	})
	if n < 6 {
		t.Errorf("only %d file operations", n)
	}
}

// Opening gives a session that can keep work, whatever fails at first.
func TestEveryFaultWhileOpening(t *testing.T) {
	var x *Session
	do := func(b *bench) (err error) {
		x, _, err = b.Open("/home/kim/car.armscribe.yaml")
		return err
	}
	everyFault(t, func(b *bench) { open(t, b.Store, "/home/kim/other.armscribe.yaml") }, do, func(b *bench, n int, err error) {
		if x == nil {
			t.Fatalf("fault %d: no session (%v)", n, err)
		}
		if err := x.Keep(Snapshot{Job: edited(t, 63)}); err != nil {
			t.Errorf("fault %d: a later snapshot: %v", n, err)
		}
		if list := recoverable(t, b.after().Store); len(list) != 1 || !list[0].Job.Equal(edited(t, 63)) {
			t.Errorf("fault %d: found %+v", n, list)
		}
	})
}

// A snapshot that cannot be removed is said, and found again.
func TestEveryFaultWhileClosing(t *testing.T) {
	var x *Session
	prepare := func(b *bench) {
		x, _ = open(t, b.Store, "")
		if err := x.Keep(Snapshot{Job: edited(t, 61)}); err != nil {
			t.Fatal(err)
		}
	}
	n := everyFault(t, prepare, func(*bench) error { return x.Close() }, func(b *bench, n int, err error) {
		if !errors.Is(err, errDisk) {
			t.Errorf("fault %d: %v", n, err)
		}
		if err := x.Close(); err != nil {
			t.Errorf("fault %d: the second time: %v", n, err)
		}
		wantFolder(t, b.Store)
	})
	if n != 2 {
		t.Errorf("%d file operations", n)
	}
}

func TestEveryFaultWhileLooking(t *testing.T) {
	prepare := func(b *bench) {
		x, _ := open(t, b.Store, "")
		if err := x.Keep(Snapshot{Job: edited(t, 61)}); err != nil {
			t.Fatal(err)
		}
		open(t, b.Store, "") // left behind without a snapshot
	}
	var list []Found
	var late *bench
	do := func(b *bench) (err error) {
		late = b.after()
		late.faults = b.faults
		late.Sys = b.faults
		list, err = late.Recoverable()
		return err
	}
	everyFault(t, prepare, do, func(b *bench, n int, err error) {
		said := err != nil || len(list) == 1 && list[0].Err != nil
		if !said && (len(list) != 1 || !list[0].Job.Equal(edited(t, 61))) {
			t.Errorf("fault %d: found %+v, and nothing is said", n, list)
		}
		if list := recoverable(t, late.Store); len(list) != 1 || list[0].Err != nil {
			t.Errorf("fault %d: afterwards found %+v", n, list)
		}
	})
}

// The list is the new one or the old one.
func TestEveryFaultOfTheRecentList(t *testing.T) {
	prepare := func(b *bench) {
		if err := b.Opened("/home/kim/a.armscribe.yaml"); err != nil {
			t.Fatal(err)
		}
	}
	everyFault(t, prepare, func(b *bench) error { return b.Opened("/home/kim/b.armscribe.yaml") }, func(b *bench, n int, err error) {
		list, rerr := b.Recent()
		if rerr != nil || len(list) == 0 || list[len(list)-1] != "/home/kim/a.armscribe.yaml" || len(list) != 2 && err == nil {
			t.Errorf("fault %d (%v): the list is %v, %v", n, err, list, rerr)
		}
	})
}

// The store is for its user alone.
func TestNobodyElseReadsIt(t *testing.T) {
	b := newBench(t)
	x, _ := open(t, b.Store, "")
	if err := x.Keep(Snapshot{Job: edited(t, 61)}); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{b.Dir, filepath.Join(b.Dir, x.id+snapshotSuffix), filepath.Join(b.Dir, x.id+openSuffix)} {
		info, err := os.Stat(path)
		if err != nil || info.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s: %v, %v", path, info, err)
		}
	}
}
