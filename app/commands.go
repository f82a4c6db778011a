package app

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"strings"

	"flatwright/engine"
	"flatwright/engine/length"
)

// The exit statuses of the program.
const (
	statusDone    = 0
	statusBlocked = 1 // the design has blocking problems
	statusUsage   = 2 // bad usage, or a file that cannot be read or written
)

const usage = `Flatwright plans a hollow, rib-and-skin workbench or assembly-table top.

  flatwright                       open the window
  flatwright FILE.flatwright       open that design in the window
  flatwright report FILE [-json]   everything computed, to standard output
  flatwright packet FILE -o X.pdf [-paper letter|a4]
                                   the build packet, for printing
  flatwright parts FILE -o DIR [-paper letter|a4]
                                   what the shop cuts from: lists of parts,
                                   slots, sheets and cuts as CSV, every part and
                                   sheet as SVG and DXF at 1:1 in mm, labels
  flatwright -help                 this text

None of the three needs a display. FILE may be - for standard input, X.pdf may
be - for standard output; the folder DIR is made if it is not there. All take
-lengths mm, 1/16, 1/32 or 1/64 (of an inch); without it lengths are in mm. CSV,
SVG and DXF are in mm always.

Exit status: 0 done, 1 the design has problems that stop the computation (they
are printed), 2 wrong usage or a file that cannot be read or written.
`

// streams are where a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// Command runs the windowless command that args ask for and returns its exit
// status. ok is false if args ask for the window instead. It touches no
// display and no home folder.
func Command(args []string, in io.Reader, out, errs io.Writer) (status int, ok bool) {
	if len(args) == 0 {
		return 0, false
	}
	io := streams{in, out, errs}
	switch args[0] {
	case "report":
		return io.report(args[1:]), true
	case "packet":
		return io.packet(args[1:]), true
	case "parts":
		return io.parts(args[1:]), true
	case "-help", "--help", "-h", "help":
		fmt.Fprint(out, usage)
		return statusDone, true
	}
	if strings.HasPrefix(args[0], "-") {
		return io.misused("There is no option %s.", args[0]), true
	}
	if len(args) > 1 {
		return io.misused("One design at a time: %q and %q were given.", args[0], args[1]), true
	}
	return 0, false
}

// misused says what is wrong with the command line.
func (s streams) misused(format string, values ...any) int {
	fmt.Fprintf(s.err, format+"\nflatwright -help says how it is used.\n", values...)
	return statusUsage
}

// failed says what could not be done.
func (s streams) failed(what string, err error) int {
	var path *fs.PathError
	switch {
	case errors.As(err, &path) && errors.Is(err, fs.ErrNotExist) && path.Op == "open" && !strings.HasPrefix(filepath.Base(path.Path), "."):
		fmt.Fprintf(s.err, "%s: no such file: %s\n", what, path.Path)
	case errors.As(err, &path) && errors.Is(err, fs.ErrNotExist):
		fmt.Fprintf(s.err, "%s: no such folder: %s\n", what, filepath.Dir(path.Path))
	default:
		fmt.Fprintf(s.err, "%s: %v\n", what, err)
	}
	return statusUsage
}

// computeFinely is what goes on paper or into another program: everything, on
// the refined mesh, single steps by the whole panel.
func computeFinely(ctx context.Context, d engine.Design) (engine.Result, error) {
	r, err := engine.Compute(ctx, d)
	if err != nil || r.Blocked() {
		return r, err
	}
	if r, err = engine.Refine(ctx, d, r, engine.Refined); err != nil {
		return r, err
	}
	return engine.WhatIf(ctx, d, r, nil)
}

// parse reads the flags of a command, before or after its one file.
func (s streams) parse(flags *flag.FlagSet, args []string) (file string, ok bool) {
	flags.SetOutput(io.Discard)
	for {
		if err := flags.Parse(args); err != nil {
			s.misused("%s: %v.", flags.Name(), err)
			return "", false
		}
		if flags.NArg() == 0 {
			break
		}
		if file != "" {
			s.misused("%s takes one design: %q and %q were given.", flags.Name(), file, flags.Arg(0))
			return "", false
		}
		file, args = flags.Arg(0), flags.Args()[1:]
	}
	if file == "" {
		s.misused("%s needs the file of a design.", flags.Name())
		return "", false
	}
	return file, true
}

// lengthsFlag is how lengths are printed.
type lengthsFlag struct{ format length.Format }

var lengthNames = map[string]length.Format{
	"mm":   {},
	"1/16": {Imperial: true, Denominator: 16},
	"1/32": {Imperial: true, Denominator: 32},
	"1/64": {Imperial: true, Denominator: 64},
}

