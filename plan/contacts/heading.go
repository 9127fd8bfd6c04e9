package contacts

import (
	"slices"
	"strings"
	"unicode"

	"eavelight/plan"
	"eavelight/plan/say"

	"golang.org/x/text/unicode/norm"
)

// Field is what a column of a table holds.
type Field string

// The fields. Notes, which everything may be, keeps a column under its heading; only LeaveOut drops one.
const (
	FieldNotes    Field = "notes"
	FieldName     Field = "name"
	FieldGiven    Field = "first name"
	FieldFamily   Field = "last name"
	FieldPhone    Field = "phone"
	FieldEmail    Field = "email"
	FieldRole     Field = "role"
	FieldJob      Field = "job"
	FieldPronouns Field = "pronouns"
	FieldSizes    Field = "sizes"
	FieldDiet     Field = "allergies and diet"
	FieldBorn     Field = "date of birth"
	FieldMinor    Field = "minor"
	FieldPaid     Field = "paid"
	FieldTravel   Field = "travel minutes"
	FieldLeaveOut Field = "leave out"
)

// What only the address book tells of a person; no table has a column for it.
const (
	FieldChange        Field = "change minutes"
	FieldLongest       Field = "minutes there at most"
	FieldWork          Field = "minutes filmed at most"
	FieldWeight        Field = "weight of waiting"
	FieldGuardian      Field = "guardian"
	FieldGuardianThere Field = "where the guardian is"
)

// What the fields are called to the user. Their values are of files and commands, and the same in every tongue.
var fieldForms = map[Field]string{
	FieldNotes:         say.Mark("column|notes"),
	FieldName:          say.Mark("column|name"),
	FieldGiven:         say.Mark("column|first name"),
	FieldFamily:        say.Mark("column|last name"),
	FieldPhone:         say.Mark("column|phone"),
	FieldEmail:         say.Mark("column|email"),
	FieldRole:          say.Mark("column|role"),
	FieldJob:           say.Mark("column|job"),
	FieldPronouns:      say.Mark("column|pronouns"),
	FieldSizes:         say.Mark("column|sizes"),
	FieldDiet:          say.Mark("column|allergies and diet"),
	FieldBorn:          say.Mark("column|date of birth"),
	FieldMinor:         say.Mark("column|minor"),
	FieldPaid:          say.Mark("column|paid"),
	FieldTravel:        say.Mark("column|travel minutes"),
	FieldLeaveOut:      say.Mark("column|leave out"),
	FieldChange:        say.Mark("column|change minutes"),
	FieldLongest:       say.Mark("column|minutes there at most"),
	FieldWork:          say.Mark("column|minutes filmed at most"),
	FieldWeight:        say.Mark("column|weight of waiting"),
	FieldGuardian:      say.Mark("column|guardian"),
	FieldGuardianThere: say.Mark("column|where the guardian is"),
}

// In is what the field is called in a tongue.
func (f Field) In(tongue say.Tongue) string {
	if form, ok := fieldForms[f]; ok {
		return tongue.Form(form)
	}
	return string(f)
}

// Fields lists them in the order they are offered.
var Fields = []Field{FieldNotes, FieldName, FieldGiven, FieldFamily, FieldPhone, FieldEmail, FieldRole, FieldJob, FieldPronouns,
	FieldSizes, FieldDiet, FieldBorn, FieldMinor, FieldPaid, FieldTravel, FieldLeaveOut}

// textOf is where a person has a field that is a line of text.
func textOf(p *plan.Person, f Field) *string {
	switch f {
	case FieldName:
		return &p.Name
	case FieldPhone:
		return &p.Phone
	case FieldEmail:
		return &p.Email
	case FieldPronouns:
		return &p.Pronouns
	case FieldSizes:
		return &p.Sizes
	case FieldDiet:
		return &p.Diet
	}
	return &p.Job
}

