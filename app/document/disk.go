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

// ErrChangedOnDisk: another program has changed the document's file since it
// was read or written here. errors.Is finds it in the error of Save.
var ErrChangedOnDisk = job.ErrOther

// Save writes the job to a path, which becomes the document's. On an error the
// document stays marked changed and keeps its path. The document's own file is
// not replaced when another program has changed it: see ErrChangedOnDisk and
// SaveOver.
func (d *Document) Save(path string) error { return d.SaveOn(safefile.Disk{}, path) }

// SaveOver is Save that replaces whatever the file now holds, which goes to the
// backup beside it.
func (d *Document) SaveOver(path string) error { return d.save(safefile.Disk{}, path, nil) }

// SaveOn is Save on any file system.
func (d *Document) SaveOn(sys safefile.System, path string) error {
	var guard func([]byte) bool
	if path == d.path && d.onDisk.known {
		guard = func(former []byte) bool { return contentOf(former) == d.onDisk }
	}
	return d.save(sys, path, guard)
}

func (d *Document) save(sys safefile.System, path string, guard func([]byte) bool) error {
	written, err := job.SaveIf(sys, path, d.Job(), guard)
	if written != nil && (err == nil || path == d.path) {
		d.onDisk = contentOf(written) // also when the folder was not synced
	}
	if err != nil {
		return err
	}
	d.path, d.saved = path, d.Job()
	d.history.EndRun()
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
