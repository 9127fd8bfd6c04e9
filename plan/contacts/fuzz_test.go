package contacts

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"eavelight/plan"
)

// FuzzReadCards asks of any bytes: no panic; a refusal that says something; or people who fit a plan and come back the same
// when they are written and read again.
func FuzzReadCards(f *testing.F) {
	for _, s := range []string{
		cardOf("4.0", "FN:A", `TEL;VALUE=uri;PREF=1;TYPE="voice,home":tel:+1-555-555-5555;ext=5555`, "NOTE:a", "  b", "UID:x y"),
		cardOf("2.1", "N;CHARSET=ISO-8859-1;ENCODING=QUOTED-PRINTABLE:M=FCller;J=F6rg;=", ";", "AGENT:", "BEGIN:VCARD", "FN:x", "END:VCARD"),
		cardOf("3.0", "item1.TEL;type=pref:+1 555 0100", "item1.X-ABLabel:_$!<Home>!$_", "FN;ENCODING=b:Wm/Dqw==", "PHOTO;ENCODING=B:AAAA", " AAAA"),
		cardOf("2.1", "FN;CHARSET=utf-16:\xfe\xff\x00A", "NOTE;CHARSET=iso-2022-jp:\x1b$B;3", "BDAY:20000229", "KIND:group"),
		utf16Of(cardOf("4.0", "FN:A", "CATEGORIES:crew,x")), "\ufeffBEGIN:VCARD\rFN:A",
		cardOf("4.0", "FN:A", "X-EAVELIGHT-WEIGHT:-0", "X-EAVELIGHT-TRAVEL:x", "X-EAVELIGHT-DIET:a\\,b", "X-EAVELIGHT-MINOR:yes",
			"RELATED;TYPE=agent;X-EAVELIGHT=guardian;VALUE=text:a\\;b", "X-EAVELIGHT-GUARDIAN-THERE:Reachable", "X-EAVELIGHT-SHOE:1"),
		cardOf("4.0", "TEL:tel:tel:%74el:123", "TEL:\x00tel:%00tel:1234", "EMAIL:mailto:mailto:a@b;c@d"),
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		all, found, err := ReadCards(bytes.NewReader(data), today)
		checkRead(t, all, found, err)
		if err != nil {
			return
		}
		var b bytes.Buffer
		if err := writeCards(&b, all, writeOwn); err != nil {
			t.Fatal(err)
		}
		back, found, err := ReadCards(bytes.NewReader(b.Bytes()), today)
		if err != nil || len(found) > 0 {
			t.Fatalf("%v %v\n%s", err, found, b.Bytes())
		}
		for i := range all {
			// Written, everybody has a name and an identifier.
			if all[i].Person.Name == "" {
				all[i].Person.Name = back[i].Person.Name
			}
			if all[i].UID == "" {
				all[i].UID = back[i].UID
			}
			all[i].Line, back[i].Line = 0, 0
		}
		if !reflect.DeepEqual(all, back) {
			t.Fatalf("read %+v\nwritten and read %+v\nfrom\n%s", all, back, b.Bytes())
		}
	})
}

// FuzzReadTable asks the same of tables, without a way back; and that every cell can be found again under the guessed match.
func FuzzReadTable(f *testing.F) {
	for _, s := range []string{
		"name,phone,email,born,minor\nIda,+1 555 0100,a@example.org,3/4/2015,yes\n", "sep=;\nname;x\n\"a\nb\";c;d\n", "Ida\nBo", "\"", "a,\"b\nc\n",
		"Title\n\nVorname;Name\tTel\nJ\xf6rg;M\xfcller\t1E+9", "\ufeffname\ra", "a\tb\tc@d\n1\t2", utf16Of("name\nIda"),
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := ReadTable(bytes.NewReader(data))
		if err != nil {
			checkRead(t, nil, nil, err)
			return
		}
		all, found := table.Contacts(table.Match, today)
		checkRead(t, all, found, nil)
		if len(all) != len(table.Rows) {
			t.Fatalf("%d people from %d rows", len(all), len(table.Rows))
		}
		for i, row := range table.Rows {
			kept := keptText(all[i])
			for j, c := range row.Cells {
				if c != "" && utf8.RuneCountInString(kept) < maxNotes && !holds(kept, all[i], table.Match.field(j), c) {
					t.Fatalf("%q as %s is lost from %q", c, table.Match.field(j), kept)
				}
			}
		}
	})
}

// checkRead holds what a reader gives back to what the package promises.
func checkRead(t *testing.T, all []Contact, found []Problem, err error) {
	t.Helper()
	if err != nil {
		if err.Error() == "" || all != nil {
			t.Fatalf("%d people and the error %q", len(all), err)
		}
		return
	}
	p := plan.New()
	p.Shooting.Dates = []plan.Date{today}
	for i, c := range all {
		q := c.Person
		one := q.Name + q.Phone + q.Email + q.Job + q.Pronouns + q.Sizes + q.Diet + c.UID
		if !utf8.ValidString(one+q.Notes) || strings.ContainsAny(one, "\r\n\x00") || strings.ContainsAny(q.Notes, "\r\x00") {
			t.Fatalf("odd text in %+q", fmt.Sprintf("%+v", c))
		}
		q.ID = plan.ID(fmt.Sprintf("p%d", i))
		p.People = append(p.People, q)
	}
	if wrong := plan.Validate(p); len(wrong) > 0 {
		t.Fatal(wrong)
	}
	for _, f := range found {
		if f.Text.IsZero() || !utf8.ValidString(f.Text.String()) || strings.ContainsAny(f.Text.String(), "\r\n") {
			t.Fatalf("%#v", f)
		}
	}
	Apply(&p, Propose(p.People, all))
	if wrong := plan.Validate(p); len(wrong) > 0 {
		t.Fatal(wrong)
	}
}
