package papers

import (
	"cmp"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/say"
)

// dayPicture is the shooting day at one look, all along the same hours: the sky, the sun on the faces of the house, the scenes in
// their spaces, and the people.
type dayPicture struct {
	skyRibbon
	faces  []faceRow
	spaces []spaceRow
	people []personRow
	more   int // people who are called, but have no row
}

// faceRow is one face of the house: how strong the sun is on it, minute by minute, from 0 to 1.
type faceRow struct {
	name     string
	bearing  string // of which way it looks
	strength []float64
}

// spaceRow is one space with the scenes in it.
type spaceRow struct {
	name   string
	scenes []sceneBlock
}

// sceneBlock is one scene in its space.
type sceneBlock struct {
	day.Placed
	number, title string
	wishes        bool // for some light, of which it keeps a share
}

// personRow is one person's day.
type personRow struct {
	name string
	day.Presence
}

const (
	laneTall   = 4.4 // of a face or a person
	barTall    = 2.8 // of a scene
	spaceAir   = 1.0
	groupGap   = 2.0
	mostPeople = 16 // on a page, so that it holds them and the longest board that is likely
)

var spaceTall = faceFoot.lead + barTall + spaceAir

// DayPicture is the day drawn on the width of a page. There is none without a position.
func DayPicture(p *plan.Plan, d day.Day) (Figure, bool) {
	f, ok := newCaller(p, d).dayPicture()
	if !ok {
		return nil, false
	}
	if n := len(f.people); n > mostPeople {
		f.people, f.more = f.people[:mostPeople-1], n-mostPeople+1
	}
	return f, true
}

func (c caller) dayPicture() (f dayPicture, ok bool) {
	if f.skyRibbon, ok = c.ribbon(12.5); !ok {
		return f, false
	}
	for _, face := range c.Property.Faces {
		r := faceRow{name: cmp.Or(face.Name, string(face.ID)), bearing: fmt.Sprintf(", %.0f°", math.Mod(math.Round(float64(face.Bearing.Norm())), 360))}
		for _, m := range f.minutes {
			r.strength = append(r.strength, strength(m, face.Bearing))
		}
		f.faces = append(f.faces, r)
	}
	f.spaces = c.board()
	for _, called := range c.day.People {
		f.people = append(f.people, personRow{c.firstName(called.Person), called})
	}
	return f, true
}

// strength is how straight the sun shines on a face: the cosine of its incidence, 0 where it does not.
func strength(m light.Minute, face plan.Bearing) float64 {
	if !m.Lit(face) {
		return 0
	}
	return math.Cos(float64(m.Incidence(face)) * math.Pi / 180)
}

// board lists the spaces in use, in the plan's order, with their scenes in the order of time.
func (c caller) board() []spaceRow {
	in := map[plan.ID][]sceneBlock{}
	order := []plan.ID{}
	for _, s := range c.Property.Spaces {
		order = append(order, s.ID)
	}
	for _, placed := range c.day.Scenes {
		sc, _ := c.Scene(placed.Scene)
		b := sceneBlock{placed, flat(cmp.Or(sc.Number, "–")), flat(sc.Title), sc.Wish.Kind.Or() != plan.Any}
		if in[sc.Space] = append(in[sc.Space], b); !slices.Contains(order, sc.Space) {
			order = append(order, sc.Space)
		}
	}
	var out []spaceRow
	for _, id := range order {
		if scenes := in[id]; len(scenes) > 0 {
			slices.SortStableFunc(scenes, func(a, b sceneBlock) int { return a.Start.Compare(b.Start) })
			out = append(out, spaceRow{c.space(id), scenes})
		}
	}
	return out
}

// firstName is what to call somebody on a picture that goes round: the first of their names, with their part where two would be called
// the same, or where there is no name.
func (c caller) firstName(id plan.ID) string {
	first := func(id plan.ID) string {
		who, _ := c.Person(id)
		name, _, _ := strings.Cut(flat(who.Name), " ")
		return name
	}
	who, _ := c.Person(id)
	name, part := first(id), orEmpty(who.Job, string(who.Role.Or()))
	if name == "" {
		return part
	}
	for _, other := range c.day.People {
		if other.Person != id && first(other.Person) == name {
			return name + ", " + part
		}
	}
	return name
}

// Words is a Figure's.
func (f dayPicture) Words() string {
	scenes := 0
	for _, s := range f.spaces {
		scenes += len(s.scenes)
	}
	count := func(n int, one string) string {
		if n == 1 {
			return "1 " + one
		}
		return fmt.Sprint(n, " ", one, "s")
	}
	return f.skyRibbon.Words() + "\n(drawn under it: the sun on " + count(len(f.faces), "face") + ", " + count(scenes, "scene") + " in " +
		count(len(f.spaces), "space") + ", the day of " + fmt.Sprint(len(f.people)+f.more) + " people)"
}

// legend says how to read it.
const legend = "Faces: as high as the sun is strong on them. Scenes: a line to set up, a bar to shoot, filled as far as the light they ask for is kept; " +
	"a low bar where they ask for none. People: a line while present, a bar on camera, hatched while they wait."

