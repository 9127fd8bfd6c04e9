package plan

import (
	"cmp"
	"slices"
	"strings"

	"eavelight/plan/say"
)

// ReadyScene is a scene as films of lived-in houses often have it, for no house in particular. AddReady makes one of a house.
type ReadyScene struct {
	Scene            // without number, space, people; its ID is the one it gets where that is free
	Where  SpaceKind // the kind of space it happens in
	Rooms  []string  // words in a space's name that suit it, the best first
	Only   bool      // no space but one called so will do: nobody cooks in a bedroom
	Toward SunSide   // where its face of the house is to look
}

// SunSide is where the sun stands when a ready-made scene wants it. Anywhere is its zero value.
type SunSide string

// The sides, as the sun goes: where it rises, where it is highest, where it sets, and where it does not come at noon.
const (
	Anywhere    SunSide = ""
	RisingSide  SunSide = "rising"
	NoonSide    SunSide = "noon"
	SettingSide SunSide = "setting"
	ShadySide   SunSide = "shady"
)

// ReadyScenes are offered to begin a film with, in the order of a day. What they take, in minutes, and what light they want is
// common practice, no published source.
func ReadyScenes() []ReadyScene { return ReadyScenesIn(say.Tongue(nil).Form) }

// ReadyScenesIn are the same in the words of a language. Spaces may be called in it, or in English.
func ReadyScenesIn(in func(form string) string) []ReadyScene {
	list := func(words string) []string { return strings.Split(words, ", ") }
	rooms := func(form string) []string { return append(list(in(form)), list(say.Tongue(nil).Form(form))...) }
	return []ReadyScene{
		{Where: Aerial, Toward: RisingSide,
			Scene: Scene{ID: "from-above", Title: in(say.Mark("ready|First light from above")),
				Action: in(say.Mark("ready|The drone rises slowly until the house stands in the first sun, the land behind it still in shade.")),
				Kit:    list(in(say.Mark("kit|drone, landing mat"))), Wish: Wish{Kind: GoldenMorning}, Setup: 20, Shoot: 15, Seconds: 8, Importance: Should,
				Notes: in(say.Mark("ready|Whether a drone may fly here, and when, is for local law to say; a licensed pilot flies it. Look at wind and notices the evening before."))}},
		{Where: Indoor, Rooms: rooms(say.Mark("rooms|bedroom, main room, guest")), Only: true, Toward: RisingSide,
			Scene: Scene{ID: "curtains", Title: in(say.Mark("ready|Curtains drawn back")),
				Action: in(say.Mark("ready|Somebody wakes, crosses the room barefoot and lets the day in.")),
				Kit:    list(in(say.Mark("kit|35 mm lens, slider"))), Wish: Wish{Kind: SunPatch}, Setup: 15, Shoot: 20, Seconds: 6, Importance: Should}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|deck, terrace, patio, balcony, porch, veranda")), Toward: RisingSide,
			Scene: Scene{ID: "morning-coffee", Title: in(say.Mark("ready|Morning coffee outside")),
				Action: in(say.Mark("ready|A cup is carried out; somebody sits down with it, steam against the low sun, and looks at the view.")),
				Kit:    list(in(say.Mark("kit|gimbal, 50 mm lens"))), Wish: Wish{Kind: GoldenMorning}, Setup: 15, Shoot: 20, Seconds: 8, Importance: Must}},
		{Where: Indoor, Rooms: rooms(say.Mark("rooms|kitchen, breakfast, dining")), Only: true, Toward: RisingSide,
			Scene: Scene{ID: "breakfast", Title: in(say.Mark("ready|Breakfast together")),
				Action: in(say.Mark("ready|Bread, fruit, talk across the table; the sun comes in over the plates.")),
				Kit:    list(in(say.Mark("kit|50 mm lens"))), Wish: Wish{Kind: SunPatch}, Setup: 20, Shoot: 25, Seconds: 8, Importance: Should}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|drive, entry, entrance, forecourt, gate, front, garage")), Only: true,
			Scene: Scene{ID: "arrival", Title: in(say.Mark("ready|Arrival by car")),
				Action: in(say.Mark("ready|A car comes up the drive and stops; a door opens, somebody gets out and looks up at the house.")),
				Kit:    list(in(say.Mark("kit|gimbal, radios"))), Wish: Wish{Kind: Daylight}, Setup: 15, Shoot: 25, Seconds: 7, Importance: Should,
				Notes: in(say.Mark("ready|On private ground, at walking pace. Nobody stands in the car's way; one person says go and stop."))}},
		{Where: Indoor, Rooms: rooms(say.Mark("rooms|hall, entrance, entry, living, lounge")),
			Scene: Scene{ID: "door-opens", Title: in(say.Mark("ready|The door opens to the view")),
				Action: in(say.Mark("ready|From behind, through the dark of the house: a door is pushed open, and there is the view.")),
				Kit:    list(in(say.Mark("kit|24 mm lens, gimbal"))), Wish: Wish{Kind: Daylight}, Setup: 15, Shoot: 20, Seconds: 6, Importance: Must}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|pool")), Only: true, Toward: NoonSide,
			Scene: Scene{ID: "pool", Title: in(say.Mark("ready|A swim in the pool")),
				Action: in(say.Mark("ready|Somebody dives in and swims a length; light plays on the bottom, wet feet walk away over the stone.")),
				Kit:    list(in(say.Mark("kit|underwater housing, towels"))), Wish: Wish{Kind: HighSun}, Setup: 15, Shoot: 25, Seconds: 7, Importance: Should,
				Notes: in(say.Mark("ready|No mains cable near the water. A grown-up who can swim does nothing but watch whoever is in it or beside it."))}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|terrace, patio, deck, veranda, courtyard, garden")), Toward: ShadySide,
			Scene: Scene{ID: "lunch", Title: in(say.Mark("ready|Lunch in the shade")),
				Action: in(say.Mark("ready|A long table, bowls passed from hand to hand, a jug with ice, laughter.")),
				Kit:    list(in(say.Mark("kit|85 mm lens, diffusion cloth"))), Wish: Wish{Kind: FaceShade}, Setup: 25, Shoot: 25, Seconds: 7, Importance: Should,
				Notes: in(say.Mark("ready|Water, hats and sunscreen for all. Ask about allergies before anything is eaten."))}},
		{Where: Indoor, Rooms: rooms(say.Mark("rooms|children, nursery, play, library, living, bedroom")), Toward: ShadySide,
			Scene: Scene{ID: "reading", Title: in(say.Mark("ready|Children reading")),
				Action: in(say.Mark("ready|Two children share a book by the window and forget the camera.")),
				Kit:    list(in(say.Mark("kit|50 mm lens"))), Wish: Wish{Kind: SoftWindow}, Setup: 15, Shoot: 20, Seconds: 6, Importance: Nice,
				Notes: in(say.Mark("ready|Local law decides about minors' hours, permits and consent. A guardian is there; short takes, and a break when they want one."))}},
		{Where: Indoor, Rooms: rooms(say.Mark("rooms|study, office, library, desk, work")), Only: true,
			Scene: Scene{ID: "at-the-desk", Title: in(say.Mark("ready|An hour at the desk")),
				Action: in(say.Mark("ready|Somebody writes, looks up and out, goes on writing.")),
				Kit:    list(in(say.Mark("kit|85 mm lens"))), Wish: Wish{Kind: SoftWindow}, Setup: 10, Shoot: 15, Seconds: 5, Importance: Nice}},
		{Where: Indoor, Toward: SettingSide,
			Scene: Scene{ID: "materials", Title: in(say.Mark("ready|Hands and materials")),
				Action: in(say.Mark("ready|A hand along stone, wood, linen, the handle of a door; the sun rakes across each.")),
				Kit:    list(in(say.Mark("kit|macro lens, slider"))), Wish: Wish{Kind: SunPatch}, Setup: 10, Shoot: 20, Seconds: 6, Importance: Nice}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|garden, lawn, orchard, path, meadow")), Toward: SettingSide,
			Scene: Scene{ID: "garden", Title: in(say.Mark("ready|Through the garden")),
				Action: in(say.Mark("ready|Somebody walks through tall grass or along a path, picks something, is met by the dog.")),
				Kit:    list(in(say.Mark("kit|gimbal, 85 mm lens"))), Wish: Wish{Kind: GoldenEvening}, Setup: 10, Shoot: 20, Seconds: 6, Importance: Should}},
		{Where: Indoor, Rooms: rooms(say.Mark("rooms|kitchen")), Only: true,
			Scene: Scene{ID: "cooking", Title: in(say.Mark("ready|Dinner being cooked")),
				Action: in(say.Mark("ready|Herbs are cut, a pan hisses, somebody tastes and nods; soft light from the window, steam above the stove.")),
				Kit:    list(in(say.Mark("kit|50 mm lens, small lamp"))), Wish: Wish{Kind: Daylight}, From: ClockAt(15 * 60), Setup: 20, Shoot: 25, Seconds: 8, Importance: Must,
				Notes: in(say.Mark("ready|Hot pans and sharp knives: one person minds the stove, cables stay off the floor there."))}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|terrace, deck, balcony, patio, roof")), Toward: SettingSide,
			Scene: Scene{ID: "last-sun", Title: in(say.Mark("ready|A toast in the last sun")),
				Action: in(say.Mark("ready|Glasses meet, faces warm with the last sun; then they turn to watch it go.")),
				Kit:    list(in(say.Mark("kit|85 mm lens"))), Wish: Wish{Kind: GoldenEvening, Direct: true}, Setup: 10, Shoot: 15, Seconds: 8, Importance: Must,
				Notes: in(say.Mark("ready|Nobody looks at the sun through a lens or finder, and no lens is left pointing at it."))}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|garden, lawn, pool, drive, terrace")),
			Scene: Scene{ID: "dusk", Title: in(say.Mark("ready|The house lit at dusk")),
				Action: in(say.Mark("ready|Every lamp is on; the house glows against a blue sky, and somebody passes behind the glass.")),
				Kit:    list(in(say.Mark("kit|tripod, 24 mm lens"))), Wish: Wish{Kind: BlueEvening}, Setup: 30, Shoot: 5, Seconds: 8, Importance: Must,
				Notes: in(say.Mark("ready|Torches for the way back; cables and steps are marked before it is dark."))}},
		{Where: Outdoor, Rooms: rooms(say.Mark("rooms|fire, terrace, patio, deck, garden")),
			Scene: Scene{ID: "fire", Title: in(say.Mark("ready|Fire at nightfall")),
				Action: in(say.Mark("ready|A fire is lit; faces, blankets and hands around it, sparks rising into the dark.")),
				Kit:    list(in(say.Mark("kit|fast 35 mm lens, bucket of sand"))), Wish: Wish{Kind: Dark}, Setup: 15, Shoot: 20, Seconds: 8, Importance: Should,
				Notes: in(say.Mark("ready|Ask whether an open fire is allowed that day. Water or sand beside it, nobody in loose sleeves, one person minds it until it is out."))}},
	}
}

