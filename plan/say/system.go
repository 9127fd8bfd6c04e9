package say

import (
	"io/fs"
	"os"
	"slices"
)

// systemWords are what a system says most often of a file that it can't read or write. Unix says it in English, whoever
// reads; Windows has its own words for them, which are left as they are.
var systemWords = []string{
	Mark("permission denied"), Mark("operation not permitted"), Mark("no such file or directory"), Mark("file does not exist"),
	Mark("file exists"), Mark("file already exists"), Mark("no space left on device"), Mark("disk quota exceeded"),
	Mark("read-only file system"), Mark("is a directory"), Mark("not a directory"), Mark("directory not empty"),
	Mark("input/output error"), Mark("file name too long"), Mark("too many open files"),
}

// system is an error of the system in a tongue, as far as it is one that has words.
func (tongue Tongue) system(err error) string {
	switch e := err.(type) {
	case *fs.PathError:
		return e.Op + " " + e.Path + ": " + tongue.Error(e.Err)
	case *os.LinkError:
		return e.Op + " " + e.Old + " " + e.New + ": " + tongue.Error(e.Err)
	}
	if words := err.Error(); slices.Contains(systemWords, words) {
		return tongue.Form(words)
	}
	return err.Error()
}
