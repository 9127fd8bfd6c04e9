package store

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

const handWritten = `# The day at the bend.
# Ask Noor about the gate.

eavelight: 1
title: A day   # working title

people:
  # from the agent
  - id: ada
    name: Ada
  - {id: tom, minor: true}   # shy
scenes:
  - {id: toast, light: {wish: backlit, camera: 260}, shoot: 15}
  # only if it rains
  - id: lamps
    light: {wish: dark, below: -8}   # candles
    shoot: 15   # or less
    people: [ada]
    looks:
      - {person: ada, look: raincoat}   # the yellow one
shooting:
  dates: [2027-03-06, 2027-03-07]   # weekend
  overtime:   # the crew's rule
    - {after: 600, points: 5}   # time and a half
  kit:
    # with its driver
    - name: Crane
      availability:
        - {date: 2027-03-06, from: "09:00"}   # not before

# the end
`

// What the program makes of it after scene toast went, tom and ada changed places, and the title became another.
const keptComments = `# The day at the bend.
# Ask Noor about the gate.

eavelight: 1
title: A night # working title

scenes:
  # only if it rains
  - id: lamps
    people: [ada]
    looks:
      - {person: ada, look: raincoat} # the yellow one
    light: # candles
      wish: dark
      below: -8
    shoot: 15 # or less

people:
  # shy
  - id: tom
    minor: true
  # from the agent
  - id: ada
    name: Ada

shooting:
  dates: [2027-03-06, 2027-03-07] # weekend
  days: 1
  earliest-call: "04:00"
  latest-wrap: "24:00"
  longest: 840
  prepare: 30
  ready: 20
  pack-up: 20
  meal-within: 360
  meal-length: 45
  meal-apart: 180
  rest: 660
  grid: 5
  kit:
    # with its driver
    - name: Crane
      availability:
        - {date: 2027-03-06, from: "09:00"} # not before
  weights:
    light: 1
    waiting: 0.2
    minor: 3
    moving: 0.1
    length: 2
    left-out: 100
    again: 60
    day: 150
  overtime: # the crew's rule
    - {after: 600, points: 5} # time and a half
  light: {golden-low: -4, golden-high: 6, blue-low: -6, blue-high: -4}

# the end
`

func TestCommentsStayWithTheirPlaces(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	if err := os.WriteFile(path, []byte(handWritten), 0o600); err != nil {
		t.Fatal(err)
	}
	p, stamp, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	p.Title = "A night"
	p.Scenes = p.Scenes[1:]
	slices.Reverse(p.People)
	for range 3 { // they stay where they are, save after save
		stamp = must1[Stamp](t)(Write(path, p, stamp))
		if got := string(must1[[]byte](t)(os.ReadFile(path))); got != keptComments {
			t.Fatalf("wrote\n%s", got)
		}
	}
	if back, _, err := Read(path); err != nil || !same(back, p) {
		t.Errorf("reads back as %+v, %v", back, err)
	}
}

func TestCommentsOfAnythingElseAreLeftOut(t *testing.T) {
	data := encoded(t, titled("new"))
	for _, old := range []string{"", "no plan at all # but a comment", "\x00#", "eavelight: 1\n[#"} {
		if got := keepComments(data, []byte(old)); string(got) != string(data) {
			t.Errorf("%q: wrote %q", old, got)
		}
	}
	if p, err := Decode("new", keepComments(data, []byte("# kept\ntitle: 1"))); err != nil || !same(p, titled("new")) {
		t.Errorf("%v", err)
	}
}
