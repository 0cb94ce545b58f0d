package job

import (
	"errors"
	"fmt"

	"gopkg.in/yaml.v3"

	"armscribe/app/safefile"
)

// Save writes the job to a file, whole or not at all; a former file stays
// beside it as .bak. See safefile.Write. What is written has been read back
// before the old file is touched. A file of a newer format is not replaced.
//
// The error is Problems. errors.As with *safefile.NotSynced tells the one case
// in which the file has been replaced all the same.
func Save(path string, j *Job) error { return SaveOn(safefile.Disk{}, path, j) }

// SaveOn is Save on any file system.
func SaveOn(sys safefile.System, path string, j *Job) error {
	_, err := SaveIf(sys, path, j, nil)
	return err
}

// Errors with which the guard of SaveIf refuses, and Add.
var (
	ErrOther  = errors.New("the file is not as it was")
	ErrExists = errors.New("there is a file of this name")
)

// SaveIf is SaveOn for a file whose former content, if there is one, the guard
// agrees to have replaced; a nil guard agrees to all. It returns what was
// written. The error matches that of the guard.
func SaveIf(sys safefile.System, path string, j *Job, guard func(former []byte) error) (written []byte, err error) {
	data, err := j.Encode()
	if err != nil {
		return nil, inFile(path, err)
	}
	err = safefile.Write(sys, path, data, func(former []byte) error {
		if err := refuseNewer(former); err != nil || guard == nil {
			return err
		}
		return guard(former)
	})
	if err == nil {
		return data, nil
	}
	if !errors.As(err, new(*safefile.NotSynced)) {
		data = nil
	}
	return data, Unsaved(path, err)
}

// Unsaved puts into words why a file is not written: Problems.
func Unsaved(path string, err error) error {
	if errors.Is(err, safefile.ErrChanged) {
		err = fmt.Errorf("%w: %w", ErrOther, err)
	}
	what, cure := safefile.Explain(err)
	switch {
	case errors.Is(err, ErrOther):
		what, cure = "is not saved: another program has changed the file", "look at what it holds now, then replace it or save under another name"
	case errors.Is(err, ErrExists):
		what, cure = "is not saved: a file of this name exists already", "replace it or save under another name"
	case errors.Is(err, errNewer):
		what, cure = "is not saved: the file there has a newer format", "save under another name, or use a newer Armscribe"
	}
	return Problems{{File: path, What: what, Cure: cure, Err: err}}
}

// inFile names the file in each problem of a job.
func inFile(path string, err error) error {
	var ps Problems
	if !errors.As(err, &ps) {
		return Problems{{File: path, What: "is not saved: " + err.Error(), Cure: "the former file is untouched", Err: err}}
	}
	named := make(Problems, len(ps))
	for i, p := range ps {
		p.File = path
		named[i] = p
	}
	return named
}

var errNewer = errors.New("newer file format")

// refuseNewer keeps a file that a newer release has written: this one would
// drop what it does not know.
func refuseNewer(former []byte) error {
	root, problem := parse(former)
	if problem != nil {
		return nil // no job at all; its content goes to the backup
	}
	if _, n := find(root, "armscribe"); n != nil && n.Kind == yaml.ScalarNode && newerMajor(n.Value) {
		return fmt.Errorf("%w %s", errNewer, shorten(n.Value))
	}
	return nil
}
