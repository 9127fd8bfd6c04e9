package page

import (
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/draw"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

var signedAt = time.Date(2027, 3, 6, 10, 5, 30, 999, time.FixedZone("somewhere", -8*3600))

// signing is a panel in a window of 1280 by 800, on an invented plan with a grown-up's release, a minor's and a song's, and what
// it reported. What it reports is put into the plan, as the page does, and shown.
type signing struct {
	*Signing
	plan   plan.Plan
	told   []Signed
	refuse plan.Problems
	window fyne.Window
}

func newSigning(t *testing.T) *signing {
	t.Helper()
	test.NewTempApp(t)
	p := plan.New()
	p.Title, p.Property.Zone, p.Papers.Producer = "A day at Quillfern House", "America/Los_Angeles", "Marl & Lantern Pictures"
	p.People = []plan.Person{{ID: "grete", Name: "Grete Sandoval"}, {ID: "amara", Name: "Amara Sandoval"}, {ID: "jon", Name: "Jon Sandoval", Minor: true, Guardian: "amara"}}
	p.Wordings = []plan.Wording{
		{Kind: plan.ModelRelease, Text: "I, {party}, take part in {film} by {producer}, shown in {media}."},
		{Kind: plan.MinorRelease, Text: "{party} takes part in {film}.\n\n" + strings.Repeat("I know the text. ", 400)},
		{Kind: plan.MusicRelease, Text: "The song {subject}."},
	}
	p.Releases = []plan.Release{{ID: "model-grete", Kind: plan.ModelRelease, Party: "grete", Media: "web"}, {ID: "minor-jon", Kind: plan.MinorRelease, Party: "jon"},
		{ID: "song", Kind: plan.MusicRelease, Party: "grete", Subject: "Larch Waltz"}}
	s := &signing{plan: p}
	s.Signing = NewSigning(func() time.Time { return signedAt }, func(signed Signed) plan.Problems {
		s.told = append(s.told, signed)
		if len(s.refuse) > 0 {
			return s.refuse
		}
		p := s.plan.Clone()
		i := slices.IndexFunc(p.Releases, func(r plan.Release) bool { return r.ID == signed.Release })
		r := &p.Releases[i]
		r.Signature, r.SignedBy, r.Relation, r.Status = &signed.Signature, signed.Signature.Name, signed.Relation, plan.Signed
		s.plan = p
		s.show(i)
		return plan.Validate(s.plan)
	})
	s.window = test.NewTempWindow(t, s.Object())
	s.window.Resize(fyne.NewSize(1280, 800))
	return s
}

func (s *signing) show(release int) {
	p := s.plan.Clone()
	s.Show(&p, p.Releases[release], plan.Date{})
}

// draw replays a stroke across the pad as the desktop driver sends it, through places in hundredths of the pad's size.
func (s *signing) draw(places ...fyne.Position) {
	at := func(p fyne.Position) fyne.Position {
		return fyne.NewPos(p.X*s.pad.Size().Width/100, p.Y*s.pad.Size().Height/100)
	}
	mouse := func(p fyne.Position) *desktop.MouseEvent {
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(p)}, Button: desktop.MouseButtonPrimary}
	}
	s.pad.MouseDown(mouse(places[0]))
	for i := 1; i < len(places); i++ {
		from, to := at(places[i-1]), at(places[i])
		s.pad.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(to.X-from.X, to.Y-from.Y)})
	}
	s.pad.MouseUp(mouse(places[len(places)-1]))
	s.pad.DragEnd()
}

func (s *signing) drawName() {
	s.draw(fyne.NewPos(20, 70), fyne.NewPos(30, 20), fyne.NewPos(40, 75), fyne.NewPos(60, 40))
	s.draw(fyne.NewPos(50, 20))
}

// fill does all that is asked for.
func (s *signing) fill(name, relation string) {
	test.Type(s.name, name)
	test.Type(s.relation, relation)
	s.place.SetText("Lower Marl")
	if !s.consent.Checked {
		test.Tap(s.consent)
	}
	s.drawName()
}