func (f dayPicture) legend(width float64) []line {
	return setter{measure: widthOf, width: width}.wrap(legend, faceFoot, width)
}

func (f dayPicture) tall(width float64) float64 {
	tall := f.skyRibbon.tall(width) + float64(len(f.faces))*laneTall + float64(len(f.spaces))*spaceTall + float64(len(f.people))*laneTall
	if f.more > 0 {
		tall += laneTall
	}
	return tall + 3*groupGap + height(f.legend(width))
}

// draw lays the groups under each other, the names in the column that facts have theirs in.
func (f dayPicture) draw(on surface, x, y, width float64) {
	left, plot := x+factName, width-factName
	f.paintSky(on, left, y, plot)
	y += f.skyTall()
	foot := y + f.tall(width) - f.skyTall() - hoursTall - groupGap - height(f.legend(width))
	for _, r := range f.faces {
		f.name(on, x, y, laneTall, r.name, r.bearing)
		f.paintFace(on, r, left, y, plot)
		y += laneTall
	}
	y += groupGap
	if f.placed() {
		f.paintCalls(on, left, y, plot)
		y += callsTall
	}
	for _, m := range f.meals {
		x0, x1 := f.over(m, plot)
		block(on, left+x0, y, x1-x0, float64(len(f.spaces))*spaceTall, wash)
	}
	for _, r := range f.spaces {
		f.name(on, x, y+faceFoot.lead-(spaceTall-barTall)/2, spaceTall, r.name, "")
		f.paintSpace(on, r, left, y, plot)
		y += spaceTall
	}
	y += groupGap
	f.paintGrid(on, left, y, plot, foot-y)
	for _, r := range f.people {
		f.name(on, x, y, laneTall, r.name, "")
		f.paintPerson(on, r, left, y, plot)
		y += laneTall
	}
	if f.more > 0 {
		put(on, x, y+(laneTall-faceFoot.lead)/2, fmt.Sprintf("and %d more", f.more), faceFoot)
	}
	f.paintHours(on, left, foot, plot)
	y = foot + hoursTall + groupGap
	for _, l := range f.legend(width) {
		put(on, x, y, l.text, l.face)
		y += l.face.lead
	}
}

// name writes a row's name in the middle of its height, cut so that what comes after it stands whole.
func (f dayPicture) name(on surface, x, y, tall float64, name, after string) {
	room := factName - gutter/2 - widthOf(after, faceText)
	put(on, x, y+(tall-faceText.lead)/2, cutTo(name, faceText, room)+after, faceText)
}

// bright is the sun on a face, shade a face without it: the two keep apart in black and white.
var (
	bright = tint{255, 236, 170}
	shade  = tint{176, 170, 163}
)

// paintFace draws a lane in shade, and the sun on it as high as it is strong.
func (f dayPicture) paintFace(on surface, r faceRow, x, y, width float64) {
	const pace = 0.5
	base, full := y+laneTall-0.3, laneTall-0.8
	block(on, x, base-full, width, full, shade)
	var area []point
	flush := func() {
		if len(area) > 1 {
			last := area[len(area)-1].x
			on.fill(append(append([]point{{area[0].x, base}}, area...), point{last, base}), bright)
			on.stroke(straight(area...), 0.25, ink)
		}
		area = nil
	}
	steps := int(width / pace)
	for i := range steps + 1 {
		share := float64(i) / float64(steps)
		s := r.strength[int(share*float64(len(r.strength)-1)+0.5)]
		if s <= 0 {
			flush()
			continue
		}
		area = append(area, point{x + share*width, base - full*s})
	}
	flush()
}

// paintSpace draws the scenes of a space as bars, with their words on a line over them.
func (f dayPicture) paintSpace(on surface, r spaceRow, x, y, width float64) {
	top := y + faceFoot.lead
	f.paintGrid(on, x, top, width, barTall) // not through the words
	rule(on, x, x+width, top+barTall+0.25, 0.1, hair)
	for _, s := range r.scenes {
		setup, start := f.over(plan.Span{From: s.Setup, To: s.Start}, width)
		end := max(f.at(s.End, width), start+0.4)
		if start > setup {
			rule(on, x+setup, x+start, top+barTall/2, 0.4, ink)
		}
		if !s.wishes {
			block(on, x+start, top+barTall/3, end-start, barTall/3, soft)
			continue
		}
		block(on, x+start, top, end-start, barTall, ink)
		in := min(0.2, (end-start)/3)
		block(on, x+start+in, top+in, end-start-2*in, barTall-2*in, white)
		block(on, x+start+in, top+in, min(max(s.Kept, 0), 1)*(end-start-2*in), barTall-2*in, copper)
	}
	for _, l := range f.sceneWords(r, width) {
		put(on, x+l.x, y, l.number, faceNumber)
		put(on, x+l.x+l.wide-widthOf(l.title, faceFigure), y, l.title, faceFigure)
	}
}

var faceNumber = face{bold: true, size: faceFigure.size, lead: faceFigure.lead, tint: ink}

// sceneWord is what is written over a scene's bar.
type sceneWord struct {
	x, wide       float64
	number, title string
}

