package page

import (
	"time"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// house shows the house from above with the sun's path of the day, and a slider that moves the light over its faces.
type house struct {
	drawing *draw.HousePlan
	slider  *draw.TimeSlider
	sky     *light.Sky
	zone    *time.Location
	faces   []plan.Face
	moved   func() // the slider was moved
	object  fyne.CanvasObject
}

func newHouse() *house {
	h := &house{drawing: draw.NewHousePlan(), slider: draw.NewTimeSlider()}
	h.slider.OnChange = func(time.Time) {
		h.move()
		h.moved()
	}
	h.object = container.NewBorder(nil, h.slider, nil, nil, h.drawing)
	return h
}

// show brings the drawing up to a state. The slider keeps its moment of the day, and starts at ten in the morning.
func (h *house) show(st session.State) {
	d := st.Results.Chosen
	was := h.slider.Value()
	h.sky, h.zone, h.faces = d.Sky, d.Zone, st.Plan.Property.Faces
	data := draw.HouseData{Empty: view.NoSky(st, tongue.Say("Set the position and a date, and the sun's path is drawn over the house.")), Zone: d.Zone}
	for _, f := range h.faces {
		data.Faces = append(data.Faces, draw.HouseFace{Name: view.FaceShort(f), Bearing: float64(f.Bearing)})
	}
	line := light.NewSkyline(st.Plan.Property)
	for b := range 360 {
		data.Skyline = append(data.Skyline, float64(line.At(plan.Bearing(b))))
	}
	for _, o := range st.Plan.Property.Obstacles {
		mid := o.From + plan.Bearing((o.To-o.From).Norm()/2)
		data.Obstacles = append(data.Obstacles, draw.HouseMark{Name: o.Name, Bearing: float64(mid.Norm())})
	}
	if d.Sky == nil {
		h.drawing.Set(data)
		h.slider.Set(draw.SliderData{Empty: " "})
		return
	}
	for i := 0; i < len(d.Sky.Minutes); i += 5 {
		if m := d.Sky.Minutes[i]; m.Apparent > -1 {
			data.Path = append(data.Path, pathPoint(d.Sky, i))
		}
	}
	h.drawing.Set(data)
	h.slider.Set(draw.SliderData{Axis: h.axis(), Value: sameClock(was, d)})
	h.move()
}

// axis is the stretch that the slider runs over: from civil dawn to dusk, or the whole day where there is none.
func (h *house) axis() draw.Axis {
	a := draw.Axis{From: h.sky.Time(0), To: h.sky.Time(24 * 60), Zone: h.zone}
	if e := h.sky.Events.Civil; !e.Up.IsZero() && !e.Down.IsZero() {
		a.From, a.To = e.Up, e.Down
	}
	return a
}

// sameClock is the moment of a day at which the wall clock shows what it showed at another moment.
func sameClock(was time.Time, d day.Day) time.Time {
	at := plan.ClockAt(10 * 60)
	if !was.IsZero() {
		local := was.In(d.Zone)
		at = plan.ClockAt(local.Hour()*60 + local.Minute())
	}
	return plan.Instant(d.Date, at, d.Zone)
}

// move shows the light at the slider's moment.
func (h *house) move() {
	if h.sky == nil {
		return
	}
	i := h.minute()
	strengths := make([]float64, len(h.faces))
	for j, f := range h.faces {
		strengths[j] = strength(h.sky.Minutes[i], f.Bearing)
	}
	h.drawing.SetMoment(pathPoint(h.sky, i), strengths, view.SunLine(h.sky, i))
}

// minute is the slider's moment as a minute of the sky.
func (h *house) minute() int {
	if h.sky == nil {
		return 0
	}
	return min(max(h.sky.MinuteOf(h.slider.Value()), 0), len(h.sky.Minutes)-1)
}

func pathPoint(sky *light.Sky, minute int) draw.PathPoint {
	m := sky.Minutes[minute]
	return draw.PathPoint{At: sky.Time(minute), Azimuth: float64(m.Azimuth), Altitude: float64(m.Apparent), Hidden: !m.Direct()}
}
