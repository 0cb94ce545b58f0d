package recovery

import "syscall"

// stillActive is the exit code of a process that has none yet (STILL_ACTIVE).
const stillActive = 259

// exists asks for the process's exit code.
func exists(pid int) bool {
	if pid <= 0 {
		return false
	}
	h, err := syscall.OpenProcess(syscall.PROCESS_QUERY_INFORMATION, false, uint32(pid))
	if err != nil {
		return false
	}
	var code uint32
	err = syscall.GetExitCodeProcess(h, &code)
	if cerr := syscall.CloseHandle(h); cerr != nil {
		return true // told nothing certain: take it as running, so that nothing is taken from it
	}
	return err == nil && code == stillActive
}
