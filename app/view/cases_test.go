package view

import (
	"errors"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/media"
	"eavelight/plan/price"
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

func answerOf(name string, priceOf int64, light float64, waits plan.Minutes) CaseShown {
	a := price.Answer{Case: price.Case{Name: say.Plain(name)}, Light: light, Waiting: waits}
	a.Sheet.Currency, a.Sheet.Places = "USD", 2
	a.Sheet.Floor = decimal.NewFromInt(800)
	a.Quote.Price, a.Quote.Net = decimal.NewFromInt(priceOf), decimal.NewFromInt(priceOf)
	return CaseShown{Case: a.Case, Answer: &a}
}

func cellOf(t *testing.T, c SideBySide, row string, column int) ColumnCell {
	t.Helper()
	for _, r := range c.Rows {
		if r.Name == row {
			return r.Cells[column]
		}
	}
	t.Fatalf("there is no row %q", row)
	return ColumnCell{}
}

// TestWhatIfWords: the differences are by hand; a margin of 800 on 1000 is 20 % of the price, on 1250 it is 36 %.
func TestWhatIfWords(t *testing.T) {
	cases := []CaseShown{answerOf("as it is", 1000, 0.92, 90), answerOf("two half days", 1250, 0.89, 30), answerOf("rain day", 1000, 0.92, 90)}
	cases[1].Case.How, cases[1].Answer.How = say.Plain("two dates"), say.Plain("two dates")
	got := WhatIf(Priced{}, cases)
	for _, c := range []struct {
		row        string
		text, than string
	}{
		{"Light kept", "89 %", "3 points less"},
		{"Waiting", "30 min", "1 h less"},
		{"Price", "1,250.00 USD", "250.00 USD more"},
		{"Floor", "800.00 USD", "the same"},
		{"Margin", "36.0 %", "16.0 points more"},
		{"Days", "none placed", ""},
		{"Scenes left out", "none", "the same"},
	} {
		if cell := cellOf(t, got, c.row, 1); cell.Text != c.text || cell.Than != c.than {
			t.Errorf("%s: %+v", c.row, cell)
		}
	}
	if first := cellOf(t, got, "Price", 0); first.Than != "" {
		t.Errorf("the first column differs from itself: %+v", first)
	}
	if h := got.Heads[1]; h.Name != "Two half days" || !strings.HasPrefix(h.Note, "Two dates. ") {
		t.Errorf("the head is %+v", h)
	}
	asked := pricedAt("1000", "0", "USD")
	asked.Plan.Pricing.Asked = decimal.NewFromInt(950)
	if note := WhatIf(asked, cases).Note; got.Note != "" || note != "The prices are what the rate card makes of the floor, not the 950.00 USD that you ask." {
		t.Errorf("the note is %q, and %q of an asked price", got.Note, note)
	}
	cases[1].Old = true
	got = WhatIf(Priced{}, cases)
	if cell := cellOf(t, got, "Price", 1); cell.Than != "" || !strings.HasSuffix(got.Heads[1].Note, "Of the plan as it was.") {
		t.Errorf("old figures are held against new ones: %+v, %q", cell, got.Heads[1].Note)
	}
}

func TestCasesAreToldHowFarTheyAre(t *testing.T) {
	lack := CaseShown{Case: price.Case{Name: say.Plain("paid talent"), Lack: say.Plain("choose the rate that paid talent would get")}}
	bare := CaseShown{Case: price.Case{Name: say.Plain("rain day")}}
	under := bare
	under.Under = true
	failed := bare
	failed.Err = errors.New("no sky")
	old := answerOf("as it is", 1000, 1, 0)
	old.Old = true
	for _, c := range []struct {
		cases   []CaseShown
		stopped bool
		want    string
	}{
		{[]CaseShown{lack}, false, ""},
		{[]CaseShown{bare}, false, ""},
		{[]CaseShown{answerOf("as it is", 1000, 1, 0), under, lack}, false, "Working out “rain day”, 2 of 2…"},
		{[]CaseShown{answerOf("as it is", 1000, 1, 0), bare, bare}, true, "Stopped: 1 of 3 worked out."},
		{[]CaseShown{old, bare}, false, "The plan has changed since."},
		{[]CaseShown{answerOf("as it is", 1000, 1, 0)}, true, ""},
	} {
		if got := CasesStatus(c.cases, c.stopped); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	heads := WhatIf(Priced{}, []CaseShown{lack, bare, under, failed}).Heads
	for i, want := range []string{"Choose the rate that paid talent would get.", "Not worked out yet.", "Being worked out…", "It could not be worked out: no sky."} {
		if heads[i].Note != want {
			t.Errorf("%q, want %q", heads[i].Note, want)
		}
	}
}

// TestSameCase: what no price depends on does not make an answer old; what one does, does.
func TestSameCase(t *testing.T) {
	p := plan.New()
	p.Pricing.Card.Rates = []plan.Rate{{ID: "a", Name: "A"}}
	for name, c := range map[string]struct {
		change func(*plan.Plan)
		same   bool
	}{
		"market":  {func(p *plan.Plan) { p.Pricing.Market = []plan.Offer{{Who: "x"}} }, true},
		"title":   {func(p *plan.Plan) { p.Title = "x" }, true},
		"package": {func(p *plan.Plan) { p.Pricing.Packages = []plan.Package{{Name: "x"}} }, true},
		"asked":   {func(p *plan.Plan) { p.Pricing.Asked = decimal.NewFromInt(5) }, true},
		"terms": {func(p *plan.Plan) {
			p.Pricing.Quoted.Year, p.Pricing.Card.Terms.Valid, p.Pricing.Card.Terms.Wording = 2027, 30, "x"
		}, true},
		"wrap":   {func(p *plan.Plan) { p.Pricing.Unsure.Late = 5 }, true},
		"rounds": {func(p *plan.Plan) { p.Pricing.Unsure.Rounds = 5 }, false},
		"rate":   {func(p *plan.Plan) { p.Pricing.Card.Rates[0].Amount = decimal.NewFromInt(5) }, false},
		"rules":  {func(p *plan.Plan) { p.Shooting.PackUp = 5 }, false},
	} {
		q := p.Clone()
		c.change(&q)
		if got := SameCase(price.CaseOf(price.RainDay, &p), price.CaseOf(price.RainDay, &q)); got != c.same {
			t.Errorf("%s: same is %v", name, got)
		}
	}
}

func TestPackageWords(t *testing.T) {
	p := plan.New()
	p.Scenes = []plan.Scene{{ID: "one"}}
	p.Brief.Deliverables = []plan.Deliverable{{Name: "Film"}}
	p.Pricing.Packages = []plan.Package{{Name: "All"}, {Name: "Some", Scenes: []plan.ID{"one", "gone"}, Deliverables: []string{"Film"}}, {Name: "None", Scenes: []plan.ID{"gone"}}}
	rows := PackageRows(&p)
	if rows[0].Sub != "all scenes · everything delivered" || rows[1].Sub != "2 scenes · 1 deliverable" || rows[1].Mark != "look" || rows[0].Mark != "" {
		t.Errorf("%+v", rows)
	}
	if got := PackageHolds(&p, p.Pricing.Packages[1]); got != "It names what is no longer in the plan: gone." {
		t.Error(got)
	}
	if k, ok := ForgetGone(&p, p.Pricing.Packages[1]); !ok || len(k.Scenes) != 1 || k.Scenes[0] != "one" {
		t.Errorf("%v, %+v", ok, k)
	}
	if _, ok := ForgetGone(&p, p.Pricing.Packages[2]); ok {
		t.Error("a package of what is gone would become one of everything")
	}
	if _, ok := ForgetGone(&p, p.Pricing.Packages[0]); ok {
		t.Error("nothing is gone, and it is offered to take it out")
	}
}

// TestRecordingWords: 60 s x 12 is 12 min, at 100 Mbit/s 9 GB (bits x time / 8, a definition); copies as common practice has them.
func TestRecordingWords(t *testing.T) {
	p := Priced{}
	p.Plan = plan.New()
	if got := RecordingOf(p); !got.Empty {
		t.Errorf("%+v", got)
	}
	p.Plan.Brief.Deliverables = []plan.Deliverable{{Name: "Film", Seconds: 60, Format: "UHD 3840x2160, 24 fps"}, {Name: "Loop", Seconds: 20}, {Name: "Teaser", Seconds: 15}, {Name: "Stills", Stills: 4}}
	p.Plan.Pricing.Recording = plan.Recording{Ratio: 12, Bitrate: 100, Copies: 1}
	got := RecordingOf(p)
	if got.Items[0].Title != "Film: 12 min of footage, 9 GB" || got.Wrong != "" {
		t.Errorf("%+v", got.Items[0])
	}
	told := strings.Join(got.Warnings, "\n")
	for _, want := range []string{"Only 1 copy: three are safer.", "Loop and Teaser are not counted: write frames a second", "Stills are not counted: fill in the megapixels"} {
		if !strings.Contains(told, want) {
			t.Errorf("%q is not told in %q", want, told)
		}
	}
	p.Plan.Pricing.Recording = plan.UsualRecording(nil)
	b := p.Plan.Pricing.Recording
	if (media.Backup{Copies: b.Copies, OnDrives: b.OnDrives, Elsewhere: b.Elsewhere}) != media.ThreeTwoOne {
		t.Error("the usual copies are not the common rule")
	}
	if got := RecordingOf(p); strings.Contains(strings.Join(got.Warnings, ""), "safer") {
		t.Errorf("the usual values are warned of: %q", got.Warnings)
	}
	p.Plan.Pricing.Recording.Batteries[0].Lasts = 0
	if got := RecordingOf(p).Wrong; got != "It can't be reckoned: Camera battery: say how long a battery lasts, in minutes." {
		t.Error(got)
	}
	p.Plan.Pricing.Recording = plan.Recording{Copies: 3, OnDrives: 2, Elsewhere: 1}
	if got := RecordingOf(p).Warnings; len(got) == 0 || !strings.Contains(strings.Join(got, "\n"), "Films are not counted") {
		t.Errorf("warnings %q", got)
	}
}
