package recovery

import (
	"errors"
	"path/filepath"
)

// folderName is the program's folder within the state folder.
const folderName = "armscribe"

// Environment is what the place of the state folder follows from: os.Getenv,
// os.UserHomeDir and runtime.GOOS.
type Environment struct {
	Getenv func(string) string
	Home   func() (string, error)
	GOOS   string
}

// StateFolder returns where the program keeps its state: XDG_STATE_HOME, else
// ~/.local/state, as the XDG Base Directory Specification 0.8 has it (from
// memory); on Windows LOCALAPPDATA, on macOS ~/Library/Application Support.
// The folder need not be there yet.
func StateFolder(env Environment) (string, error) {
	base := env.Getenv("XDG_STATE_HOME")
	if env.GOOS == "windows" {
		base = env.Getenv("LOCALAPPDATA")
	}
	// The specification has a relative path ignored.
	if base != "" && filepath.IsAbs(base) {
		return filepath.Join(base, folderName), nil
	}
	home, err := env.Home()
	switch {
	case err != nil:
		return "", err
	case home == "":
		return "", errors.New("the home folder is not known")
	case env.GOOS == "windows":
		return filepath.Join(home, "AppData", "Local", folderName), nil
	case env.GOOS == "darwin":
		return filepath.Join(home, "Library", "Application Support", folderName), nil
	}
	return filepath.Join(home, ".local", "state", folderName), nil
}
