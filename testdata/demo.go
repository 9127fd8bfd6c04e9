// Package testdata carries the demo plan, an invented house and invented people, into the program. The tests read the same file.
package testdata

import _ "embed"

// Demo is the text of the demo plan. Nobody writes to it.
//
//go:embed tarn-ledge.eavelight
var Demo []byte
