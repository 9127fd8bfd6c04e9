package assets

import _ "embed"

// Library is a module that the program, or its tests, are built with.
type Library struct {
	Module  string
	What    string // it is used for
	Licence string
	Tests   bool // it is no part of the program
}

// Libraries are the modules that go.mod requires itself; what those require in turn stands in ModuleLicences with them.
var Libraries = []Library{
	{Module: "fyne.io/fyne/v2", What: "the window", Licence: "BSD, 3 clauses"},
	{Module: "codeberg.org/go-pdf/fpdf", What: "PDF papers", Licence: "MIT"},
	{Module: "github.com/alecthomas/kong", What: "the command line", Licence: "MIT"},
	{Module: "github.com/go-playground/locales", What: "dates in other languages", Licence: "MIT"},
	{Module: "github.com/gofrs/flock", What: "one window for one plan", Licence: "BSD, 3 clauses"},
	{Module: "github.com/piglig/go-qr", What: "codes that a phone reads", Licence: "MIT"},
	{Module: "github.com/ringsaturn/tzf", What: "time zones by position", Licence: "MIT; its data: ODbL"},
	{Module: "github.com/shopspring/decimal", What: "money", Licence: "MIT"},
	{Module: "github.com/soniakeys/meeus/v3", What: "the sun and the moon", Licence: "MIT"},
	{Module: "github.com/soniakeys/unit", What: "angles and times", Licence: "MIT"},
	{Module: "github.com/srwiley/rasterx", What: "drawn lines", Licence: "BSD, 3 clauses"},
	{Module: "github.com/xuri/excelize/v2", What: "workbooks", Licence: "BSD, 3 clauses"},
	{Module: "golang.org/x/image", What: "pictures and letters", Licence: "BSD, 3 clauses"},
	{Module: "golang.org/x/text", What: "letters with accents", Licence: "BSD, 3 clauses"},
	{Module: "gopkg.in/yaml.v3", What: "plan files", Licence: "MIT and Apache 2.0"},
	{Module: "github.com/sixdouglas/suncalc", What: "a second opinion on the sun", Licence: "BSD, 2 clauses", Tests: true},
	{Module: "github.com/BurntSushi/toml", What: "tests, and within Fyne", Licence: "MIT"},
	{Module: "pgregory.net/rapid", What: "what must always hold", Licence: "MPL 2.0", Tests: true},
}

// ModuleLicences are the licence texts of all modules that are part of the program, as gen/licences collects them.
//
//go:embed licences/modules.txt
var ModuleLicences string
