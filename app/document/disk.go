package document

import (
	"crypto/sha256"
	"errors"
	"io/fs"
	"os"

	"armscribe/app/job"
	"armscribe/app/safefile"
)

// content stands for what a file held; nought for no file.
type content struct {
	known bool
	hash  [sha256.Size]byte
}

func contentOf(data []byte) content { return content{true, sha256.Sum256(data)} }

// Errors of Save, for errors.Is: another program has changed the document's file
// since it was read or written here; a file of the new name is there already.
var (
	ErrChangedOnDisk = job.ErrOther
	ErrExists        = job.ErrExists
)

// Save writes the job to a path, which becomes the document's. On an error the
// document stays marked changed and keeps its path. What no one here has read or
// written is not replaced: see ErrChangedOnDisk, ErrExists and SaveOver.
func (d *Document) Save(path string) error { return d.SaveOn(safefile.Disk{}, path) }

// SaveOver is Save that replaces what the last Save has found, of which the
// person was told, and which goes to the backup beside it. What has come there
// since is refused as by Save.
func (d *Document) SaveOver(path string) error { return d.save(safefile.Disk{}, path, d.found) }

// SaveOn is Save on any file system.
func (d *Document) SaveOn(sys safefile.System, path string) error {
	return d.save(sys, path, content{})
}

// save writes where nothing is, or what was left there, or what may go.
func (d *Document) save(sys safefile.System, path string, mayGo content) error {
	own, err := d.owns(sys, path)
	if err != nil {
		return err
	}
	written, err := job.SaveIf(sys, path, d.Job(), func(former []byte) error {
		d.found = contentOf(former)
		switch {
		case d.found == mayGo, own && d.found == d.onDisk:
			return nil
		case own:
			return ErrChangedOnDisk
		}
		return ErrExists
	})
	if written != nil && (err == nil || own) {
		d.onDisk = contentOf(written) // also when the folder was not synced
	}
	if err != nil {
		return err
	}
	d.path, d.saved = path, d.Job()
	d.history.EndRun()
	return nil
}

// owns tells whether a path leads to the document's file, by whatever name.
func (d *Document) owns(sys safefile.System, path string) (bool, error) {
	if d.path == "" || path == d.path {
		return d.path != "", nil
	}
	here, err := sys.Stat(d.path)
	there := here
	if err == nil {
		there, err = sys.Stat(path)
	}
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return err == nil && os.SameFile(here, there), nil
	}
	return false, job.Unsaved(path, err)
}

// Reload takes what the document's file holds now, as a gesture that can be
// undone: nothing that was not saved is lost by it.
func (d *Document) Reload() error {
	j, data, err := job.LoadBytes(d.path)
	if err != nil {
		return err
	}
	if contentOf(data) == d.onDisk && !d.Changed() {
		return nil
	}
	is := d.hand.in(d.Job(), j)
	d.history.Do("reload", "", version{job: begun(j), was: d.hand, is: is, list: true})
	d.hand = is
	d.onDisk, d.saved = contentOf(data), j
	return nil
}

// Recovered opens a job from unsaved work. base is the hash of the file that
// its changes began from, as Base returned it; nought for none.
func Recovered(j *job.Job, path string, base [sha256.Size]byte) *Document {
	d := New(j, path, false)
	if base != [sha256.Size]byte{} {
		d.onDisk = content{true, base}
	}
	return d
}

// Base returns the hash of the file that the document's changes began from;
// nought when it has none.
func (d *Document) Base() [sha256.Size]byte { return d.onDisk.hash }

// DiskState tells how the document's file stands to what was read or written.
type DiskState uint8

// The states.
const (
	NoFile      DiskState = iota // the document has none yet
	SameOnDisk                   // as it was left
	OtherOnDisk                  // another program has changed it
	GoneOnDisk                   // it is not there any more
)

// OnDisk looks at the document's file. The error is that of reading it; then
// the state is not known and NoFile is returned.
func (d *Document) OnDisk() (DiskState, error) {
	if d.path == "" || !d.onDisk.known {
		return NoFile, nil
	}
	info, err := os.Stat(d.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return GoneOnDisk, nil
	case err != nil:
		return NoFile, err
	case !info.Mode().IsRegular() || info.Size() > job.MaxFile:
		return OtherOnDisk, nil // no job file: nothing of ours
	}
	data, err := os.ReadFile(d.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return GoneOnDisk, nil
	case err != nil:
		return NoFile, err
	case contentOf(data) != d.onDisk:
		return OtherOnDisk, nil
	}
	return SameOnDisk, nil
}
