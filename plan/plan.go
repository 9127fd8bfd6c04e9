package plan

import (
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// ID names a thing within one plan: short, lower case, no spaces. Scenes, spaces, faces and people refer to each other
// by it. An empty ID refers to nothing.
type ID string

// Plan is the whole document. Clone it before changing it.
type Plan struct {
	Title    string
	Brief    Brief
	Property Property
	Scenes   []Scene
	People   []Person
	Releases []Release
	Wordings []Wording   // of releases, in place of the built-in ones; one a kind
	Hours    []HourTable // of minors, beside those that come with the program; one of the same id stands before it
	Shooting Shooting
	Pricing  Pricing
	Papers   PaperFacts
	Log      []LogEntry
}

// Brief says who it is for, what is to be delivered, by when, within what budget.
type Brief struct {
	Client       string // who orders and pays
	Agent        string // whose listing it is
	Purpose      string // what the film must do
	Deliverables []Deliverable
	Due          Date
	Budget       Money
	Notes        string
}

// Deliverable is one thing handed over at the end: the hero film, a cut-down, a set of stills.
type Deliverable struct {
	Name    string
	Seconds int    // running time; 0 for what has none
	Format  string // "UHD 3840x2160, 24 fps"
	Scenes  []ID   // those it is cut from; none named means all

	Kind      DeliverableKind // what it asks of the editing; KindOr guesses
	Stills    int             // finished frames
	Exposures int             // taken for each still: a bracket; 0 is 1
}

// Money is an amount in a currency (ISO 4217). The zero Money means "not said".
type Money struct {
	Amount   decimal.Decimal
	Currency string
}

// Property is the house: where it stands, which way it looks, what shades it, where scenes can happen.
type Property struct {
	Name      string
	Address   string
	Position  *Position // nil until said; never written through, only replaced
	Elevation Metres    // above the sea
	Zone      string    // IANA name, "America/Los_Angeles"
	// Declination is how far east of true north a compass needle points here; it turns compass readings into bearings.
	Declination Angle
	Air         *Air // nil: standard air
	SeaHorizon  bool // the free horizon is the sea, seen from Elevation: it lies lower by the dip
	Faces       []Face
	Skyline     []SkyPoint
	Obstacles   []Obstacle
	Spaces      []Space
	Moves       []Move
}

// Air is what the refraction near the horizon depends on.
type Air struct {
	Pressure    float64 // hPa, at the property and not reduced to the sea
	Temperature float64 // degrees Celsius
}

// Face is one side of the house.
type Face struct {
	ID      ID
	Name    string
	Bearing Bearing // the direction it looks toward
}

// SkyPoint is one corner of the skyline drawn by hand; between corners it runs straight.
type SkyPoint struct {
	Bearing  Bearing
	Altitude Angle
}

// Obstacle is something that blocks the low sun over a span of bearings, clockwise From to To (it may pass north).
type Obstacle struct {
	Name     string
	Height   Metres // above the eye
	Distance Metres
	From, To Bearing
}

// SpaceKind tells whether weather and the open sky reach a space.
type SpaceKind string

// The kinds of space.
const (
	Indoor  SpaceKind = "indoor"
	Outdoor SpaceKind = "outdoor"
	Aerial  SpaceKind = "aerial"
)

// SpaceKinds lists them in the order they are offered.
var SpaceKinds = []SpaceKind{Indoor, Outdoor, Aerial}

// Space is where a scene happens.
type Space struct {
	ID     ID
	Name   string
	Kind   SpaceKind
	Faces  []ID   // those its windows, or its open side, look toward
	Sill   Metres // of the windows above the floor
	Head   Metres // of the windows above the floor; 0 where there are none
	Wings  []Wing // what of the house itself hides the sun from here
	Safety string // what to look out for here, printed on the call sheet
}

// Wing is a part of the house that hides the sun from a space, over a span of bearings, clockwise From to To (it may pass
// north), up to an altitude.
type Wing struct {
	From, To Bearing
	Altitude Angle
}

// Move is the time it takes to bring the kit from one space to another, either way round.
type Move struct {
	From, To ID
	Minutes  Minutes
}

// Importance says what happens to a scene that does not fit.
type Importance string

// Must may not run outside its light window; Should may lose light; Nice may be left out.
const (
	Must   Importance = "must"
	Should Importance = "should"
	Nice   Importance = "nice"
)

// Importances lists them, most important first.
var Importances = []Importance{Must, Should, Nice}

// Scene is a numbered piece of the film.
type Scene struct {
	ID         ID
	Number     string // on the slate and the papers: "7", "7A"
	Title      string
	Space      ID
	Action     string
	People     []ID
	Looks      []Look // what some of the people wear, each named once
	Kit        []string
	Shots      []Shot // what the camera takes of it, in the order it is shot
	Audio      string // a note for whoever takes the sound: "wild sound of the waves, clip-on mic on Nora"
	Wish       Wish
	Values     []Value // where there are any, its light by the clock in place of a wish
	View       Angle   // how far across the lens sees, in degrees; 0: not said, so the frame is not judged
	Lamp       *Lamp   // the lamp that is to hold against the light there
	Lights     string  // a lighting by name: right after a scene with the same in the same space, this one needs no set-up
	From, To   Clock   // plain clock limits beside the wish: shooting lies within them
	Setup      Minutes
	Shoot      Minutes
	Seconds    int // on screen
	Importance Importance
	After      []ID // scenes that must come before this one
	Pin        Pin
	Cover      ID // the indoor scene that takes this slot when the weather takes the light away
	Notes      string
	Pictures   []Picture // how it is to look; the first stands for the scene
}

// Look is what a person wears in a scene, wardrobe and hair, by name. A person without one wears anything. Between two
// scenes in different looks at least the person's Change passes.
type Look struct {
	Person ID
	Look   string
}

// Shot is one thing that the camera takes of a scene, in the words of whoever shoots it. What is left empty is decided on the day.
type Shot struct {
	Frame    string // how much is in the picture: "close-up"
	Lens     string // "35 mm"
	Movement string // of the camera: "gimbal push-in"
	Note     string // what to get
}

// ShotFrames, ShotLenses and ShotMovements are the forms of words that are offered for a shot; any others do as well. Common practice, no published source.
var (
	ShotFrames = []string{say.Mark("shot|wide"), say.Mark("shot|full"), say.Mark("shot|medium"), say.Mark("shot|close-up"), say.Mark("shot|detail"),
		say.Mark("shot|over the shoulder"), say.Mark("shot|overhead"), say.Mark("shot|point of view"), say.Mark("shot|establishing")}
	ShotLenses    = []string{"16 mm", "24 mm", "35 mm", "50 mm", "85 mm", say.Mark("shot|macro"), say.Mark("shot|drone")}
	ShotMovements = []string{say.Mark("shot|static"), say.Mark("shot|hand-held"), say.Mark("shot|pan"), say.Mark("shot|tilt"), say.Mark("shot|slider"),
		say.Mark("shot|gimbal push-in"), say.Mark("shot|gimbal pull-back"), say.Mark("shot|gimbal follow"),
		say.Mark("shot|drone rise"), say.Mark("shot|drone orbit"), say.Mark("shot|drone fly-over")}
)

// Value is the light of a scene in some minutes of the day, said outright: for tests, and for those who know better than
// the sun. In the minutes that none covers the light is 0.
type Value struct {
	From, To Clock
	Share    float64 // of the light it could have, 0 to 1
}

// Lamp is a lamp as its maker rates it, and as it is used.
type Lamp struct {
	Lux     float64 // at the rated distance, without a modifier
	Rated   Metres  // that distance
	Loss    float64 // of the modifier (softbox, cloth), in stops
	Subject Metres  // from the lamp to the subject
}

// Pin fixes a scene's start by hand. The zero Pin fixes nothing; a Pin without a Date holds on any date.
type Pin struct {
	Date  Date
	Start Clock
	Held  bool // it is only kept where it was while another scene was moved by hand (Plan.LetGo)
}

// WishKind is what light a scene wants.
type WishKind string

// The light wishes. Any, the zero value's meaning, holds always.
const (
	GoldenMorning WishKind = "golden morning"
	GoldenEvening WishKind = "golden evening"
	BlueMorning   WishKind = "blue morning"
	BlueEvening   WishKind = "blue evening"
	Sunrise       WishKind = "sunrise"
	Sunset        WishKind = "sunset"
	FaceLit       WishKind = "face lit"
	FaceShade     WishKind = "face in shade"
	Backlit       WishKind = "backlit"
	SideLit       WishKind = "side-lit"
	FrontLit      WishKind = "front-lit"
	SunPatch      WishKind = "sun patch"
	SoftWindow    WishKind = "soft window"
	HighSun       WishKind = "high sun"
	Daylight      WishKind = "daylight"
	Dark          WishKind = "dark"
	Any           WishKind = "any"
)

// WishKinds lists them in the order they are offered.
var WishKinds = []WishKind{Any, Daylight, GoldenMorning, GoldenEvening, BlueMorning, BlueEvening, Sunrise, Sunset,
	FaceLit, FaceShade, Backlit, SideLit, FrontLit, SunPatch, SoftWindow, HighSun, Dark}

// Wish is a light wish with the figures that its kind asks for (Uses tells which). An unset figure takes the usual one.
type Wish struct {
	Kind        WishKind
	Direct      bool     // golden wishes: the sun itself must reach the place; otherwise its glow is enough
	Face        ID       // face lit, face in shade
	Incidence   *Angle   // face lit: the largest angle between the sun's ray and the face's normal; usual 80
	Camera      *Bearing // where the lens looks; backlit, side-lit and front-lit go by it, others only warn by it
	MaxAltitude *Angle   // backlit, side-lit, front-lit: the highest sun; usual 35
	MinAltitude *Angle   // high sun: the lowest sun; usual 35
	Below       *Angle   // dark: the sun is below this; usual -6
}

// The usual figures of a wish, in degrees: common practice, no published source.
const (
	UsualIncidence   Angle = 80
	UsualMaxAltitude Angle = 35
	UsualMinAltitude Angle = 35
	UsualDark        Angle = -6
)

// WishFigure is one of the figures a wish can carry.
type WishFigure string

// The figures, by the names they have in a plan file.
const (
	FigureDirect      WishFigure = "direct"
	FigureFace        WishFigure = "face"
	FigureIncidence   WishFigure = "incidence"
	FigureCamera      WishFigure = "camera"
	FigureMaxAltitude WishFigure = "max-altitude"
	FigureMinAltitude WishFigure = "min-altitude"
	FigureBelow       WishFigure = "below"
)

// Uses tells which figures a wish of this kind reads; the form shows these and the file accepts these.
func (k WishKind) Uses() []WishFigure {
	switch k {
	case GoldenMorning, GoldenEvening:
		return []WishFigure{FigureDirect, FigureCamera}
	case FaceLit:
		return []WishFigure{FigureFace, FigureIncidence, FigureCamera}
	case FaceShade:
		return []WishFigure{FigureFace, FigureCamera}
	case Backlit, SideLit, FrontLit:
		return []WishFigure{FigureCamera, FigureMaxAltitude}
	case HighSun:
		return []WishFigure{FigureMinAltitude, FigureCamera}
	case Dark:
		return []WishFigure{FigureBelow}
	}
	return []WishFigure{FigureCamera}
}

// NeedsCamera reports whether the wish goes by the camera's bearing, so that it can't be judged without one.
func (k WishKind) NeedsCamera() bool { return k == Backlit || k == SideLit || k == FrontLit }

// Role is what a person does in this job.
type Role string

// The roles.
const (
	Talent Role = "talent"
	Crew   Role = "crew"
	Client Role = "client"
	Owner  Role = "owner"
)

// Roles lists them in the order they are offered.
var Roles = []Role{Talent, Crew, Client, Owner}

// GuardianThere is where a minor's guardian is while the minor works.
type GuardianThere string

// Present, the usual one: at the property. Reachable: by phone.
const (
	Present   GuardianThere = "present"
	Reachable GuardianThere = "reachable"
)

// GuardiansThere lists them in the order they are offered.
var GuardiansThere = []GuardianThere{Present, Reachable}

// Person is anybody with a name in this job.
type Person struct {
	ID            ID
	Name          string
	Pronouns      string // "she/her", or a note on how to address them
	Role          Role
	Job           string // "camera", "drone pilot", "the grandmother"
	Phone         string
	Email         string
	Sizes         string // wardrobe sizes and notes
	Diet          string // allergies and diet, for the catering; a health note, for no sheet that all get
	Paid          bool
	Rate          ID            // what they are paid, on the rate card
	Born          Date          // where it is known; not printed
	Minor         bool          // a minor whatever Born says; MinorOn goes by both
	Guardian      ID            // for a minor: who signs
	GuardianThere GuardianThere // where the guardian is meanwhile
	Longest       Minutes       // at the property in one day, call to release, at most; 0 is no limit
	Work          Minutes       // in front of the camera in one day at most; 0 is no limit
	Travel        Minutes       // from their door to the property
	Availability  []Availability
	Certificate   Certificate // of a drone's pilot; printed on no sheet
	Weight        float64     // of a waiting minute, for this person; usually 1 (NewPerson)
	Change        Minutes     // that another look takes them; usually 15 (NewPerson)
	Notes         string
}

// Certificate is a drone pilot's. Without a number there is none.
type Certificate struct {
	Number  string
	Trained Date // last tested or trained for it
	Until   Date // it holds up to this day; zero where no such day stands on it
}

// Availability is a stretch in which a person can be at the property. A person without any is free all day, every day;
// a person with some is free only then.
type Availability struct {
	Date     Date
	From, To Clock
}

// Shooting holds when the day may be and the rules it is placed by. UsualShooting fills the rules.
type Shooting struct {
	Dates        []Date // candidates
	Date         Date   // the one chosen; zero: the best of the candidates
	Days         int    // that are shot on, 1 to 3; 0 is not said (DayCount)
	EarliestCall Clock
	LatestWrap   Clock
	Longest      Minutes // call to wrap
	Prepare      Minutes // crew call to the first set-up
	Ready        Minutes // a person's call before their first scene: welcome, wardrobe, briefing
	PackUp       Minutes // end of the last scene to wrap
	MealWithin   Minutes // of the call, and of the end of the meal before
	MealLength   Minutes
	MealApart    Minutes // from the end of one meal to the start of the next at least; no more than MealWithin
	Rest         Minutes // from one day's wrap to the next day's call at least
	Minors       ID      // the table of minors' hours that holds, of Plan.Hours or of package people; empty: none but what people say
	School       bool    // the shooting days are in a session of the minors' school
	Grid         Minutes // scenes start on multiples of this, 1 or more
	Weather      []Weather
	Kit          []Kit // what is there only at times
	Flying       Flying
	Weights      Weights
	Overtime     []Overtime // After rising
	Light        LightLimits
}

// Weather is what somebody expects of some hours of a day; it is theirs, not ours. Hours not covered are expected clear.
type Weather struct {
	Date     Date
	From, To Clock
	Cloud    int // how much of the sky is covered, in hundredths
	Rain     int // the chance of rain, in hundredths
}

// Kit is something hired, or borrowed with its operator, that is there only at times: a crane, a drone with its pilot. A
// scene whose own list of kit names it can be shot only then. Without any times it is there all day, every day.
type Kit struct {
	Name         string
	Availability []Availability
}

// FlightRules names the rules that hold for drones at the property. None: those of the local authority, which this program does
// not know.
type FlightRules string

// The rules that come with the program: 14 CFR part 107 of the United States, and the same in Alaska, whose twilight differs.
const (
	USPart107       FlightRules = "us-part-107"
	USPart107Alaska FlightRules = "us-part-107-alaska"
)

// FlightRuleNames lists them in the order they are offered.
var FlightRuleNames = []FlightRules{USPart107, USPart107Alaska}

// Flying is what the film's drone flights go by.
type Flying struct {
	Rules  FlightRules
	Read   Date // when the authority's rules were read and acknowledged
	ReadBy ID   // by whom
	Light  bool // the drone carries a flashing anti-collision light that is seen for 3 statute miles
}

// Overtime is a step of what a long day costs: each hour beyond After, from call to wrap, costs so many Points more, on top
// of Weights.Length and of the steps before.
type Overtime struct {
	After  Minutes
	Points float64
}

// Weights say what each kind of loss costs, in points.
type Weights struct {
	Light   float64 // a minute of a scene's light lost, times 1, 2 or 4 for nice, should and must
	Waiting float64 // a minute one person waits
	Minor   float64 // a waiting minute of a minor weighs this many times more
	Moving  float64 // a minute of moving kit
	Length  float64 // an hour of the day, call to wrap
	LeftOut float64 // a scene left out, times 1, 4 or 20 for nice, should and must
	Again   float64 // each further day that one person has to come to
	Day     float64 // each further shooting day that is used
}

// LightLimits are the sun's altitudes between which light is called golden or blue: usually -4 to +6 and -6 to -4
// degrees (common practice, no published source).
type LightLimits struct {
	GoldenLow, GoldenHigh Angle
	BlueLow, BlueHigh     Angle
}

// PaperSize is the sheet the papers are laid out for.
type PaperSize string

// The paper sizes. Letter is the usual one.
const (
	Letter PaperSize = "letter"
	A4     PaperSize = "a4"
)

// PaperSizes lists them in the order they are offered.
var PaperSizes = []PaperSize{Letter, A4}

// DateWords is the language, and with it the order, of the dates in the papers: a BCP 47 tag.
type DateWords string

// The languages of dates. English, the usual one, writes "Saturday 6 March 2027"; USEnglish "Saturday, March 6, 2027".
const (
	English   DateWords = "en"
	USEnglish DateWords = "en-US"
)

// DateLanguages lists them in the order they are offered.
var DateLanguages = []DateWords{English, USEnglish, "es", "fr", "de", "it", "nl", "pt", "pl", "sv", "da", "nb", "el", "cs"}

// HourClock is how the papers write the time of day.
type HourClock string

// The two clocks: 18:05, the usual one, and 6:05 pm.
const (
	Clock24 HourClock = "24h"
	Clock12 HourClock = "12h"
)

// HourClocks lists them in the order they are offered.
var HourClocks = []HourClock{Clock24, Clock12}

// PaperFacts is what the papers say that nothing else does.
type PaperFacts struct {
	Size     PaperSize
	Dates    DateWords
	Clock    HourClock
	Producer string // who makes the film, as it stands in the releases
	Access   string // how to get there
	Parking  string
	Hospital string // the nearest, with address and phone
	Safety   []string
	Notes    string
	Calendar Calendar
	Sheets   []SentSheet // by the day of the shoot
}

// LogEntry is what really happened to one scene on the day.
type LogEntry struct {
	Scene      ID
	Date       Date
	Start, End Clock
	Note       string
}
