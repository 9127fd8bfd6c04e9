package store

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/assets"
	"eavelight/plan"

	"pgregory.net/rapid"
)

// TestStarterCard: the card that comes with the program reads, says that it is invented, and writes back to the byte.
func TestStarterCard(t *testing.T) {
	c, err := DecodeCard("starter", assets.StarterCard)
	if err != nil {
		t.Fatal(err)
	}
	if !c.Starter || c.Empty() || c.Currency != "USD" {
		t.Errorf("starter %v, empty %v, in %s", c.Starter, c.Empty(), c.Currency)
	}
	data, err := EncodeCard(c)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := DecodeCard("again", data); err != nil || len(again.Rates) != len(c.Rates) {
		t.Error("it does not read back:", err)
	}
}

// TestCardRoundTrip: what is written is read back the same.
func TestCardRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := maker{t}
		data, err := EncodeCard(m.card())
		if err != nil {
			t.Fatal(err)
		}
		c, err := DecodeCard("drawn", data)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := EncodeCard(c); err != nil || string(again) != string(data) {
			t.Fatalf("%v\n%s\n%s", err, data, again)
		}
	})
}

func TestCardFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "mine.yaml")
	c := plan.RateCard{Name: "Mine", Currency: "EUR"}
	stamp, err := WriteCard(path, c, Stamp{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := WriteCard(path, c, Stamp{}); err == nil {
		t.Error("a card was written over one that was not read")
	}
	if got, now, err := ReadCard(path); err != nil || got.Name != "Mine" || !now.Same(stamp) {
		t.Errorf("%+v, %v", got, err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("it can be read by others: %v", info.Mode())
	}
}

// TestBadCards: the message has the line, the field and what to do.
func TestBadCards(t *testing.T) {
	for in, want := range map[string]string{
		"eavelight: 1\n": `1:1: this is not a rate card: its first line must be "eavelight-rates: 1"`,
		"eavelight-rates: 1\ncurrency: dollars\n":                               `2:11: currency: "dollars" is not a currency code`,
		"eavelight-rates: 1\ncrew:\n- {id: a, rate: -5}\n":                      `3:17: crew[0].rate: the amount is outside 0 to 1000000000000`,
		"eavelight-rates: 1\ncrew:\n- {id: a, basis: day, rate: \"5\"}\n":       `crew[0].hours: a rate by the day needs the hours that it is for`,
		"eavelight-rates: 1\ncrew:\n- {id: a, overtime: nine}\n":                `crew[0].overtime: there is no overtime rule with the id "nine"`,
		"eavelight-rates: 1\nterms: {payments: [{percent: \"50\"}]}\n":          `terms.payments: the payments add up to 50 percent; they need to make 100`,
		"eavelight-rates: 1\nrates:\n- {id: a, time: 5}\n":                      `rates[0].time: a rate is either an amount of money, or a time of somebody in the crew`,
		"eavelight-rates: 1\nkit:\n- {name: crane, owned: true, cost: \"5\"}\n": `crane is owned, so it needs the years it is kept`,
	} {
		_, err := DecodeCard("card.yaml", []byte(in))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q:\n%v\nwant %s", in, err, want)
		}
	}
}

func FuzzDecodeCard(f *testing.F) {
	f.Add(assets.StarterCard)
	f.Add([]byte("eavelight-rates: 1\ncrew: [{id: a}]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := DecodeCard("fuzzed", data)
		if err != nil {
			return
		}
		if _, err := EncodeCard(c); err != nil {
			t.Fatalf("what was read can't be written: %v", err)
		}
	})
}