// ReadySet is ready-made scenes that make a film together.
type ReadySet struct {
	Name   string
	Scenes []ID
}

// ReadySets are offered to begin with, each a day that can be lived in most houses, and shot in one.
func ReadySets() []ReadySet { return ReadySetsIn(say.Tongue(nil).Form) }

// ReadySetsIn are the same in the words of a language.
func ReadySetsIn(in func(form string) string) []ReadySet {
	return []ReadySet{
		{in(say.Mark("set|A family's Saturday")), []ID{"breakfast", "lunch", "reading", "garden", "cooking", "dusk"}},
		{in(say.Mark("set|Two people, slow day")), []ID{"curtains", "morning-coffee", "at-the-desk", "materials", "cooking", "last-sun"}},
		{in(say.Mark("set|Pool and evening")), []ID{"pool", "lunch", "last-sun", "dusk", "fire"}},
		{in(say.Mark("set|Short morning")), []ID{"from-above", "morning-coffee", "breakfast", "door-opens"}},
	}
}

// AddReady puts ready-made scenes at the end of the film, each in the space of the house that suits it best, and returns their
// ids. Where no space suits, none is said.
func (p *Plan) AddReady(ready ...ReadyScene) []ID {
	var ids []ID
	for _, r := range ready {
		s := r.Scene.clone()
		if _, taken := p.Scene(s.ID); taken || s.ID == "" {
			s.ID = p.freshScene(cmp.Or(string(s.ID), "scene"))
		}
		s.Number = p.freshNumber()
		toward := p.sunSide(r.Toward)
		space, found := r.space(p, toward)
		s.Space = space.ID
		if slices.Contains(s.Wish.Kind.Or().Uses(), FigureFace) {
			faces := p.Property.Faces
			if found && len(space.Faces) > 0 {
				faces = slices.DeleteFunc(slices.Clone(faces), func(f Face) bool { return !slices.Contains(space.Faces, f.ID) })
			}
			s.Wish.Face = nearest(faces, toward).ID
		}
		p.Scenes = append(p.Scenes, s)
		ids = append(ids, s.ID)
	}
	return ids
}

