package plan

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"
)

// Pricing is what the price of this job is worked out from: the plan's own copy of a rate card, and what holds for this job
// alone. Amounts are in the currency of the card.
type Pricing struct {
	Card      RateCard
	Distance  int // kilometres from the business to the property, one way
	Lines     []TypedLine
	Overrides []Override
	Unsure    Unsure
	Recording Recording
	WhatIf    WhatIf
	Asked     decimal.Decimal // the price that is asked for; 0: what the card makes of the floor
	Try       decimal.Decimal // a price to look at: what a friend would pay; 0: none
	Quoted    Date            // the day on the quote, from which it stands for the days of the terms; zero: not said
	Booked    Date            // when the client said yes, or is expected to
	Packages  []Package
	Market    []Offer
}

// RateCard is what people, kit and the business itself cost. It is kept in a file of its own, and plans carry a copy, so that
// a quote stays what it was when the card changes.
type RateCard struct {
	Name     string
	Starter  bool    // the figures are invented, to be replaced by the user's own
	Currency string  // ISO 4217
	TimeStep Minutes // paid time is rounded up to this; 0 or 1: to the minute
	Overtime []OvertimeRule
	Crew     []CrewRate
	Kit      []KitRate
	Rates    []Rate
	Business Business
	Terms    Terms
}

// Basis is what a crew rate is paid for.
type Basis string

// By the hour; by the day or half day of so many hours; or the owner's own time, which the yearly pay of Business values.
const (
	ByHour    Basis = "hour"
	ByDay     Basis = "day"
	ByHalfDay Basis = "half day"
	OwnTime   Basis = "owner"
)

// Bases lists them in the order they are offered.
var Bases = []Basis{ByHour, ByDay, ByHalfDay, OwnTime}

// CrewRate is one position of the crew, and what it is paid.
type CrewRate struct {
	ID       ID
	Name     string
	Basis    Basis
	Rate     decimal.Decimal // for an hour, a day or half a day
	Hours    Minutes         // that a day, or half a day, is
	Overtime ID              // the rule that holds; empty: none
	Travel   bool            // the way there and back is paid time
}

// OvertimeRule says when an hour is paid more, as data: the law of a place, or what people have agreed. An hour that is paid
// more by the day is not counted again by the week.
type OvertimeRule struct {
	ID          ID
	Name        string
	Source      string // the statute, or "common practice"
	Daily       []OvertimeStep
	Beyond      bool           // the steps of Daily begin after the hours that a day's rate is for
	Seventh     []OvertimeStep // instead of Daily, on the seventh day worked in one workweek
	Weekly      Minutes        // straight time in one workweek, before WeeklyTimes holds; 0: no such rule
	WeeklyTimes decimal.Decimal
}

// OvertimeStep is one step: after so much work in a day, an hour is paid so many times.
type OvertimeStep struct {
	After Minutes
	Times decimal.Decimal
}

// KitRate is what a piece of kit costs on a day of use: by straight-line depreciation where it is owned, by the day or the
// week where it is hired.
type KitRate struct {
	Name    string // as the scenes name it
	Always  bool   // it is used on every shooting day; otherwise on those with a scene that names it
	Owned   bool
	Cost    decimal.Decimal // owned: when bought
	Salvage decimal.Decimal // owned: when sold
	Years   int             // owned: until then
	Days    int             // owned: of use in a year
	Day     decimal.Decimal // hired
	Week    decimal.Decimal // hired, for up to seven days in a row; 0: by the day only
}

// Group is a part of the budget.
type Group string

// The groups, in the order of the budget.
const (
	CrewGroup     Group = "crew"
	TalentGroup   Group = "talent"
	KitGroup      Group = "kit"
	TravelGroup   Group = "travel"
	CateringGroup Group = "catering"
	LocationGroup Group = "location"
	DroneGroup    Group = "drone"
	PrepGroup     Group = "preparation"
	PostGroup     Group = "post-production"
	LicenceGroup  Group = "licences"
	InsureGroup   Group = "insurance"
	StorageGroup  Group = "storage"
	OtherGroup    Group = "other"
)

// Groups lists them in order.
var Groups = []Group{CrewGroup, TalentGroup, KitGroup, TravelGroup, CateringGroup, LocationGroup, DroneGroup, PrepGroup,
	PostGroup, LicenceGroup, InsureGroup, StorageGroup, OtherGroup}

// Measure is what a rate is counted by. The plan and its placed days give the number.
type Measure string

