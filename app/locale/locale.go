// Package locale mends the environment before Fyne reads it: Fyne 2.7.1 takes the C.UTF-8 that containers and servers set
// for a language, and complains on every start. It works by being initialised first: Go initialises packages in the order
// of their paths, as far as their imports allow, and this one imports next to nothing.
package locale

import (
	"cmp"
	"os"
	"strings"
)

func init() {
	if name, value := mend(os.Getenv); name != "" {
		os.Setenv(name, value)
	}
}

// mend returns the variable to set, if any. LANGUAGE is read by Fyne, but not by the C library, whose idea of the character
// set stays as it is.
func mend(env func(string) string) (name, value string) {
	locale := cmp.Or(env("LC_ALL"), env("LC_MESSAGES"), env("LANG"))
	if strings.HasPrefix(locale, "C.") && env("LANGUAGE") == "" {
		return "LANGUAGE", "en"
	}
	return "", ""
}
