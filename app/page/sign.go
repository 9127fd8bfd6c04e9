package page

import (
	"slices"
	"strings"
	"time"

	"eavelight/app/draw"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Signing is the panel in which a release is read in full and signed, or in which its signature is looked at.
type Signing struct {
	now  func() time.Time
	sign func(Signed) plan.Problems

	plan    *plan.Plan
	release plan.Release
	text    string // as shown: what is signed
	lacks   string // why the text can't be signed by anybody yet
	matches bool   // the signature that the release has was made under it
	anew    bool   // a release with a signature is being signed again

	title, who, words        *widget.Label
	name, relation, place    *widget.Entry
	consent                  *widget.Check
	pad                      *draw.SignPad
	needs, refused, verdict  *widget.Label
	clear, done, again, keep *widget.Button
	form                     *fyne.Container
	scroll                   *container.Scroll
	object                   fyne.CanvasObject
}

// Signed is what came of signing.
type Signed struct {
	Release   plan.ID
	Signature plan.Signature
	Relation  string // of who signed to the party; empty: they signed for themselves
}

// NewSigning builds the panel. now is the clock, and sign hears of a signature and says what would be wrong with it.
func NewSigning(now func() time.Time, sign func(Signed) plan.Problems) *Signing {
	s := &Signing{now: now, sign: sign, plan: &plan.Plan{}, title: wrapped(), who: wrapped(), words: wrapped(), needs: wrapped(), refused: told(),
		verdict: wrapped(), name: widget.NewEntry(), relation: widget.NewEntry(), place: widget.NewEntry(), pad: draw.NewSignPad()}
	s.title.TextStyle.Bold = true
	s.needs.Importance = widget.LowImportance
	s.name.SetPlaceHolder(tongue.Say("your full name"))
	s.place.SetPlaceHolder(tongue.Say("the town you sign in"))
	s.consent = widget.NewCheck(tongue.Say("I agree to sign electronically"), func(bool) { s.judge() })
	for _, e := range []*widget.Entry{s.name, s.relation, s.place} {
		e.OnChanged = func(string) { s.judge() }
	}
	s.pad.OnChange = s.judge
	s.clear = widget.NewButtonWithIcon(tongue.Say("Clear"), theme.ContentClearIcon(), s.pad.Clear)
	s.done = widget.NewButtonWithIcon(tongue.Say("Sign"), theme.ConfirmIcon(), s.finish)
	s.done.Importance = widget.HighImportance
	s.again = widget.NewButton(tongue.Say("Sign anew"), func() { s.start(true) })
	s.keep = widget.NewButton(tongue.Say("Keep the signature"), func() { s.start(false) })
	s.build()
	return s
}

// build lays the panel out: the text at the left, what is to be done at the right.
func (s *Signing) build() {
	caution := wrapped()
	caution.Importance = widget.WarningImportance
	caution.SetText(view.ReleaseCaution())
	s.scroll = container.NewVScroll(s.words)
	left := container.NewBorder(container.New(tight{}, s.title, caution), nil, nil, nil, s.scroll)
	s.form = container.New(layout.NewFormLayout())
	for _, f := range []struct {
		label string
		entry *widget.Entry
	}{{tongue.Say("Name"), s.name}, {tongue.Say("Relation"), s.relation}, {tongue.Say("Place"), s.place}} {
		s.form.Add(widget.NewLabelWithStyle(f.label, fyne.TextAlignTrailing, fyne.TextStyle{}))
		s.form.Add(f.entry)
	}
	s.form.Add(widget.NewLabel(""))
	s.form.Add(s.consent)
	buttons := container.NewHBox(s.clear, layout.NewSpacer(), s.keep, s.again, s.done)
	right := container.New(signColumn{s.pad}, container.NewVBox(s.who, s.form), s.pad, container.NewVBox(buttons, s.verdict, s.needs, s.refused))
	s.object = newTurning(left, container.NewVScroll(container.NewPadded(right)), 0.5, 0.5, 44)
}

// Object is the panel.
func (s *Signing) Object() fyne.CanvasObject { return s.object }

// Show brings the panel up to a release of a plan and its text on a date. What is being signed is kept as long as its text stays
// as it is: with another one, consent and strokes are taken back, since they were given to what is no longer shown.
func (s *Signing) Show(p *plan.Plan, r plan.Release, d plan.Date) {
	text, other := people.Text(p, r, d), r.ID != s.release.ID
	changed, before, paper := other || text != s.text, s.release.Signature, view.OnPaper(s.release)
	s.plan, s.release, s.text, s.matches, s.lacks = p, r, text, people.Matches(p, r, d), ""
	if unfilled := people.Unfilled(p, r, d); len(unfilled) > 0 {
		s.lacks = tongue.Say("The text is not complete; fill in first: %s.", tongue.Of(plan.FieldsSaid(unfilled)))
	} else if text == "" {
		s.lacks = tongue.Say("There is no text to sign.")
	}
	if other {
		s.name.SetText("")
		s.relation.SetText("") // the place stays: many sign in one
		s.scroll.ScrollToTop()
	}
	if changed {
		s.words.SetText(shortened(text))
	}
	if changed || paper != view.OnPaper(r) || before != r.Signature && !sameSignature(before, r.Signature) {
		s.start(!other && s.anew && (r.Signature != nil || view.OnPaper(r)))
		return
	}
	s.refresh()
}

// shortened breaks lines of a text that are as long as a page at a space: Fyne takes seconds to wrap them. Nobody sees it, as
// all lines are wrapped.
func shortened(text string) string {
	const most = 1500
	var out []string
	for line := range strings.SplitSeq(text, "\n") {
		for len(line) > most {
			at := strings.LastIndexByte(line[:most], ' ')
			if at <= 0 {
				break
			}
			out, line = append(out, line[:at]), line[at+1:]
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func sameSignature(a, b *plan.Signature) bool {
	return a != nil && b != nil && a.Digest == b.Digest && a.At.Equal(b.At)
}

// start begins with an empty pad, or shows the signature that there is.
func (s *Signing) start(anew bool) {
	s.anew = anew
	s.refused.Hide()
	s.consent.SetChecked(false)
	if sig := s.release.Signature; sig != nil && !anew {
		s.pad.Set(draw.SignData{ReadOnly: true, Wide: sig.Size.Width, High: sig.Size.Height, Strokes: spots(sig.Strokes)})
	} else if s.paper() {
		s.pad.Set(draw.SignData{Disabled: true, Note: tongue.Say("on paper")})
	} else if s.lacks != "" {
		s.pad.Set(draw.SignData{Disabled: true, Note: tongue.Say("to be signed when the text is complete")})
	} else {
		s.pad.Set(draw.SignData{})
	}
	s.refresh()
}

// signing reports that the panel takes a signature rather than shows one.
func (s *Signing) signing() bool { return s.anew || s.release.Signature == nil && !s.paper() }

// paper reports that the release is on paper, and the panel only says so.
func (s *Signing) paper() bool { return view.OnPaper(s.release) && !s.anew }

func (s *Signing) refresh() {
	s.title.SetText(releaseTitle(s.plan, s.release))
	s.who.SetText(s.signer())
	if s.release.Kind == plan.MinorRelease {
		s.relation.SetPlaceHolder(tongue.Say("to the minor: mother, father, guardian"))
	} else {
		s.relation.SetPlaceHolder(tongue.Say("empty: for yourself; else owner, manager"))
	}
	on := s.signing()
	for _, o := range []fyne.CanvasObject{s.form, s.clear, s.done, s.needs} {
		setVisible(o, on)
	}
	setVisible(s.verdict, !on)
	setVisible(s.again, !on)
	setVisible(s.keep, s.anew)
	s.again.SetText(tongue.Say("Sign anew"))
	s.keep.SetText(tongue.Say("Keep the signature"))
	if view.OnPaper(s.release) {
		s.again.SetText(tongue.Say("Sign in the window"))
		s.keep.SetText(tongue.Say("Leave it on paper"))
	}
	s.tellVerdict()
	s.judge()
	s.object.Refresh()
}

// tellVerdict says whether what was signed is what is shown.
func (s *Signing) tellVerdict() {
	s.verdict.Importance = widget.SuccessImportance
	words := tongue.Say("The text is still the one that was signed.")
	switch {
	case s.paper():
		s.verdict.Importance = widget.MediumImportance
		words = tongue.Say("There is nothing to sign here. Whether the paper says the same as this text is for you to compare.")
	case !s.matches:
		s.verdict.Importance = widget.DangerImportance
		words = tongue.Say("The text has changed since it was signed: this signature no longer matches it and does not count. Sign anew, or bring the text back.")
	}
	s.verdict.SetText(words)
}

// signer says who is to sign, or who did.
func (s *Signing) signer() string {
	party, _ := s.plan.Person(s.release.Party)
	if s.paper() {
		return view.PaperStanding(s.plan, s.release)
	}
	if !s.signing() {
		return signedBy(s.plan, s.release)
	}
	switch guardian, ok := s.plan.Person(party.Guardian); {
	case s.release.Kind == plan.MinorRelease && ok:
		return tongue.Say("To be signed by %s, for %s.", guardian.Called(), party.Called())
	case s.release.Kind == plan.MinorRelease:
		return tongue.Say("To be signed by a parent or guardian, for the minor.")
	case party.Called() != "":
		return tongue.Say("To be signed by %s.", party.Called())
	}
	return tongue.Say("To be signed by who may give this permission.")
}

// signedBy tells who signed, for whom, when and where.
func signedBy(p *plan.Plan, r plan.Release) string {
	sig := *r.Signature
	zone, err := time.LoadLocation(p.Property.Zone)
	if err != nil {
		zone = time.UTC
	}
	who := sig.Name
	if relation := strings.TrimSpace(r.Relation); relation != "" {
		who += " (" + relation + ")"
		if party, ok := p.Person(r.Party); ok {
			who = tongue.Say("signed|%s for %s", who, party.Called())
		}
	}
	at := sig.At.In(zone)
	when := tongue.Of(say.LongDate(at)) + ", " + tongue.Hour(at) + at.Format(" MST")
	out := tongue.Say("Signed by %s on %s.", who, when)
	if sig.Place != "" {
		out = tongue.Say("Signed by %s on %s, in %s.", who, when, sig.Place)
	}
	if sig.Consent {
		out += " " + tongue.Say("Agreed to sign electronically.")
	}
	return out
}

// releaseTitle is what a release is, and about whom or what.
func releaseTitle(p *plan.Plan, r plan.Release) string {
	party, _ := p.Person(r.Party)
	parts := []string{tongue.Say("Release"), tongue.Of(r.Kind), party.Called(), r.Subject}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return strings.TrimSpace(s) == "" }), " · ")
}

// missing lists what must still be done before the release can be signed.
func (s *Signing) missing() []string {
	var out []string
	party, _ := s.plan.Person(s.release.Party)
	minor := s.release.Kind == plan.MinorRelease
	name := strings.TrimSpace(s.name.Text)
	switch {
	case name == "":
		out = append(out, tongue.Say("type your name"))
	case minor && strings.EqualFold(name, strings.TrimSpace(party.Name)):
		out = append(out, tongue.Say("let the guardian sign, with their own name: a minor can't"))
	}
	if minor && strings.TrimSpace(s.relation.Text) == "" {
		out = append(out, tongue.Say("say what you are to the minor"))
	}
	if strings.TrimSpace(s.place.Text) == "" {
		out = append(out, tongue.Say("say where you are"))
	}
	if !s.consent.Checked {
		out = append(out, tongue.Say("agree to sign electronically"))
	}
	if !slices.ContainsFunc(s.pad.Strokes(), func(stroke []draw.Spot) bool { return len(stroke) > 1 }) {
		out = append(out, tongue.Say("sign on the pad"))
	}
	return out
}

// judge enables what can be done now, and says what is still missing.
func (s *Signing) judge() {
	missing := s.missing()
	words := tongue.Say("All is there: press Sign, and the time is written beside it.")
	switch {
	case s.lacks != "":
		words = s.lacks
	case len(missing) > 0:
		words = tongue.Say("Still to do: %s.", strings.Join(missing, "; "))
	}
	s.needs.SetText(words)
	able(s.done, s.lacks == "" && len(missing) == 0 && s.signing())
	able(s.clear, s.signing() && len(s.pad.Strokes()) > 0)
}

func able(b *widget.Button, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}

// finish makes the signature of what is shown now.
func (s *Signing) finish() {
	if s.judge(); s.done.Disabled() {
		return
	}
	signed := Signed{Release: s.release.ID, Relation: strings.TrimSpace(s.relation.Text), Signature: plan.Signature{
		Name:    strings.TrimSpace(s.name.Text),
		At:      s.now().UTC().Truncate(time.Second),
		Place:   strings.TrimSpace(s.place.Text),
		Consent: s.consent.Checked,
		Digest:  people.Digest(s.text),
		Size:    plan.PadSize{Width: draw.PadWide, Height: draw.PadHigh},
		Strokes: strokes(s.pad.Strokes()),
	}}
	s.anew = false // so that the answer shows what was signed
	if wrong := s.sign(signed); len(wrong) > 0 {
		s.anew = s.release.Signature != nil || view.OnPaper(s.release)
		s.refused.SetText(tongue.Of(wrong[0]))
		s.refused.Show()
	}
}

// spots and strokes turn a plan's strokes into the pad's and back.
func spots(in []plan.Stroke) (out [][]draw.Spot) {
	for _, stroke := range in {
		var spots []draw.Spot
		for _, p := range stroke {
			spots = append(spots, draw.Spot(p))
		}
		out = append(out, spots)
	}
	return out
}

func strokes(in [][]draw.Spot) (out []plan.Stroke) {
	for _, spots := range in {
		var stroke plan.Stroke
		for _, s := range spots {
			stroke = append(stroke, plan.Point(s))
		}
		out = append(out, stroke)
	}
	return out
}

// signColumn stacks what is above the pad, the pad as high as its width asks for, and what is below.
type signColumn struct{ pad *draw.SignPad }

func (signColumn) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		size.Width = max(size.Width, o.MinSize().Width)
		size.Height += o.MinSize().Height + theme.Padding()
	}
	return size
}

func (c signColumn) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	rest := size.Height
	for _, o := range objects {
		rest -= o.MinSize().Height + theme.Padding()
	}
	y := float32(0)
	for _, o := range objects {
		h := o.MinSize().Height
		if o == c.pad {
			h = max(h, min(c.pad.HeightFor(size.Width), h+rest))
		}
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h + theme.Padding()
	}
}
