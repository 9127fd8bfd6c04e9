package contacts

import (
	"encoding/csv"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"

	"golang.org/x/text/encoding/charmap"
	"pgregory.net/rapid"
)

func readTable(t testing.TB, file string) Table {
	t.Helper()
	table, err := ReadTable(strings.NewReader(file))
	if err != nil {
		t.Fatalf("%v, from %q", err, file)
	}
	return table
}

// people prints what was read of each person, in a fixed order.
func people(contacts []Contact) []string {
	var out []string
	for _, c := range contacts {
		p := c.Person
		s := fmt.Sprintf("%s|%s|%s|%s|%s|%s|%s", p.Name, p.Phone, p.Email, p.Role, p.Job, p.Born, p.Notes)
		if p.Minor {
			s += "|minor"
		}
		if p.Paid {
			s += "|paid"
		}
		if p.Travel > 0 {
			s += "|" + p.Travel.String()
		}
		for _, more := range []string{p.Pronouns, p.Diet, p.Sizes} {
			if more != "" {
				s += "|" + more
			}
		}
		out = append(out, s)
	}
	return out
}

func texts(found []Problem) []string {
	var out []string
	for _, p := range found {
		out = append(out, p.String())
	}
	return out
}

func wantList(t testing.TB, what string, got, want []string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("%s:\ngot  %q\nwant %q", what, got, want)
	}
}

// TestLanguages reads one small table with its headings in four languages. That these words head such columns is common
// practice, no published source.
func TestLanguages(t *testing.T) {
	want := []string{"Ida Möller|030 1234567|ida@example.org|talent|the aunt|1990-02-13|no nuts|paid|25 min", "Bo Lind|||crew||2016-12-24|"}
	for name, file := range map[string]string{
		"English": "First Name,Last Name,Phone,E-mail,Role,Job,Date of birth,Paid,Travel minutes,Notes\n" +
			"Ida,Möller,030 1234567,ida@example.org,talent,the aunt,2/13/1990,yes,25,no nuts\nBo,Lind,,,Crew,,12/24/2016,no,,\n",
		"German": "Name;Vorname;Handy;E-Mail-Adresse;Rolle;Tätigkeit;Geburtsdatum;bezahlt;Fahrzeit;Bemerkungen\n" +
			"Möller;Ida;030 1234567;ida@example.org;Statistin;the aunt;13.02.1990;ja;25 min;no nuts\nLind;Bo;;;Team;;24.12.2016;nein;;\n",
		"French": "Nom\tPrénom\tTéléphone\tCourriel\tRôle\tMétier\tDate de naissance\tPayé\tTrajet\tRemarques\n" +
			"Möller\tIda\t030 1234567\tida@example.org\tFigurante\tthe aunt\t13/02/1990\toui\t25\tno nuts\nLind\tBo\t\t\tÉquipe\t\t24/12/2016\tnon\t\t\n",
		"Spanish": "Nombre;Apellidos;Teléfono móvil;Correo electrónico;Papel;Profesión;Fecha de nacimiento;Pagado;Desplazamiento;Observaciones\n" +
			"Ida;Möller;030 1234567;ida@example.org;Voluntaria;the aunt;13-02-1990;sí;25;no nuts\nBo;Lind;;;Equipo;;24-12-2016;no;;\n",
	} {
		table := readTable(t, file)
		got, found := table.Contacts(table.Match, today)
		wantList(t, name, people(got), want)
		wantList(t, name+", problems", texts(found), nil)
	}
}

// TestHeadingWords holds that no word stands for two fields, for then chance would decide.
func TestHeadingWords(t *testing.T) {
	noTwice(t, headings)
	noTwice(t, roles)
	for heading, want := range map[string]Field{
		"E-mail 1 - Value": FieldEmail, "Phone 1 - Value": FieldPhone, "Work phone": FieldPhone, "TELEFON (PRIVAT)": FieldPhone, "Full  name:": FieldName,
		"Née le": FieldBorn, "Größe": FieldSizes, "Überschrift": FieldNotes, "Guardian phone": FieldNotes, "Email type": FieldNotes, "": FieldNotes, "12": FieldNotes,
	} {
		if got, _ := fieldOf(heading); got != want {
			t.Errorf("%q is %s, want %s", heading, got, want)
		}
	}
}

