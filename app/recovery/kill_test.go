package recovery

import (
	"bufio"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"armscribe/app/safefile"
)

// stateOfVictim names the folder in which a test's second process works.
const stateOfVictim = "ARMSCRIBE_TEST_VICTIM"

// TestMain edits for ever when it is a test's second process, and says each
// gesture once it is kept.
func TestMain(m *testing.M) {
	dir := os.Getenv(stateOfVictim)
	if dir == "" {
		os.Exit(m.Run())
	}
	s := &Store{Dir: dir, Sys: safefile.Disk{}, Processes: System{}, Now: time.Now}
	x, _, err := s.Open("/home/kim/car.armscribe.yaml")
	for n := 1; err == nil; n++ {
		err = x.Keep(Snapshot{Job: edited(&testing.T{}, 40+float64(n)/1000), After: strconv.Itoa(n)})
		if err == nil {
			_, err = os.Stdout.WriteString(strconv.Itoa(n) + "\n")
		}
	}
	panic(err)
}

// A kill at any instant leaves a whole snapshot, at most one gesture old.
func TestKilledAtRandomInstants(t *testing.T) {
	const seed, kills = 20261125, 30
	rnd := rand.New(rand.NewPCG(seed, 7))
	for round := range kills {
		dir := t.TempDir()
		victim := exec.Command(os.Args[0])
		victim.Env = append(os.Environ(), stateOfVictim+"="+dir)
		out, err := victim.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := victim.Start(); err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(out)
		lines.Scan() // the first gesture is kept
		wait := time.Duration(rnd.IntN(30_000)) * time.Microsecond
		time.Sleep(wait)
		if err := victim.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		said := lines.Text()
		for lines.Scan() {
			if strings.TrimSpace(lines.Text()) != "" {
				said = lines.Text()
			}
		}
		if err := victim.Wait(); err == nil {
			t.Fatal("the victim ended by itself")
		}
		last, err := strconv.Atoi(said)
		if err != nil {
			t.Fatal(err)
		}
		s := &Store{Dir: dir, Sys: safefile.Disk{}, Processes: System{}, Now: time.Now}
		list := recoverable(t, s)
		if len(list) != 1 || list[0].Err != nil {
			t.Fatalf("seed %d, round %d: found %+v", seed, round, list)
		}
		kept, err := strconv.Atoi(list[0].After)
		if err != nil || kept < last || kept > last+1 || !list[0].Job.Equal(edited(t, 40+float64(kept)/1000)) {
			t.Errorf("seed %d, round %d: %d gestures were kept, found %q (%v)", seed, round, last, list[0].After, err)
		}
	}
}

func TestProcessesOfThisComputer(t *testing.T) {
	s := System{}
	me := s.Self()
	if !s.Runs(me) {
		t.Error("the test does not run")
	}
	if me.Start != "" {
		other := me
		other.Start += "1"
		if s.Runs(other) {
			t.Error("a process that had the same number earlier is taken for this one")
		}
	}
	gone := exec.Command(os.Args[0], "-test.run=^$")
	if err := gone.Run(); err != nil {
		t.Fatal(err)
	}
	if s.Runs(Process{me.Host, gone.ProcessState.Pid(), me.Start}) || s.Runs(Process{me.Host, 0, ""}) {
		t.Error("a process that has ended is said to run")
	}
}

// One that was killed and that its parent has not asked after has a number and a
// start still, but it holds no file.
func TestAnEndedProcessThatIsStillListedDoesNotRun(t *testing.T) {
	if runtime.GOOS != "linux" {
		return // no other system is asked for more than the number
	}
	victim := exec.Command(os.Args[0])
	victim.Env = append(os.Environ(), stateOfVictim+"="+t.TempDir())
	if err := victim.Start(); err != nil {
		t.Fatal(err)
	}
	p := Process{PID: victim.Process.Pid, Start: startOf(victim.Process.Pid)}
	if p.Start == "" || !(System{}).Runs(p) {
		t.Fatalf("a running process has start %q and does not run", p.Start)
	}
	if err := victim.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	const patience = 20 * time.Second // a machine under load
	for limit := time.Now().Add(patience); (System{}).Runs(p); time.Sleep(time.Millisecond) {
		if time.Now().After(limit) {
			t.Fatal("it still runs")
		}
	}
	if err := victim.Wait(); err == nil {
		t.Fatal("the victim ended by itself")
	}
}
