package papers

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"io"
	"mime"
	"mime/multipart"
	"mime/quotedprintable"
	"net/mail"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/people"
)

// secrets marks everything private so that it is known again wherever it gets to.
func secrets(p *plan.Plan) {
	p.Brief.Notes = "SECRETBRIEF"
	p.Pricing.Card.Crew[1].Rate = dec("87.65")
	p.Pricing.Card.Overtime = nil
	p.Pricing.Market = []plan.Offer{{Who: "SECRETMARKET", Amount: dec("7777")}}
	p.Log = []plan.LogEntry{{Scene: "s1", Note: "SECRETLOG"}}
	for i := range p.People {
		q := &p.People[i]
		q.Born = plan.Date{Year: 1984, Month: 2, Day: 5}
		q.Diet, q.Notes = "SECRETDIET", "SECRETNOTES"
		q.Certificate = plan.Certificate{Number: "SECRETCERTIFICATE", Trained: q.Born, Until: q.Born}
		q.Email = "mail." + string(q.ID) + "@example.org"
		if q.Minor {
			q.Born.Year = 2019
			q.Phone, q.Email = "SECRETPHONE"+string(q.ID), "secretmail."+string(q.ID)+"@example.org"
		}
	}
}

// readable is what somebody could read out of a file, whatever it is.
func readable(t *testing.T, path string) string {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return readableOf(t, path, content)
}

func readableOf(t *testing.T, name string, content []byte) string {
	t.Helper()
	switch filepath.Ext(name) {
	case ".pdf":
		return pdfWords(t, content)
	case ".xlsx":
		z, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
		if err != nil {
			t.Fatal(err)
		}
		var out strings.Builder
		for _, f := range z.File {
			r, err := f.Open()
			if err != nil {
				t.Fatal(err)
			}
			if _, err := io.Copy(&out, r); err != nil {
				t.Fatal(err)
			}
		}
		return out.String()
	case ".eml":
		m, err := mail.ReadMessage(bytes.NewReader(content))
		if err != nil {
			t.Fatal(err)
		}
		head := strings.Builder{}
		for name := range m.Header {
			words, err := new(mime.WordDecoder).DecodeHeader(m.Header.Get(name))
			if err != nil {
				t.Fatal(err)
			}
			head.WriteString(name + ": " + words + "\n")
		}
		return head.String() + partsOf(t, m.Header.Get("Content-Type"), m.Header.Get("Content-Transfer-Encoding"), "", m.Body)
	case ".ics", ".vcf":
		return strings.ReplaceAll(string(content), "\r\n ", "")
	}
	return string(content)
}

// partsOf reads a part of a mail and those within it.
func partsOf(t *testing.T, kind, encoding, name string, body io.Reader) string {
	t.Helper()
	media, params, err := mime.ParseMediaType(kind)
	if err != nil {
		t.Fatal(err)
	}
	if strings.HasPrefix(media, "multipart/") {
		var out strings.Builder
		parts := multipart.NewReader(body, params["boundary"])
		for {
			p, err := parts.NextRawPart()
			if err == io.EOF {
				return out.String()
			}
			if err != nil {
				t.Fatal(err)
			}
			out.WriteString(partsOf(t, p.Header.Get("Content-Type"), p.Header.Get("Content-Transfer-Encoding"), p.FileName(), p))
		}
	}
	switch encoding {
	case "base64":
		body = base64.NewDecoder(base64.StdEncoding, body)
	case "quoted-printable":
		body = quotedprintable.NewReader(body)
	}
	content, err := io.ReadAll(body)
	if err != nil {
		t.Fatal(err)
	}
	return readableOf(t, name, content)
}

func pdfWords(t *testing.T, content []byte) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (package poppler-utils): the prints are not read back")
	}
	path := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-raw", "-enc", "UTF-8", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// TestNoPaperLeaks writes every paper and reads each file back as whoever gets it could: no paper at all has a minor's phone or mail
