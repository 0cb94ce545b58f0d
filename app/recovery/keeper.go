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
	failed  func(error) // called from the keeper's goroutine

	work  sync.Mutex // held while the store is written
	state sync.Mutex
	next  *Snapshot // to be written
	wake  chan struct{}
	stop  chan struct{}
	done  chan struct{}
	once  sync.Once
}

// NewKeeper starts a keeper. failed is told when a snapshot cannot be written,
// once for each failure; it must not call the keeper's waiting methods.
func NewKeeper(x *Session, failed func(error)) *Keeper {
	k := &Keeper{session: x, failed: failed, wake: make(chan struct{}, 1), stop: make(chan struct{}), done: make(chan struct{})}
	go k.run()
	return k
}

// Take has a snapshot written after a gesture. Its job must not be edited.
func (k *Keeper) Take(s Snapshot) {
	k.state.Lock()
	k.next = &s
	k.state.Unlock()
	k.poke()
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
	k.state.Lock()
	k.next = nil
	k.state.Unlock()
	k.work.Lock()
	defer k.work.Unlock()
	return k.session.Forget()
}

// Move tells that the document has another file now, and returns the other
// windows on it. It waits for the disk.
func (k *Keeper) Move(path string) ([]Other, error) {
	k.work.Lock()
	defer k.work.Unlock()
	return k.session.Move(path)
}

// Flush writes what is to be written, and waits for it.
func (k *Keeper) Flush() error { return k.write() }

// Close ends the keeper and takes the session and its snapshot out of the
// store. It waits for the disk. Closing twice is no fault.
func (k *Keeper) Close() error {
	k.once.Do(func() { close(k.stop) })
	<-k.done
	k.state.Lock()
	k.next = nil
	k.state.Unlock()
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
			err = k.beat()
		}
		retry = nil
		if err != nil {
			k.failed(err)
			retry = time.After(retryAfter)
		}
	}
}

func (k *Keeper) beat() error {
	k.work.Lock()
	defer k.work.Unlock()
	return k.session.Beat()
}

// write writes the snapshot that waits. One that fails waits on, unless a later
// one has come.
func (k *Keeper) write() error {
	k.work.Lock()
	defer k.work.Unlock()
	k.state.Lock()
	s := k.next
	k.next = nil
	k.state.Unlock()
	if s == nil {
		return nil
	}
	err := k.session.Keep(*s)
	if err != nil {
		k.state.Lock()
		if k.next == nil {
			k.next = s
		}
		k.state.Unlock()
	}
	return err
}
