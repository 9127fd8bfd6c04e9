package page

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/say"
)

// Lists that are typed as text, a line each. Their words may be those of any language of the window; shown are those of the one
// that it speaks.

// parseWeather reads an expectation a line, as people write it: hours, then the cloud and the chance of rain in hundredths.
// "06:00-11:00 70% cloud, 20% rain", "2027-10-16 6-11 cloud 70 rain 20", "cloud 40" for the whole day. A line without a
// date is for date.
func parseWeather(text string, date plan.Date) ([]plan.Weather, error) {
	var out []plan.Weather
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		w, err := parseWeatherLine(line, date)
		if err != nil {
			return nil, say.Error("line %d: %v", i+1, err)
		}
		out = append(out, w)
	}
	return out, nil
}

// printWeather writes what parseWeather reads, a line each.
func printWeather(list []plan.Weather) string {
	var lines []string
	for _, w := range list {
		var words []string
		if w.Date.IsZero() {
			words = append(words, tongue.Say("every day"))
		} else {
			words = append(words, w.Date.String())
		}
		if w.From.IsSet() || w.To.IsSet() {
			words = append(words, printClock(w.From.Or(plan.ClockAt(0)))+"-"+printClock(w.To.Or(plan.ClockAt(24*60))))
		}
		words = append(words, fmt.Sprint(tongue.Say("weather|cloud"), " ", w.Cloud))
		if w.Rain > 0 {
			words = append(words, fmt.Sprint(tongue.Say("weather|rain"), " ", w.Rain))
		}
		lines = append(lines, strings.Join(words, " "))
	}
	return strings.Join(lines, "\n")
}

var weatherNumber = regexp.MustCompile(`^(\d{1,3})%?$`)

func parseWeatherLine(line string, date plan.Date) (plan.Weather, error) {
	w := plan.Weather{Date: date}
	bad := say.Error("%q is not understood; write it as in 06:00-11:00 cloud 70 rain 20", strings.TrimSpace(line))
	line = strings.NewReplacer(",", " ", ";", " ", "–", "-", "%", " ").Replace(joinedHours(line))
	number, word, said := -1, "", false
	for _, f := range strings.Fields(inEnglish(line, "every day", "weather|cloud", "weather|rain")) {
		switch from, to, hours := strings.Cut(f, "-"); {
		case weatherNumber.MatchString(f) && number < 0:
			number, _ = strconv.Atoi(f)
		case f == "every" || f == "day":
			w.Date = plan.Date{}
			continue
		case f == "cloud" || f == "rain":
			word = f
		case strings.Count(f, "-") == 2:
			d, err := plan.ParseDate(f)
			if err != nil {
				return w, err
			}
			w.Date = d
			continue
		case hours:
			var errFrom, errTo error
			w.From, errFrom = parseHour(from)
			w.To, errTo = parseHour(to)
			if errFrom != nil || errTo != nil {
				return w, bad
			}
			continue
		default:
			return w, bad
		}
		if number >= 0 && word != "" {
			if word == "cloud" {
				w.Cloud = number
			} else {
				w.Rain = number
			}
			number, word, said = -1, "", true
		}
	}
	if number >= 0 && word == "" && !said { // a bare figure is the cloud
		w.Cloud, said = number, true
		number = -1
	}
	if !said || number >= 0 || word != "" {
		return w, bad
	}
	return w, nil
}

// hourHalf is an hour of the 12-hour clock with air before its half of the day.
var hourHalf = regexp.MustCompile(`(?i)(\d)[\s\x{a0}]+([ap]m)\b`)

// joinedHours takes the air away, so that an hour is one word.
func joinedHours(line string) string {
	return hourHalf.ReplaceAllString(half.ReplaceAllString(line, "${1}m"), "${1}${2}")
}

