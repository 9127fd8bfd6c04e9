package plan

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"eavelight/plan/say"
)

// Clone returns a deep copy: nothing that is done to it shows in p.
func (p Plan) Clone() Plan {
	p.Brief.Deliverables = slices.Clone(p.Brief.Deliverables)
	for i := range p.Brief.Deliverables {
		p.Brief.Deliverables[i].Scenes = slices.Clone(p.Brief.Deliverables[i].Scenes)
	}
	h := &p.Property
	h.Position, h.Air = copied(h.Position), copied(h.Air)
	h.Faces, h.Skyline, h.Obstacles = slices.Clone(h.Faces), slices.Clone(h.Skyline), slices.Clone(h.Obstacles)
	h.Spaces, h.Moves = slices.Clone(h.Spaces), slices.Clone(h.Moves)
	for i := range h.Spaces {
		h.Spaces[i] = h.Spaces[i].clone()
	}
	p.Scenes = slices.Clone(p.Scenes)
	for i := range p.Scenes {
		p.Scenes[i] = p.Scenes[i].clone()
	}
	p.People = slices.Clone(p.People)
	for i := range p.People {
		p.People[i].Availability = slices.Clone(p.People[i].Availability)
	}
	p.Releases = slices.Clone(p.Releases)
	for i := range p.Releases {
		p.Releases[i] = p.Releases[i].clone()
	}
	p.Wordings = slices.Clone(p.Wordings)
	p.Hours = slices.Clone(p.Hours)
	for i := range p.Hours {
		p.Hours[i] = p.Hours[i].clone()
	}
	p.Shooting = p.Shooting.clone()
	p.Pricing = p.Pricing.clone()
	p.Papers.Safety = slices.Clone(p.Papers.Safety)
	p.Papers.Calendar.Events = slices.Clone(p.Papers.Calendar.Events)
	p.Papers.Sheets = slices.Clone(p.Papers.Sheets)
	for i := range p.Papers.Sheets {
		p.Papers.Sheets[i].Items = slices.Clone(p.Papers.Sheets[i].Items)
	}
	p.Log = slices.Clone(p.Log)
	return p
}

func (s Space) clone() Space {
	s.Faces, s.Wings = slices.Clone(s.Faces), slices.Clone(s.Wings)
	return s
}

func (s Scene) clone() Scene {
	s.Lamp = copied(s.Lamp)
	s.People, s.Kit, s.After = slices.Clone(s.People), slices.Clone(s.Kit), slices.Clone(s.After)
	s.Looks, s.Values, s.Shots = slices.Clone(s.Looks), slices.Clone(s.Values), slices.Clone(s.Shots)
	s.Pictures = slices.Clone(s.Pictures)
	w := &s.Wish
	w.Incidence, w.Camera, w.MaxAltitude = copied(w.Incidence), copied(w.Camera), copied(w.MaxAltitude)
	w.MinAltitude, w.Below = copied(w.MinAltitude), copied(w.Below)
	return s
}

func (r Release) clone() Release {
	r.Scenes, r.Scan, r.Signature = slices.Clone(r.Scenes), copied(r.Scan), copied(r.Signature)
	if s := r.Signature; s != nil {
		s.Strokes = slices.Clone(s.Strokes)
		for i := range s.Strokes {
			s.Strokes[i] = slices.Clone(s.Strokes[i])
		}
	}
	return r
}

func (s Shooting) clone() Shooting {
	s.Dates, s.Weather = slices.Clone(s.Dates), slices.Clone(s.Weather)
	s.Overtime, s.Kit = slices.Clone(s.Overtime), slices.Clone(s.Kit)
	for i := range s.Kit {
		s.Kit[i].Availability = slices.Clone(s.Kit[i].Availability)
	}
	return s
}

func copied[T any](v *T) *T {
	if v == nil {
		return nil
	}
	c := *v
	return &c
}

// The edits below change the plan they are called on: call them on a Clone. Each keeps the document free of references to
// nothing. An index is where in the list the new or moved thing goes, held within the list.

