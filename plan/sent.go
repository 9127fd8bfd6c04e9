package plan

import (
	"fmt"
	"time"

	"eavelight/plan/say"
)

// SentSheet is what the call sheet of a shooting day said that was sent last: so that the next one has its number, and tells what has
// changed.
type SentSheet struct {
	Day      int // of the shoot
	Revision int // 1 for the first that was sent
	Date     Date
	Before   Date // the revision before it was for; zero where there was none
	Items    []SentItem
}

// SentItem is a row of a call sheet, or another part of it that changes by itself.
type SentItem struct {
	Key      string // which part it is, in every revision
	Name     string // what its readers call it
	Digest   string // SHA-256 of what it said, in hex
	From, To time.Time
	Change   SentChange // since the revision before
	Was      Span       // its times in that one, where they were others
}

// SentChange is what has become of a part of a call sheet since the revision before.
type SentChange string

// The changes. An item that is gone is no part of the sheet any more; it is kept to be told of. None, the zero value, is as it was.
const (
	ItemNew     SentChange = "new"
	ItemChanged SentChange = "changed"
	ItemGone    SentChange = "gone"
)

// SentChanges lists them.
var SentChanges = []SentChange{ItemNew, ItemChanged, ItemGone}

func (v *validator) sheets() {
	days := map[int]bool{}
	for i, s := range v.plan.Papers.Sheets {
		at := fmt.Sprintf("papers.sheets[%d]", i)
		if days[s.Day] {
			v.wrong(at+".day", NamedTwice, say.That("day %d", s.Day))
		}
		days[s.Day] = true
		v.within(at+".day", float64(s.Day), 1, maxDays)
		v.within(at+".revision", float64(s.Revision), 1, maxCount)
		v.date(at+".date", s.Date)
		v.date(at+".before", s.Before)
		keys := map[string]bool{}
		for j, item := range s.Items {
			at := fmt.Sprintf("%s.items[%d]", at, j)
			if keys[item.Key] {
				v.wrong(at+".key", NamedTwice, item.Key)
			}
			keys[item.Key] = true
			v.sentItem(at, item)
		}
	}
}

func (v *validator) sentItem(at string, item SentItem) {
	v.name(at+".key", item.Key)
	v.text(at+".name", item.Name)
	v.digest(at+".digest", item.Digest)
	oneOf(v, at+".change", item.Change, SentChanges)
	for _, t := range []struct {
		name string
		at   time.Time
	}{{".from", item.From}, {".to", item.To}, {".was-from", item.Was.From}, {".was-to", item.Was.To}} {
		if !t.at.IsZero() {
			v.instant(at+t.name, t.at)
		}
	}
}
