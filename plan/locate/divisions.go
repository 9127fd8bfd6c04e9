package locate

import (
	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"eavelight/assets"
)

// A division is the largest part of a country that people name beside a town.
type division struct{ name, letters string }

// divisions, by country and GeoNames code, for the countries where towns are told apart by them. Postal letters: US Postal
// Service, Canada Post, Australia Post.
var divisions = map[string]division{
	"US AL": {"Alabama", "AL"}, "US AK": {"Alaska", "AK"}, "US AZ": {"Arizona", "AZ"}, "US AR": {"Arkansas", "AR"},
	"US CA": {"California", "CA"}, "US CO": {"Colorado", "CO"}, "US CT": {"Connecticut", "CT"}, "US DE": {"Delaware", "DE"},
	"US DC": {"District of Columbia", "DC"}, "US FL": {"Florida", "FL"}, "US GA": {"Georgia", "GA"}, "US HI": {"Hawaii", "HI"},
	"US ID": {"Idaho", "ID"}, "US IL": {"Illinois", "IL"}, "US IN": {"Indiana", "IN"}, "US IA": {"Iowa", "IA"},
	"US KS": {"Kansas", "KS"}, "US KY": {"Kentucky", "KY"}, "US LA": {"Louisiana", "LA"}, "US ME": {"Maine", "ME"},
	"US MD": {"Maryland", "MD"}, "US MA": {"Massachusetts", "MA"}, "US MI": {"Michigan", "MI"}, "US MN": {"Minnesota", "MN"},
	"US MS": {"Mississippi", "MS"}, "US MO": {"Missouri", "MO"}, "US MT": {"Montana", "MT"}, "US NE": {"Nebraska", "NE"},
	"US NV": {"Nevada", "NV"}, "US NH": {"New Hampshire", "NH"}, "US NJ": {"New Jersey", "NJ"}, "US NM": {"New Mexico", "NM"},
	"US NY": {"New York", "NY"}, "US NC": {"North Carolina", "NC"}, "US ND": {"North Dakota", "ND"}, "US OH": {"Ohio", "OH"},
	"US OK": {"Oklahoma", "OK"}, "US OR": {"Oregon", "OR"}, "US PA": {"Pennsylvania", "PA"}, "US RI": {"Rhode Island", "RI"},
	"US SC": {"South Carolina", "SC"}, "US SD": {"South Dakota", "SD"}, "US TN": {"Tennessee", "TN"}, "US TX": {"Texas", "TX"},
	"US UT": {"Utah", "UT"}, "US VT": {"Vermont", "VT"}, "US VA": {"Virginia", "VA"}, "US WA": {"Washington", "WA"},
	"US WV": {"West Virginia", "WV"}, "US WI": {"Wisconsin", "WI"}, "US WY": {"Wyoming", "WY"},
	"US AS": {"American Samoa", "AS"}, "US FM": {"Micronesia", "FM"}, "US GU": {"Guam", "GU"}, "US MH": {"Marshall Islands", "MH"},
	"US MP": {"Northern Mariana Islands", "MP"}, "US PR": {"Puerto Rico", "PR"}, "US PW": {"Palau", "PW"}, "US VI": {"US Virgin Islands", "VI"},

	"CA 01": {"Alberta", "AB"}, "CA 02": {"British Columbia", "BC"}, "CA 03": {"Manitoba", "MB"}, "CA 04": {"New Brunswick", "NB"},
	"CA 05": {"Newfoundland and Labrador", "NL"}, "CA 07": {"Nova Scotia", "NS"}, "CA 08": {"Ontario", "ON"},
	"CA 09": {"Prince Edward Island", "PE"}, "CA 10": {"Quebec", "QC"}, "CA 11": {"Saskatchewan", "SK"}, "CA 12": {"Yukon", "YT"},
	"CA 13": {"Northwest Territories", "NT"}, "CA 14": {"Nunavut", "NU"},

	"AU 01": {"Australian Capital Territory", "ACT"}, "AU 02": {"New South Wales", "NSW"}, "AU 03": {"Northern Territory", "NT"},
	"AU 04": {"Queensland", "QLD"}, "AU 05": {"South Australia", "SA"}, "AU 06": {"Tasmania", "TAS"}, "AU 07": {"Victoria", "VIC"},
	"AU 08": {"Western Australia", "WA"},

	"GB ENG": {"England", "ENG"}, "GB NIR": {"Northern Ireland", "NIR"}, "GB SCT": {"Scotland", "SCT"}, "GB WLS": {"Wales", "WLS"},
}

// what countries are called beside their code and their English name, folded.
var countryAliases = map[string]string{
	"usa": "US", "u s a": "US", "u s": "US", "united states of america": "US", "america": "US",
	"uk": "GB", "u k": "GB", "great britain": "GB", "britain": "GB", "deutschland": "DE", "espana": "ES", "italia": "IT",
	"osterreich": "AT", "schweiz": "CH", "suisse": "CH", "czech republic": "CZ", "holland": "NL", "nederland": "NL",
	"norge": "NO", "sverige": "SE", "danmark": "DK", "suomi": "FI", "polska": "PL", "brasil": "BR", "turkiye": "TR",
}

// countryName is the country's English name in Unicode's CLDR, with US and UK as people say.
func countryName(code string) string {
	switch code {
	case "US":
		return "US"
	case "GB":
		return "UK"
	}
	region, err := language.ParseRegion(code)
	if err != nil {
		return code
	}
	return display.English.Regions().Name(region)
}

// fullName is a town's name with its state and country.
func fullName(t assets.Town) string {
	if d, ok := divisions[t.Country+" "+t.Admin]; ok {
		return t.Name + ", " + d.name + ", " + countryName(t.Country)
	}
	return t.Name + ", " + countryName(t.Country)
}

// isIn reports whether a folded word names the town's state or country.
func isIn(t assets.Town, where string) bool {
	d := divisions[t.Country+" "+t.Admin]
	switch where {
	case assets.Fold(t.Country), assets.Fold(d.letters), assets.Fold(d.name), assets.Fold(countryName(t.Country)):
		return where != ""
	}
	return countryAliases[where] == t.Country
}