// The measures.
const (
	PerJob         Measure = "job"
	PerDay         Measure = "shooting day"
	PerScene       Measure = "scene"
	PerTalent      Measure = "person on camera"
	PerRelease     Measure = "release"
	PerMeal        Measure = "meal"          // one person at one meal
	PerHead        Measure = "person called" // one person on one day
	PerKilometre   Measure = "kilometre"     // there and back, each shooting day
	PerFlyingDay   Measure = "flying day"    // with a scene shot from the air
	PerDeliverable Measure = "deliverable"
	PerMinute      Measure = "finished minute"
	PerStill       Measure = "still"
	PerExposure    Measure = "exposure" // a bracketed still is several
	PerRound       Measure = "round of changes"
	PerCard        Measure = "memory card"
	PerDrive       Measure = "drive"
	PerBattery     Measure = "battery"
)

// Measures lists them in the order they are offered.
var Measures = []Measure{PerJob, PerDay, PerScene, PerTalent, PerRelease, PerMeal, PerHead, PerKilometre, PerFlyingDay,
	PerDeliverable, PerMinute, PerStill, PerExposure, PerRound, PerCard, PerDrive, PerBattery}

// Payer is who pays for a line.
type Payer string

// We do, out of the price; or the client or the agent does, directly, beside the price.
const (
	WePay      Payer = "us"
	ClientPays Payer = "client"
	AgentPays  Payer = "agent"
)

// Payers lists them in the order they are offered.
var Payers = []Payer{WePay, ClientPays, AgentPays}

// Rate is an amount of money, or a time of somebody in the crew, for each of something.
type Rate struct {
	ID      ID
	Name    string
	Group   Group
	Per     Measure
	For     DeliverableKind // only for deliverables of this kind; empty: all
	Amount  decimal.Decimal // for each; or
	Time    Minutes         // for each, of
	Who     ID              // a crew rate
	Low     int             // at best, in hundredths of what is said; 0: it is certain
	High    int             // at worst
	Untaxed bool
	Pays    Payer
	Note    string
}

// Business is what a year costs and holds.
type Business struct {
	Overheads []Overhead
	Days      int             // billable, in a year
	Hours     Minutes         // of one of them
	Pay       decimal.Decimal // the owner's, in a year
}

// Overhead is a cost of the year whatever is sold: insurance, health cover, software, the vehicle.
type Overhead struct {
	Name   string
	Yearly decimal.Decimal
}

// Terms turn a floor into a quote. Shares are in percent.
type Terms struct {
	Contingency decimal.Decimal // of the direct lines
	Margin      decimal.Decimal // of the price
	Discount    decimal.Decimal // of the price
	Step        decimal.Decimal // the price is rounded up to a multiple of this; 0: to the minor unit
	Taxes       []Tax
	TaxByLine   bool // tax is rounded line by line, not once for the whole quote
	Payments    []Payment
	Valid       int    // days that a quote stands
	Wording     string // what a quote says in small print, a paragraph a point; empty: the template that comes with the program
}

// Tax is a tax on the price.
type Tax struct {
	Name    string
	Percent decimal.Decimal
}

// Moment is what a payment's date is counted from.
type Moment string

// The moments.
const (
	AtBooking  Moment = "booking"
	AtShoot    Moment = "shoot"
	AtDelivery Moment = "delivery"
)

// Moments lists them in order.
var Moments = []Moment{AtBooking, AtShoot, AtDelivery}

// Payment is a part of the total and when it is due.
type Payment struct {
	Name    string
	Percent decimal.Decimal
	When    Moment
	Days    int // after it; below 0: before
}

// TypedLine is a line of the budget that nobody computed.
type TypedLine struct {
	ID       ID
	Group    Group
	Text     string
	Quantity decimal.Decimal
	Unit     string
	Rate     decimal.Decimal
	Untaxed  bool
	Pays     Payer
	Note     string
}

// Override stands in place of a part of a computed line, and outlives the next placing. A rate alone keeps the hours and what is
// paid more for some; hours alone keep what each is paid; both, or a number of days, are all that the line is.
type Override struct {
	Line     string // the line's id
	Out      bool   // the line does not count
	Quantity *decimal.Decimal
	Rate     *decimal.Decimal
	Pays     Payer
	Note     string
}

// Unsure is how far the job can turn out otherwise than thought.
type Unsure struct {
	Early, Late Minutes // that each day may wrap before or after the placed wrap
	Rounds      int     // of changes that are likely
	MostRounds  int
	Weather     int // the chance that weather costs a further day, in hundredths
}

// Recording is how the film is recorded and kept; cards, drives and batteries follow from it.
type Recording struct {
	Ratio      float64 // seconds recorded for one on screen, of films; cut-downs are cut from the same
	Bitrate    float64 // Mbit/s
	Megapixels float64 // of a still
	Bits       int     // of a pixel, raw
	Packed     bool    // the raw files are compressed
	Card       int     // GB that a card holds
	Drive      int     // GB that a drive holds
	Offload    int     // MB a second that cards are read
	Copies     int     // in all
	OnDrives   int     // of them
	Elsewhere  int     // of them, at another place
	Batteries  []Battery
}