func noTwice[T ~string](t *testing.T, lists map[T]string) {
	seen := map[string]T{}
	for f, list := range lists {
		for w := range strings.SplitSeq(list, ",") {
			if g, twice := seen[folded(w)]; twice && g != f {
				t.Errorf("%q stands for %s and for %s", w, f, g)
			}
			seen[folded(w)] = f
		}
	}
}

// TestForms reads one table in every encoding and with every delimiter that the issue names.
func TestForms(t *testing.T) {
	plainFile := "name,phone,notes\r\nZoë Šubić,+1 555 0100,\"eats fish, no nuts\r\nsize \"\"M\"\"\"\r\n"
	western := strings.ReplaceAll(plainFile, "ć", "c") // Windows-1252 has no ć
	win, err := charmap.Windows1252.NewEncoder().String(western)
	if err != nil {
		t.Fatal(err)
	}
	const want = "Zoë Šubić|+1 555 0100|||||eats fish, no nuts\nsize \"M\""
	for _, c := range []struct {
		name, file, encoding, want string // of the first person
		delimiter                  rune
	}{
		{"UTF-8", plainFile, "UTF-8", want, ','},
		{"with a byte-order mark", "\ufeff" + plainFile, "UTF-8", want, ','},
		{"UTF-16", utf16Of(plainFile), "UTF-16", want, ','},
		{"Windows-1252", win, "Windows-1252", strings.ReplaceAll(want, "ć", "c"), ','},
		{"a line in each", win + "Šubić,,\r\n", "Windows-1252", strings.ReplaceAll(want, "ć", "c"), ','},
		{"semicolons", strings.ReplaceAll(strings.ReplaceAll(plainFile, ",", ";"), "fish;", "fish,"), "UTF-8", want, ';'},
		{"tabs", strings.ReplaceAll(strings.ReplaceAll(plainFile, ",", "\t"), "fish\t", "fish,"), "UTF-8", want, '\t'},
		{"says so", "sep=;\r\n" + strings.ReplaceAll(strings.ReplaceAll(plainFile, ",", ";"), "fish;", "fish,"), "UTF-8", want, ';'},
		{"more commas than semicolons", strings.ReplaceAll(strings.ReplaceAll(plainFile, ",", ";"), "fish;", "fish,") + strings.Repeat("Bo;;\"a, b, c, d, e\"\n", 9), "UTF-8", want, ';'},
		{"more commas, no quotation marks", "name;phone\n" + strings.Repeat("Bo, a, b, c;0301234567\n", 9), "UTF-8", "Bo, a, b, c|0301234567|||||", ';'},
		{"old line ends", strings.ReplaceAll(plainFile, "\r\n", "\r"), "UTF-8", want, ','},
	} {
		table := readTable(t, c.file)
		got, found := table.Contacts(table.Match, today)
		if table.Encoding != c.encoding || table.Delimiter != c.delimiter || len(found) > 0 || people(got)[0] != c.want {
			t.Errorf("%s: %s, %q, %v\ngot  %q\nwant %q", c.name, table.Encoding, table.Delimiter, found, people(got)[0], c.want)
		}
		first := 2
		if c.name == "says so" {
			first = 3
		}
		if got[0].Line != first {
			t.Errorf("%s: line %d, want %d", c.name, got[0].Line, first)
		}
	}
}

