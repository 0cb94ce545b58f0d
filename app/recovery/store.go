package recovery

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"armscribe/app/safefile"
)

// Ends of the names of the store's files.
const (
	openSuffix      = ".open"
	snapshotSuffix  = ".snapshot"
	discardedSuffix = ".discarded"
)

// maxRecord is the largest record or list of files read, bytes: none comes near.
const maxRecord = 256 << 10

// silence is how long a program on another computer may be silent before its
// document counts as left behind; Beat is to be called several times in it.
const silence = 2 * time.Minute

// BeatEvery is how often a session is to say that it lives.
const BeatEvery = 20 * time.Second

// Store is the folder with what has not been saved. Its methods may be used by
// several programs at once; those of one store by one goroutine at a time.
type Store struct {
	Dir       string
	Sys       safefile.System
	Processes Processes
	Now       func() time.Time
}

// Default returns the user's own store.
func Default() (*Store, error) {
	dir, err := StateFolder(Environment{os.Getenv, os.UserHomeDir, runtime.GOOS})
	if err != nil {
		return nil, fmt.Errorf("find a folder for unsaved work: %w", err)
	}
	return &Store{Dir: dir, Sys: safefile.Disk{}, Processes: System{}, Now: time.Now}, nil
}

// record is a *.open file.
type record struct {
	Path    string    `json:"path"` // of the job, links followed; empty for a new one
	Process Process   `json:"process"`
	Since   time.Time `json:"since"`
	Beat    time.Time `json:"beat"`
}

// Session is one open document's place in the store.
type Session struct {
	store  *Store
	id     string
	record record
}

// Other is another window that has the same file open.
type Other struct {
	Process Process
	Since   time.Time
	Same    bool // it is a window of this very program run
}

// Open announces a document; path is empty while it has no file. It returns the
// other windows that have the file open, so that the person can be told. A
// session is returned whatever the error is: without its record other windows
// will not notice this one, but snapshots may still come to pass.
func (s *Store) Open(path string) (*Session, []Other, error) {
	now := s.Now()
	x := &Session{store: s, id: fmt.Sprintf("%016x", rand.Uint64()),
		record: record{Path: s.canonical(path), Process: s.Processes.Self(), Since: now, Beat: now}}
	// Announce first, then look: of two that open at once one sees the other.
	err := x.announce()
	others, err2 := x.others()
	return x, others, errors.Join(err, err2)
}

// Move tells that the document now has another file.
func (x *Session) Move(path string) ([]Other, error) {
	x.record.Path = x.store.canonical(path)
	err := x.announce()
	others, err2 := x.others()
	return others, errors.Join(err, err2)
}

// Beat says that the session lives. It is to be called every BeatEvery.
func (x *Session) Beat() error {
	x.record.Beat = x.store.Now()
	return x.announce()
}

// Close takes the session and its snapshot out of the store: the document is
// closed, saved or given up.
func (x *Session) Close() error {
	// The snapshot first: without its record it would be offered as left behind.
	return errors.Join(x.store.remove(x.id+snapshotSuffix), x.store.remove(x.id+openSuffix))
}

func (x *Session) announce() error {
	data, err := json.Marshal(x.record)
	if err != nil {
		return fmt.Errorf("note the open job: %w", err)
	}
	if err := x.store.write(x.id+openSuffix, data); err != nil {
		return fmt.Errorf("note the open job: %w", err)
	}
	return nil
}

func (x *Session) others() ([]Other, error) {
	if x.record.Path == "" {
		return nil, nil
	}
	records, err := x.store.records()
	var list []Other
	for id, r := range records {
		if id == x.id || r.Path != x.record.Path || !x.store.lives(r) {
			continue
		}
		list = append(list, Other{r.Process, r.Since, r.Process == x.record.Process})
	}
	slices.SortFunc(list, func(a, b Other) int { return a.Since.Compare(b.Since) })
	if err != nil {
		return list, fmt.Errorf("look for other windows on the file: %w", err)
	}
	return list, nil
}

// records reads every record that can be read, by its session. One that cannot
// be read is of no use to anybody and left out; the error is of the folder.
func (s *Store) records() (map[string]record, error) {
	entries, err := s.Sys.ReadFolder(s.Dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	list := map[string]record{}
	for _, e := range entries {
		id, ok := strings.CutSuffix(e.Name(), openSuffix)
		if !ok {
			continue
		}
		data, err := s.Sys.ReadFile(filepath.Join(s.Dir, e.Name()), maxRecord)
		var r record
		if err == nil && json.Unmarshal(data, &r) == nil {
			list[id] = r
		}
	}
	return list, nil
}

// lives tells whether the program that wrote a record still runs.
func (s *Store) lives(r record) bool {
	if r.Process.Host != s.Processes.Self().Host {
		return s.Now().Sub(r.Beat) < silence
	}
	return s.Processes.Runs(r.Process)
}

// canonical makes one name of all names that lead to a file, as far as the
// system tells.
func (s *Store) canonical(path string) string {
	if path == "" {
		return ""
	}
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	if real, err := s.Sys.EvalSymlinks(path); err == nil {
		return real
	}
	return filepath.Clean(path)
}

// write replaces one of the store's files. What a power cut just then could
// take, a crash of the program cannot, so that is no error here.
func (s *Store) write(name string, data []byte) error {
	if err := s.Sys.MakeFolder(s.Dir); err != nil {
		return err
	}
	err := safefile.WritePrivate(s.Sys, filepath.Join(s.Dir, name), data)
	if errors.As(err, new(*safefile.NotSynced)) {
		return nil
	}
	return err
}

func (s *Store) remove(name string) error {
	err := s.Sys.Remove(filepath.Join(s.Dir, name))
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return fmt.Errorf("clear up unsaved work: %w", err)
}
