package assets

import _ "embed"

// StarterCard is a rate card of invented figures to begin from, as the text of a file. All of its figures are made up for
// this program; the rules of overtime in it name their source.
//
//go:embed rates/starter.yaml
var StarterCard []byte