// TestHeader finds the headings where they are, and does without.
func TestHeader(t *testing.T) {
	for _, c := range []struct {
		name, file string
		header     bool
		headings   []string
		fields     []Field
		people     []string
		problems   []string
	}{
		{"below a title", "Volunteers of the spring\n\nName;Tel;Dog\nIda;030 1234567;two\n", true, []string{"Name", "Tel", "Dog"},
			[]Field{FieldName, FieldPhone, FieldNotes}, []string{"Ida|030 1234567|||||Dog: two"},
			[]string{"line 1: this stands above the headings and was left out: Volunteers of the spring"}},
		{"none, found by the cells", "Ida,ida@example.org,030 123 4567\nBo,bo@example.org,\n", false, []string{"Column 1", "Column 2", "Column 3"},
			[]Field{FieldName, FieldEmail, FieldPhone}, []string{"Ida|030 123 4567|ida@example.org||||", "Bo||bo@example.org||||"}, nil},
		{"words that we do not know", "Nome,Posta\nIda,ida@example.org\n", true, []string{"Nome", "Posta"},
			[]Field{FieldName, FieldEmail}, []string{"Ida||ida@example.org||||"}, nil},
		{"names alone", "Ida\nBo\n", false, []string{"Column 1"}, []Field{FieldName}, []string{"Ida||||||", "Bo||||||"}, nil},
		{"a heading missing", "name,,phone\nIda,tall,0301234567\n", true, []string{"name", "Column 2", "phone"},
			[]Field{FieldName, FieldNotes, FieldPhone}, []string{"Ida|0301234567|||||Column 2: tall"}, nil},
		{"more cells than headings", "name,phone\nIda,0301234567,x,y\n", true, []string{"name", "phone", "Column 3", "Column 4"},
			[]Field{FieldName, FieldPhone, FieldNotes, FieldNotes}, []string{"Ida|0301234567|||||Column 3: x\nColumn 4: y"}, nil},
		{"two of one kind", "name,email,email,mobile,phone\nIda,a@example.org,b@example.org,+1 555 0100,+1 555 0101\n", true,
			[]string{"name", "email", "email", "mobile", "phone"}, []Field{FieldName, FieldEmail, FieldEmail, FieldPhone, FieldPhone},
			[]string{"Ida|+1 555 0100|a@example.org||||email: b@example.org\nphone: +1 555 0101"}, nil},
		{"what only a film asks", "name,pronouns,Allergies,Sizes,Size\nIda,she/her,nuts,M,41\n", true, []string{"name", "pronouns", "Allergies", "Sizes", "Size"},
			[]Field{FieldName, FieldPronouns, FieldDiet, FieldSizes, FieldSizes}, []string{"Ida||||||Size: 41|she/her|nuts|M"}, nil},
		{"two lengths of the way", "name,travel,Anfahrt\nIda,20,25\nBo,20,20\n", true, []string{"name", "travel", "Anfahrt"},
			[]Field{FieldName, FieldTravel, FieldTravel}, []string{"Ida||||||Anfahrt: 25|20 min", "Bo|||||||20 min"}, nil},
		{"a whole name and its parts", "Name,Given Name,Family Name\nIda M. Berg,Ida,Berg\n,Bo,Lind\n", true, []string{"Name", "Given Name", "Family Name"},
			[]Field{FieldName, FieldGiven, FieldFamily}, []string{"Ida M. Berg||||||", "Bo Lind||||||"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			table := readTable(t, c.file)
			if table.HasHeader != c.header || !slices.Equal(table.Match.Fields, c.fields) {
				t.Errorf("header %v, fields %q", table.HasHeader, table.Match.Fields)
			}
			wantList(t, "headings", table.Headings, c.headings)
			got, found := table.Contacts(table.Match, today)
			wantList(t, "people", people(got), c.people)
			wantList(t, "problems", texts(found), c.problems)
		})
	}
}

// TestBadCells puts into the notes what a field can't take, and tells the line and the column.
func TestBadCells(t *testing.T) {
	table := readTable(t, "name,phone,email,born,minor,travel\n"+
		"Ida,4.91712E+11,ida at home,31/02/2015,perhaps,far\n"+
		"\n"+
		",0301234567,\"a@example.org; b@example.org\",03/04/2015,x,90\n"+
		"Bo,n/a,,2015-02-28,,\n")
	got, found := table.Contacts(table.Match, today)
	wantList(t, "people", people(got), []string{
		"Ida||||||phone: 4.91712E+11\nemail: ida at home\nborn: 31/02/2015\nminor: perhaps\ntravel: far",
		"|0301234567|a@example.org||||email: b@example.org\nborn: 03/04/2015|minor|1 h 30",
		"Bo|||||2015-02-28|phone: n/a",
	})
	wantList(t, "problems", texts(found), []string{
		"line 2, column 2: a spreadsheet has rounded this phone number to 4.91712E+11; it stands in the notes, look it up again",
		`line 2, column 3: "ida at home" is no email address; it stands in the notes`,
		`line 2, column 4: "31/02/2015" is not a date of birth, as in 2015-04-03; it stands in the notes`,
		`line 2, column 5: minor: "perhaps" is no yes or no; it stands in the notes`,
		`line 2, column 6: travel: "far" is no number of minutes; it stands in the notes`,
		`line 4, column 4: "03/04/2015" can be two dates; say whether the day or the month comes first. It stands in the notes`,
		"line 4: this person has no name; type one",
		`line 5, column 2: "n/a" is no phone number; it stands in the notes`,
	})
	// The user says how dates are meant, and leaves a column out.
	m := Match{Fields: slices.Clone(table.Match.Fields), Dates: MonthFirst}
	m.Fields[2] = FieldLeaveOut
	got, _ = table.Contacts(m, today)
	wantList(t, "with another match", people(got)[1:2], []string{"|0301234567||||2015-03-04||minor|1 h 30"})
	m.Dates = DayFirst
	got, _ = table.Contacts(m, today)
	wantList(t, "with another order", people(got)[1:2], []string{"|0301234567||||2015-04-03||minor|1 h 30"})
	// A match with too few fields keeps the others in the notes.
	got, _ = table.Contacts(Match{Fields: []Field{FieldName}}, today)
	wantList(t, "with one field", people(got)[2:], []string{"Bo||||||phone: n/a\nborn: 2015-02-28"})
}

