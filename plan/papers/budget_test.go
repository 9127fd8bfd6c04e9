package papers

import (
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func TestBudgetGoldenText(t *testing.T) {
	p, days, _ := tarn(t)
	golden(t, "budget.txt", Budget(&p, days))
}

// printedRow is a row with an amount, as it was printed.
type printedRow struct {
	name   string
	amount decimal.Decimal
}

// addsUp reads a printed budget from its top: every subtotal, the floor, the total and the profit are the sums of the amounts
// printed before them.
func addsUp(t interface {
	Fatalf(string, ...any)
}, rows []printedRow) {
	isGroup := map[string]bool{}
	for _, g := range plan.Groups {
		isGroup[capital(string(g))] = true
	}
	at := func(i int, name string, want decimal.Decimal) decimal.Decimal {
		if rows[i].name != name || !rows[i].amount.Equal(want) {
			t.Fatalf("row %d is %v, want %s %s, in %v", i, rows[i], name, want, rows)
		}
		return want
	}
	i, direct := 0, decimal.Zero
	for i < len(rows) && isGroup[rows[i].name] {
		group, sum := rows[i], decimal.Zero
		for i++; i < len(rows) && !isGroup[rows[i].name] && rows[i].name != "Direct lines"; i++ {
			sum = sum.Add(rows[i].amount)
		}
		if !sum.Equal(group.amount) {
			t.Fatalf("the lines of %s make %s, it says %s", group.name, sum, group.amount)
		}
		direct = direct.Add(group.amount)
	}
	if i > 0 {
		at(i, "Direct lines", direct)
		i++
	}
	own := decimal.Zero
	for ; rows[i].name != "Your time" && rows[i].name != "Direct lines"; i++ {
		own = own.Add(rows[i].amount)
	}
	if rows[i].name == "Your time" {
		at(i, "Your time", own)
		i++
	}
	floor := at(i, "Direct lines", direct).Add(rows[i+1].amount).Add(at(i+2, "Your time", own)).Add(rows[i+3].amount)
	at(i+4, "Floor", floor)
	i += 5
	net, sum := rows[i].amount, rows[i].amount // the price
	for i++; rows[i].name != "Total"; i++ {
		if rows[i].name == "Net price" {
			net = at(i, "Net price", sum)
			continue
		}
		sum = sum.Add(rows[i].amount)
	}
	at(i, "Total", sum)
	at(i+1, "Net price", net)
	at(i+2, "Floor", floor.Neg())
	at(i+3, "Profit", net.Sub(floor))
}

// The printed budget of the demo, as pdftotext (poppler) reads its columns, adds up: with a discount, with lines that do not
// count, and on both sizes of paper.
func TestPrintedBudgetAddsUp(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (package poppler-utils): the print is not read back")
	}
	p, days, _ := tarn(t)
	p.Pricing.Card.Terms.Discount = decimal.NewFromInt(7)
	p.Pricing.Card.Rates[0].Pays = plan.ClientPays
	p.Pricing.Overrides = []plan.Override{{Line: "kit/drone", Out: true}, {Line: "rate/food", Quantity: new(decimal.Decimal)}}
	row := regexp.MustCompile(`^(\S.*?)(?:  +.*)?  +(-?[\d,]+\.\d\d)$`)
	for _, size := range plan.PaperSizes {
		cmd := exec.Command(tool, "-layout", "-enc", "UTF-8", "-", "-")
		cmd.Stdin = strings.NewReader(string(printed(t, Budget(&p, days), size)))
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		var rows []printedRow
		started := false
		for line := range strings.Lines(string(out)) {
			line = strings.TrimSpace(line)
			started = started || line == "What it costs"
			if line == "Not counted" {
				break
			}
			if m := row.FindStringSubmatch(line); m != nil && started {
				rows = append(rows, printedRow{m[1], figure(t, m[2])})
			}
		}
		if len(rows) < 40 {
			t.Fatalf("%s: only %d rows were read:\n%s", size, len(rows), out)
		}
		addsUp(t, rows)
	}
}

// Whatever the card says, what is printed adds up, to the minor unit of its currency.
func TestBudgetAddsUp(t *testing.T) {
	p, days, _ := tarn(t)
	rapid.Check(t, func(rt *rapid.T) {
		p := p.Clone()
		card := &p.Pricing.Card
		amount := func(name string, most int64, places int32) decimal.Decimal {
			return decimal.New(rapid.Int64Range(0, most).Draw(rt, name), -places)
		}
		card.Currency = rapid.SampledFrom([]string{"USD", "JPY", "KWD", "CLF", ""}).Draw(rt, "currency")
		for i := range card.Rates {
			if card.Rates[i].Who == "" {
				card.Rates[i].Amount = amount("rate", 1e9, 5)
			}
			card.Rates[i].Pays = rapid.SampledFrom(plan.Payers).Draw(rt, "pays")
			card.Rates[i].Group = rapid.SampledFrom(plan.Groups).Draw(rt, "group")
		}
		for i := range card.Crew {
			card.Crew[i].Rate = amount("crew", 1e8, 4)
		}
		card.Business.Pay = amount("pay", 1e9, 3)
		card.Terms.Contingency, card.Terms.Margin = amount("contingency", 1e5, 3), amount("margin", 99e3, 3)
		card.Terms.Discount = amount("discount", 1e5, 3)
		card.Terms.TaxByLine = rapid.Bool().Draw(rt, "by line")
		card.Terms.Taxes = append(card.Terms.Taxes, plan.Tax{Name: "Town tax", Percent: amount("tax", 1e5, 3)})
		some := []day.Day(nil)
		if rapid.Bool().Draw(rt, "placed") {
			some = days
		}
		var rows []printedRow
		for _, sec := range Budget(&p, some).Sections {
			for _, r := range sec.Table.Rows {
				last := r.Cells[len(r.Cells)-1]
				if sec.Heading != "Not counted" {
					rows = append(rows, printedRow{r.Cells[0].Strong + r.Cells[0].Text, figure(t, last.Strong+last.Text)})
				}
			}
		}
		addsUp(rt, rows)
	})
}

// What keeps the figures from being right stands at the top.
func TestBudgetTellsProblems(t *testing.T) {
	p, days, _ := tarn(t)
	for name, c := range map[string]struct {
		days []day.Day
		want string
	}{"starter": {days, "invented; put your own in before you quote"}, "left out": {days, "On no day, so without hours in the price: scene 11."}, "not placed": {nil, "No day is placed yet, so there are no crew hours"}} {
		s := Budget(&p, c.days)
		if s.Sections[0].Heading != "Look at this first" || !strings.Contains(strings.Join(s.Sections[0].List, "\n"), c.want) {
			t.Errorf("%s: %q", name, s.Sections[0].List)
		}
	}
}

// No page ends with the head of a group, and none begins with a sum, however high it is.
func TestBudgetParts(t *testing.T) {
	p, days, _ := tarn(t)
	set := setter{measure: perLetter, width: 178}
	for tall := 60.0; tall < 260; tall++ {
		pages := flow(set.runs(Budget(&p, days)), tall)
		for i, page := range pages {
			if last := page[len(page)-1]; last.keep {
				t.Errorf("%v mm: page %d ends with %v", tall, i+1, last.cells[0].lines)
			}
		}
	}
}
