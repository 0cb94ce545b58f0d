package recovery

import (
	"os"
	"runtime"
	"strconv"
	"strings"
)

// Process tells one run of the program from any other on the same computer:
// a number may be given again, but not with the same start.
type Process struct {
	Host  string `json:"host"`
	PID   int    `json:"pid"`
	Start string `json:"start"` // as the system counts it; empty where it does not tell
}

// Processes asks the system about processes. Tests put their own in place.
type Processes interface {
	Self() Process
	// Runs tells whether a process of this computer still runs.
	Runs(p Process) bool
}

// System is the computer's own processes.
type System struct{}

// Self is the running program.
func (System) Self() Process {
	host, err := os.Hostname()
	if err != nil {
		host = "" // then the host is told from no other, and the process decides
	}
	return Process{host, os.Getpid(), startOf(os.Getpid())}
}

// Runs tells by number and start.
func (System) Runs(p Process) bool {
	return exists(p.PID) && (p.Start == "" || startOf(p.PID) == p.Start)
}

// startOf returns when a process started, in the clock ticks since boot that
// Linux tells (proc(5), field 22 of stat); empty elsewhere.
func startOf(pid int) string {
	const field, firstBehindName = 22, 3
	if runtime.GOOS != "linux" {
		return ""
	}
	text, err := os.ReadFile("/proc/" + strconv.Itoa(pid) + "/stat")
	if err != nil {
		return "" // not running: then it is no running process's start
	}
	// The name stands in brackets and may hold any of them, and spaces.
	_, rest, _ := strings.Cut(string(text[strings.LastIndexByte(string(text), ')')+1:]), " ")
	fields := strings.Fields(rest)
	if len(fields) <= field-firstBehindName || strings.ContainsAny(fields[0], "ZX") {
		return "" // one that has ended and only waits to be asked after (proc(5), field 3)
	}
	return fields[field-firstBehindName]
}
