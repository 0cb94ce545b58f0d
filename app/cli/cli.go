package cli

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"github.com/alecthomas/kong"

	"armscribe/app/sheet"

	"armscribe/app/report"
)

// Version is what --version prints.
const Version = "0.1.0"

// Exit codes of armcalc.
const (
	Fine       = 0
	JobProblem = 1 // the job has a problem, or the answer could not be written
	WrongUsage = 2
)

// commands is the tree of commands and flags.
type commands struct {
	Readings   readings         `cmd:"" help:"Print every reading of one position, with its unit, its 95 % band and the meaning of its sign."`
	Sweep      sweep            `cmd:"" help:"Print the readings over travel, rack or roll."`
	Compare    compare          `cmd:"" help:"Print all variants side by side, with their changes against the first."`
	Check      check            `cmd:"" help:"Read a job, print every problem, and say whether it is fine and meets its targets."`
	Diagnose   diagnose         `cmd:"" help:"Say what is wrong with the toe curve, where the rack end would have to be, and what moving the rack does."`
	Tune       tuneCommand      `cmd:"" help:"Find where outer and inner tie-rod end must go for the least bump steer, and which spacers to stack."`
	Gauge      gauge            `cmd:"" help:"Print the sheet of what a toe gauge should read at each travel."`
	Fit        fit              `cmd:"" help:"Find the points that readings of the toe gauge make most likely, and the spacer they ask for."`
	Adjust     adjust           `cmd:"" help:"Print what each adjuster does, the order to set them in, and the setting for a wished camber, caster and toe."`
	Arms       armsCommand      `cmd:"" help:"Print what longer or shorter arms do on the same upright, and find the upper arm for a roll angle."`
	Effort     effortCommand    `cmd:"" help:"Print moments about the steering axes and forces in tie rods, rack and steering wheel; indicative only."`
	Clearance  clearanceCommand `cmd:"" help:"Print the least gap between the tyre and each obstacle over travel and rack, and where it happens."`
	Lock       lockCommand      `cmd:"" help:"Print steering angles and Ackermann error over the rack, what ends the lock, and the turning circle."`
	Joints     jointsCommand    `cmd:"" help:"Print how far ball joints and tie-rod ends tilt over travel and rack, against their limits."`
	Wheel      wheel            `cmd:"" help:"Print everything that follows from a tyre code, a rim and an offset; no job needed."`
	Widen      widenCommand     `cmd:"" help:"Make the track wider in both ways, spacers and longer arms, and set them beside the corner as it is."`
	Reach      reachCommand     `cmd:"" help:"Find the wheel, the spacer and the growth of the arms that lead to a wished track, ranked."`
	Offsets    offsetsCommand   `cmd:"" help:"Print which offset or spacer keeps the measured scrub radius, for each wheel that can be had."`
	Schema     schema           `cmd:"" help:"Print the JSON Schema of the job file, for editors."`
	Completion completion       `cmd:"" help:"Print a completion script for a shell."`
	Version    kong.VersionFlag `help:"Print the version."`
}

const description = `The answers of Armscribe without a window: the geometry of a double-wishbone corner, from a job file.

Lengths may carry a unit ("10 1/2 in", "57mm+1/8in"); a plain number is in the job's own unit. Travel is positive in bump, rack to the car's left, roll with the car's left side up.

Exit codes: 0 fine, 1 the job has a problem, 2 wrong usage.

` + report.Caution

// usageError is a mistake on the command line.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// exit unwinds the parser when help or version has been printed.
type exit int

// Run answers one command line, without the program's name, and returns the
// exit code.
func Run(args []string, stdout, stderr io.Writer) (code int) {
	out := &output{w: stdout}
	if isClosed(stdout) {
		out.err = errors.New("standard output is closed; send the answer to a file, or to the null device opened for writing alone")
	}
	defer func() {
		switch r := recover().(type) {
		case nil:
		case exit:
			code = int(r)
		default:
			panic(r)
		}
		if out.err != nil {
			complain(stderr, fmt.Errorf("cannot write the answer: %w", out.err))
			code = JobProblem
		}
	}()
	parser, err := newParser(out, stderr)
	if err != nil {
		panic(fmt.Sprintf("cli: %v", err)) // the tree of commands is wrong
	}
	context, err := parser.Parse(args)
	if out.err != nil {
		return JobProblem // the help could not be printed
	}
	if err != nil {
		complain(stderr, fmt.Errorf("%w; try armcalc --help", err))
		return WrongUsage
	}
	if err := context.Run(out, parser.Model); err != nil {
		complain(stderr, err)
		if errors.As(err, new(usageError)) {
			return WrongUsage
		}
		return JobProblem
	}
	return Fine
}

func newParser(stdout, stderr io.Writer) (*kong.Kong, error) {
	return kong.New(&commands{},
		kong.Name("armcalc"),
		kong.Description(description),
		kong.Writers(stdout, stderr),
		kong.Exit(func(code int) { panic(exit(code)) }),
		kong.Vars{"version": "armcalc " + Version},
		kong.WithHyphenPrefixedParameters(true), // --from -60
		kong.ConfigureHelp(kong.HelpOptions{WrapUpperBound: 100}),
	)
}

// output keeps the first error of a writer, which the callers in between drop.
type output struct {
	w   io.Writer
	err error
}

// Write passes on what it is given until something fails.
func (o *output) Write(p []byte) (int, error) {
	if o.err != nil {
		return 0, o.err
	}
	n, err := o.w.Write(p)
	o.err = err
	return n, err
}

// print writes a whole answer. A failure is kept for Run, which says it once.
func (o *output) print(text string) {
	_, _ = io.WriteString(o, text)
}

// answer prints a whole answer in one of its faces: table, json or csv.
func (o *output) answer(s *sheet.Sheet, format string) { o.print(s.Face(format)) }

// complain prints an error, each of those it joins on its own line. Control
// characters, which could break the line or the terminal, become visible.
func complain(w io.Writer, err error) {
	for _, line := range strings.Split(err.Error(), "\n") {
		// Nothing is left to tell of a failure here.
		_, _ = fmt.Fprintln(w, "armcalc: "+strings.Map(visible, line))
	}
}

func visible(r rune) rune {
	if unicode.IsControl(r) {
		return unicode.ReplacementChar
	}
	return r
}
