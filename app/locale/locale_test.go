package locale

import "testing"

func TestMend(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want string
	}{
		{map[string]string{"LANG": "C.UTF-8"}, "en"},
		{map[string]string{"LC_ALL": "C.utf8", "LANG": "de_DE.UTF-8"}, "en"},
		{map[string]string{"LANG": "C.UTF-8", "LANGUAGE": "de"}, ""},
		{map[string]string{"LANG": "de_DE.UTF-8"}, ""},
		{map[string]string{"LANG": "C"}, ""},
		{map[string]string{}, ""},
	} {
		if _, got := mend(func(k string) string { return c.env[k] }); got != c.want {
			t.Errorf("%v: LANGUAGE becomes %q, want %q", c.env, got, c.want)
		}
	}
}
