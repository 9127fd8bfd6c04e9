package assets

import "embed"

// The wordings of releases are our own, in plain English, with fields such as {party} that package people fills in. They are
// templates and no legal advice, as the first line of each says. A letter changed here makes every signature under the old
// wording one that no longer matches its text; so they are changed only for a reason that is worth signing anew.
//
//go:embed releases/*.txt
var releases embed.FS

// ReleaseWording is the wording of a kind of release, such as "model"; empty where there is none of that kind.
func ReleaseWording(kind string) string {
	text, err := releases.ReadFile("releases/" + kind + ".txt")
	if err != nil {
		return ""
	}
	return string(text)
}
