package draw

import (
	"time"

	"fyne.io/fyne/v2"
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

// HousePlan shows the house from above, north up: its faces as walls, the skyline as a torn edge around it, the sun's path
// over it, and where the light falls at a moment.
type HousePlan struct {
	widget.BaseWidget
	data HouseData
	pic  picture
}

// NewHousePlan returns an empty plan.
func NewHousePlan() *HousePlan {
	w := &HousePlan{}
	w.pic.draw = func(*pen) {}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine.
func (w *HousePlan) Set(d HouseData) {
	w.data = d
	w.Refresh()
}

// SetMoment moves the sun only, which costs far less than Set: strengths are those of the faces, in the order they were set in.
func (w *HousePlan) SetMoment(now PathPoint, strengths []float64, caption string) {
	faces := make([]HouseFace, len(w.data.Faces))
	copy(faces, w.data.Faces)
	for i := range min(len(faces), len(strengths)) {
		faces[i].Strength = strengths[i]
	}
	w.data.Faces, w.data.Now, w.data.Caption = faces, now, caption
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *HousePlan) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

func (w *HousePlan) least() fyne.Size {
	line := small(w.Theme()).height()
	return fyne.NewSize(22*line, 18*line)
}

func (w *HousePlan) paint(p *pieces, size fyne.Size) {
	if len(w.data.Faces)+len(w.data.Path) == 0 {
		paintEmpty(p, w.Theme(), size, w.data.Empty)
	}
}