// sunSide is the bearing of a side, or nil where it does not matter. South of the equator the noon sun stands in the north.
func (p *Plan) sunSide(side SunSide) *Bearing {
	noon, shady := Bearing(180), Bearing(0)
	if at := p.Property.Position; at != nil && at.Lat < 0 {
		noon, shady = shady, noon
	}
	switch side {
	case RisingSide:
		return new(Bearing(90))
	case SettingSide:
		return new(Bearing(270))
	case NoonSide:
		return &noon
	case ShadySide:
		return &shady
	}
	return nil
}

// space is the space that suits the scene best: of its kind; with a face toward the sun it wants; called as such a room is.
func (r ReadyScene) space(p *Plan, toward *Bearing) (Space, bool) {
	type rank struct{ away, room, angle float64 }
	var best Space
	var lowest rank
	found := false
	for _, s := range p.Property.Spaces {
		room := r.room(s)
		if s.Kind.Or() != r.Where || r.Only && room == len(r.Rooms) {
			continue
		}
		faces := slices.DeleteFunc(slices.Clone(p.Property.Faces), func(f Face) bool { return !slices.Contains(s.Faces, f.ID) })
		now := rank{room: float64(room)}
		if toward != nil {
			now.angle = 180 // for a space that looks nowhere
			if len(faces) > 0 {
				now.angle = float64(nearest(faces, toward).Bearing.Apart(*toward))
			}
			if now.angle > 75 { // the sun that is wanted hardly comes here
				now.away = 1
			}
		}
		less := cmp.Or(cmp.Compare(now.away, lowest.away), cmp.Compare(now.room, lowest.room), cmp.Compare(now.angle, lowest.angle)) < 0
		if !found || less {
			best, lowest, found = s, now, true
		}
	}
	return best, found
}

// room is which of the words the space is called by, len(r.Rooms) for none.
func (r ReadyScene) room(s Space) int {
	name := strings.ToLower(s.Name + " " + string(s.ID))
	if i := slices.IndexFunc(r.Rooms, func(word string) bool { return strings.Contains(name, word) }); i >= 0 {
		return i
	}
	return len(r.Rooms)
}

// nearest is the face that looks most toward a bearing, or the first where none is wanted.
func nearest(faces []Face, toward *Bearing) Face {
	if len(faces) == 0 {
		return Face{}
	}
	if toward == nil {
		return faces[0]
	}
	return slices.MinFunc(faces, func(a, b Face) int { return cmp.Compare(a.Bearing.Apart(*toward), b.Bearing.Apart(*toward)) })
}