// headings are the words that head columns in English, German, French and Spanish, as folded makes them.
var headings = map[Field]string{
	FieldName: `name, full name, display name, contact, contact name, person, who,
		vollstandiger name, anzeigename, ansprechpartner, vor und nachname, nom, nom complet, nom et prenom, prenom et nom, contacto,
		nombre, nombre completo, nombre y apellido, nombre y apellidos`,
	FieldGiven:  `first name, given name, forename, vorname, rufname, prenom, nombre de pila, primer nombre`,
	FieldFamily: `last name, family name, surname, nachname, familienname, zuname, nom de famille, apellido, apellidos`,
	FieldPhone: `phone, phone number, telephone, tel, cell, cell phone, cellphone, mobile, mobile phone, phone no,
		telefon, telefonnummer, rufnummer, handy, handynummer, mobil, mobiltelefon, mobilnummer, festnetz,
		telephone portable, portable, numero de telephone, telefono, numero de telefono, movil, celular, telefono movil`,
	FieldEmail: `email, mail, email address, mail address, emailadresse, mailadresse, email adresse, courriel, mel,
		adresse email, adresse mail, adresse electronique, correo, correo electronico, direccion de correo`,
	FieldRole: `role, role in the film, rolle, papel, rol`,
	FieldJob: `job, job title, occupation, profession, position, title, function, what they do, beruf, tatigkeit, funktion,
		fonction, poste, metier, puesto, cargo, ocupacion, profesion, funcion, oficio`,
	FieldBorn: `date of birth, birth date, birthdate, birthday, dob, born, born on, geburtsdatum, geburtstag, geboren,
		geboren am, geb, date de naissance, naissance, ne le, nee le, anniversaire, fecha de nacimiento, nacimiento, cumpleanos`,
	FieldPronouns: `pronoun, pronouns, anrede, pronomen, pronoms, pronom, pronombre, pronombres`,
	FieldSizes: `size, sizes, clothing size, clothes size, wardrobe, wardrobe sizes, grosse, grossen, konfektionsgrosse, kleidergrosse,
		taille, tailles, talla, tallas, vestuario`,
	FieldDiet: `diet, allergies, allergy, allergies and diet, allergies diet, dietary needs, dietary requirements, food, allergien,
		allergie, unvertraglichkeiten, ernahrung, regime, regime alimentaire, alergias, alergia, dieta`,
	FieldMinor: `minor, is minor, child, under 18, minderjahrig, kind, mineur, enfant, menor, menor de edad, nino`,
	FieldPaid:  `paid, is paid, bezahlt, paye, remunere, pagado, remunerado`,
	FieldTravel: `travel, travel minutes, travel time, minutes of travel, anfahrt, fahrzeit, anreise, trajet, temps de trajet,
		desplazamiento, tiempo de viaje`,
	FieldNotes: `notes, note, comment, comments, remark, remarks, notizen, notiz, bemerkung, bemerkungen, anmerkung, anmerkungen,
		kommentar, hinweis, hinweise, remarque, remarques, commentaire, commentaires, nota, notas, comentario, comentarios, observaciones`,
}

// roles are the words for the roles in the same languages.
var roles = map[plan.Role]string{
	plan.Talent: `talent, model, actor, actress, extra, volunteer, on camera, darsteller, darstellerin, statist, statistin,
		komparse, komparsin, acteur, actrice, figurant, figurante, benevole, actriz, figurante, voluntario, voluntaria`,
	plan.Crew:   `crew, team, equipe, equipo`,
	plan.Client: `client, customer, kunde, kundin, cliente`,
	plan.Owner:  `owner, homeowner, eigentumer, eigentumerin, besitzer, besitzerin, proprietaire, propietario, propietaria, dueno, duena`,
}

var (
	headingWords = turned(headings)
	roleWords    = turned(roles)
)

// turned makes lists of words into a table of what each word stands for.
func turned[T ~string](lists map[T]string) map[string]T {
	out := map[string]T{}
	for what, list := range lists {
		for w := range strings.SplitSeq(list, ",") {
			out[folded(w)] = what
		}
	}
	return out
}

// fillers are words that change nothing about what a column is.
var fillers = []string{"value", "primary", "main", "work", "home", "business", "private", "privat", "geschaftlich", "dienstlich", "personal",
	"prive", "perso", "professionnel", "particular", "trabajo", "casa", "the", "of", "de", "le", "la", "am"}

// folded brings words to the form in which they are compared: small letters without marks, one blank between words, no
// figures, and e-mail in one word.
func folded(s string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(s) {
		switch r = unicode.ToLower(r); {
		case unicode.Is(unicode.Mn, r):
		case r == 'ß':
			b.WriteString("ss")
		case unicode.IsLetter(r):
			b.WriteRune(r)
		default:
			b.WriteByte(' ')
		}
	}
	return strings.TrimPrefix(strings.ReplaceAll(" "+strings.Join(strings.Fields(b.String()), " "), " e mail", " email"), " ")
}

// fieldOf tells what a heading stands for; known is false, and the field the notes, where it says nothing to us.
func fieldOf(heading string) (f Field, known bool) {
	if len(heading) > 100 {
		return FieldNotes, false
	}
	words := folded(heading)
	if f, known = headingWords[words]; known {
		return f, true
	}
	rest := slices.DeleteFunc(strings.Fields(words), func(w string) bool { return slices.Contains(fillers, w) })
	if f, known = headingWords[strings.Join(rest, " ")]; known {
		return f, true
	}
	return FieldNotes, false
}

// isNotes reports a heading that says no more than that remarks stand below it.
func isNotes(heading string) bool {
	f, known := fieldOf(heading)
	return known && f == FieldNotes
}

// roleOf tells which role a word stands for.
func roleOf(s string) (plan.Role, bool) {
	if len(s) > 100 {
		return "", false
	}
	r, ok := roleWords[folded(s)]
	return r, ok
}

// truth reads a yes or a no, a cross or a tick.
func truth(s string) (yes, ok bool) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "yes", "y", "true", "1", "x", "✓", "✔", "ja", "j", "wahr", "oui", "o", "vrai", "sí", "si", "s", "verdadero":
		return true, true
	case "no", "n", "false", "0", "-", "nein", "falsch", "non", "faux", "falso":
		return false, true
	}
	return false, false
}
