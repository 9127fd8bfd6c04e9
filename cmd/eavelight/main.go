// Command eavelight plans a lifestyle film of a house: it opens the window on a plan, or does one of its jobs without it.
//
// The exit code is 0 when all is fine, 1 when there are problems that the user should look at, 2 when it could not, and 130, as is
// custom, when it was stopped.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"time"

	"eavelight/plan/store"

	"github.com/alecthomas/kong"
)

// version is set when a release is built, with -ldflags -X.
var version = "development"

// commands is the command line. Its fields' tags are the help that the user reads.
type commands struct {
	Version kong.VersionFlag `help:"Print the version and stop."`

	Open     openCommand     `cmd:"" default:"withargs" help:"Open the window, on a plan if one is named."`
	Light    lightCommand    `cmd:"" help:"Tell the light at the property, or at any position, on a date."`
	Place    placeCommand    `cmd:"" help:"Place the scenes on a day and print it."`
	Check    checkCommand    `cmd:"" help:"Tell everything that is wrong with a plan, or still missing."`
	People   peopleCommand   `cmd:"" help:"List the people, bring people in from the address book or a file, or keep or write them there."`
	Releases releasesCommand `cmd:"" help:"Tell what the film still needs signed, and which deliverables are cleared."`
	Price    priceCommand    `cmd:"" help:"Work out what the job costs and what to ask for it."`
	Papers   papersCommand   `cmd:"" help:"Write the papers of a day."`
	Picture  pictureCommand  `cmd:"" help:"Draw a page of the window into a picture; needs no display."`
	New      newCommand      `cmd:"" help:"Write a new, empty plan."`
}

// errProblems says that the job was done and its output names problems. It prints nothing itself.
var errProblems = errors.New("problems found")

// world is what a command may ask and write to.
type world struct {
	ctx  context.Context // ends when the user stops the program
	out  io.Writer
	told io.Writer // hears of work that goes on
	now  func() time.Time
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop) // a second Ctrl+C ends the program at once
	os.Exit(run(os.Args[1:], world{ctx, os.Stdout, onTerminal(os.Stderr), time.Now}, os.Stderr))
}

// run does one command line and returns the exit code.
func run(args []string, w world, stderr io.Writer) int {
	code := -1
	parser := kong.Must(&commands{},
		kong.Name("eavelight"),
		kong.Description("Plans a lifestyle film of a house: the light at the address, the scenes placed in it, the people, the papers."),
		kong.Vars{"version": version, "kinds": kindNames()},
		kong.Writers(w.out, stderr),
		kong.Exit(func(c int) { code = c }),
		kong.UsageOnError(),
		kong.WithHyphenPrefixedParameters(true), // --at -36.85,174.76
	)
	ctx, err := parser.Parse(args)
	if code >= 0 { // help or version was printed
		return code
	}
	if err != nil {
		fmt.Fprintf(stderr, "eavelight: %v\nTry eavelight --help.\n", err)
		return 2
	}
	switch err = ctx.Run(w); {
	case err == nil:
		return 0
	case errors.Is(err, errProblems):
		return 1
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "eavelight: stopped: nothing was written")
		return 130
	}
	fmt.Fprintln(stderr, wordsOf(err))
	if faults := (store.Faults)(nil); errors.As(err, &faults) {
		return 1
	}
	return 2
}

// wordsOf leaves the faults of a file as they are, a line each, and puts our name before anything else.
func wordsOf(err error) string {
	if faults := (store.Faults)(nil); errors.As(err, &faults) {
		return err.Error()
	}
	return "eavelight: " + err.Error()
}