// Battery is one kind of battery.
type Battery struct {
	Name   string
	Lasts  Minutes
	Spare  int  // percent on top
	Flying bool // it is needed while scenes are shot from the air; otherwise from call to wrap
}

// WhatIf is what the questions of what would change are asked with.
type WhatIf struct {
	Talent ID          // the rate of the crew that paid talent would get
	Camera ID          // that a second camera would get
	Saves  int         // of the shooting minutes, in percent, that a second camera would save
	More   Deliverable // the further deliverable
}

// Package is one of several things offered from one plan.
type Package struct {
	Name         string
	Scenes       []ID     // none named means all
	Deliverables []string // by name; none named means all
}

// Offer is what somebody nearby asks for something alike, as the user has noted it.
type Offer struct {
	Who      string
	Amount   decimal.Decimal
	Includes string
	Noted    Date
}

// DeliverableKind tells what a deliverable asks of the editing.
type DeliverableKind string

// The kinds.
const (
	Film    DeliverableKind = "film"
	CutDown DeliverableKind = "cut-down"
	Stills  DeliverableKind = "stills"
	Extra   DeliverableKind = "other"
)

// DeliverableKinds lists them in the order they are offered.
var DeliverableKinds = []DeliverableKind{Film, CutDown, Stills, Extra}

// Or returns the basis, by the hour where none was said.
func (b Basis) Or() Basis { return cmp.Or(b, ByHour) }

// Or returns the group, OtherGroup where none was said.
func (g Group) Or() Group { return cmp.Or(g, OtherGroup) }

// Or returns the measure, PerJob where none was said.
func (m Measure) Or() Measure { return cmp.Or(m, PerJob) }

// Or returns the payer, WePay where none was said.
func (p Payer) Or() Payer { return cmp.Or(p, WePay) }

// Or returns the moment, AtBooking where none was said.
func (m Moment) Or() Moment { return cmp.Or(m, AtBooking) }

// KindOr returns the kind: where none was said, stills for what has no running time but frames, else a film.
func (d Deliverable) KindOr() DeliverableKind {
	switch {
	case d.Kind != "":
		return d.Kind
	case d.Stills > 0:
		return Stills
	case d.Seconds > 0:
		return Film
	}
	return Extra
}

// CrewRate returns the card's crew rate with that id.
func (c *RateCard) CrewRate(id ID) (CrewRate, bool) {
	return find(c.Crew, func(r CrewRate) bool { return r.ID == id })
}

// Rule returns the card's overtime rule with that id.
func (c *RateCard) Rule(id ID) (OvertimeRule, bool) {
	return find(c.Overtime, func(r OvertimeRule) bool { return r.ID == id })
}

// Empty reports a card on which nothing has been written.
func (c *RateCard) Empty() bool {
	return len(c.Crew) == 0 && len(c.Kit) == 0 && len(c.Rates) == 0 && len(c.Business.Overheads) == 0 && c.Business.Pay.IsZero()
}

// Clone returns a card that shares nothing with c.
func (c RateCard) Clone() RateCard {
	c.Overtime = slices.Clone(c.Overtime)
	for i, r := range c.Overtime {
		c.Overtime[i].Daily, c.Overtime[i].Seventh = slices.Clone(r.Daily), slices.Clone(r.Seventh)
	}
	c.Crew, c.Kit, c.Rates = slices.Clone(c.Crew), slices.Clone(c.Kit), slices.Clone(c.Rates)
	c.Business.Overheads = slices.Clone(c.Business.Overheads)
	c.Terms.Taxes, c.Terms.Payments = slices.Clone(c.Terms.Taxes), slices.Clone(c.Terms.Payments)
	return c
}

// clone: a decimal is never written through, so its copy is as good.
func (p Pricing) clone() Pricing {
	p.Card = p.Card.Clone()
	p.Lines, p.Market = slices.Clone(p.Lines), slices.Clone(p.Market)
	p.Overrides = slices.Clone(p.Overrides)
	for i, o := range p.Overrides {
		p.Overrides[i].Quantity, p.Overrides[i].Rate = copied(o.Quantity), copied(o.Rate)
	}
	p.Recording.Batteries = slices.Clone(p.Recording.Batteries)
	p.WhatIf.More.Scenes = slices.Clone(p.WhatIf.More.Scenes)
	p.Packages = slices.Clone(p.Packages)
	for i, k := range p.Packages {
		p.Packages[i].Scenes, p.Packages[i].Deliverables = slices.Clone(k.Scenes), slices.Clone(k.Deliverables)
	}
	return p
}