// TestQuotes tells of a quotation mark that swallows rows.
func TestQuotes(t *testing.T) {
	table := readTable(t, "name,notes\nIda,ok\nBo,\"never closed\nNoor,x\n")
	got, found := table.Contacts(table.Match, today)
	wantList(t, "people", people(got), []string{"Ida||||||ok", "Bo||||||never closed\nNoor,x"})
	wantList(t, "problems", texts(found), []string{"line 3: a quotation mark here has no partner; look whether this row and those after it are whole"})
	table = readTable(t, "name,notes\nIda,size 5\" heel\n")
	got, found = table.Contacts(table.Match, today)
	wantList(t, "people", people(got), []string{"Ida||||||size 5\" heel"})
	if len(found) != 1 {
		t.Error(found)
	}
}

// TestDates reads every way of writing a date that is not in words. 3 April 2015 is day 3 of month 4.
func TestDates(t *testing.T) {
	for _, c := range []struct {
		text  string
		order DateOrder
		want  string
		clash bool
	}{
		{"2015-04-03", NotSaid, "2015-04-03", false},
		{"2015/4/3", MonthFirst, "2015-04-03", false},
		{"20150403", NotSaid, "2015-04-03", false},
		{"3.4.2015", NotSaid, "2015-04-03", false},
		{"3. 4. 2015", NotSaid, "2015-04-03", false},
		{"3.4.2015", MonthFirst, "2015-03-04", false},
		{"3/4/2015", NotSaid, "", true},
		{"3/4/2015", DayFirst, "2015-04-03", false},
		{"3/4/2015", MonthFirst, "2015-03-04", false},
		{"4/4/2015", NotSaid, "2015-04-04", false},
		{"13/4/2015", NotSaid, "2015-04-13", false},
		{"4/13/2015", NotSaid, "2015-04-13", false},
		{"13/4/2015", MonthFirst, "", false},
		{"29/2/2016", NotSaid, "2016-02-29", false},
		{"29/2/2015", NotSaid, "", false},
		{"3/4/15", NotSaid, "", false},
		{"2015-4.3", NotSaid, "", false},
		{"2015403", NotSaid, "", false},
		{"0000-00-00", NotSaid, "", false},
		{"1899-12-31", NotSaid, "", false},
		{"2101-01-01", NotSaid, "", false},
		{"3 April 2015", NotSaid, "", false},
		{"", NotSaid, "", false},
	} {
		d, clash, ok := readDate(c.text, c.order)
		if ok != (c.want != "") || ok && d.String() != c.want || clash != c.clash {
			t.Errorf("%q, %q: %v, clash %v, ok %v", c.text, c.order, d, clash, ok)
		}
	}
	for want, dates := range map[DateOrder][]string{
		DayFirst: {"3/4/2015", "13/4/2015"}, MonthFirst: {"3/4/2015", "4/13/2015"}, NotSaid: {"13/4/2015", "4/13/2015", "?"},
	} {
		if got := orderOf(dates); got != want {
			t.Errorf("%q: %q, want %q", dates, got, want)
		}
	}
}

