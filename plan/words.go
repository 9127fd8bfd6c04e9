package plan

import "eavelight/plan/say"

// The problems of a document by itself. Other packages add theirs to the same table of wordings here, so that one thing
// is said one way everywhere.
const (
	DuplicateID     Code = "duplicate-id"
	DuplicateNumber Code = "duplicate-number"
	DuplicateMove   Code = "duplicate-move"
	DanglingID      Code = "dangling-id"
	NamedTwice      Code = "named-twice"
	MissingID       Code = "missing-id"
	BadID           Code = "bad-id"
	OutOfRange      Code = "out-of-range"
	NotOneOf        Code = "not-one-of"
	EndsBeforeStart Code = "ends-before-start"
	SillOverHead    Code = "sill-over-head"
	UnusedFigure    Code = "unused-figure"
	Cycle           Code = "cycle"
	BadZone         Code = "bad-zone"
	BadCurrency     Code = "bad-currency"
	MissingDate     Code = "missing-date"
	NoDate          Code = "no-date"
	TooLong         Code = "too-long"
	SelfReference   Code = "self-reference"
	MissingName     Code = "missing-name"
	DuplicateName   Code = "duplicate-name"
	MissingTime     Code = "missing-time"
	TimesOverlap    Code = "times-overlap"
	NotInScene      Code = "not-in-scene"
	ValuesAndWish   Code = "values-and-wish"
	MealsApart      Code = "meals-apart"
	NotRising       Code = "not-rising"
	BornLater       Code = "born-later"
	BadDigest       Code = "bad-digest"
	NoConsent       Code = "no-consent"
	NoStrokes       Code = "no-strokes"
	TooManyStrokes  Code = "too-many-strokes"
	OffPad          Code = "off-pad"
	MissingInstant  Code = "missing-instant"
	MissingText     Code = "missing-text"
	UnknownField    Code = "unknown-field"
	LooseBrace      Code = "loose-brace"
	MissingHours    Code = "missing-hours"
	MissingUse      Code = "missing-use"
	PaysLess        Code = "pays-less"
	TimeOrAmount    Code = "time-or-amount"
	PaymentsNot100  Code = "payments-not-100"
	AgesEnd         Code = "ages-end"
	AgesOverlap     Code = "ages-overlap"
	AgesGap         Code = "ages-gap"
	NoTimeThere     Code = "no-time-there"
	MoreThanThere   Code = "more-than-there"
	LatestTooEarly  Code = "latest-too-early"
	MissingSource   Code = "missing-source"
	HourRows        Code = "hour-rows"
	NotBelow        Code = "not-below"
	TooManyPictures Code = "too-many-pictures"

	LackTitle        Code = "lack-title"
	LackClient       Code = "lack-client"
	LackDeliverables Code = "lack-deliverables"
	LackPosition     Code = "lack-position"
	LackZone         Code = "lack-zone"
	LackFaces        Code = "lack-faces"
	LackSpaces       Code = "lack-spaces"
	LackScenes       Code = "lack-scenes"
	LackSpaceOf      Code = "lack-space-of"
	LackFaceOf       Code = "lack-face-of"
	LackCameraOf     Code = "lack-camera-of"
	LackWindowsOf    Code = "lack-windows-of"
	LackMinutesOf    Code = "lack-minutes-of"
	LackPeople       Code = "lack-people"
	LackGuardian     Code = "lack-guardian"
	LackDates        Code = "lack-dates"
	LackHospital     Code = "lack-hospital"
	LackCard         Code = "lack-card"
	LackCurrency     Code = "lack-currency"
	LackRate         Code = "lack-rate"
	LackBillable     Code = "lack-billable"
	NotPlaced        Code = "not-placed"
	StarterCard      Code = "starter-card"
	OverrideGone     Code = "override-gone"
	MealLate         Code = "meal-late"
	MealSecond       Code = "meal-second"
	NightShort       Code = "night-short"
	LackAccess       Code = "lack-access"
	SecondsShort     Code = "seconds-short"

	NeverLight     Code = "never-light"
	NeverFree      Code = "never-free"
	NeverBoth      Code = "never-both"
	PinForbidden   Code = "pin-forbidden"
	LeftOutClash   Code = "left-out-clash"
	NoHourTable    Code = "no-hour-table"
	NoBirth        Code = "no-birth"
	LeftOutHours   Code = "left-out-hours"
	LeftOutAlone   Code = "left-out-alone"
	LeftOutCheap   Code = "left-out-cheap"
	LeftOutUnknown Code = "left-out-unknown"
	WindowFull     Code = "window-full"
	TooManyPeople  Code = "too-many-people"
	TooManyHours   Code = "too-many-hours"
	TooManyScenes  Code = "too-many-scenes"
	LightPoor      Code = "light-poor"
	CloudExpected  Code = "cloud-expected"
	RainExpected   Code = "rain-expected"
	SunInFrame     Code = "sun-in-frame"
	ShadowInFrame  Code = "shadow-in-frame"
	LongDay        Code = "long-day"
	WaitsLong      Code = "waits-long"
	NotSigned      Code = "not-signed"
	NotHolding     Code = "not-holding"
	TextChanged    Code = "text-changed"
	ScanMissing    Code = "scan-missing"
	ScanNoFile     Code = "scan-no-file"
	ScanChanged    Code = "scan-changed"
	ScanTooLarge   Code = "scan-too-large"
	ScanEmpty      Code = "scan-empty"
	ScanUnreadable Code = "scan-unreadable"
	GuardianAbsent Code = "guardian-absent"
	NoBound        Code = "no-bound"

	FlightNoPilot    Code = "flight-no-pilot"
	FlightCertEnds   Code = "flight-cert-ends"
	FlightUntrained  Code = "flight-untrained"
	FlightLapsed     Code = "flight-lapsed"
	FlightUnread     Code = "flight-unread"
	FlightUnwritten  Code = "flight-unwritten"
	FlightDark       Code = "flight-dark"
	FlightUnknown    Code = "flight-unknown"
	FlightOverPeople Code = "flight-over-people"
)

