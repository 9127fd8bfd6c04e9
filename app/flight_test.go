package app

import (
	"slices"
	"testing"

	"eavelight/app/page"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2/widget"
)

// TestCertificateIsTyped with who is of the crew, and with nobody else.
func TestCertificateIsTyped(t *testing.T) {
	const number, trained = "its number, of a drone's pilot; printed on no sheet", "2027-05-12; the last test or training"
	d, _ := openDemo(t)
	d.menuItem("People").Action() // Nina, in front of the camera
	hints := func(hint string) int {
		return len(seen(d, func(e *widget.Entry) bool { return e.PlaceHolder == hint }))
	}
	if hints(number) > 0 {
		t.Error("somebody on camera is asked for a drone certificate")
	}
	seen(d, func(l *widget.List) bool { return l.Length() == len(d.plan().People) })[0].Select(6)
	if hints(number) != 1 || hints(trained) > 0 {
		t.Fatal("who has no certificate is asked when they trained for it, or can't have one")
	}
	d.entry(number).SetText("4000555")
	d.entry(trained).SetText("2027-02-30")
	if !d.plan().People[6].Certificate.Trained.IsZero() {
		t.Errorf("30 February: %+v", d.plan().People[6].Certificate)
	}
	d.entry(trained).SetText("2027-03-01")
	d.entry("2031-05-12; empty where no day stands on it").SetText("2030-01-31")
	want := plan.Certificate{Number: "4000555", Trained: plan.Date{Year: 2027, Month: 3, Day: 1}, Until: plan.Date{Year: 2030, Month: 1, Day: 31}}
	if got := d.plan().People[6].Certificate; got != want {
		t.Errorf("%+v", got)
	}
	if !d.says(people.DroneCaution) {
		t.Error("nothing says who decides about a certificate")
	}
}

// TestRulesAreAcknowledged in the panel of the rules, and the day says what is missing until then.
func TestRulesAreAcknowledged(t *testing.T) {
	const unread, dark = "nobody has said by then that they read the rules", "the drone has no anti-collision light filled in"
	d, _ := openDemo(t)
	d.session.Edit("forget it", "", func(p *plan.Plan) { p.Shooting.Flying = plan.Flying{} })
	d.settle()
	d.menuItem("Day").Action()
	if !d.says(unread) || d.says(dark) || !d.says("No rules for drones are chosen") {
		t.Error("without rules and reader the day does not say so, or judges the light")
	}
	d.press("Dates and rules")
	choose := func(offers, value string) {
		t.Helper()
		found := seen(d, func(s *widget.Select) bool { return slices.Contains(s.Options, offers) })
		if len(found) != 1 {
			t.Fatalf("%d drop-downs offer %q", len(found), offers)
		}
		found[0].SetSelected(value)
		d.settle()
	}
	choose(people.FlightRulesName(plan.USPart107).String(), people.FlightRulesName(plan.USPart107).String())
	if !d.says(dark) || !d.says("107.29(b), (c): ") {
		t.Error("with rules the light is not judged, or what they ask is not said")
	}
	choose("nobody yet", "Suri Kaanen")
	today := plan.Date{Year: 2027, Month: 9, Day: 30} // by the test's clock
	if f := d.plan().Shooting.Flying; f.ReadBy != "suri" || f.Read != today || d.says(unread) {
		t.Errorf("read: %+v", f)
	}
	d.entry("2027-09-18").SetText("2027-09-29")
	d.check("flashes, and is seen for 3 statute miles (4.8 km)").SetChecked(true)
	d.settle()
	want := plan.Flying{Rules: plan.USPart107, Read: today.AddDays(-1), ReadBy: "suri", Light: true}
	if f := d.plan().Shooting.Flying; f != want || d.says(dark) || !d.says("Flown: scene 1 in civil twilight") {
		t.Errorf("all filled in: %+v", f)
	}
	d.page(view.Day).(*page.Day).Revert()
	choose("nobody yet", "nobody yet")
	if f := d.plan().Shooting.Flying; f.ReadBy != "" || !f.Read.IsZero() || !d.says(unread) {
		t.Errorf("taken back: %+v", f)
	}
}
