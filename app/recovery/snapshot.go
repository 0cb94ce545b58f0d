package recovery

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"armscribe/app/job"
	"armscribe/app/safefile"
)

// header is the first line of a snapshot; the job file follows.
type header struct {
	Format int       `json:"armscribe_snapshot"`
	Path   string    `json:"path"`
	Name   string    `json:"name"`
	After  string    `json:"after"`
	Time   time.Time `json:"time"`
	Base   string    `json:"base"`   // hash of the file that the changes began from, hex; empty without
	Sum    string    `json:"sha256"` // of the job file below
	Record record    `json:"record"`
}

const snapshotFormat = 1

// Snapshot is what of a document is kept.
type Snapshot struct {
	Job   *job.Job
	Path  string // the job's file as the person knows it; empty for none
	After string // name of the last gesture, as 'move lower ball joint'
	// Base is the hash of the file that the changes began from; nought for none.
	Base [sha256.Size]byte
}

// Keep writes the snapshot in place of the one before. On an error that one
// is still whole.
func (x *Session) Keep(s Snapshot) error {
	body, err := s.Job.Encode()
	if err != nil {
		return fmt.Errorf("keep unsaved work: %w", err)
	}
	h := header{snapshotFormat, s.Path, s.Job.Name, s.After, x.store.Now(), "", sum(body), x.record}
	if s.Base != [sha256.Size]byte{} {
		h.Base = hex.EncodeToString(s.Base[:])
	}
	head, err := json.Marshal(h)
	if err != nil {
		return fmt.Errorf("keep unsaved work: %w", err)
	}
	if err := x.store.write(x.id+snapshotSuffix, slices.Concat(head, []byte("\n"), body)); err != nil {
		return fmt.Errorf("keep unsaved work: %w", err)
	}
	return nil
}

// Forget removes the snapshot: the job has been saved, or its changes given up.
func (x *Session) Forget() error { return x.store.remove(x.id + snapshotSuffix) }

func sum(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}

// Found is a snapshot that a crash has left behind.
type Found struct {
	Snapshot
	Time time.Time // when it was taken
	Name string    // of the job
	// Err says why the snapshot cannot be opened; then there is no job in it. It
	// is kept until it is dropped.
	Err error
	// File is where it stands.
	File string

	id string
}

// Recoverable lists the snapshots whose program is gone, latest first, and
// clears up records without any. A snapshot that cannot be read is listed with
// its error. The error returned is of the folder, or of clearing up.
func (s *Store) Recoverable() ([]Found, error) {
	entries, err := s.Sys.ReadFolder(s.Dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("look for unsaved work: %w", err)
	}
	records, err := s.records()
	if err != nil {
		return nil, fmt.Errorf("look for unsaved work: %w", err)
	}
	var list []Found
	kept := map[string]bool{}
	for _, e := range entries {
		id, ok := strings.CutSuffix(e.Name(), snapshotSuffix)
		if !ok {
			continue
		}
		kept[id] = true
		if f, left := s.read(id, records); left {
			list = append(list, f)
		}
	}
	slices.SortFunc(list, func(a, b Found) int { return b.Time.Compare(a.Time) })
	return list, s.clearUp(entries, records, kept)
}

// clearUp removes the records of programs that are gone and left nothing, and
// the temporary files that a kill has left.
func (s *Store) clearUp(entries []fs.DirEntry, records map[string]record, kept map[string]bool) error {
	var errs []error
	for id, r := range records {
		if !kept[id] && !s.lives(r) {
			errs = append(errs, s.remove(id+openSuffix))
		}
	}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), safefile.TempSuffix) {
			continue
		}
		info, err := e.Info()
		if err == nil && s.Now().Sub(info.ModTime()) > tempAge {
			errs = append(errs, s.remove(e.Name()))
		}
	}
	return errors.Join(errs...)
}

// tempAge is how old a temporary file is before nobody can be writing it.
const tempAge = time.Hour

// read reads a snapshot; left is false for one whose program still runs.
func (s *Store) read(id string, records map[string]record) (f Found, left bool) {
	f = Found{File: filepath.Join(s.Dir, id+snapshotSuffix), id: id}
	r, recorded := records[id]
	data, err := s.Sys.ReadFile(f.File)
	head, body, _ := bytes.Cut(data, []byte("\n"))
	var h header
	if err == nil {
		err = json.Unmarshal(head, &h)
	}
	if !recorded && err == nil {
		r = h.Record
	}
	if recorded || err == nil {
		if s.lives(r) {
			return f, false
		}
	}
	f.Path, f.After, f.Time, f.Name = h.Path, h.After, h.Time, h.Name
	switch {
	case err != nil:
		f.Err = fmt.Errorf("the unsaved work in %s cannot be read: %w", f.File, err)
		return f, true
	case h.Format != snapshotFormat:
		f.Err = fmt.Errorf("the unsaved work in %s is of another release", f.File)
		return f, true
	case h.Sum != sum(body):
		f.Err = fmt.Errorf("the unsaved work in %s is damaged", f.File)
		return f, true
	}
	if base, err := hex.DecodeString(h.Base); err == nil && len(base) == sha256.Size {
		f.Base = [sha256.Size]byte(base)
	}
	f.Job, f.Err = job.Read(f.File, body)
	return f, true
}

// Drop removes a snapshot that the person has opened and kept elsewhere, or
// does not want.
func (s *Store) Drop(f Found) error {
	return errors.Join(s.remove(f.id+snapshotSuffix), s.remove(f.id+openSuffix))
}
