package recovery

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"armscribe/app/safefile"
)

const (
	recentName = "recent.json"
	// maxRecent is how many recent files are kept: as many as a menu shows.
	maxRecent = 12
)

// Recent lists the files opened or saved lately, latest first. Whether they
// are still there it does not know. A list that cannot be read counts as empty,
// with the error; the next Opened begins a new one.
func (s *Store) Recent() ([]string, error) {
	data, err := s.Sys.ReadFile(filepath.Join(s.Dir, recentName), maxRecord)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var list []string
	if err == nil {
		err = json.Unmarshal(data, &list)
	}
	if err != nil {
		return nil, fmt.Errorf("read the list of recent files: %w", err)
	}
	list = slices.DeleteFunc(list, func(p string) bool { return strings.TrimSpace(p) == "" || !filepath.IsAbs(p) })
	return list[:min(len(list), maxRecent)], nil
}

// Opened puts a file at the top of the list. On an error the list is as it was.
func (s *Store) Opened(path string) error { return s.changeRecent(path, true) }

// NotRecent takes a file off the list: it is gone, or the person wishes so.
func (s *Store) NotRecent(path string) error { return s.changeRecent(path, false) }

func (s *Store) changeRecent(path string, add bool) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return fmt.Errorf("keep the list of recent files: %w", err)
	}
	list, err := s.Recent()
	var damaged *json.SyntaxError
	var other *json.UnmarshalTypeError
	if err != nil && !errors.As(err, &damaged) && !errors.As(err, &other) && !errors.Is(err, safefile.ErrTooLarge) {
		return err // it may be whole; it is not replaced unread
	}
	list = slices.DeleteFunc(list, func(p string) bool { return p == path })
	if add {
		list = slices.Insert(list, 0, path)
	}
	data, err := json.MarshalIndent(list[:min(len(list), maxRecent)], "", "  ")
	if err != nil {
		return fmt.Errorf("keep the list of recent files: %w", err)
	}
	if err := s.write(recentName, data); err != nil {
		return fmt.Errorf("keep the list of recent files: %w", err)
	}
	return nil
}
