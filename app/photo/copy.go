package photo

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// CopyBeside copies a picture into the folder of the job's file and returns its name
// there: its own, or with a number where that is taken by other bytes. No file is
// ever written over. The error is *Error.
func CopyBeside(jobFile, picture string) (name string, err error) {
	base := filepath.Base(picture)
	data, err := wholeFile(picture)
	if err != nil {
		return "", fileError(base, err)
	}
	if len(data) > MaxFile {
		return "", &Error{File: base, What: "is larger than 32 MiB", Cure: "save a smaller copy"}
	}
	ext := filepath.Ext(base)
	const most = 1000 // files of one name
	for n := 1; n <= most; n++ {
		name = base
		if n > 1 {
			name = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(base, ext), n, ext)
		}
		to := filepath.Join(filepath.Dir(jobFile), name)
		switch there, err := wholeFile(to); {
		case err == nil && string(there) == string(data):
			return name, nil
		case err == nil:
			continue
		case !errors.Is(err, fs.ErrNotExist):
			continue
		}
		if err := writeNew(to, data); err != nil {
			return "", &Error{File: name, What: fmt.Sprintf("cannot be written (%v)", cause(err)), Cure: "the job keeps the other file's name", Err: err}
		}
		return name, nil
	}
	return "", &Error{File: base, What: "is there a thousand times", Cure: "rename the picture"}
}

// wholeFile reads an ordinary file, of one that is too large a byte too many.
func wholeFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("not an ordinary file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, MaxFile+1))
	return data, errors.Join(err, f.Close())
}

// writeNew writes a file that is not there yet, whole or not at all.
func writeNew(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		err = errors.Join(err, os.Remove(path))
	}
	return err
}
