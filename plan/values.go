package plan

import "eavelight/plan/say"

// The values that have a word in a plan file have it on screen as well, in the reader's tongue: In of each. A value that is
// none of ours is said as it stands.

func worded[V ~string](forms map[V]string, v V, tongue say.Tongue) string {
	if form, ok := forms[v]; ok {
		return tongue.Form(form)
	}
	return string(v)
}

var spaceKindForms = map[SpaceKind]string{
	Indoor:  say.Mark("space|indoor"),
	Outdoor: say.Mark("space|outdoor"),
	Aerial:  say.Mark("space|aerial"),
}

// In is the word for it in a tongue.
func (v SpaceKind) In(tongue say.Tongue) string { return worded(spaceKindForms, v, tongue) }

var importanceForms = map[Importance]string{
	Must:   say.Mark("importance|must"),
	Should: say.Mark("importance|should"),
	Nice:   say.Mark("importance|nice"),
}

// In is the word for it in a tongue.
func (v Importance) In(tongue say.Tongue) string { return worded(importanceForms, v, tongue) }

var wishKindForms = map[WishKind]string{
	Any:           say.Mark("light|any"),
	Daylight:      say.Mark("light|daylight"),
	GoldenMorning: say.Mark("light|golden morning"),
	GoldenEvening: say.Mark("light|golden evening"),
	BlueMorning:   say.Mark("light|blue morning"),
	BlueEvening:   say.Mark("light|blue evening"),
	Sunrise:       say.Mark("light|sunrise"),
	Sunset:        say.Mark("light|sunset"),
	FaceLit:       say.Mark("light|face lit"),
	FaceShade:     say.Mark("light|face in shade"),
	Backlit:       say.Mark("light|backlit"),
	SideLit:       say.Mark("light|side-lit"),
	FrontLit:      say.Mark("light|front-lit"),
	SunPatch:      say.Mark("light|sun patch"),
	SoftWindow:    say.Mark("light|soft window"),
	HighSun:       say.Mark("light|high sun"),
	Dark:          say.Mark("light|dark"),
}

// In is the word for it in a tongue.
func (v WishKind) In(tongue say.Tongue) string { return worded(wishKindForms, v, tongue) }

var wishFigureForms = map[WishFigure]string{
	FigureDirect:      say.Mark("figure|direct"),
	FigureFace:        say.Mark("figure|face"),
	FigureIncidence:   say.Mark("figure|incidence"),
	FigureCamera:      say.Mark("figure|camera"),
	FigureMaxAltitude: say.Mark("figure|max-altitude"),
	FigureMinAltitude: say.Mark("figure|min-altitude"),
	FigureBelow:       say.Mark("figure|below"),
}

// In is the word for it in a tongue.
func (v WishFigure) In(tongue say.Tongue) string { return worded(wishFigureForms, v, tongue) }

var roleForms = map[Role]string{
	Talent: say.Mark("role|talent"),
	Crew:   say.Mark("role|crew"),
	Client: say.Mark("role|client"),
	Owner:  say.Mark("role|owner"),
}

// In is the word for it in a tongue.
func (v Role) In(tongue say.Tongue) string { return worded(roleForms, v, tongue) }

var guardianThereForms = map[GuardianThere]string{
	Present:   say.Mark("guardian|present"),
	Reachable: say.Mark("guardian|reachable"),
}

// In is the word for it in a tongue.
func (v GuardianThere) In(tongue say.Tongue) string { return worded(guardianThereForms, v, tongue) }

var releaseKindForms = map[ReleaseKind]string{
	ModelRelease:     say.Mark("release|model"),
	MinorRelease:     say.Mark("release|minor"),
	PropertyRelease:  say.Mark("release|property"),
	MusicRelease:     say.Mark("release|music"),
	ArtworkRelease:   say.Mark("release|artwork"),
	NeighbourRelease: say.Mark("release|neighbour"),
	PetRelease:       say.Mark("release|pet"),
	DroneRelease:     say.Mark("release|drone"),
}

// In is the word for it in a tongue.
func (v ReleaseKind) In(tongue say.Tongue) string { return worded(releaseKindForms, v, tongue) }

var releaseStatusForms = map[ReleaseStatus]string{
	Needed:   say.Mark("release|needed"),
	Sent:     say.Mark("release|sent"),
	Signed:   say.Mark("release|signed"),
	Declined: say.Mark("release|declined"),
	Lapsed:   say.Mark("release|lapsed"),
}

// In is the word for it in a tongue.
func (v ReleaseStatus) In(tongue say.Tongue) string { return worded(releaseStatusForms, v, tongue) }

var basisForms = map[Basis]string{
	ByHour:    say.Mark("paid by the|hour"),
	ByDay:     say.Mark("paid by the|day"),
	ByHalfDay: say.Mark("paid by the|half day"),
	OwnTime:   say.Mark("paid by the|owner"),
}

