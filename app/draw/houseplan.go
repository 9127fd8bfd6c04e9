package draw

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// HouseData is what a house plan shows. Bearings are degrees clockwise from true north, altitudes degrees above the horizontal.
type HouseData struct {
	Faces     []HouseFace // in any order
	Skyline   []float64   // altitude of what blocks the sun, in even steps of bearing from 0: 360 of them for whole degrees; none for a free horizon
	Obstacles []HouseMark
	Path      []PathPoint    // the sun through the date, in the order of time, a few minutes apart
	Now       PathPoint      // the moment shown; a zero At shows no sun
	Zone      *time.Location // of the hours along the path; nil is UTC
	Caption   string         // one line below: the moment in words
	Empty     string         // shown instead when there are neither faces nor a path
}

// HouseFace is one side of the house.
type HouseFace struct {
	Name     string
	Bearing  float64 // the way it looks
	Strength float64 // cosine of the sun's angle of incidence at the moment, 0 where no sun is on it
}

// HouseMark is an obstacle on the skyline.
type HouseMark struct {
	Name    string
	Bearing float64
}

// PathPoint is the sun at a moment.
type PathPoint struct {
	At                time.Time
	Azimuth, Altitude float64
	Hidden            bool // behind the skyline
}

// HousePlan shows the house from above, north up, as a drawing cut from paper: its faces as walls, deeper and brighter the
// more squarely the sun meets them; around it a sheet whose edge is the horizon; around that the skyline, a torn rim that is
// the wider the higher it stands; over the sheet the sun's path as a thread of dots with a bead an hour, the horizon at the
// edge and the zenith in the middle; and from the sun's side the light, with the house's shadow behind.
type HousePlan struct {
	widget.BaseWidget
	data  HouseData
	walls []wall
	pic   picture
	box   planBox // where the sheet lies, for drawing it
	words []rect  // where words lie on the sheet, which is kept plain under them
	over  []rect  // those of them that lie on the house or the path
}

