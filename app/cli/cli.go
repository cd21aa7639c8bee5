// Package cli is the headless command: its subcommands, exit codes, files and paths. It computes nothing itself; it reads a
// design, hands it to the review and the parts, and prints or writes what they return.
//
// Text is plain, aligned and at most 80 columns wide, the same on a terminal and in a pipe, and without colour. Results go to
// the standard output, problems to the standard error, each as "file:line: path: text" and all at once.
package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/alecthomas/kong"

	"mastwright/app/build"
	"mastwright/design"
)

// The exit codes.
const (
	Clean      = 0 // nothing fails
	Failing    = 1 // a check fails and the design does not accept it
	Unusable   = 2 // the file, the folder or the request cannot be used
	Incomplete = 3 // nothing fails, but a check has no data
)

// Streams are where a command writes.
type Streams struct {
	Out, Err io.Writer
	Terminal bool // Err is a terminal: long work shows there how far it is
}

// Standard returns the streams of the process.
func Standard() Streams {
	info, err := os.Stderr.Stat()
	terminal := err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
	return Streams{Out: os.Stdout, Err: os.Stderr, Terminal: terminal}
}

// grammar is what may be typed.
type grammar struct {
	Start     startCommand     `cmd:"" help:"Open the window; without a display, make the first mount from an example."`
	Check     checkCommand     `cmd:"" help:"Check a design and print its verdicts."`
	Make      makeCommand      `cmd:"" help:"Check a design and write its parts for printing."`
	Card      cardCommand      `cmd:"" help:"Write the measuring card: one page to take to the aircraft."`
	Missing   missingCommand   `cmd:"" help:"List what is still to be answered, the most useful first."`
	Explain   explainCommand   `cmd:"" help:"Say how a check is computed and what moves it."`
	Compare   compareCommand   `cmd:"" help:"Compare the same design in every material, or at every place."`
	Height    heightCommand    `cmd:"" help:"Find the heights at which every check passes, and what binds."`
	Repair    repairCommand    `cmd:"" help:"Find the smallest change that repairs each verdict."`
	Size      sizeCommand      `cmd:"" help:"Find the lightest design that passes."`
	Sweep     sweepCommand     `cmd:"" help:"Run the checks over a range of one field or two."`
	Certainty certaintyCommand `cmd:"" help:"Say how likely each check passes, and what it hangs on."`
	Diff      diffCommand      `cmd:"" help:"Compare two designs: fields, verdicts and mass."`
	Carry     carryCommand     `cmd:"" help:"Put a mount onto another aircraft."`
	Prove     proveCommand     `cmd:"" help:"Hold what was measured against the design, and correct it."`
	Materials materialsCommand `cmd:"" help:"List the materials."`
	New       newCommand       `cmd:"" help:"Write a new design file."`
	Examples  examplesCommand  `cmd:"" help:"List the example designs."`
}

const description = `Mastwright designs, checks and makes the raised mount of a satellite receiver with a compass on a small multirotor.

Exit codes: 0 nothing fails, 1 a check fails, 2 the file cannot be used, 3 nothing fails but a check has no data.`

// session is one run of the command.
type session struct {
	context.Context
	out, err io.Writer
	progress progress
}

// exit is the error of a command that did its work and ends with a code of its own.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit code %d", int(e)) }

// problems are everything that is wrong with a design.
type problems []design.Problem

func (p problems) Error() string {
	var all []error
	for _, problem := range p {
		all = append(all, problem)
	}
	return errors.Join(all...).Error()
}

// Run runs the command with the arguments after its name and returns its exit code.
func Run(ctx context.Context, args []string, streams Streams) int {
	out := bufio.NewWriter(streams.Out)
	s := &session{Context: ctx, out: out, err: streams.Err, progress: progress{out: streams.Err, shown: streams.Terminal}}
	err := s.run(args)
	if flushed := out.Flush(); flushed != nil {
		err = fmt.Errorf("standard output: %w", flushed)
	}
	var code exit
	var wrong problems
	switch {
	case err == nil:
		return Clean
	case errors.As(err, &code):
		return int(code)
	case errors.As(err, &wrong):
		fmt.Fprintln(streams.Err, wrong)
	default:
		for line := range strings.SplitSeq(err.Error(), "\n") {
			fmt.Fprintln(streams.Err, "mastwright:", line)
		}
	}
	return Unusable
}

func (s *session) run(args []string) error {
	helped := false
	parser, err := kong.New(&grammar{},
		kong.Name("mastwright"),
		kong.Description(description),
		kong.Writers(s.out, s.err),
		kong.Exit(func(int) { helped = true }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: build.Columns}),
	)
	if err != nil {
		return err
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	call, err := parser.Parse(args)
	switch {
	case helped:
		return nil
	case err != nil:
		return fmt.Errorf("%w; see mastwright --help", err)
	}
	return call.Run(s)
}
