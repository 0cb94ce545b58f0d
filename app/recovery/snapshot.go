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

// maxSnapshot is the largest snapshot read, bytes: a job and its header.
const maxSnapshot = job.MaxFile + maxRecord

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

	name string // of the file
}

// Recoverable lists the snapshots whose program is gone, latest first, and
// clears up records without any and work discarded long ago. A snapshot that
// cannot be read is listed with its error. The error returned is of the folder,
// or of clearing up.
func (s *Store) Recoverable() ([]Found, error) {
	entries, err := s.folder()
	if err != nil {
		return nil, err
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
		r, recorded := records[id]
		if recorded && s.lives(r) {
			continue
		}
		f, h := s.read(e.Name())
		if !recorded && h.Format != 0 && s.lives(h.Record) {
			continue
		}
		list = append(list, f)
	}
	latestFirst(list)
	return list, s.clearUp(entries, records, kept)
}

// Discarded lists what was discarded and is kept for KeepDiscarded, as
// Recoverable does.
func (s *Store) Discarded() ([]Found, error) {
	entries, err := s.folder()
	var list []Found
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), discardedSuffix) {
			f, _ := s.read(e.Name())
			list = append(list, f)
		}
	}
	latestFirst(list)
	return list, err
}

func latestFirst(list []Found) {
	slices.SortFunc(list, func(a, b Found) int { return b.Time.Compare(a.Time) })
}

// folder lists the store's files; what else lies there is none of them.
func (s *Store) folder() ([]fs.DirEntry, error) {
	entries, err := s.Sys.ReadFolder(s.Dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("look for unsaved work: %w", err)
	}
	return slices.DeleteFunc(entries, fs.DirEntry.IsDir), nil
}

// clearUp removes the records of programs that are gone and left nothing, the
// temporary files that a kill has left, and what was discarded long ago.
func (s *Store) clearUp(entries []fs.DirEntry, records map[string]record, kept map[string]bool) error {
	var errs []error
	for id, r := range records {
		if !kept[id] && !s.lives(r) {
			errs = append(errs, s.remove(id+openSuffix))
		}
	}
	for _, e := range entries {
		old := false
		switch filepath.Ext(e.Name()) {
		case safefile.TempSuffix:
			info, err := e.Info()
			old = err == nil && s.Now().Sub(info.ModTime()) > tempAge
		case discardedSuffix:
			when, ok := discardedAt(e.Name())
			old = ok && s.Now().Sub(when) > KeepDiscarded
		}
		if old {
			errs = append(errs, s.remove(e.Name()))
		}
	}
	return errors.Join(errs...)
}

// tempAge is how old a temporary file is before nobody can be writing it.
const tempAge = time.Hour

// read reads a snapshot; its header is empty where it cannot be read.
func (s *Store) read(name string) (f Found, h header) {
	f = Found{File: filepath.Join(s.Dir, name), name: name}
	data, err := s.Sys.ReadFile(f.File, maxSnapshot)
	head, body, _ := bytes.Cut(data, []byte("\n"))
	if err == nil {
		err = json.Unmarshal(head, &h)
	}
	if err != nil {
		f.Err = fmt.Errorf("the unsaved work in %s cannot be read: %w", f.File, err)
		return f, header{}
	}
	f.Path, f.After, f.Time, f.Name = h.Path, h.After, h.Time, h.Name
	switch {
	case h.Format != snapshotFormat:
		f.Err = fmt.Errorf("the unsaved work in %s is of another release", f.File)
		return f, h
	case h.Sum != sum(body):
		f.Err = fmt.Errorf("the unsaved work in %s is damaged", f.File)
		return f, h
	}
	if base, err := hex.DecodeString(h.Base); err == nil && len(base) == sha256.Size {
		f.Base = [sha256.Size]byte(base)
	}
	f.Job, f.Err = job.Read(f.File, body)
	return f, h
}

// KeepDiscarded is how long work is kept after it has been discarded.
const KeepDiscarded = 7 * 24 * time.Hour

// discardedTime is the form in which a discarded snapshot's name has its time.
const discardedTime = "20060102T150405Z"

// Discard puts a snapshot aside that the person does not want.
func (s *Store) Discard(f Found) error {
	to := strings.TrimSuffix(f.name, snapshotSuffix) + "." + s.Now().UTC().Format(discardedTime) + discardedSuffix
	if err := s.Sys.Rename(f.File, filepath.Join(s.Dir, to)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("discard unsaved work: %w", err)
	}
	return s.remove(strings.TrimSuffix(f.name, snapshotSuffix) + openSuffix)
}

func discardedAt(name string) (time.Time, bool) {
	when := strings.TrimPrefix(filepath.Ext(strings.TrimSuffix(name, discardedSuffix)), ".")
	t, err := time.Parse(discardedTime, when)
	return t, err == nil
}

// Drop removes a snapshot that the person has opened and kept elsewhere.
func (s *Store) Drop(f Found) error {
	return errors.Join(s.remove(f.name), s.remove(strings.TrimSuffix(f.name, snapshotSuffix)+openSuffix))
}
