package assets

import "embed"

// Tongues are the languages of the window: a folder a language, named by its code, with as many files as are handy. A file gives
// for each English form (see package plan/say) the one of the language, or {"one": …, "other": …} and what other plurals the
// CLDR has for it. Folder en has only what Fyne calls by other names. The translations are our own.
//
//go:embed tongues
var Tongues embed.FS