// TestDatesAgree holds readDate to the calendar of package time, for every day of some years, in every form.
func TestDatesAgree(t *testing.T) {
	for day := time.Date(2015, 12, 1, 0, 0, 0, 0, time.UTC); day.Year() < 2018; day = day.AddDate(0, 0, 1) {
		for form, order := range map[string]DateOrder{"2006-01-02": NotSaid, "2006/1/2": NotSaid, "20060102": NotSaid,
			"02.01.2006": NotSaid, "2/1/2006": DayFirst, "1/2/2006": MonthFirst, "01-02-2006": MonthFirst} {
			if got, _, ok := readDate(day.Format(form), order); !ok || got != plan.DateOf(day) {
				t.Fatalf("%s is %v", day.Format(form), got)
			}
		}
	}
}

// TestNothingIsLost writes tables with another writer (encoding/csv), and looks every cell up in the people that come of them,
// whatever the match.
func TestNothingIsLost(t *testing.T) {
	cell := rapid.OneOf(letters(), rapid.SampledFrom([]string{"", "Ida Berg", "a@example.org", "+1 555 0100", "3.4.2015", "yes", "crew", "25"}))
	keeping := slices.DeleteFunc(slices.Clone(Fields), func(f Field) bool { return f == FieldLeaveOut })
	heads := []string{"name", "phone", "email", "diet", "born"}
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(2, 5).Draw(t, "width")
		rows := rapid.SliceOfN(rapid.SliceOfN(cell, width, width), 1, 5).Draw(t, "rows")
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.Comma = rapid.SampledFrom(delimiters).Draw(t, "delimiter")
		if err := w.WriteAll(append([][]string{heads[:width]}, rows...)); err != nil {
			t.Fatal(err)
		}
		table, err := ReadTable(strings.NewReader(b.String()))
		if err == ErrNobody {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		m := Match{Fields: rapid.SliceOfN(rapid.SampledFrom(keeping), 0, width+1).Draw(t, "fields")}
		got, _ := table.Contacts(m, today)
		for i, row := range table.Rows {
			kept := keptText(got[i])
			for j, c := range row.Cells {
				if c != "" && !holds(kept, got[i], m.field(j), c) {
					t.Fatalf("%q as %s is lost from %q", c, m.field(j), kept)
				}
			}
		}
	})
}

// keptText is everything that a contact says, and its words on one line.
func keptText(c Contact) string {
	p := c.Person
	return strings.Join([]string{p.Name, p.Phone, p.Email, string(p.Role), p.Job, p.Pronouns, p.Sizes, p.Diet, p.Born.String(), p.Notes}, "\n")
}

// holds reports whether a cell can be found again: as it was, or as what its field made of it.
func holds(kept string, c Contact, f Field, cell string) bool {
	one := oneLine(cell)
	if strings.Contains(kept, one) || strings.Contains(kept, cell) {
		return true
	}
	switch f {
	case FieldName, FieldGiven, FieldFamily:
		return within(one, strings.ReplaceAll(kept, "\n", " "))
	case FieldRole:
		_, ok := roleOf(cell)
		return ok && c.Person.Role != ""
	case FieldMinor, FieldPaid:
		_, ok := truth(cell)
		return ok
	case FieldTravel:
		n, ok := minutes(cell)
		return ok && n == c.Person.Travel
	case FieldBorn:
		return !c.Person.Born.IsZero()
	case FieldEmail:
		return !slices.ContainsFunc(strings.FieldsFunc(one, func(r rune) bool { return strings.ContainsRune(" ,;", r) }),
			func(s string) bool { return !strings.Contains(kept, s) })
	}
	return false
}

// TestMatchIsData holds that a table's guess can be changed without changing the table.
func TestMatchIsData(t *testing.T) {
	table := readTable(t, "name,phone\nIda,0301234567\n")
	before := readTable(t, "name,phone\nIda,0301234567\n")
	m := Match{Fields: []Field{FieldNotes, FieldName}}
	got, _ := table.Contacts(m, today)
	wantList(t, "people", people(got), []string{"0301234567||||||name: Ida"})
	if !reflect.DeepEqual(table, before) {
		t.Error("the table has changed")
	}
	wantList(t, "samples", table.Samples(0, 3), []string{"Ida"})
}
