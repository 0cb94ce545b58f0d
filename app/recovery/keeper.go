package recovery

import (
	"sync"
	"time"
)

// retryAfter a snapshot that could not be written it is tried again.
const retryAfter = 5 * time.Second

// Keeper writes snapshots of a session beside the window's own work: the latest
// as soon as the one before is written. Its methods may be called from any
// goroutine; they do not wait for the disk unless they say so.
type Keeper struct {
	session *Session
	told    func(error) // called from the keeper's goroutine

	work    sync.Mutex // held while the store is written
	state   sync.Mutex
	next    *Snapshot // to be written
	drop    bool      // the snapshot is to be removed
	failing bool      // what was last told is an error
	wake    chan struct{}
	stop    chan struct{}
	done    chan struct{}
	once    sync.Once
}

// NewKeeper starts a keeper. told hears when the store cannot be written, once
// for each failure, and with nil when it can be again; failing says that it
// could not be before. told must not call the keeper's waiting methods.
func NewKeeper(x *Session, failing bool, told func(error)) *Keeper {
	k := &Keeper{session: x, failing: failing, told: told, wake: make(chan struct{}, 1), stop: make(chan struct{}), done: make(chan struct{})}
	go k.run()
	return k
}

// Take has a snapshot written after a gesture. Its job must not be edited.
func (k *Keeper) Take(s Snapshot) {
	k.want(&s, false)
	k.poke()
}

// Drop has the snapshot removed: the job is as in its file again.
func (k *Keeper) Drop() {
	k.want(nil, true)
	k.poke()
}

func (k *Keeper) want(next *Snapshot, drop bool) {
	k.state.Lock()
	k.next, k.drop = next, drop
	k.state.Unlock()
}

func (k *Keeper) poke() {
	select {
	case k.wake <- struct{}{}:
	default: // it is awake already
	}
}

// Forget drops what was to be written and removes the snapshot. It waits for
// the disk.
func (k *Keeper) Forget() error {
	k.want(nil, false)
	k.work.Lock()
	defer k.work.Unlock()
	return k.noted(k.session.Forget())
}

// Move tells that the document has another file now, and returns the other
// windows on it. It waits for the disk.
func (k *Keeper) Move(path string) ([]Other, error) {
	k.work.Lock()
	defer k.work.Unlock()
	others, err := k.session.Move(path)
	return others, k.noted(err)
}

// Flush writes what is to be written, and waits for it.
func (k *Keeper) Flush() error { return k.noted(k.write()) }

// Close ends the keeper and takes the session and its snapshot out of the
// store. It waits for the disk. Closing twice is no fault.
func (k *Keeper) Close() error {
	k.once.Do(func() { close(k.stop) })
	<-k.done
	k.want(nil, false)
	k.work.Lock()
	defer k.work.Unlock()
	return k.session.Close()
}

func (k *Keeper) run() {
	defer close(k.done)
	beat := time.NewTicker(BeatEvery)
	defer beat.Stop()
	var retry <-chan time.Time
	for {
		var err error
		select {
		case <-k.stop:
			return
		case <-k.wake:
			err = k.write()
		case <-retry:
			err = k.write()
		case <-beat.C:
			if err = k.beat(); err == nil {
				err = k.write() // perhaps one still waits
			}
		}
		retry = nil
		if err != nil {
			retry = time.After(retryAfter)
		}
		k.tell(err)
	}
}

// tell tells a failure, or that it is over.
func (k *Keeper) tell(err error) {
	k.state.Lock()
	was := k.failing
	k.failing = err != nil
	k.state.Unlock()
	if err != nil || was {
		k.told(err)
	}
}

// noted keeps in mind that something failed of which the caller is told.
func (k *Keeper) noted(err error) error {
	if err != nil {
		k.state.Lock()
		k.failing = true
		k.state.Unlock()
	}
	return err
}

func (k *Keeper) beat() error {
	k.work.Lock()
	defer k.work.Unlock()
	return k.session.Beat()
}

// write writes the snapshot that waits, or removes it. What fails waits on,
// unless something later has come.
func (k *Keeper) write() error {
	k.work.Lock()
	defer k.work.Unlock()
	k.state.Lock()
	s, drop := k.next, k.drop
	k.next, k.drop = nil, false
	k.state.Unlock()
	var err error
	switch {
	case s != nil:
		err = k.session.Keep(*s)
	case drop:
		err = k.session.Forget()
	}
	if err != nil {
		k.state.Lock()
		if k.next == nil && !k.drop {
			k.next, k.drop = s, drop
		}
		k.state.Unlock()
	}
	return err
}
