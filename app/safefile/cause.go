package safefile

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"
)

// Explain puts an error of Write in plain words, with a cure.
func Explain(err error) (what, cure string) {
	var late *NotSynced
	switch {
	case errors.As(err, &late):
		return "is written, but might not outlast a power cut just now (" + late.Err.Error() + ")", "save again"
	case errors.Is(err, ErrFolder):
		return "is a folder", "choose a file name in it"
	case errors.Is(err, ErrNotFile):
		return "is not an ordinary file", "choose another name"
	case errors.Is(err, ErrProtected):
		return "is write-protected", "remove the protection or choose another name"
	case errors.Is(err, ErrTooLarge):
		return "is too large to be a file of this program", "choose another name"
	case errors.Is(err, ErrLongName), errors.Is(err, syscall.ENAMETOOLONG):
		return "is not saved: the name is too long", fmt.Sprintf("choose a name of at most %d characters", maxName-len(BackupSuffix))
	case errors.Is(err, ErrBusy):
		return "is not saved: another program is saving it", "look at what that one does, then save again"
	case errors.Is(err, ErrChanged):
		return "is not saved: another program has just changed it", "look at what it holds now, then save again"
	case isInUse(err):
		return "is not saved: another program has it open", "close it there, then save again"
	case errors.Is(err, syscall.ENOSPC), isDiskFull(err):
		return "is not saved: the disk is full", "make room or choose another disk; the former file is untouched"
	case errors.Is(err, syscall.EROFS):
		return "is not saved: the disk is read-only", "choose another folder"
	case errors.Is(err, fs.ErrPermission):
		return "is not saved: the folder may not be written to", "ask its owner for permission or choose another folder"
	case errors.Is(err, fs.ErrNotExist):
		return "is not saved: its folder does not exist", "make the folder or choose another"
	}
	return "is not saved: " + err.Error(), "the former file is untouched; try again or choose another name"
}
