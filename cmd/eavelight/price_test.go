package main

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/store"

	"github.com/shopspring/decimal"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestPriceText holds the demo's price to the letter. How its figures come about is tested in plan/price against outside values.
func TestPriceText(t *testing.T) {
	code, got, stderr := eavelight("price", demo, "--date", "2027-10-16")
	if code != 0 || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	golden := filepath.Join("testdata", "price.txt")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the text of the price has changed; look at it, then run with -update. Now:\n%s", got)
	}
}

// priceJSON prices a plan and checks the exit code.
func priceJSON(t *testing.T, path string, code int) (r priceReport, raw string) {
	t.Helper()
	got, out, stderr := eavelight("price", path, "--json")
	if got != code || stderr != "" {
		t.Fatalf("exit %d, want %d: %s", got, code, stderr)
	}
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	return r, out
}

// TestPriceJSON: what is printed adds up as printed, line by line and up to the last payment.
func TestPriceJSON(t *testing.T) {
	r, raw := priceJSON(t, demo, 0)
	sum := func(texts ...string) decimal.Decimal {
		out := decimal.Zero
		for _, text := range texts {
			d, err := decimal.NewFromString(text)
			if err != nil {
				t.Fatal(err)
			}
			out = out.Add(d)
		}
		return out
	}
	same := func(name string, got decimal.Decimal, want string) {
		if !got.Equal(sum(want)) {
			t.Errorf("%s: the parts add up to %s, not %s", name, got, want)
		}
	}
	var lines, owner, groups, payments []string
	for _, l := range r.Lines {
		switch {
		case !l.Counts:
		case l.Owner:
			owner = append(owner, l.Amount)
		default:
			lines = append(lines, l.Amount)
		}
	}
	for _, g := range r.Groups {
		groups = append(groups, g.Amount)
	}
	for _, d := range r.Payments {
		payments = append(payments, d.Amount)
	}
	same("lines", sum(lines...), r.Direct)
	same("groups", sum(groups...), r.Direct)
	same("owner", sum(owner...), r.Owner)
	same("floor", sum(r.Direct, r.Contingency, r.Owner, r.Overhead), r.Floor)
	same("net", sum(r.Price).Sub(sum(r.Discount)), r.Net)
	same("total", sum(r.Net, r.Tax), r.Total)
	same("payments", sum(payments...), r.Total)
	if len(r.Hours) != 3 || len(r.LeftOut) != 1 || r.Loses == nil || r.Holds == nil || r.Hours[0].Call.IsZero() {
		t.Errorf("%+v, left out %v, loses %v, holds %v", r.Hours, r.LeftOut, r.Loses, r.Holds)
	}
	for _, key := range []string{"currency", "lines", "groups", "hours", "direct", "overtime", "contingency", "owner", "ownerTime", "jobDays",
		"overhead", "floor", "price", "computed", "margin", "markup", "discount", "net", "taxes", "tax", "total", "payments", "loses", "holds",
		"leftOut", "problems"} {
		if !strings.Contains(raw, "\n  \""+key+"\": ") {
			t.Errorf("there is no %q", key)
		}
	}
}

// TestPriceOfOddPlans: what can't be told is left out and said, and the rest is printed all the same.
func TestPriceOfOddPlans(t *testing.T) {
	read := func() plan.Plan {
		p, _, err := store.Read(demo)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	save := func(p plan.Plan) string {
		data, err := store.Encode(p)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "odd.eavelight")
		write(t, path, string(data))
		return path
	}
	all := read()
	all.Pricing.Card.Terms.Discount = decimal.NewFromInt(100)
	if r, _ := priceJSON(t, save(all), 0); r.Net != "0.00" || r.Total != "0.00" || r.Holds != nil || *r.Loses != 1 {
		t.Errorf("given away: net %s, total %s, holds %v", r.Net, r.Total, r.Holds)
	}
	if _, text, _ := eavelight("price", save(all)); !strings.Contains(text, "no price does") {
		t.Errorf("given away:\n%s", text)
	}
	most := decimal.New(1, 12)
	huge := read()
	huge.Pricing.Lines = append(huge.Pricing.Lines, plan.TypedLine{ID: "all-the-money", Quantity: most, Rate: most})
	r, _ := priceJSON(t, save(huge), 0)
	if r.Loses != nil || len(r.Problems) != 2 || !strings.HasPrefix(r.Direct, "1000000000000000000004") {
		t.Errorf("huge: direct %s, problems %q", r.Direct, r.Problems)
	}
	if code, _, stderr := eavelight("price", "nowhere.eavelight"); code != 2 || !strings.Contains(stderr, "nowhere") {
		t.Errorf("no file: exit %d, %s", code, stderr)
	}
	if r, _ := priceJSON(t, save(plan.New()), 1); r.Total != "0.00" || r.Loses != nil || len(r.Problems) != 2 {
		t.Errorf("nothing: %+v", r)
	}
}