// AddScene puts a new scene at index at and returns where it went. It takes over the space of the one before it.
func (p *Plan) AddScene(at int) int {
	at = min(max(at, 0), len(p.Scenes))
	s := Scene{ID: p.freshScene("scene"), Number: p.freshNumber(), Shoot: 20, Setup: 15, Importance: Should}
	if at > 0 {
		s.Space = p.Scenes[at-1].Space
	}
	p.Scenes = slices.Insert(p.Scenes, at, s)
	return at
}

// DuplicateScene puts a copy of scene i right after it and returns where. The copy has its own number and is not pinned.
func (p *Plan) DuplicateScene(i int, in say.Tongue) int {
	s := p.Scenes[i].clone()
	s.ID, s.Number, s.Pin = p.freshScene(string(s.ID)), p.freshNumber(), Pin{}
	s.Title = copyName(s.Title, in)
	p.Scenes = slices.Insert(p.Scenes, i+1, s)
	return i + 1
}

// SceneAt is the scene with that id, to be changed; nil where there is none.
func (p *Plan) SceneAt(id ID) *Scene {
	for i := range p.Scenes {
		if p.Scenes[i].ID == id {
			return &p.Scenes[i]
		}
	}
	return nil
}

// LetGo takes out the pins of the scenes that are only held where they were; what was pinned by its own word stays.
func (p *Plan) LetGo() {
	for i := range p.Scenes {
		if p.Scenes[i].Pin.Held {
			p.Scenes[i].Pin = Pin{}
		}
	}
}

// RenumberScenes numbers the scenes 1, 2, 3 in the film's order; the letters of numbers such as 7A go.
func (p *Plan) RenumberScenes() {
	for i := range p.Scenes {
		p.Scenes[i].Number = strconv.Itoa(i + 1)
	}
}

// NumberScenes gives the scenes of a list a number each that have none.
func (p *Plan) NumberScenes(ids []ID) {
	for i, s := range p.Scenes {
		if s.Number == "" && slices.Contains(ids, s.ID) {
			p.Scenes[i].Number = p.freshNumber()
		}
	}
}

// RemoveScene takes out scene i and every mention of it. What was to be cut from it alone is then cut from all.
func (p *Plan) RemoveScene(i int) {
	id := p.Scenes[i].ID
	p.Scenes = slices.Delete(p.Scenes, i, i+1)
	for j := range p.Scenes {
		p.Scenes[j].After = without(p.Scenes[j].After, id)
		if p.Scenes[j].Cover == id {
			p.Scenes[j].Cover = ""
		}
	}
	// A release for this scene alone goes with it: naming no scene would make it one for all.
	p.Releases = slices.DeleteFunc(p.Releases, func(r Release) bool { return len(r.Scenes) == 1 && r.Scenes[0] == id })
	for j := range p.Releases {
		p.Releases[j].Scenes = without(p.Releases[j].Scenes, id)
	}
	for j := range p.Brief.Deliverables {
		p.Brief.Deliverables[j].Scenes = without(p.Brief.Deliverables[j].Scenes, id)
	}
	p.Log = slices.DeleteFunc(p.Log, func(e LogEntry) bool { return e.Scene == id })
}

// AddPerson puts a new person at index at and returns where.
func (p *Plan) AddPerson(at int) int {
	at = min(max(at, 0), len(p.People))
	q := NewPerson()
	q.ID, q.Role = p.freshPerson("person"), Talent
	p.People = slices.Insert(p.People, at, q)
	return at
}

// DuplicatePerson puts a copy of person i right after them and returns where. The copy is in no scene and
// has no certificate: its number is one person's.
func (p *Plan) DuplicatePerson(i int, in say.Tongue) int {
	q := p.People[i]
	q.ID, q.Availability = p.freshPerson(string(q.ID)), slices.Clone(q.Availability)
	q.Certificate = Certificate{}
	q.Name = copyName(q.Name, in)
	p.People = slices.Insert(p.People, i+1, q)
	return i + 1
}

// RemovePerson takes person i out of the plan, out of every scene, and their releases with them.
func (p *Plan) RemovePerson(i int) {
	id := p.People[i].ID
	p.People = slices.Delete(p.People, i, i+1)
	for j := range p.People {
		if p.People[j].Guardian == id {
			p.People[j].Guardian = ""
		}
	}
	if f := &p.Shooting.Flying; f.ReadBy == id {
		f.ReadBy, f.Read = "", Date{}
	}
	for j := range p.Scenes {
		p.Scenes[j].SetIn(id, false)
	}
	p.Releases = slices.DeleteFunc(p.Releases, func(r Release) bool { return r.Party == id })
}

