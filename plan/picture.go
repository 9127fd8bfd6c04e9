package plan

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

// Picture is a reference picture of a scene: how it is to look. What the plan knows of it is a small copy in a file beside it.
type Picture struct {
	File    string // below the folder of the plan, with slashes
	SHA256  string // of that file as it was made; empty: not said
	Caption string
}

// MaxPictures is how many a scene may have: more are an album, which the form of a scene is no place for.
const MaxPictures = 24

// AddPicture puts a picture behind those of a scene. A file that the scene has already is not added twice.
func (p *Plan) AddPicture(scene ID, picture Picture) {
	for i := range p.Scenes {
		s := &p.Scenes[i]
		if s.ID == scene && !slices.ContainsFunc(s.Pictures, func(q Picture) bool { return q.File == picture.File }) {
			s.Pictures = append(s.Pictures, picture)
		}
	}
}

// pictures are checked to lie below the plan's folder: a plan from somewhere else shall not have any file of this computer shown.
func (v *validator) pictures(at string, pictures []Picture) {
	if n := len(pictures); n > MaxPictures {
		v.wrong(at, TooManyPictures, MaxPictures, n)
	}
	for i, q := range pictures {
		at := fmt.Sprintf("%s[%d]", at, i)
		v.name(at+".file", q.File)
		if q.File != "" && !below(q.File) {
			v.wrong(at+".file", NotBelow, q.File)
		}
		if q.SHA256 != "" {
			v.digest(at+".sha256", q.SHA256)
		}
		v.text(at+".caption", q.Caption)
	}
}

// below reports whether a path lies below the folder that it is looked for in, on every system: "C:" and "\" lead away on some.
func below(path string) bool {
	return fs.ValidPath(path) && path != "." && !strings.ContainsAny(path, "\\:\x00")
}