// parseHour reads a clock time, or an hour by itself.
func parseHour(text string) (plan.Clock, error) {
	if !strings.ContainsAny(text, ":.apm") {
		text += ":00"
	}
	return plan.ParseClock(text)
}

// parseLooks reads who wears what, a line each: "Nina: linen dress". Who is one of the people, by name, by the beginning of
// one, or by id.
func parseLooks(text string, people []plan.Person) ([]plan.Look, error) {
	var out []plan.Look
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		name, look, cut := strings.Cut(line, ":")
		if look = strings.TrimSpace(look); !cut || look == "" {
			return nil, say.Error("line %d: write who, a colon and what they wear, as in Nina: linen dress", i+1)
		}
		who, err := whoIs(strings.TrimSpace(name), people)
		if err != nil {
			return nil, say.Error("line %d: %v", i+1, err)
		}
		out = append(out, plan.Look{Person: who, Look: look})
	}
	return out, nil
}

// whoIs finds the one of the people that is called so.
func whoIs(name string, people []plan.Person) (plan.ID, error) {
	byName := func(q plan.Person) bool { return strings.EqualFold(q.Called(), name) }
	byID := func(q plan.Person) bool { return string(q.ID) == name }
	byStart := func(q plan.Person) bool { return name != "" && strings.HasPrefix(lower(q.Called()), lower(name)) }
	var names []string
	for _, q := range people {
		names = append(names, lookName(q, people))
	}
	for _, is := range []func(plan.Person) bool{byID, byName, byStart} {
		var found []plan.ID
		for _, q := range people {
			if is(q) {
				found = append(found, q.ID)
			}
		}
		switch {
		case len(found) == 1:
			return found[0], nil
		case len(found) > 1:
			return "", say.Error("%q may be more than one person in this scene; write one of %s", name, joinWords(names))
		}
	}
	if len(people) == 0 {
		return "", say.Error("nobody is in this scene yet; tick its people first")
	}
	return "", say.Error("nobody in this scene is called %q; it has %s", name, joinWords(names))
}

// lookName is what a person is called where looks are listed: by id where the name would be read as another's, or not at all.
func lookName(q plan.Person, people []plan.Person) string {
	name := q.Called()
	others := slices.ContainsFunc(people, func(o plan.Person) bool {
		return o.ID != q.ID && (strings.EqualFold(o.Called(), name) || string(o.ID) == name)
	})
	if others || strings.ContainsAny(name, ":\n") || strings.TrimSpace(name) != name {
		return string(q.ID)
	}
	return name
}

// printLooks writes what parseLooks reads, a line each.
func printLooks(looks []plan.Look, people []plan.Person) string {
	var lines []string
	for _, l := range looks {
		name := string(l.Person)
		if i := slices.IndexFunc(people, func(q plan.Person) bool { return q.ID == l.Person }); i >= 0 {
			name = lookName(people[i], people)
		}
		lines = append(lines, name+": "+l.Look)
	}
	return strings.Join(lines, "\n")
}

// parseKit reads a stretch a line in which kit is there: "Crane: 2027-10-16 09:00-17:00". Without a date it is there so on
// every date, without hours all day; of hours one may be left open, "09:00-". A name alone is there always.
func parseKit(text string) ([]plan.Kit, error) {
	var out []plan.Kit
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		name, when, _ := strings.Cut(line, ":")
		if name = strings.TrimSpace(name); name == "" {
			return nil, say.Error("line %d: write what it is before the colon, as in Crane: 2027-10-16 09:00-17:00", i+1)
		}
		at := slices.IndexFunc(out, func(k plan.Kit) bool { return k.Is(name) })
		if at < 0 {
			at, out = len(out), append(out, plan.Kit{Name: name})
		}
		times, err := parseStretch(when)
		if err != nil {
			return nil, say.Error("line %d: %v", i+1, err)
		}
		out[at].Availability = append(out[at].Availability, times...)
	}
	return out, nil
}