var wordings = map[Code]string{
	DuplicateID:     say.Mark("the id %q is used twice, first at %s; give each its own"),
	DuplicateNumber: say.Mark("scene number %q is used twice, first at %s; give each its own"),
	DuplicateMove:   say.Mark("the move between %s and %s is told twice, first at %s; keep one"),
	DanglingID:      say.Mark("there is no %s with the id %q%s"),
	NamedTwice:      say.Mark("%q stands here twice; take one out"),
	MissingID:       say.Mark("this needs an id that others can refer to, such as %q"),
	BadID:           say.Mark("the id %q may hold only letters, digits and hyphens, at most 40 of them"),
	OutOfRange:      say.Mark("%v is outside %v to %v"),
	NotOneOf:        say.Mark("%q is none of %s%s"),
	EndsBeforeStart: say.Mark("it ends at %v, which is not after its start at %v"),
	SillOverHead:    say.Mark("the sill at %v is not below the head at %v"),
	UnusedFigure:    say.Mark("a %s wish takes no %s; take it out or choose another wish"),
	Cycle:           say.Mark("scene %s would have to come before itself (%s)"),
	BadZone:         say.Mark("%q is not a time zone; write an IANA name such as Europe/Paris, or leave it out and set the position"),
	BadCurrency:     say.Mark("%q is not a currency code; write three capital letters (ISO 4217) such as USD"),
	MissingDate:     say.Mark("a date is needed here; write year-month-day, or take the row out"),
	NoDate:          say.Mark("%s is not a day of the calendar"),
	TooLong:         say.Mark("this is longer than %d characters"),
	SelfReference:   say.Mark("this refers to itself"),
	MissingName:     say.Mark("a name is needed here"),
	DuplicateName:   say.Mark("the name %q is used twice, first at %s; give each its own"),
	MissingTime:     say.Mark("a time is needed here, as in 18:30"),
	TimesOverlap:    say.Mark("it overlaps with %v to %v; let one end where the other begins"),
	NotInScene:      say.Mark("%s is not in scene %s; add them to its people, or take the look out"),
	ValuesAndWish:   say.Mark("light by the clock stands in place of the wish %s; take the values out, or make the wish any"),
	MealsApart:      say.Mark("meals can't be at least %v apart and yet within %v of each other; lower the one or raise the other"),
	NotRising:       say.Mark("%v is not after the step before it, at %v; put the steps in rising order, each later than the last"),
	BornLater:       say.Mark("%s is after %s, a day that may be shot on; put the day of birth right, or the date"),
	BadDigest:       say.Mark("this is no SHA-256 sum, which has 64 figures and letters from a to f"),
	NoConsent:       say.Mark("a signature counts only with the consent to sign electronically; sign again with it, or take the signature out"),
	NoStrokes:       say.Mark("nothing is drawn here; sign again, or take the signature out"),
	TooManyStrokes:  say.Mark("a signature holds at most %d strokes and %d points; sign again, or take the signature out"),
	OffPad:          say.Mark("the point %s lies off the pad of %d by %d"),
	MissingInstant:  say.Mark("the date and time are needed here, as in 2027-03-06T18:30:00Z"),
	MissingText:     say.Mark("a text is needed here"),
	UnknownField:    say.Mark("in line %d there is no field {%.30s}%s"),
	LooseBrace:      say.Mark("in line %d a { or } stands alone; a field is written as in {party}"),
	AgesEnd:         say.Mark("the row ends at %v, which is not after its beginning at %v"),
	AgesOverlap:     say.Mark("the row begins at %v, before the one above ends at %v; put the ages in rising order"),
	AgesGap:         say.Mark("nothing is said of the ages from %v to %v"),
	NoTimeThere:     say.Mark("the time at the place is nothing; who may not come at all needs no row"),
	MoreThanThere:   say.Mark("%s can't be %v, longer than the time at the place, %v"),
	LatestTooEarly:  say.Mark("the latest time, %v, is not after the earliest, %v"),
	MissingSource:   say.Mark("a table of hours says where its figures are from; write its source in"),
	HourRows:        say.Mark("a table of hours has 1 to %d rows; this one has %d"),
	NotBelow:        say.Mark("%q does not lie below the folder of the plan; write its path from there, with / between the folders"),
	TooManyPictures: say.Mark("a scene has at most %d pictures; this one has %d"),

	MissingHours:   say.Mark("a rate by the %s needs the hours that it is for"),
	MissingUse:     say.Mark("%s is owned, so it needs the years it is kept and the days it is used in a year"),
	PaysLess:       say.Mark("%v times is less than an hour was paid before; overtime pays as much or more"),
	TimeOrAmount:   say.Mark("a rate is either an amount of money, or a time of somebody in the crew"),
	PaymentsNot100: say.Mark("the payments add up to %v percent; they need to make 100"),

	LackTitle:        say.Mark("the plan has no title"),
	LackClient:       say.Mark("no client is named"),
	LackDeliverables: say.Mark("nothing to deliver is listed"),
	LackPosition:     say.Mark("the position is not set, so the light can't be computed"),
	LackZone:         say.Mark("the time zone is not set"),
	LackFaces:        say.Mark("no face of the house is described"),
	LackSpaces:       say.Mark("no space is described"),
	LackScenes:       say.Mark("there is no scene yet"),
	LackSpaceOf:      say.Mark("scene %s has no space"),
	LackFaceOf:       say.Mark("scene %s wants light on a face but names none"),
	LackCameraOf:     say.Mark("scene %s wants light by the camera's bearing but gives none"),
	LackWindowsOf:    say.Mark("scene %s wants light through windows, but its space looks toward no face"),
	LackMinutesOf:    say.Mark("scene %s has no shooting minutes"),
	LackPeople:       say.Mark("nobody is listed"),
	LackGuardian:     say.Mark("%s is a minor and has no guardian named"),
	LackDates:        say.Mark("no date is proposed"),
	LackHospital:     say.Mark("the nearest hospital is not filled in"),
	LackCard:         say.Mark("there is no rate card; take the starter card and put your own figures in, or open yours"),
	LackCurrency:     say.Mark("the rate card names no currency"),
	LackRate:         say.Mark("%s has no rate, so their hours cost nothing here"),
	LackBillable:     say.Mark("the rate card says what a year costs, but not how many days of how many hours it is shared out among"),
	NotPlaced:        say.Mark("no day is placed yet, so there are no crew hours in the price"),
	StarterCard:      say.Mark("the figures come from the starter card and are invented; put your own in before you quote"),
	OverrideGone:     say.Mark("the line %s, which you have changed, is not in the budget any more; your change waits for it to come back"),
	MealLate:         say.Mark("on %s the first meal comes %s after the call; in some places one is owed within 5 h (California Labor Code 512(a)), and without it an hour's pay (226.7(c)). Local law decides"),
	MealSecond:       say.Mark("%s has %s of work and one meal; in some places a second one is owed beyond 10 h (California Labor Code 512(a)). Local law decides"),
	NightShort:       say.Mark("before %s the crew has %s from wrap to call; many places ask for 11 h (Working Time Regulations 1998, reg. 10). Local law decides"),
	LackAccess:       say.Mark("how to get there is not filled in"),
	SecondsShort:     say.Mark("the scenes add up to %d s on screen, the longest film is %d s"),

	NeverLight:     say.Mark("the light that scene %s wants (%s) does not come on %s"),
	NeverFree:      say.Mark("scene %s needs %s, who is not there long enough on %s (%s)"),
	NeverBoth:      say.Mark("scene %s wants %s (%s), but %s"),
	PinForbidden:   say.Mark("scene %s is pinned to %s, where it can't be shot: %s"),
	LeftOutClash:   say.Mark("scene %s is left out: it does not fit beside %s. Move one to another date, shorten one, or drop one"),
	NoHourTable:    say.Mark("there is no table of minors' hours called %q; those there are: %s"),
	NoBirth:        say.Mark("%s is a minor without a day of birth, so the table of minors' hours can't be asked; write it in, or give their hours by hand"),
	LeftOutHours:   say.Mark("scene %s is left out: beside %s it would be more than the hours of %s. Local law decides about hours; shorten a scene, or move one to another date"),
	LeftOutAlone:   say.Mark("scene %s is left out: it does not fit into this day at all, not even alone, because of %s"),
	LeftOutUnknown: say.Mark("scene %s is left out: no place was found for it in the time given to the search"),
	WindowFull:     say.Mark("scenes %s need the same %s window, %s. Together %d minutes into %d: shorten by %d, move one to another light, or add a second day"),
	TooManyPeople:  say.Mark("more than 64 people in different scenes are more than one day can be planned with; split the plan into two"),
	TooManyHours:   say.Mark("more than %d people in different scenes have a limit of hours; say it for those whose hours could be too long"),
	TooManyScenes:  say.Mark("%d scenes are more than one day can be planned with (%d at most); split the plan into two"),
	LeftOutCheap:   say.Mark("scene %s is left out: keeping it would cost the day more than leaving it out (it is only %s)"),
	LightPoor:      say.Mark("scene %s keeps only %d%% of its light"),
	CloudExpected:  say.Mark("scene %s wants the sun itself, and %d%% cloud is expected; %s"),
	RainExpected:   say.Mark("scene %s is outside, and the chance of rain is %d%%; %s"),
	SunInFrame:     say.Mark("scene %s has the sun in the frame %s; never look at it through a lens"),
	ShadowInFrame:  say.Mark("scene %s has the camera's own shadow in the frame %s"),
	LongDay:        say.Mark("the day is %s from call to wrap; overtime and meal rules may apply (local law decides)"),
	WaitsLong:      say.Mark("%s waits %s"),
	NotSigned:      say.Mark("%s: the %s release is %s, not signed"),
	NotHolding:     say.Mark("%s: the %s release is signed, but does not count: %s"),
	TextChanged:    say.Mark("the text has changed since it was signed; have it signed again, or bring back what it said"),
	ScanMissing:    say.Mark("the scan %s is not there; put it back, or name another"),
	ScanNoFile:     say.Mark("the scan %s is %s, not a file; name the file"),
	ScanChanged:    say.Mark("the scan %s is not what it was when it was filed; look at it, and file it again or put the old one back"),
	ScanTooLarge:   say.Mark("the scan %s is larger than %d GB, so it is no scan of a paper; name another"),
	ScanEmpty:      say.Mark("the scan %s is an empty file; scan the paper again, or name another"),
	ScanUnreadable: say.Mark("the scan %s can't be read (%v)"),
	GuardianAbsent: say.Mark("%s is a minor; %s, the guardian, is not called for all of that time and must be there all the same"),
	NoBound:        say.Mark("this placement is the best found, not proven best"),

	FlightNoPilot:    say.Mark("%s, and nobody of the crew has a drone pilot's certificate; fill it in with the pilot"),
	FlightCertEnds:   say.Mark("%s, and the certificate of %s ends on %s, before the day; have it renewed"),
	FlightUntrained:  say.Mark("%s, and no test or training of %s before the day is filled in; fill it in with their certificate"),
	FlightLapsed:     say.Mark("%s, and the training of %s holds only to %s (24 calendar months, 107.65); it must be done again before the day"),
	FlightUnread:     say.Mark("%s, and nobody has said by then that they read the rules of the local aviation authority; say it with the rules of the day"),
	FlightUnwritten:  say.Mark("%s, and no drone release covers that; add one"),
	FlightDark:       say.Mark("scene %s is flown %s, and %s; %s"),
	FlightUnknown:    say.Mark("scene %s is flown, and %s, so the rules can't tell its light; ask the local aviation authority"),
	FlightOverPeople: say.Mark("scene %s is flown with %s in it: not over people who take no part in the flight%s; ask the pilot where they may stand"),
}
