// Command eavelight plans a lifestyle film of a house: it opens the window on a plan, or does one of its jobs without it.
//
// The exit code is 0 when all is fine, 1 when there are problems that the user should look at, 2 when it could not.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
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
	out io.Writer
	now func() time.Time
}

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr, time.Now))
}

// run does one command line and returns the exit code.
func run(args []string, stdout, stderr io.Writer, now func() time.Time) int {
	code := -1
	parser := kong.Must(&commands{},
		kong.Name("eavelight"),
		kong.Description("Plans a lifestyle film of a house: the light at the address, the scenes placed in it, the people, the papers."),
		kong.Vars{"version": version, "kinds": kindNames()},
		kong.Writers(stdout, stderr),
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
	switch err = ctx.Run(world{stdout, now}); {
	case err == nil:
		return 0
	case errors.Is(err, errProblems):
		return 1
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