// In is the word for it in a tongue.
func (v Basis) In(tongue say.Tongue) string { return worded(basisForms, v, tongue) }

var groupForms = map[Group]string{
	CrewGroup:     say.Mark("budget|crew"),
	TalentGroup:   say.Mark("budget|talent"),
	KitGroup:      say.Mark("budget|kit"),
	TravelGroup:   say.Mark("budget|travel"),
	CateringGroup: say.Mark("budget|catering"),
	LocationGroup: say.Mark("budget|location"),
	DroneGroup:    say.Mark("budget|drone"),
	PrepGroup:     say.Mark("budget|preparation"),
	PostGroup:     say.Mark("budget|post-production"),
	LicenceGroup:  say.Mark("budget|licences"),
	InsureGroup:   say.Mark("budget|insurance"),
	StorageGroup:  say.Mark("budget|storage"),
	OtherGroup:    say.Mark("budget|other"),
}

// In is the word for it in a tongue.
func (v Group) In(tongue say.Tongue) string { return worded(groupForms, v, tongue) }

var measureForms = map[Measure]string{
	PerJob:         say.Mark("for each|job"),
	PerDay:         say.Mark("for each|shooting day"),
	PerScene:       say.Mark("for each|scene"),
	PerTalent:      say.Mark("for each|person on camera"),
	PerRelease:     say.Mark("for each|release"),
	PerMeal:        say.Mark("for each|meal"),
	PerHead:        say.Mark("for each|person called"),
	PerKilometre:   say.Mark("for each|kilometre"),
	PerFlyingDay:   say.Mark("for each|flying day"),
	PerDeliverable: say.Mark("for each|deliverable"),
	PerMinute:      say.Mark("for each|finished minute"),
	PerStill:       say.Mark("for each|still"),
	PerExposure:    say.Mark("for each|exposure"),
	PerRound:       say.Mark("for each|round of changes"),
	PerCard:        say.Mark("for each|memory card"),
	PerDrive:       say.Mark("for each|drive"),
	PerBattery:     say.Mark("for each|battery"),
}

// In is the word for it in a tongue.
func (v Measure) In(tongue say.Tongue) string { return worded(measureForms, v, tongue) }

var payerForms = map[Payer]string{
	WePay:      say.Mark("payer|us"),
	ClientPays: say.Mark("payer|client"),
	AgentPays:  say.Mark("payer|agent"),
}

// In is the word for it in a tongue.
func (v Payer) In(tongue say.Tongue) string { return worded(payerForms, v, tongue) }

var momentForms = map[Moment]string{
	AtBooking:  say.Mark("from|booking"),
	AtShoot:    say.Mark("from|shoot"),
	AtDelivery: say.Mark("from|delivery"),
}

// In is the word for it in a tongue.
func (v Moment) In(tongue say.Tongue) string { return worded(momentForms, v, tongue) }

var deliverableKindForms = map[DeliverableKind]string{
	Film:    say.Mark("deliverable|film"),
	CutDown: say.Mark("deliverable|cut-down"),
	Stills:  say.Mark("deliverable|stills"),
	Extra:   say.Mark("deliverable|other"),
}

// In is the word for it in a tongue.
func (v DeliverableKind) In(tongue say.Tongue) string { return worded(deliverableKindForms, v, tongue) }

var paperSizeForms = map[PaperSize]string{
	Letter: say.Mark("paper|letter"),
	A4:     say.Mark("paper|a4"),
}

// In is the word for it in a tongue.
func (v PaperSize) In(tongue say.Tongue) string { return worded(paperSizeForms, v, tongue) }

var wordingFieldForms = map[string]string{
	"film":         say.Mark("field|film"),
	"property":     say.Mark("field|property"),
	"address":      say.Mark("field|address"),
	"producer":     say.Mark("field|producer"),
	"client":       say.Mark("field|client"),
	"agent":        say.Mark("field|agent"),
	"party":        say.Mark("field|party"),
	"guardian":     say.Mark("field|guardian"),
	"subject":      say.Mark("field|subject"),
	"scenes":       say.Mark("field|scenes"),
	"media":        say.Mark("field|media"),
	"territory":    say.Mark("field|territory"),
	"term":         say.Mark("field|term"),
	"compensation": say.Mark("field|compensation"),
	"date":         say.Mark("field|date"),
}

// FieldsSaid are the words for fields of a wording that are told to be filled in. In the wording itself they keep their names.
func FieldsSaid(fields []string) say.Text {
	var parts []say.Text
	for _, f := range fields {
		form, ok := wordingFieldForms[f]
		if !ok {
			parts = append(parts, say.Plain(f))
			continue
		}
		parts = append(parts, say.Marked(form))
	}
	return say.Join(", ", parts...)
}
