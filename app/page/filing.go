package page

import (
	"context"
	"path/filepath"
	"slices"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// filing is the field of a release's scan: it takes one from a file, takes it away, and looks whether the one that is filed is
// still what it was. Files are read off the UI goroutine.
type filing struct {
	edit  Editor
	async Async

	release plan.Release
	dir     string // of the plan; empty where it has no file yet
	looked  looked // at what, last
	end     context.CancelFunc
	reading bool // a scan to be filed is being read

	filed, open, holds, said *widget.Label
	take, away               *widget.Button
	busy                     *fyne.Container
	bar                      *widget.ProgressBarInfinite
	object                   fyne.CanvasObject
	grown                    func()  // hears when the field is higher or lower than it was
	high                     float32 // that it was
}

// looked is a scan that was looked at, or is to be filed.
type looked struct {
	release plan.ID
	dir     string
	scan    plan.Scan
}

// patience is how long reading may take before the page says so and offers to stop it.
const patience = 200 * time.Millisecond

var stillHolds = say.Mark("It is what it was when it was filed.")

func newFiling(edit Editor, async Async, pick func(chosen func(path string)), grown func()) *filing {
	s := &filing{edit: edit, async: async, grown: grown, end: func() {}, filed: wrapped(), open: wrapped(), holds: wrapped(), said: told()}
	s.open.Importance = widget.WarningImportance
	s.take = widget.NewButtonWithIcon(tongue.Say("File a scan…"), theme.FolderOpenIcon(), func() { pick(s.file) })
	s.away = widget.NewButtonWithIcon(tongue.Say("Take it away"), theme.ContentClearIcon(), s.takeAway)
	s.bar = widget.NewProgressBarInfinite()
	s.bar.Stop()
	s.busy = container.NewBorder(nil, nil, widget.NewLabel(tongue.Say("Reading the scan…")), widget.NewButton(tongue.Say("Stop reading"), s.stop), s.bar)
	s.busy.Hide()
	s.object = stack(s.filed, s.holds, s.open, flowing(s.take, s.away), s.busy, s.said)
	return s
}

// show brings the field up to a release. What was said, and what is being read, is about another one.
func (s *filing) show(st session.State, r plan.Release) {
	dir := ""
	if st.Path != "" {
		dir = filepath.Dir(st.Path)
	}
	other := r.ID != s.release.ID
	s.release, s.dir = r, dir
	if other {
		s.stop()
		s.said.Hide()
	}
	s.filed.SetText(view.ScanFiled(r))
	s.open.SetText(view.ScanOpen(r))
	setVisible(s.open, s.open.Text != "")
	setVisible(s.away, r.Scan != nil)
	switch {
	case s.reading:
	case r.Scan == nil:
		s.looked = looked{}
		s.holds.Hide()
	default:
		s.check(looked{r.ID, dir, *r.Scan})
	}
	s.grow()
}

// check looks whether a filed scan is still what it was, unless that is known.
func (s *filing) check(what looked) {
	if what == s.looked {
		return
	}
	ctx := s.begin(what)
	s.holds.Hide()
	s.async(func() func() {
		why, ok := people.CheckScan(ctx, what.dir, what.scan)
		return func() {
			switch {
			case ctx.Err() != nil:
			case ok:
				s.tellHolds(tongue.Marked(stillHolds), widget.SuccessImportance)
			default:
				s.tellHolds(view.ScanTold(tongue.Of(why)), widget.DangerImportance)
			}
		}
	})
}

func (s *filing) tellHolds(words string, importance widget.Importance) {
	s.holds.Importance = importance
	s.holds.SetText(words)
	s.holds.Show()
	s.grow()
}

// begin ends what is being read and makes the context of what is read next.
func (s *filing) begin(what looked) context.Context {
	s.stop()
	ctx, end := context.WithCancel(context.Background())
	s.end, s.looked = end, what
	return ctx
}

// grow lays the field out anew, and what it stands in where its height has changed.
func (s *filing) grow() {
	s.object.Refresh()
	if high := s.object.MinSize().Height; high != s.high {
		s.high = high
		s.grown()
	}
}

// stop ends what is being read; nothing comes of it then.
func (s *filing) stop() {
	s.end()
	s.looked, s.reading = looked{}, false
	s.bar.Stop()
	s.busy.Hide()
	s.take.Enable()
	s.grow()
}

// file reads a scan and puts it into the release that was shown when it was chosen.
func (s *filing) file(path string) {
	if s.release.ID == "" {
		return
	}
	id, dir := s.release.ID, s.dir
	ctx := s.begin(looked{release: id})
	s.reading = true
	s.take.Disable()
	s.said.Hide()
	s.async(func() func() {
		select {
		case <-ctx.Done():
		case <-time.After(patience):
		}
		return func() {
			if ctx.Err() == nil && s.reading {
				s.bar.Start()
				s.busy.Show()
				s.grow()
			}
		}
	})
	s.async(func() func() {
		scan, err := people.NewScan(ctx, dir, path)
		return func() {
			if ctx.Err() == nil {
				s.stop()
				s.got(id, scan, err)
			}
		}
	})
}

// got files what was read, or says why not.
func (s *filing) got(id plan.ID, scan plan.Scan, err error) {
	if err != nil {
		s.refuse(view.ScanTold(tongue.Error(err)))
		return
	}
	s.looked = looked{id, s.dir, scan} // it was read just now
	s.tellHolds(tongue.Marked(stillHolds), widget.SuccessImportance)
	wrong := s.edit(tongue.Say("file the scan"), "", func(p *plan.Plan) { setScan(p, id, &scan) })
	if len(wrong) > 0 {
		s.looked = looked{}
		s.refuse(tongue.Of(wrong[0]))
	}
}

func (s *filing) refuse(words string) {
	s.said.SetText(words)
	s.said.Show()
	s.grow()
}

func (s *filing) takeAway() {
	id := s.release.ID
	s.stop()
	s.said.Hide()
	s.edit(tongue.Say("take the scan away"), "", func(p *plan.Plan) { setScan(p, id, nil) })
}

func setScan(p *plan.Plan, id plan.ID, scan *plan.Scan) {
	if i := slices.IndexFunc(p.Releases, func(r plan.Release) bool { return r.ID == id }); i >= 0 {
		p.Releases[i].Scan = scan
	}
}