func (s *signing) ready(t *testing.T, want bool, needs string) {
	t.Helper()
	if s.done.Disabled() == want || !strings.Contains(s.needs.Text, needs) {
		t.Errorf("can be signed: %v, want %v; it says %q, want %q", !s.done.Disabled(), want, s.needs.Text, needs)
	}
}

func TestNothingIsSignedWithoutEachOfItsParts(t *testing.T) {
	for _, c := range []struct {
		release int
		needs   string
		without func(s *signing)
	}{
		{0, "type your name", func(s *signing) { s.name.SetText("  ") }},
		{0, "say where you are", func(s *signing) { s.place.SetText("") }},
		{0, "agree to sign electronically", func(s *signing) { test.Tap(s.consent) }},
		{0, "sign on the pad", func(s *signing) { test.Tap(s.clear) }},
		{0, "sign on the pad", func(s *signing) { s.pad.Clear(); s.draw(fyne.NewPos(50, 50)) }}, // a dot is no signature
		{0, "fill in first: media", func(s *signing) { s.plan.Releases[0].Media = ""; s.show(0) }},
		{0, "no text", func(s *signing) { s.plan.Wordings[0].Text = " \n"; s.show(0) }},
		{1, "what you are to the minor", func(s *signing) { s.relation.SetText(" ") }},
		{1, "let the guardian sign", func(s *signing) { s.name.SetText(" jon sandoval ") }},
	} {
		s := newSigning(t)
		s.show(c.release)
		s.ready(t, false, "Still to do: ")
		s.fill("Amara Sandoval", "mother")
		s.ready(t, true, "All is there")
		c.without(s)
		s.ready(t, false, c.needs)
		s.done.OnTapped()
		if len(s.told) > 0 {
			t.Errorf("%s: signed all the same", c.needs)
		}
	}
}

func TestSigningHoldsTheShownText(t *testing.T) {
	s := newSigning(t)
	s.show(0)
	const text = "I, Grete Sandoval, take part in A day at Quillfern House by Marl & Lantern Pictures, shown in web."
	if s.words.Text != text {
		t.Fatalf("shows %q", s.words.Text)
	}
	s.fill(" Grete Sandoval ", "")
	test.Tap(s.done)
	if len(s.told) != 1 {
		t.Fatalf("told of %d signatures", len(s.told))
	}
	got := s.told[0]
	// the digest is that of sha256sum (GNU coreutils) of the text without an end of line
	want := "a6692b4f279790598e15dd1a0d1550efa04408b5df71dc9df1614a5472af2783"
	if sig := got.Signature; sig.Digest != want || sig.Digest != people.Digest(s.words.Text) {
		t.Errorf("digest %s, want %s", sig.Digest, want)
	}
	if sig := got.Signature; got.Release != "model-grete" || got.Relation != "" || sig.Name != "Grete Sandoval" || sig.Place != "Lower Marl" || !sig.Consent ||
		sig.At != time.Date(2027, 3, 6, 18, 5, 30, 0, time.UTC) || sig.Size != (plan.PadSize{Width: draw.PadWide, Height: draw.PadHigh}) {
		t.Errorf("got %+v", got)
	}
	if strokes := got.Signature.Strokes; len(strokes) != 2 || len(strokes[0]) != 4 || len(strokes[1]) != 1 {
		t.Errorf("strokes %v", strokes)
	}
	for i, p := range got.Signature.Strokes[0] {
		want := []plan.Point{{X: 400, Y: 420}, {X: 600, Y: 120}, {X: 800, Y: 450}, {X: 1200, Y: 240}}[i]
		if d := (p.X-want.X)*(p.X-want.X) + (p.Y-want.Y)*(p.Y-want.Y); d > 15*15 { // the pad has a rim
			t.Errorf("point %d at %v, want about %v", i, p, want)
		}
	}
	if wrong := plan.Validate(s.plan); len(wrong) > 0 {
		t.Errorf("the plan holds it as wrong: %v", wrong)
	}
}

