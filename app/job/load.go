package job

import (
	"errors"
	"fmt"
	"io/fs"

	"armscribe/app/safefile"
)

// Load reads the job in a file. The error is Problems; errors.Is finds
// fs.ErrNotExist in it when there is no such file.
func Load(path string) (*Job, error) {
	j, _, err := LoadBytes(path)
	return j, err
}

// LoadBytes is Load, and returns what the file held; nil if it was not read.
func LoadBytes(path string) (*Job, []byte, error) {
	data, err := safefile.Disk{}.ReadFile(path, MaxFile)
	if err != nil {
		return nil, nil, Problems{fileProblem(path, err)}
	}
	j, err := Read(path, data)
	return j, data, err
}

// fileProblem puts an error of the file system in plain words.
func fileProblem(path string, err error) Problem {
	p := Problem{File: path, Err: err}
	switch {
	case errors.Is(err, safefile.ErrFolder):
		p.What, p.Cure = err.Error(), "choose a file in it, whose name ends with .armscribe.yaml"
	case errors.Is(err, safefile.ErrNotFile):
		p.What, p.Cure = err.Error(), "choose a job file, whose name ends with .armscribe.yaml"
	case errors.Is(err, safefile.ErrTooLarge):
		p.What, p.Cure = tooLarge.What, tooLarge.Cure
	case errors.Is(err, fs.ErrNotExist):
		p.What, p.Cure = "does not exist", "check the folder and the spelling"
	case errors.Is(err, fs.ErrPermission):
		p.What, p.Cure = "may not be read", "ask its owner for permission, or copy it"
	default:
		p.What, p.Cure = fmt.Sprintf("cannot be read (%v)", plainCause(err)), "try again, or look at the disk"
	}
	return p
}

// plainCause strips operation and path, which the problem names already.
func plainCause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
