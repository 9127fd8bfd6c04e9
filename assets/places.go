package assets

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/binary"
	"io"
	"iter"
	"sort"
	"strconv"
	"strings"
	"sync"
)

// Towns and US postal areas, made by gen/places; sources and licences in places/NOTICE.
var (
	//go:embed places/towns.gz
	townsGz []byte
	//go:embed places/us-postal.gz
	postalGz []byte
	//go:embed places/NOTICE
	PlacesNotice string
)

// Town is a populated place, or the area of a postal code.
type Town struct {
	Name       string
	Country    string  // ISO 3166-1 alpha-2: "US"
	Admin      string  // the largest division's code in GeoNames, a state's letters in the US: "OR"
	Lat, Lon   float64 // degrees, WGS 84, to 0.0001
	Population int     // 0 when it is not known, and for a postal area
}

// TownsNamed returns the towns whose own name is the given one, and those that are called so otherwise, mostly in another
// language; both as names compare under Fold. Other names are known for towns of 15,000 and more. In no order.
func TownsNamed(name string) (own, other []Town) {
	key := Fold(name)
	if key == "" {
		return nil, nil
	}
	t := towns()
	for i := t.first(key); i < t.len() && Fold(t.names.at(i)) == key; i++ {
		own = append(own, t.town(i))
	}
	n := sort.Search(len(t.others.starts), func(i int) bool { return t.others.at(i) >= key })
	for ; n < len(t.others.starts) && t.others.at(n) == key; n++ {
		other = append(other, t.town(int(t.called[n])))
	}
	return own, other
}

// TownsStarting goes through the towns whose own name, under Fold, starts with the given letters, in the order of the folded
// names. With no letters it goes through all of them, about 135,000.
func TownsStarting(letters string) iter.Seq[Town] {
	return func(yield func(Town) bool) {
		key, t := Fold(letters), towns()
		for i := t.first(key); i < t.len(); i++ {
			if key != "" && !strings.HasPrefix(Fold(t.names.at(i)), key) || !yield(t.town(i)) {
				return
			}
		}
	}
}

// PostalArea returns the area of a five-digit US postal code: its post town, its state and a middle point.
func PostalArea(code string) (Town, bool) {
	n, err := strconv.ParseUint(code, 10, 32)
	if err != nil || len(code) != 5 {
		return Town{}, false
	}
	t := postal()
	i := sort.Search(t.len(), func(i int) bool { return uint64(t.numbers[i]) >= n })
	if i == t.len() || uint64(t.numbers[i]) != n {
		return Town{}, false
	}
	area := t.town(i)
	area.Population = 0
	return area, true
}

// table holds places by columns. Unpacked, a file is columns one after the other, each its length in bytes (uvarint) and
// that many bytes: names and regions as lines of text; the rest as varints, a row each, with positions in 0.0001 degrees.
type table struct {
	names    lines    // towns in the order of their folded names
	regions  []string // "US OR"
	region   []int32  // index into regions
	lat, lon []int32
	numbers  []int32 // population, or the postal code

	others lines   // folded names that some towns are called otherwise, in order
	called []int32 // which town that is
}

var (
	towns  = sync.OnceValue(func() *table { return unpack(townsGz) })
	postal = sync.OnceValue(func() *table { return unpack(postalGz) })
)

func (t *table) len() int { return len(t.numbers) }

// first is the first row whose folded name is not before key.
func (t *table) first(key string) int {
	return sort.Search(t.len(), func(i int) bool { return Fold(t.names.at(i)) >= key })
}

func (t *table) town(i int) Town {
	country, admin, _ := strings.Cut(t.regions[t.region[i]], " ")
	return Town{t.names.at(i), country, admin, float64(t.lat[i]) / 1e4, float64(t.lon[i]) / 1e4, int(t.numbers[i])}
}

// unpack reads a table that was checked by a test when it was built in; so a fault in it is a fault of the program.
func unpack(packed []byte) *table {
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		panic("assets: the embedded table of places is damaged: " + err.Error())
	}
	data, err := io.ReadAll(z)
	if err != nil {
		panic("assets: the embedded table of places is damaged: " + err.Error())
	}
	c := columns(data)
	t := &table{names: split(c.next()), regions: strings.Split(string(c.next()), "\n")}
	t.region, t.lat, t.lon, t.numbers = c.ints(), c.ints(), c.ints(), c.ints()
	t.others, t.called = split(c.next()), c.ints()
	return t
}

// columns is what is left to read.
type columns []byte

func (c *columns) next() []byte {
	n, w := binary.Uvarint(*c)
	column := (*c)[w : w+int(n)]
	*c = (*c)[w+int(n):]
	return column
}

func (c *columns) ints() []int32 {
	column := c.next()
	count := 0
	for _, b := range column { // a varint ends at the byte without the high bit
		if b < 0x80 {
			count++
		}
	}
	out := make([]int32, 0, count)
	for len(column) > 0 {
		v, w := binary.Varint(column)
		out, column = append(out, int32(v)), column[w:]
	}
	return out
}

// lines is a text cut at its line ends without a string header for each line.
type lines struct {
	text   string
	starts []int32
}

func split(text []byte) lines {
	l := lines{text: string(text)}
	if len(text) == 0 {
		return l
	}
	l.starts = make([]int32, 1, bytes.Count(text, []byte{'\n'})+1)
	for i, b := range text {
		if b == '\n' {
			l.starts = append(l.starts, int32(i+1))
		}
	}
	return l
}

func (l lines) at(i int) string {
	if i+1 < len(l.starts) {
		return l.text[l.starts[i] : l.starts[i+1]-1]
	}
	return l.text[l.starts[i]:]
}