func TestTheGuardianSignsForAMinor(t *testing.T) {
	s := newSigning(t)
	s.show(1)
	if s.who.Text != "To be signed by Amara Sandoval, for Jon Sandoval." {
		t.Errorf("says %q", s.who.Text)
	}
	s.fill("Amara Sandoval", "mother")
	test.Tap(s.done)
	if len(s.told) != 1 || s.told[0].Relation != "mother" || s.told[0].Release != "minor-jon" {
		t.Fatalf("told %+v", s.told)
	}
	if want := "Signed by Amara Sandoval (mother) for Jon Sandoval on Saturday 6 March 2027, 10:05 PST, in Lower Marl. Agreed to sign electronically."; s.who.Text != want {
		t.Errorf("says %q, want %q", s.who.Text, want)
	}
}

// visible lists which of the panel's parts are in sight.
func (s *signing) visible() string {
	var out []string
	for _, o := range []struct {
		name string
		o    fyne.CanvasObject
	}{{"form", s.form}, {"clear", s.clear}, {"sign", s.done}, {"again", s.again}, {"keep", s.Signing.keep}, {"verdict", s.verdict}, {"needs", s.needs}} {
		if o.o.Visible() {
			out = append(out, o.name)
		}
	}
	return strings.Join(out, " ")
}

func TestASignedReleaseIsShownAndStillMatchesOrNot(t *testing.T) {
	s := newSigning(t)
	s.show(0)
	if got := s.visible(); got != "form clear sign needs" {
		t.Errorf("before: %s", got)
	}
	s.fill("Grete Sandoval", "")
	drawn := s.pad.Strokes()
	test.Tap(s.done)
	if got := s.visible(); got != "again verdict" || s.verdict.Importance != widget.SuccessImportance || !strings.Contains(s.verdict.Text, "still the one") {
		t.Errorf("signed: %s; %q", got, s.verdict.Text)
	}
	if !s.pad.Disabled() || !slices.EqualFunc(s.pad.Strokes(), drawn, slices.Equal) {
		t.Error("the pad does not show the signature, or can be drawn on")
	}
	s.plan.Releases[0].Media = "cinema"
	s.show(0)
	if got := s.visible(); got != "again verdict" || s.verdict.Importance != widget.DangerImportance || !strings.Contains(s.verdict.Text, "no longer matches") {
		t.Errorf("changed: %s; %q", got, s.verdict.Text)
	}
	if len(s.pad.Strokes()) != 2 {
		t.Error("the old signature is gone")
	}
	test.Tap(s.again)
	if got := s.visible(); got != "form clear sign keep needs" || len(s.pad.Strokes()) != 0 || s.consent.Checked {
		t.Errorf("again: %s; %d strokes, consent %v", got, len(s.pad.Strokes()), s.consent.Checked)
	}
	test.Tap(s.Signing.keep)
	if got := s.visible(); got != "again verdict" || len(s.pad.Strokes()) != 2 {
		t.Errorf("kept: %s", got)
	}
	test.Tap(s.again)
	s.fill("", "")
	test.Tap(s.done)
	if len(s.told) != 2 || s.told[1].Signature.Digest == s.told[0].Signature.Digest || s.verdict.Importance != widget.SuccessImportance || s.visible() != "again verdict" {
		t.Errorf("signed anew: %d, %s, %q", len(s.told), s.visible(), s.verdict.Text)
	}
}

