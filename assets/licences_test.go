package assets

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// required reads go.mod: the version of each module, and which ones it requires itself.
func required(t *testing.T) (versions map[string]string, direct []string) {
	t.Helper()
	data, err := os.ReadFile("../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	versions = map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^\t(\S+) (v\S+)( // indirect)?$`).FindAllStringSubmatch(string(data), -1) {
		versions[m[1]] = m[2]
		if m[3] == "" {
			direct = append(direct, m[1])
		}
	}
	if len(direct) < 10 || len(versions) < 40 {
		t.Fatalf("go.mod is not understood: %v", direct)
	}
	return versions, direct
}

// TestEveryLibraryIsNamed holds the list of libraries to go.mod.
func TestEveryLibraryIsNamed(t *testing.T) {
	_, direct := required(t)
	var named []string
	for _, l := range Libraries {
		named = append(named, l.Module)
		if l.What == "" || l.Licence == "" {
			t.Errorf("%s: nothing is said of it", l.Module)
		}
	}
	slices.Sort(named)
	slices.Sort(direct)
	if !slices.Equal(named, direct) {
		t.Errorf("named are    %v\nrequired are %v", named, direct)
	}
}

// texts are what each licence says somewhere in every copy, as it is published by the Open Source Initiative.
var texts = map[string]string{
	"MIT":            "Permission is hereby granted, free of charge, to any person obtaining a copy",
	"BSD, 2 clauses": "Redistribution and use in source and binary forms",
	"BSD, 3 clauses": "may be used to endorse or promote products",
	"Apache 2.0":     "Licensed under the Apache License, Version 2.0",
	"ODbL":           "ODC Open Database License",
}

// TestLicencesAreWhatTheirTextsSay: the text of each library that is part of the program is there, of the version in go.mod, and
// has the words of the licence it is said to have; one for the tests alone is not there.
func TestLicencesAreWhatTheirTextsSay(t *testing.T) {
	versions, _ := required(t)
	sections := map[string]string{} // by module and version
	heads := regexp.MustCompile(`(?m)^## ([^,\n]+), \S+$`).FindAllStringSubmatchIndex(ModuleLicences, -1)
	for i, h := range heads {
		end := len(ModuleLicences)
		if i+1 < len(heads) {
			end = heads[i+1][0]
		}
		sections[ModuleLicences[h[2]:h[3]]] += strings.Join(strings.Fields(ModuleLicences[h[1]:end]), " ")
	}
	for _, l := range Libraries {
		text, ok := sections[l.Module+" "+versions[l.Module]]
		switch {
		case l.Tests == ok:
			t.Errorf("%s %s: its text is there: %v; run go run ./assets/gen/licences", l.Module, versions[l.Module], ok)
		case l.Module == "github.com/ringsaturn/tzf": // its data is a module of its own
			text += sections["github.com/ringsaturn/tzf-rel-lite "+versions["github.com/ringsaturn/tzf-rel-lite"]]
		}
		for name, words := range texts {
			if ok && strings.Contains(l.Licence, name) && !strings.Contains(text, words) {
				t.Errorf("%s: its text does not say %q", l.Module, words)
			}
		}
		if strings.Contains(l.Licence, "BSD, 2") && strings.Contains(text, texts["BSD, 3 clauses"]) {
			t.Errorf("%s has a third clause", l.Module)
		}
	}
	for head := range sections {
		if module, version, ok := strings.Cut(head, " v"); ok && versions[module] != "v"+version {
			t.Errorf("%s: go.mod has %s; run go run ./assets/gen/licences", head, versions[module])
		}
	}
	out, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}", "../cmd/eavelight").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	for _, module := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		if module != "" && sections[module] == "" {
			t.Errorf("%s is part of the program, and its text is not there; run go run ./assets/gen/licences", module)
		}
	}
}