// SetIn puts a person into the scene, after those who are in it, or takes them out and their look with them.
func (s *Scene) SetIn(person ID, in bool) {
	switch {
	case !in:
		s.People = without(s.People, person)
		s.Looks = dropped(s.Looks, func(l Look) bool { return l.Person == person })
	case !slices.Contains(s.People, person):
		s.People = append(s.People, person)
	}
}

// AddSpace puts a new space at index at and returns where.
func (p *Plan) AddSpace(at int) int {
	h := &p.Property
	at = min(max(at, 0), len(h.Spaces))
	h.Spaces = slices.Insert(h.Spaces, at, Space{ID: p.freshSpace("space"), Kind: Indoor})
	return at
}

// DuplicateSpace puts a copy of space i right after it and returns where. Its moves are copied too.
func (p *Plan) DuplicateSpace(i int, in say.Tongue) int {
	h := &p.Property
	s := h.Spaces[i].clone()
	old := s.ID
	s.ID = p.freshSpace(string(old))
	s.Name = copyName(s.Name, in)
	h.Spaces = slices.Insert(h.Spaces, i+1, s)
	for _, m := range slices.Clone(h.Moves) {
		switch old {
		case m.From:
			h.Moves = append(h.Moves, Move{s.ID, m.To, m.Minutes})
		case m.To:
			h.Moves = append(h.Moves, Move{m.From, s.ID, m.Minutes})
		}
	}
	return i + 1
}

// RemoveSpace takes space i out; its scenes stay, without a space.
func (p *Plan) RemoveSpace(i int) {
	id := p.Property.Spaces[i].ID
	p.Property.Spaces = slices.Delete(p.Property.Spaces, i, i+1)
	p.Property.Moves = slices.DeleteFunc(p.Property.Moves, func(m Move) bool { return m.From == id || m.To == id })
	for j := range p.Scenes {
		if p.Scenes[j].Space == id {
			p.Scenes[j].Space = ""
		}
	}
}

// SetMove says how long the move between two spaces takes.
func (p *Plan) SetMove(a, b ID, took Minutes) {
	for i, m := range p.Property.Moves {
		if m.From == a && m.To == b || m.From == b && m.To == a {
			p.Property.Moves[i].Minutes = took
			return
		}
	}
	p.Property.Moves = append(p.Property.Moves, Move{a, b, took})
}

// AddFace adds a face of the house.
func (p *Plan) AddFace() {
	h := &p.Property
	h.Faces = append(h.Faces, Face{ID: fresh("face", h.Faces, func(f Face) ID { return f.ID })})
}

// RemoveFace takes face i out, of the spaces and wishes that name it too.
func (p *Plan) RemoveFace(i int) {
	id := p.Property.Faces[i].ID
	p.Property.Faces = slices.Delete(p.Property.Faces, i, i+1)
	for j := range p.Property.Spaces {
		p.Property.Spaces[j].Faces = without(p.Property.Spaces[j].Faces, id)
	}
	for j := range p.Scenes {
		if p.Scenes[j].Wish.Face == id {
			p.Scenes[j].Wish.Face = ""
		}
	}
}

// SetWishKind changes what light a scene wants and drops the figures that the new wish has no use for. A wish takes the
// place of light said by the clock.
func (s *Scene) SetWishKind(k WishKind) {
	s.Wish.Kind = k
	if k.Or() != Any {
		s.Values = nil
	}
	uses := k.Uses()
	drop := func(f WishFigure) bool { return !slices.Contains(uses, f) }
	w := &s.Wish
	w.Direct = w.Direct && !drop(FigureDirect)
	if drop(FigureFace) {
		w.Face = ""
	}
	if drop(FigureIncidence) {
		w.Incidence = nil
	}
	if drop(FigureCamera) {
		w.Camera = nil
	}
	if drop(FigureMaxAltitude) {
		w.MaxAltitude = nil
	}
	if drop(FigureMinAltitude) {
		w.MinAltitude = nil
	}
	if drop(FigureBelow) {
		w.Below = nil
	}
}