// What is being signed survives an edit elsewhere, and is taken back when its text changes or another release is shown.
func TestConsentIsToTheShownTextOnly(t *testing.T) {
	s := newSigning(t)
	s.show(0)
	s.fill("Grete Sandoval", "")
	s.plan.Scenes = append(s.plan.Scenes, plan.Scene{ID: "new", Title: "Another"})
	s.show(0)
	s.ready(t, true, "")
	s.plan.Releases[0].Media = "cinema"
	s.show(0)
	s.ready(t, false, "agree to sign electronically; sign on the pad")
	if s.name.Text != "Grete Sandoval" {
		t.Errorf("the name is %q", s.name.Text)
	}
	s.fill("", "")
	s.ready(t, true, "")
	s.show(2)
	s.ready(t, false, "type your name; agree to sign electronically; sign on the pad")
	if s.place.Text != "Lower Marl" || s.name.Text != "" || s.relation.Text != "" {
		t.Errorf("another release begins with %q, %q, %q", s.name.Text, s.relation.Text, s.place.Text)
	}
}

func TestARefusedSignatureStays(t *testing.T) {
	s := newSigning(t)
	s.show(0)
	s.refuse = plan.Problems{{Code: plan.TooLong, Facts: []any{20000}}}
	s.fill("Grete Sandoval", "")
	test.Tap(s.done)
	if !s.refused.Visible() || s.refused.Text != s.refuse[0].String() || len(s.pad.Strokes()) != 2 {
		t.Errorf("says %q, visible %v, with %d strokes", s.refused.Text, s.refused.Visible(), len(s.pad.Strokes()))
	}
	s.refuse = nil
	test.Tap(s.done)
	if s.refused.Visible() || s.visible() != "again verdict" {
		t.Error("signed at last, it still complains")
	}
}

// The pad keeps its shape, and all of the panel is in sight in a window of 1280 by 800; in a small one it scrolls.
func TestSigningFitsItsWindow(t *testing.T) {
	s := newSigning(t)
	for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 900, Height: 600}, {Width: 1800, Height: 1100}} {
		for release := range s.plan.Releases {
			s.show(release)
			s.window.Resize(size)
			width, height := s.pad.Size().Width, s.pad.Size().Height
			if ratio := width / height; ratio < 3 || ratio > 3.6 {
				t.Errorf("%v: the pad is %v by %v", size, width, height)
			}
			bottom := fyne.CurrentApp().Driver().AbsolutePositionForObject(s.needs).Y + s.needs.Size().Height
			if bottom > size.Height || s.object.MinSize().Width > size.Width {
				t.Errorf("%v: the panel ends at %v, and is at least %v wide", size, bottom, s.object.MinSize().Width)
			}
		}
	}
	if s.show(1); s.words.MinSize().Height <= s.scroll.Size().Height/4 || s.words.Size().Width > s.scroll.Size().Width {
		t.Errorf("the text is %v in %v", s.words.Size(), s.scroll.Size())
	}
}

func TestLongParagraphsAreBrokenAtSpacesOnly(t *testing.T) {
	const plain = "One paragraph.\n\n  Another,  with spaces."
	if got := shortened(plain); got != plain {
		t.Errorf("a plain text became %q", got)
	}
	text := plain + "\n" + strings.Repeat("ein längeres Wort ", 1000) + strings.Repeat("W", 3000) + " end"
	got := shortened(text)
	if strings.ReplaceAll(got, "\n", " ") != strings.ReplaceAll(text, "\n", " ") {
		t.Error("more than spaces changed")
	}
	for line := range strings.SplitSeq(got, "\n") {
		if len(line) > 1500 && !strings.HasPrefix(line, "WWW") {
			t.Errorf("a line of %d", len(line))
		}
	}
}

func TestAnyReleaseCanBeShown(t *testing.T) {
	s := newSigning(t)
	for _, r := range []plan.Release{{}, {Kind: "unheard-of"}, {Kind: plan.MinorRelease, Party: "nobody"}, {Kind: plan.MinorRelease, Signature: &plan.Signature{}},
		{Kind: plan.ModelRelease, Signature: &plan.Signature{Size: plan.PadSize{Width: -1}, Strokes: []plan.Stroke{{}, {{X: 99999, Y: -4}}}}}} {
		empty := plan.New()
		s.Show(&empty, r, plan.Date{})
		s.window.Canvas().Capture()
	}
}