// NewHousePlan returns an empty plan.
func NewHousePlan() *HousePlan {
	w := &HousePlan{}
	w.pic.draw, w.pic.over = w.drawSheet, w.drawMoment
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data, without what is placed at figures that are no numbers. Call it on the UI goroutine.
func (w *HousePlan) Set(d HouseData) {
	w.data = d
	w.data.Faces = nil
	for _, f := range d.Faces {
		f.Bearing = turn(f.Bearing) // a face that has no bearing yet looks north rather than nowhere, so that strengths keep their order
		w.data.Faces = append(w.data.Faces, f)
	}
	w.data.Path = nil
	for _, s := range d.Path {
		if finite(s.Azimuth + s.Altitude) {
			w.data.Path = append(w.data.Path, s)
		}
	}
	w.walls = wallsOf(w.data.Faces)
	w.Refresh()
}

// SetMoment moves the sun only, which costs far less than Set. Strengths are those of the faces, in the order they were set in.
func (w *HousePlan) SetMoment(now PathPoint, strengths []float64, caption string) {
	for i := range min(len(w.data.Faces), len(strengths)) {
		w.data.Faces[i].Strength = strengths[i]
	}
	w.data.Now, w.data.Caption = now, caption
	w.pic.touch(w)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// turn brings a bearing into 0..360; one that is no number becomes 0.
func turn(bearing float64) float64 {
	if bearing = math.Mod(bearing, 360); bearing < 0 {
		bearing += 360
	}
	if !(bearing < 360) {
		return 0
	}
	return bearing
}

// CreateRenderer is Fyne's.
func (w *HousePlan) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

func (w *HousePlan) least() fyne.Size {
	line := small(w.Theme()).height()
	return fyne.NewSize(20*line, 18*line)
}

// planBox is the sheet's place in the widget. The sheet is a rectangle with round sides: what lies at a bearing lies in that
// very direction, only the way out to the horizon differs.
type planBox struct {
	mid        point   // of the house, the zenith
	wide, high float32 // from the middle to the horizon, in the east and in the north
	rim        float32 // width of the rim where the skyline is steepest
	house      float32 // from the middle to a wall
}

// way is the direction of a bearing, one unit long.
func way(bearing float64) point {
	sin, cos := math.Sincos(bearing * math.Pi / 180)
	return point{float32(sin), float32(-cos)}
}

// along is the point at a distance from a.
func (a point) along(d point, distance float32) point {
	return point{a.x + d.x*distance, a.y + d.y*distance}
}

// horizon is how far the sheet's edge is at a bearing.
func (b planBox) horizon(bearing float64) float32 {
	const round = 3 // 2 is an ellipse, more is closer to a rectangle
	d := way(bearing)
	x, y := math.Abs(float64(d.x/b.wide)), math.Abs(float64(d.y/b.high))
	return float32(math.Pow(math.Pow(x, round)+math.Pow(y, round), -1.0/round))
}

// at is where something at a bearing and an altitude is drawn on the sheet.
func (b planBox) at(bearing, altitude float64) point {
	return b.mid.along(way(bearing), b.horizon(bearing)*float32(1-max(0, min(90, altitude))/90))
}

// edge is how far the rim reaches at a bearing, over a skyline of an altitude.
func (b planBox) edge(bearing, altitude float64) float32 {
	const steepest, least = 40, 0.15 // degrees; share of the rim that a free horizon has
	share := max(0, min(1, altitude/steepest))
	return b.horizon(bearing) + b.rim*float32(least+(1-least)*share)
}

// lay places the sheet, with room for words around it and the caption below.
func (w *HousePlan) lay(size fyne.Size) planBox {
	th := w.Theme()
	f, gap := small(th), th.Size(theme.SizeNamePadding)
	side := f.measure("MM").Width
	for _, m := range w.data.Obstacles {
		side = max(side, f.measure(m.Name).Width)
	}
	side = min(side, size.Width/6) + gap
	height := size.Height - plain(th).height() - gap
	half := max(1, height/2-f.height()-gap)
	rim := 0.22 * half
	b := planBox{rim: rim, high: half - rim, mid: point{size.Width / 2, height / 2}}
	b.wide = max(1, min(1.45*b.high, size.Width/2-side-rim))
	b.high = min(b.high, 1.25*b.wide)
	b.house = 0.4 * min(b.wide, b.high) / reach(w.walls)
	return b
}

// wall is one side of the drawn house, in a house whose walls all stand one unit from the middle.
type wall struct {
	bearing float64
	faces   []int // indices of the faces it shows, side by side; none for a side nobody described
	a, b    point // its ends, going clockwise
}

// wallsOf builds the outline of a house: a wall for each bearing, and where the next wall is too far round the corner, plain
// ones between, so that it always closes.
func wallsOf(faces []HouseFace) []wall {
	const same, widest = 1, 110 // degrees
	var walls []wall
	for _, i := range byBearing(faces) {
		if n := len(walls) - 1; n >= 0 && faces[i].Bearing-walls[n].bearing < same {
			walls[n].faces = append(walls[n].faces, i)
			continue
		}
		walls = append(walls, wall{bearing: faces[i].Bearing, faces: []int{i}})
	}
	var closed []wall
	for i, one := range walls {
		closed = append(closed, one)
		gap := walls[(i+1)%len(walls)].bearing - one.bearing
		if gap <= 0 {
			gap += 360
		}
		parts := math.Ceil(gap / widest)
		for k := 1.0; k < parts; k++ {
			closed = append(closed, wall{bearing: turn(one.bearing + gap*k/parts)})
		}
	}
	for i := range closed {
		before, after := closed[(i+len(closed)-1)%len(closed)], closed[(i+1)%len(closed)]
		closed[i].a, closed[i].b = meet(before.bearing, closed[i].bearing), meet(closed[i].bearing, after.bearing)
	}
	return closed
}

// meet is the corner of two walls, going clockwise from one to the next.
func meet(from, to float64) point {
	half := turn(to-from) / 2
	return point{}.along(way(from+half), float32(1/math.Cos(half*math.Pi/180)))
}

// reach is the distance of the furthest corner.
func reach(walls []wall) float32 {
	far := float32(1)
	for _, one := range walls {
		far = max(far, hypot(one.a.x, one.a.y))
	}
	return far
}