// AddRelease puts a new release at index at and returns where it went.
func (p *Plan) AddRelease(at int) int {
	at = min(max(at, 0), len(p.Releases))
	id := fresh("release", p.Releases, func(r Release) ID { return r.ID })
	p.Releases = slices.Insert(p.Releases, at, Release{ID: id, Kind: ModelRelease, Status: Needed})
	return at
}

// DuplicateRelease puts a copy of release i right after it and returns where. The copy is not signed.
func (p *Plan) DuplicateRelease(i int, _ say.Tongue) int {
	r := p.Releases[i].clone()
	r.ID = fresh(string(r.ID), p.Releases, func(r Release) ID { return r.ID })
	r.Status, r.Changed, r.SignedBy, r.Relation, r.Scan, r.Signature = Needed, Date{}, "", "", nil, nil
	p.Releases = slices.Insert(p.Releases, i+1, r)
	return i + 1
}

// RemoveRelease takes release i out of the plan.
func (p *Plan) RemoveRelease(i int) { p.Releases = slices.Delete(p.Releases, i, i+1) }

// SetOwnRelease says how far a person's own release is, on a day. It changes the release that names no scenes, or adds one.
func (p *Plan) SetOwnRelease(person ID, kind ReleaseKind, status ReleaseStatus, changed Date) {
	for i, r := range p.Releases {
		if r.Party == person && r.Kind == kind && len(r.Scenes) == 0 {
			p.Releases[i].Status, p.Releases[i].Changed = status, changed
			return
		}
	}
	id := fresh(string(kind)+"-"+string(person), p.Releases, func(r Release) ID { return r.ID })
	p.Releases = append(p.Releases, Release{ID: id, Kind: kind, Party: person, Status: status, Changed: changed})
}

// Shift moves item i of a list by some places, held within the list, and returns where it went.
func Shift[T any](list []T, i, by int) int {
	to := min(max(i+by, 0), len(list)-1)
	item := list[i]
	if to > i {
		copy(list[i:to], list[i+1:])
	} else {
		copy(list[to+1:i+1], list[to:])
	}
	list[to] = item
	return to
}

func without(ids []ID, id ID) []ID {
	return dropped(ids, func(x ID) bool { return x == id })
}

// dropped takes out of a list; an empty list is nil, as one never filled.
func dropped[T any](list []T, is func(T) bool) []T {
	if list = slices.DeleteFunc(list, is); len(list) == 0 {
		return nil
	}
	return list
}

func (p *Plan) freshScene(like string) ID {
	return fresh(like, p.Scenes, func(s Scene) ID { return s.ID })
}

func (p *Plan) freshPerson(like string) ID {
	return fresh(like, p.People, func(q Person) ID { return q.ID })
}

func (p *Plan) freshSpace(like string) ID {
	return fresh(like, p.Property.Spaces, func(s Space) ID { return s.ID })
}

// copyName is how the copy of a thing is called, in the tongue of who makes it.
func copyName(name string, in say.Tongue) string {
	if name == "" {
		return ""
	}
	return say.That("%s (copy)", name).In(in)
}

// fresh makes an id that the list does not have yet: "pool" gives "pool-2", "scene" gives "scene-1".
func fresh[T any](like string, list []T, id func(T) ID) ID {
	stem := strings.TrimRightFunc(like, unicode.IsDigit)
	if stem == like {
		stem += "-"
	}
	if r := []rune(stem); len(r) > 30 {
		stem = string(r[:30])
	}
	for n := 1; ; n++ {
		next := ID(fmt.Sprintf("%s%d", stem, n))
		if !slices.ContainsFunc(list, func(t T) bool { return id(t) == next }) {
			return next
		}
	}
}

// freshNumber is one more than the largest scene number so far.
func (p *Plan) freshNumber() string {
	top := 0
	for _, s := range p.Scenes {
		if n, ok := leadingNumber(s.Number); ok {
			top = max(top, n)
		}
	}
	return strconv.Itoa(top + 1)
}