// sceneWords first finds room for the scenes' numbers, then for as much of their titles as is left to each.
func (f dayPicture) sceneWords(r spaceRow, width float64) []sceneWord {
	const least = 9.0 // of a title, in millimetres: less helps nobody
	var tags []tag
	for _, s := range r.scenes {
		x0, _ := f.over(plan.Span{From: s.Start, To: s.End}, width)
		wide := widthOf(s.number, faceNumber)
		tags = append(tags, tag{x0 + wide/2, []string{s.number}})
	}
	var out []sceneWord
	for i, t := range stand(tags, faceNumber, width) {
		if t.text != "" {
			out = append(out, sceneWord{t.x, t.wide, t.text, r.scenes[i].title})
		}
	}
	slices.SortStableFunc(out, func(a, b sceneWord) int { return cmp.Compare(a.x, b.x) })
	space := widthOf(" ", faceFigure)
	from := 0.0
	for i := range out {
		w, to := &out[i], width
		if i+1 < len(out) {
			to = out[i+1].x - tagGap
		}
		w.title = cutTo(w.title, faceFigure, to-from-w.wide-space)
		if wide := widthOf(w.title, faceFigure); wide > 0 && (wide >= least || !strings.HasSuffix(w.title, "…")) {
			w.wide += space + wide
			w.x = max(from, min(w.x, to-w.wide))
		} else {
			w.title = ""
		}
		from = w.x + w.wide + tagGap
	}
	return out
}

// paintPerson draws somebody's day: a line while they are there, a bar on camera, hatched while they wait, and the times at its ends.
func (f dayPicture) paintPerson(on surface, r personRow, x, y, width float64) {
	mid, tall := y+laneTall/2, laneTall-2
	x0, x1 := f.over(plan.Span{From: r.Call, To: r.Release}, width)
	rule(on, x+x0, x+x1, mid, 0.4, soft)
	for _, s := range r.Waiting {
		if a, b := f.over(s, width); b > a {
			block(on, x+a, mid-tall/2, b-a, tall, white)
			hatch(on, x+a, mid-tall/2, b-a, tall, soft)
		}
	}
	for _, o := range r.OnCamera {
		if a, b := f.over(o.Span, width); b > a {
			block(on, x+a, mid-tall/2, b-a, tall, ink)
		}
	}
	top := y + (laneTall-faceFoot.lead)/2
	if text := f.clock(r.Call); !r.Call.IsZero() && x0-1-widthOf(text, faceFoot) >= 0 {
		put(on, x+x0-1-widthOf(text, faceFoot), top, text, faceFoot)
	}
	if text := f.clock(r.Release); !r.Release.IsZero() && x1+1+widthOf(text, faceFoot) <= width {
		put(on, x+x1+1, top, text, faceFoot)
	}
}

// hatch strikes a rectangle through with slanting lines.
func hatch(on surface, x, y, w, h float64, t tint) {
	const apart, thick = 1.1, 0.2
	for k := apart/2 - h; k < w; k += apart {
		on.stroke(straight(point{x + max(k, 0), y + h - max(-k, 0)}, point{x + min(k+h, w), y + max(0, k+h-w)}), thick, t)
	}
}

// The picture of a day as a file of its own, in millimetres of a sheet that is as wide as the text of a page and its margins.
const (
	pictureWide = 216.0
	pictureSide = 12.0
)

// DayPNG writes the day as a picture so many pixels wide, under the plan's title, the date and the property. The same day gives the same
// bytes.
func DayPNG(w io.Writer, p *plan.Plan, d day.Day, width int) error {
	picture, err := dayImage(p, d, width)
	if err != nil {
		return err
	}
	fast := png.Encoder{CompressionLevel: png.BestSpeed} // a fifth larger than the default's, in a quarter of the time
	if err := fast.Encode(w, picture); err != nil {
		return say.Error("writing the picture of the day: %v", err)
	}
	return nil
}

func dayImage(p *plan.Plan, d day.Day, width int) (*image.RGBA, error) {
	if width < 200 || width > 10_000 {
		return nil, fmt.Errorf("a picture of the day is from 200 to 10000 pixels wide, not %d", width)
	}
	c := newCaller(p, d)
	f, ok := c.dayPicture()
	if !ok {
		return nil, say.Error("the day can't be drawn: the property's position is not filled in")
	}
	room := pictureWide - 2*pictureSide
	head := []line{{cutTo(orEmpty(p.Title, "Untitled plan"), faceTitle, room), faceTitle}}
	for _, text := range c.lines() {
		head = append(head, line{cutTo(text, faceLead, room), faceLead})
	}
	foot := line{cutTo(c.foot(), faceFoot, room), faceFoot}
	tall := height(head) + f.tall(room) + foot.face.lead + 2*groupGap
	on := newCanvas(pictureWide, tall+2*pictureSide, width)
	y := pictureSide
	for _, l := range head {
		put(on, pictureSide, y, l.text, l.face)
		y += l.face.lead
	}
	y += groupGap
	f.draw(on, pictureSide, y, room)
	put(on, pictureSide, y+f.tall(room)+groupGap, foot.text, foot.face)
	return on.picture, nil
}
