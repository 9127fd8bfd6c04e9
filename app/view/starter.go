package view

import (
	"slices"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/say"
)

// starterForms are the words of the starter card, which its file has in English.
var starterForms = []string{
	say.Mark("starter|Starter card"), say.Mark("starter|No overtime"),
	say.Mark("starter|an agreement; common practice, no published source"),
	say.Mark("starter|California, by the day and the week"), say.Mark("starter|Beyond 40 hours a week"),
	say.Mark("starter|Beyond the hours of the day rate"), say.Mark("starter|common practice, no published source"),
	say.Mark("starter|Owner"), say.Mark("starter|Camera"), say.Mark("starter|Drone pilot"), say.Mark("starter|Assistant"),
	say.Mark("starter|Editor"), say.Mark("starter|Paid talent"), say.Mark("starter|Camera body and lenses"),
	say.Mark("starter|gimbal"), say.Mark("starter|slider"), say.Mark("starter|drone"), say.Mark("starter|macro lens"),
	say.Mark("starter|Scouting visit"), say.Mark("starter|Shot planning"), say.Mark("starter|Finding and briefing people"),
	say.Mark("starter|Releases"), say.Mark("starter|Driving"), say.Mark("starter|Meals"), say.Mark("starter|Water and fruit"),
	say.Mark("starter|Drone insurance and notices"), say.Mark("starter|Editing"), say.Mark("starter|Cut-downs"),
	say.Mark("starter|Colour"), say.Mark("starter|Sound and music cut"), say.Mark("starter|Changes"),
	say.Mark("starter|Retouching"), say.Mark("starter|Music licence"), say.Mark("starter|Typeface licence"),
	say.Mark("starter|Liability cover of the day"), say.Mark("starter|Drives and archive"), say.Mark("starter|Insurance"),
	say.Mark("starter|Health cover"), say.Mark("starter|Software"), say.Mark("starter|Vehicle"),
	say.Mark("starter|Bookkeeping and office"), say.Mark("starter|Sales tax"), say.Mark("starter|On booking"),
	say.Mark("starter|Before the shoot"), say.Mark("starter|On delivery"),
}

// SayStarter puts the words of the starter card into the language of the window: a card that is taken is the user's from then on, and
// its kit is found by the names that the ready-made scenes have for it. The names of laws stay.
func SayStarter(c *plan.RateCard) {
	for _, words := range cardWords(c) {
		if form := "starter|" + *words; slices.Contains(starterForms, form) {
			*words = tongue.Marked(form)
		}
	}
}

// cardWords are what people read of a card: names, and where rules are from.
func cardWords(c *plan.RateCard) []*string {
	out := []*string{&c.Name}
	for i := range c.Overtime {
		out = append(out, &c.Overtime[i].Name, &c.Overtime[i].Source)
	}
	for i := range c.Crew {
		out = append(out, &c.Crew[i].Name)
	}
	for i := range c.Kit {
		out = append(out, &c.Kit[i].Name)
	}
	for i := range c.Rates {
		out = append(out, &c.Rates[i].Name)
	}
	for i := range c.Business.Overheads {
		out = append(out, &c.Business.Overheads[i].Name)
	}
	for i := range c.Terms.Taxes {
		out = append(out, &c.Terms.Taxes[i].Name)
	}
	for i := range c.Terms.Payments {
		out = append(out, &c.Terms.Payments[i].Name)
	}
	return out
}
