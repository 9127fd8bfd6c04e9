package app

import (
	"testing"
	"time"

	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// BenchmarkTyping is a key typed into a field, until the page shows what comes of it. The first places no scene; the second places
// the whole day anew in the background with each key, so that the search is always under way.
func BenchmarkTyping(b *testing.B) {
	d, _ := openDemo(b)
	for _, c := range []struct {
		page view.Page
		text string
	}{{view.Brief, "Harrow Lane Estates"}, {view.Property, "18 Quarry Spur, Nettle Fork, California"}, {view.Property, "12"}, {view.Scenes, "20"}} {
		d.goTo(c.page)
		d.settle()
		var field *widget.Entry
		for _, o := range seen(d, func(fyne.CanvasObject) bool { return true }) {
			if e := part[widget.Entry](o); e != nil && e.Text == c.text {
				field = e
				break
			}
		}
		if field == nil {
			b.Fatalf("no field says %q", c.text)
		}
		b.Run(string(c.page)+" "+c.text, func(b *testing.B) {
			var shown time.Duration
			shows := 0
			for i := range b.N {
				field.SetText(c.text[:len(c.text)-i%2])
				b.StopTimer()
				for began := time.Now(); len(d.queue) > 0; began = time.Now() { // what the search found meanwhile, a frame each
					(<-d.queue)()
					shown += time.Since(began)
					shows++
				}
				b.StartTimer()
			}
			b.ReportMetric(float64(shown.Nanoseconds())/float64(max(1, shows)), "ns/show")
		})
		field.SetText(c.text)
		d.settle()
	}
}