// String returns the flag's text.
func (l *lengthsFlag) String() string {
	for name, f := range lengthNames {
		if f == l.format {
			return name
		}
	}
	return ""
}

// Set takes the flag's text.
func (l *lengthsFlag) Set(text string) error {
	f, known := lengthNames[text]
	if !known {
		return errors.New("lengths are mm, 1/16, 1/32 or 1/64")
	}
	l.format = f
	return nil
}

// read reads the design in file.
func (s streams) read(file string) (engine.Design, error) {
	if file == "-" {
		return engine.Read(s.in)
	}
	return engine.ReadFile(file)
}

// tellBlocked prints the problems that stop the computation.
func (s streams) tellBlocked(problems []engine.Problem, f length.Format) int {
	for _, p := range problems {
		if p.Field != "" {
			fmt.Fprintf(s.err, "%s: ", p.Field)
		}
		fmt.Fprintln(s.err, engine.InUnits(p.Text, f))
	}
	return statusBlocked
}

func (s streams) report(args []string) int {
	flags := flag.NewFlagSet("report", flag.ContinueOnError)
	asJSON := flags.Bool("json", false, "")
	var lengths lengthsFlag
	flags.Var(&lengths, "lengths", "")
	file, ok := s.parse(flags, args)
	if !ok {
		return statusUsage
	}
	design, err := s.read(file)
	if err != nil {
		return s.failed("The design cannot be read", err)
	}
	result, err := computeFinely(context.Background(), design)
	if err != nil {
		return s.failed("The design cannot be computed", err)
	}
	if result.Cost.Total > 0 {
		plan, err := engine.PlanCut(context.Background(), design.CutInput(), nil)
		if err != nil {
			return s.failed("The parts cannot be laid out", err)
		}
		result.Cost = result.Cost.With(plan)
	}
	if *asJSON {
		err = engine.ReportJSON(s.out, design, result)
	} else {
		err = engine.Report(s.out, design, result, lengths.format)
	}
	if err != nil {
		return s.failed("The report cannot be written", err)
	}
	if !result.Blocked() {
		return statusDone
	}
	if !*asJSON {
		return statusBlocked // the report has said it
	}
	return s.tellBlocked(blocking(result), lengths.format)
}

// target is what a command that writes files is asked for.
type target struct {
	file, out, paper string
	lengths          length.Format
}

// targetWords are what such a command says of its own line.
type targetWords struct {
	command string
	needs   string // what stands after -o
	prints  string // what it does with paper
	piped   bool   // - is standard output
}

// target reads the line of a command that writes files, or says what is wrong
// with it.
func (s streams) target(args []string, w targetWords) (t target, ok bool) {
	flags := flag.NewFlagSet(w.command, flag.ContinueOnError)
	flags.StringVar(&t.out, "o", "", "")
	flags.StringVar(&t.paper, "paper", "", "")
	var lengths lengthsFlag
	flags.Var(&lengths, "lengths", "")
	if t.file, ok = s.parse(flags, args); !ok {
		return t, false
	}
	t.lengths = lengths.format
	switch _, known := paperNames[t.paper]; {
	case t.out == "" || t.out == "-" && !w.piped:
		s.misused("%s needs -o and %s.", w.command, w.needs)
		return t, false
	case !known && t.paper != "":
		s.misused("%s %s on -paper letter or a4, not on %q.", w.command, w.prints, t.paper)
		return t, false
	}
	return t, true
}

func (s streams) packet(args []string) int {
	t, ok := s.target(args, targetWords{command: "packet", needs: "the name of the PDF to write", prints: "prints", piped: true})
	if !ok {
		return statusUsage
	}
	design, err := s.read(t.file)
	if err != nil {
		return s.failed("The design cannot be read", err)
	}
	// Ctrl+C ends the writing and leaves no half packet behind.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	options := engine.PacketOptions{Paper: paperOr(t.paper, t.lengths), Lengths: t.lengths}
	if t.out == "-" {
		err = packetTo(ctx, s.out, design, options)
	} else {
		err = writePacket(ctx, t.out, design, options)
	}
	return s.answered("The packet cannot be written", err, t.lengths)
}

// answered is the status of a command that writes files and ended with err.
func (s streams) answered(what string, err error, f length.Format) int {
	var blocked errBlocked
	switch {
	case errors.As(err, &blocked):
		return s.tellBlocked(blocked.problems, f)
	case err != nil:
		return s.failed(what, err)
	}
	return statusDone
}
