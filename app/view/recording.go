package view

import (
	"cmp"
	"fmt"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/media"
	"eavelight/plan/price"
)

// Recording is what a shoot records and what that is kept on.
type Recording struct {
	Empty    bool   // nothing is said of how it is recorded
	Wrong    string // why it can't be reckoned
	Items    []Item
	Warnings []string
}

// UsualRecordingNote stands by the button that fills in the usual values.
func UsualRecordingNote() string {
	return tongue.Say("Nothing is said yet of how the film is recorded and kept. The usual values are common practice without a " +
		"published source: look at each of them, above all the bit rate and the megapixels of your camera.")
}

// RecordingOf reckons it from the plan and its days.
func RecordingOf(p Priced) Recording {
	n, ok, err := price.Recorded(&p.Plan, p.Results.Shoot.Days)
	switch {
	case !ok:
		return Recording{Empty: true}
	case err != nil:
		return Recording{Wrong: tongue.Say("It can't be reckoned: %v.", err)}
	}
	out := Recording{}
	for _, w := range n.Warnings {
		out.Warnings = append(out.Warnings, tongue.Of(w))
	}
	out.Warnings = append(out.Warnings, uncounted(p.Plan)...)
	tell := func(title, figure, words string) {
		out.Items = append(out.Items, Item{Title: title + ": " + figure, Lines: []string{capital(words) + "."}})
	}
	for _, f := range n.Films {
		if f.Footage == 0 {
			tell(cmp.Or(f.Name, tongue.Say("A film")), tongue.Say("nothing of its own"), tongue.Of(f.Words))
			continue
		}
		words := tongue.Of(f.Words)
		if f.CardTime > 0 {
			words += "; " + tongue.Say("a card lasts %s", f.CardTime)
		}
		tell(cmp.Or(f.Name, tongue.Say("A film")), tongue.Say("%s of footage, %s", f.Footage, f.Data), words)
	}
	for _, s := range n.Stills {
		tell(cmp.Or(s.Name, tongue.Say("Stills")), tongue.Count(int(s.Exposures), "%d file, %s", "%d files, %s", s.Data), tongue.Of(s.Words))
	}
	tell(tongue.Say("All that is recorded"), tongue.Of(n.Data.Bytes), tongue.Of(n.Data.Words))
	tell(tongue.Say("In all copies"), tongue.Of(n.Stored.Bytes), tongue.Of(n.Stored.Words))
	tell(tongue.Say("Memory cards"), counted(n.Cards), tongue.Of(n.Cards.Words))
	tell(tongue.Say("Drives"), counted(n.Drives), tongue.Of(n.Drives.Words))
	offload := tongue.Say("not said")
	if n.Offload.Seconds > 0 {
		offload = n.Offload.Seconds.String()
	}
	tell(tongue.Say("Reading the cards once"), offload, tongue.Of(n.Offload.Words))
	for _, b := range n.Batteries {
		tell(cmp.Or(b.Name, tongue.Say("Batteries")), fmt.Sprint(b.Count), tongue.Of(b.Words))
	}
	return out
}

func counted(c media.Count) string {
	if c.Count == 0 {
		return tongue.Say("none counted")
	}
	return fmt.Sprint(c.Count)
}

// uncounted says which deliverables are left out, and what would count them.
func uncounted(p plan.Plan) []string {
	var out, rateless []string
	r := p.Pricing.Recording
	films, stills := false, false
	for _, d := range p.Brief.Deliverables {
		kind := d.KindOr()
		_, rate := media.FindFormat(d.Format)
		switch name := cmp.Or(d.Name, tongue.Say("A deliverable without a name")); {
		case kind == plan.Stills:
			stills = true
		case d.Seconds > 0 && rate == (media.Rate{}):
			rateless = append(rateless, name)
		case kind == plan.Film && d.Seconds > 0:
			films = true
		}
	}
	if len(rateless) > 0 {
		out = append(out, tongue.Count(len(rateless),
			"%[2]s is not counted: write frames a second into its format on the Brief page, as in “UHD 3840x2160, 24 fps”.",
			"%[2]s are not counted: write frames a second into their formats on the Brief page, as in “UHD 3840x2160, 24 fps”.", tongue.List(rateless)))
	}
	if films && (r.Ratio == 0 || r.Bitrate == 0) {
		out = append(out, tongue.Say("Films are not counted: fill in the shooting ratio and the bit rate."))
	}
	if stills && (r.Megapixels == 0 || r.Bits == 0) {
		out = append(out, tongue.Say("Stills are not counted: fill in the megapixels and the bits."))
	}
	return out
}
