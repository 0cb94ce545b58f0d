// Package faulty is a file system for tests on which the n-th operation fails,
// so that each way of losing a file can be tried in turn. For tests of safefile
// and of what writes through it; no program links it.
package faulty

import (
	"io/fs"

	"armscribe/app/safefile"
)

// System counts the operations done on another system and fails one of them,
// or that and all later ones.
type System struct {
	Under   safefile.System
	FailAt  int   // which operation fails, counted from 1; 0 for none
	Forever bool  // and every one after it
	Err     error // what it fails with
	Done    int   // operations asked for so far
}

// fail counts an operation and tells whether it is the one.
func (s *System) fail() error {
	s.Done++
	if s.FailAt > 0 && (s.Done == s.FailAt || s.Forever && s.Done > s.FailAt) {
		return s.Err
	}
	return nil
}

// EvalSymlinks is one operation.
func (s *System) EvalSymlinks(path string) (string, error) {
	if err := s.fail(); err != nil {
		return "", err
	}
	return s.Under.EvalSymlinks(path)
}

// Lstat is one operation.
func (s *System) Lstat(path string) (fs.FileInfo, error) {
	if err := s.fail(); err != nil {
		return nil, err
	}
	return s.Under.Lstat(path)
}

// Stat is one operation.
func (s *System) Stat(path string) (fs.FileInfo, error) {
	if err := s.fail(); err != nil {
		return nil, err
	}
	return s.Under.Stat(path)
}

// ReadFile is one operation.
func (s *System) ReadFile(path string, most int64) ([]byte, error) {
	if err := s.fail(); err != nil {
		return nil, err
	}
	return s.Under.ReadFile(path, most)
}

// Lock is one operation.
func (s *System) Lock(path string) (func(), error) {
	if err := s.fail(); err != nil {
		return nil, err
	}
	return s.Under.Lock(path)
}

// Create is one operation; those on the file count too.
func (s *System) Create(path string) (safefile.File, error) {
	if err := s.fail(); err != nil {
		return nil, err
	}
	f, err := s.Under.Create(path)
	if err != nil {
		return nil, err
	}
	return &file{f, s}, nil
}

// Rename is one operation.
func (s *System) Rename(from, to string) error {
	if err := s.fail(); err != nil {
		return err
	}
	return s.Under.Rename(from, to)
}

// Remove is one operation.
func (s *System) Remove(path string) error {
	if err := s.fail(); err != nil {
		return err
	}
	return s.Under.Remove(path)
}

// SyncFolder is one operation.
func (s *System) SyncFolder(path string) error {
	if err := s.fail(); err != nil {
		return err
	}
	return s.Under.SyncFolder(path)
}

// MakeFolder is one operation.
func (s *System) MakeFolder(path string) error {
	if err := s.fail(); err != nil {
		return err
	}
	return s.Under.MakeFolder(path)
}

// ReadFolder is one operation.
func (s *System) ReadFolder(path string) ([]fs.DirEntry, error) {
	if err := s.fail(); err != nil {
		return nil, err
	}
	return s.Under.ReadFolder(path)
}

type file struct {
	safefile.File
	sys *System
}

// Write is one operation. One that fails leaves half of the data, as a full
// disk does.
func (f *file) Write(p []byte) (int, error) {
	if err := f.sys.fail(); err != nil {
		n, werr := f.File.Write(p[:len(p)/2])
		if werr != nil {
			return n, werr
		}
		return n, err
	}
	return f.File.Write(p)
}

// Chmod is one operation.
func (f *file) Chmod(mode fs.FileMode) error {
	if err := f.sys.fail(); err != nil {
		return err
	}
	return f.File.Chmod(mode)
}

// Own is one operation.
func (f *file) Own(like fs.FileInfo) error {
	if err := f.sys.fail(); err != nil {
		return err
	}
	return f.File.Own(like)
}

// Sync is one operation.
func (f *file) Sync() error {
	if err := f.sys.fail(); err != nil {
		return err
	}
	return f.File.Sync()
}

// Close is one operation. One that fails closes nevertheless, as close(2) does.
func (f *file) Close() error {
	err := f.sys.fail()
	if cerr := f.File.Close(); err == nil {
		err = cerr
	}
	return err
}