// address, a date of birth, a health note, a private note or the number of a certificate; none but the owner's has what anybody is paid;
// and one that is for a person has nobody else's mail address, and no phone but theirs, the maker's and the hospital's.
func TestNoPaperLeaks(t *testing.T) {
	p, days := costed(t)
	secrets(&p)
	dir := t.TempDir()
	set := NewSet(Job{Plan: &p, Days: days, Made: madeAt})
	if _, err := set.Write(t.Context(), dir, Writing{}); err != nil {
		t.Fatal(err)
	}
	maker, _ := people.Maker(&p)
	seen := map[Kind]bool{}
	paid := 0
	for _, paper := range set.Papers {
		seen[paper.Kind] = true
		if filepath.Ext(paper.Name) == ".png" {
			continue // read as the figure's words, which its own test has
		}
		text := readable(t, filepath.Join(dir, filepath.FromSlash(paper.Name)))
		if len(text) < 100 {
			t.Errorf("%s could hardly be read: %q", paper.Name, text)
		}
		has := func(secret, what string) {
			if strings.Contains(strings.ToUpper(text), strings.ToUpper(secret)) {
				t.Errorf("%s holds %s", paper.Name, what)
			}
		}
		for _, secret := range []string{"SECRETBRIEF", "SECRETMARKET", "SECRETLOG", "SECRETDIET", "SECRETNOTES", "SECRETCERTIFICATE", "SECRETPHONE", "secretmail", "1984", "2019-02", "February 2019"} {
			has(secret, secret)
		}
		owners := strings.HasPrefix(paper.Name, ownerFolder)
		if strings.Contains(text, "87.65") {
			paid++
			if !owners {
				t.Errorf("%s tells what somebody is paid", paper.Name)
			}
		}
		if paper.For == "" {
			continue
		}
		reader, _ := p.Person(paper.For)
		for _, who := range p.People {
			if who.ID == reader.ID || who.ID == reader.Guardian || who.ID == maker.ID {
				continue
			}
			has(who.Email, "the mail address of "+string(who.ID))
			if who.Phone != "" {
				has(who.Phone, "the phone of "+string(who.ID))
			}
		}
	}
	for _, k := range Kinds {
		if !seen[k] {
			t.Errorf("there is no paper of the kind %s", k)
		}
	}
	if paid < 2 { // the budget, as a print and as a table: else this test would find nothing
		t.Errorf("%d papers tell what somebody is paid", paid)
	}
	for _, paper := range set.Papers {
		if private := slices.Contains([]Kind{KindBudget, KindRegister}, paper.Kind) || strings.Contains(paper.Name, "budget"); private != strings.HasPrefix(paper.Name, ownerFolder) {
			t.Errorf("%s lies in the wrong folder", paper.Name)
		}
	}
}

// TestEveryPrintIsSound has qpdf check every PDF of a crowded shoot: its syntax, its streams, its tables.
func TestEveryPrintIsSound(t *testing.T) {
	tool, err := exec.LookPath("qpdf")
	if err != nil {
		t.Skip("qpdf is not installed: the prints are not checked")
	}
	p, days := threeDays(t)
	dir := t.TempDir()
	set := NewSet(Job{Plan: &p, Days: days, Made: madeAt})
	if _, err := set.Write(t.Context(), dir, Writing{}); err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, paper := range set.Papers {
		if filepath.Ext(paper.Name) != ".pdf" {
			continue
		}
		checked++
		if out, err := exec.Command(tool, "--check", filepath.Join(dir, filepath.FromSlash(paper.Name))).CombinedOutput(); err != nil || !strings.Contains(string(out), "No syntax or stream encoding errors found") {
			t.Errorf("%s: %v\n%s", paper.Name, err, out)
		}
	}
	if checked < 60 {
		t.Errorf("%d prints, and there are sixty people", checked)
	}
}
