package recovery

import (
	"errors"
	"testing"
	"testing/synctest"
	"time"
)

func TestKeeperWritesTheLatest(t *testing.T) {
	b := newBench(t)
	x, _ := open(t, b.Store, "")
	k := NewKeeper(x, false, func(err error) { t.Error(err) })
	for bump := 50.0; bump < 70; bump++ {
		k.Take(Snapshot{Job: edited(t, bump)})
	}
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	if list := recoverable(t, b.after().Store); len(list) != 1 || !list[0].Job.Equal(edited(t, 69)) {
		t.Errorf("found %+v", list)
	}
	k.Take(Snapshot{Job: edited(t, 71)})
	if err := k.Forget(); err != nil {
		t.Fatal(err)
	}
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	wantFolder(t, b.Store, openSuffix)
	k.Take(Snapshot{Job: edited(t, 71.5)})
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	wantFolder(t, b.Store, openSuffix, snapshotSuffix)
	k.Drop() // undone up to what is saved
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	wantFolder(t, b.Store, openSuffix)
	k.Take(Snapshot{Job: edited(t, 72)})
	if err := errors.Join(k.Close(), k.Close()); err != nil {
		t.Fatal(err)
	}
	wantFolder(t, b.Store)
}

// A snapshot that failed is told and tried again without another gesture, and
// the session goes on saying that it lives.
func TestKeeperTriesAgain(t *testing.T) {
	b := newBench(t)
	b.Now = time.Now
	synctest.Test(t, func(t *testing.T) {
		x, _ := open(t, b.Store, "")
		var told []error
		k := NewKeeper(x, false, func(err error) { told = append(told, err) })
		b.faults.Done, b.faults.FailAt, b.faults.Forever = 0, 1, true
		k.Take(Snapshot{Job: edited(t, 61)})
		time.Sleep(retryAfter + time.Second)
		synctest.Wait()
		if len(told) != 2 || !errors.Is(told[1], errDisk) {
			t.Errorf("told %v", told)
		}
		k.work.Lock() // the keeper uses the disk under it
		b.faults.FailAt = 0
		k.work.Unlock()
		began := time.Now()
		time.Sleep(BeatEvery + time.Second)
		synctest.Wait()
		if len(told) != 3 || told[2] != nil {
			t.Errorf("told %v, want two failures and that it works again", told)
		}
		records, err := b.records()
		if err != nil || !records[x.id].Beat.After(began) {
			t.Errorf("no beat in %+v (%v)", records, err)
		}
		if list, err := b.after().Recoverable(); err != nil || len(list) != 1 || !list[0].Job.Equal(edited(t, 61)) {
			t.Errorf("found %+v, %v", list, err)
		}
		if err := k.Close(); err != nil {
			t.Error(err)
		}
	})
}