// parseStretch reads when something is there: a date, hours, both, or nothing, which is "any time".
func parseStretch(text string) ([]plan.Availability, error) {
	var a plan.Availability
	bad := say.Error("%q is not understood; write it as in 2027-10-16 09:00-17:00", strings.TrimSpace(text))
	words := strings.Fields(inEnglish(strings.NewReplacer(",", " ", "–", "-").Replace(joinedHours(text)), "any time", "every day"))
	switch strings.Join(words, " ") {
	case "", "any time":
		return nil, nil
	case "every day":
		return []plan.Availability{a}, nil
	}
	dated, timed := false, false
	for _, f := range words {
		switch from, to, hours := strings.Cut(f, "-"); {
		case strings.Count(f, "-") == 2 && !dated:
			d, err := plan.ParseDate(f)
			if err != nil {
				return nil, err
			}
			a.Date, dated = d, true
		case hours && !timed && f != "-":
			var errFrom, errTo error
			a.From, errFrom = parseOpenHour(from)
			a.To, errTo = parseOpenHour(to)
			if errFrom != nil || errTo != nil {
				return nil, bad
			}
			timed = true
		default:
			return nil, bad
		}
	}
	return []plan.Availability{a}, nil
}

// printKit writes what parseKit reads, a line for each stretch.
func printKit(kit []plan.Kit) string {
	var lines []string
	for _, k := range kit {
		if len(k.Availability) == 0 {
			lines = append(lines, k.Name+": "+tongue.Say("any time"))
		}
		for _, a := range k.Availability {
			line := k.Name + ":"
			if !a.Date.IsZero() {
				line += " " + a.Date.String()
			}
			if a.From.IsSet() || a.To.IsSet() {
				line += " " + printClock(a.From) + "-" + printClock(a.To)
			}
			if a == (plan.Availability{}) {
				line += " " + tongue.Say("every day")
			}
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// parseOpenHour reads an hour that may be left open.
func parseOpenHour(text string) (plan.Clock, error) {
	if text == "" {
		return plan.NoClock, nil
	}
	return parseHour(text)
}

// stepForm is a step of overtime: a time, and how often an hour is paid after it. A comma between figures is the second form's
// decimal mark.
var (
	stepForm      = regexp.MustCompile(`^(?:after\s+)?(.+?)[\s,:]+(?:x\s*)?(\d+(?:\.\d+)?)\s*(?:times|x)?$`)
	stepFormComma = regexp.MustCompile(`^(?:after\s+)?(.+?)(?:[\s:]|,\s)+(?:x\s*)?(\d+(?:,\d+)?)\s*(?:times|x)?$`)
)

// parseSteps reads a step of overtime a line: "after 8 h 1.5 times".
func parseSteps(text string) ([]plan.OvertimeStep, error) {
	var out []plan.OvertimeStep
	form := stepForm
	if pointed(".") == "," {
		form = stepFormComma
	}
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		m := form.FindStringSubmatch(inEnglish(line, "overtime|after", "overtime|times"))
		if m == nil {
			return nil, say.Error("line %d: %q is not understood; write it as in after 8 h 1.5 times", i+1, strings.TrimSpace(line))
		}
		after, err := parseTime(m[1])
		if err != nil {
			return nil, say.Error("line %d: %v", i+1, err)
		}
		times, err := parseDecimal(m[2])
		if err != nil {
			return nil, say.Error("line %d: %v", i+1, err)
		}
		out = append(out, plan.OvertimeStep{After: after, Times: times})
	}
	return out, nil
}

// printSteps writes what parseSteps reads, a line each.
func printSteps(steps []plan.OvertimeStep) string {
	var lines []string
	for _, s := range steps {
		lines = append(lines, strings.Join([]string{tongue.Say("overtime|after"), s.After.String(), printFigure(s.Times), tongue.Say("overtime|times")}, " "))
	}
	return strings.Join(lines, "\n")
}
