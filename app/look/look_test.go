package look

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"reflect"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/font/sfnt"

	"eavelight/assets"
)

// The ratios were computed outside this project, in Python, from the formula of WCAG 2.2 (relative luminance, contrast ratio).
func TestContrastIsThatOfWCAG(t *testing.T) {
	for _, c := range []struct {
		a, b uint32
		want float64
	}{
		{0x000000, 0xffffff, 21.000}, {0x595959, 0xffffff, 7.005}, {0x767676, 0xffffff, 4.542}, {0x777777, 0xffffff, 4.478},
		{0x949494, 0xffffff, 3.033}, {0x959595, 0xffffff, 2.995}, {0x0000ff, 0xffffff, 8.592}, {0xff0000, 0xffffff, 3.998},
		{0x1a1a1a, 0xffc107, 10.677}, {0xffff00, 0x000000, 19.556},
	} {
		got, back := Contrast(hex(c.a), hex(c.b)), Contrast(hex(c.b), hex(c.a))
		if math.Abs(got-c.want) > 0.0005 || got != back {
			t.Errorf("%06x on %06x: %.4f, back %.4f, want %.3f", c.a, c.b, got, back, c.want)
		}
	}
}

// over returns the opaque colour seen where a partly transparent colour lies on an opaque ground.
func over(top, ground color.Color) color.NRGBA {
	t := color.NRGBAModel.Convert(top).(color.NRGBA)
	return mix(color.NRGBAModel.Convert(ground).(color.NRGBA), t, float64(t.A)/255)
}

// pair is two colours that meet on screen.
type pair struct {
	name      string
	a, ground color.NRGBA
}

func textPairs(p *Palette) (pairs []pair) {
	add := func(name string, a, ground color.NRGBA) { pairs = append(pairs, pair{name, a, ground}) }
	for ground, g := range map[string]color.NRGBA{"Paper": p.Paper, "Lane": p.Lane, "Card": p.Card} {
		for name, c := range map[string]color.NRGBA{"Ink": p.Ink, "Muted": p.Muted, "Accent": p.Accent,
			"Warning": p.Warning, "Bad": p.Bad, "Good": p.Good} {
			add(name+" on "+ground, c, g)
		}
	}
	for name, f := range fills(p) {
		add("Ink on "+name, p.Ink, f.Area)
	}
	for name, f := range blocks(p) {
		add("Ink on soft "+name, p.Ink, f.Soft)
		add("Bad on soft "+name, p.Bad, f.Soft)
		add("Bad on "+name, p.Bad, f.Area)
	}
	add("Muted on a chosen card", p.Muted, p.Must.Soft)
	add("OnAccent", p.OnAccent, p.Accent)
	add("Curve on Ground", p.Curve, p.Ground)
	add("Curve on a tag over a white sky", p.Curve, over(Alpha(p.Casing, TagOpacity), hex(0xFFFFFF)))
	for name, g := range map[string]color.NRGBA{"Daylight": p.Daylight, "Night": p.Night} {
		add("Ink on "+name, p.Ink, g)
		add("Muted on "+name, p.Muted, g)
		add("Ink in the shade on "+name, p.Ink, over(p.Shade, g))
	}
	return pairs
}

func fills(p *Palette) map[string]Fill {
	return map[string]Fill{"Must": p.Must.Fill, "Should": p.Should.Fill, "Nice": p.Nice.Fill, "Light": p.Light, "Meal": p.Meal}
}

func blocks(p *Palette) map[string]Block {
	return map[string]Block{"Must": p.Must, "Should": p.Should, "Nice": p.Nice}
}

func markPairs(p *Palette) (pairs []pair) {
	add := func(name string, a, ground color.NRGBA) { pairs = append(pairs, pair{name, a, ground}) }
	for ground, g := range map[string]color.NRGBA{"Paper": p.Paper, "Lane": p.Lane} {
		for name, c := range map[string]color.NRGBA{"OnCamera": p.OnCamera, "Present": p.Present, "Waiting": p.Waiting,
			"Moving": p.Moving, "Limit": p.Limit, "Accent": p.Accent, "Sun": p.Sun.Edge} {
			add(name+" on "+ground, c, g)
		}
		for name, f := range fills(p) {
			add(name+"'s edge on "+ground, f.Edge, g)
		}
	}
	for name, f := range fills(p) {
		add(name+"'s edge", f.Edge, f.Area)
		add("Ink ring on "+name, p.Ink, f.Area)
	}
	for name, b := range blocks(p) {
		add(name+"'s edge on soft", b.Edge, b.Soft)
	}
	for ground, g := range map[string]color.NRGBA{"Daylight": p.Daylight, "Night": p.Night} {
		for name, c := range map[string]color.NRGBA{"Accent": p.Accent, "Sun": p.Sun.Edge, "Glow": p.Glow.Edge, "Present": p.Present} {
			add(name+" on "+ground, c, g)
		}
	}
	for ground, g := range map[string]color.NRGBA{"a light window": p.Light.Area, "a meal": p.Meal.Area} { // what the board lays over them
		for name, c := range map[string]color.NRGBA{"Must's edge": p.Must.Edge, "Should's edge": p.Should.Edge, "Nice's edge": p.Nice.Edge, "Ink ring": p.Ink,
			"Accent": p.Accent, "Bad ring": p.Bad, "Moving": p.Moving, "Limit": p.Limit} {
			add(name+" on "+ground, c, g)
		}
	}
	for name, c := range map[string]color.NRGBA{"Accent": p.Accent, "Bad": p.Bad} {
		add(name+" on a bar of figures", c, p.Nice.Area)
	}
	for name, b := range blocks(p) {
		add("Ink pin on soft "+name, p.Ink, b.Soft)
	}
	add("Curve on Ground", p.Curve, p.Ground)
	add("Muted on Daylight", p.Muted, p.Daylight)
	add("Muted on Night", p.Muted, p.Night)
	add("Sun's edge", p.Sun.Edge, p.Sun.Area)
	add("Accent on a chosen card", p.Accent, p.Must.Soft)
	add("Accent on Card", p.Accent, p.Card)
	add("Ridge on Ground", p.Ridge, p.Ground)
	return pairs
}

func TestContrastOfOurColours(t *testing.T) {
	for variant, p := range map[string]*Palette{"day": &day, "night": &night} {
		for _, c := range textPairs(p) {
			if r := Contrast(c.a, c.ground); r < 4.5 {
				t.Errorf("%s: text %s has %.2f, want 4.5 (WCAG 2.2, 1.4.3)", variant, c.name, r)
			}
		}
		for _, c := range markPairs(p) {
			if r := Contrast(c.a, c.ground); r < 3 {
				t.Errorf("%s: mark %s has %.2f, want 3 (WCAG 2.2, 1.4.11)", variant, c.name, r)
			}
		}
	}
}

// Fyne lays focus, hover, pressed and selection over a ground and writes on the mixture. WCAG 2.2, 1.4.3 and 1.4.11; what is disabled is
// excepted there, but a label of low importance has its colour.
func TestContrastOfFyneColours(t *testing.T) {
	for _, th := range []*Theme{New(false), New(true)} {
		get := func(n fyne.ThemeColorName) color.NRGBA { return th.Color(n, 2).(color.NRGBA) }
		text := func(name string, a, ground color.NRGBA) {
			if r := Contrast(a, ground); r < 4.5 {
				t.Errorf("dark %v: text %s has %.2f", th.Dark(), name, r)
			}
		}
		ink := get(theme.ColorNameForeground)
		grounds := []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameMenuBackground,
			theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground}
		for _, g := range grounds {
			for _, n := range []fyne.ThemeColorName{theme.ColorNameForeground, theme.ColorNamePlaceHolder, theme.ColorNameDisabled,
				theme.ColorNameHyperlink, theme.ColorNameError, theme.ColorNameSuccess, theme.ColorNameWarning} {
				text(fmt.Sprint(n, " on ", g), get(n), get(g))
			}
		}
		for _, g := range append(grounds, theme.ColorNameButton) {
			for _, top := range []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameSelection} {
				text(fmt.Sprint("ink on ", top, " on ", g), ink, over(get(top), get(g)))
			}
		}
		// A list lays hover and selection under its lines, whose words may have any colour of a label; a menu lays focus under its own.
		for _, n := range []fyne.ThemeColorName{theme.ColorNameDisabled, theme.ColorNamePrimary, theme.ColorNameError, theme.ColorNameSuccess, theme.ColorNameWarning} {
			for _, top := range []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNameSelection} {
				text(fmt.Sprint(n, " on a line under ", top), get(n), over(get(top), get(theme.ColorNameBackground)))
			}
		}
		text("chosen menu item", ink, over(get(theme.ColorNameFocus), get(theme.ColorNameMenuBackground)))
		text("focused select", ink, over(get(theme.ColorNameFocus), get(theme.ColorNameInputBackground)))
		text("disabled button", get(theme.ColorNameDisabled), get(theme.ColorNameDisabledButton))
		for on, g := range map[fyne.ThemeColorName]fyne.ThemeColorName{
			theme.ColorNameForegroundOnPrimary: theme.ColorNamePrimary, theme.ColorNameForegroundOnError: theme.ColorNameError,
			theme.ColorNameForegroundOnSuccess: theme.ColorNameSuccess, theme.ColorNameForegroundOnWarning: theme.ColorNameWarning,
		} {
			text(string(on), get(on), get(g))
			text(string(on)+" hovered", get(on), over(get(theme.ColorNameHover), get(g)))
		}
		// By eye, no published source: below this a button in a dialog is only its words.
		if r := Contrast(get(theme.ColorNameButton), get(theme.ColorNameOverlayBackground)); r < 1.1 {
			t.Errorf("dark %v: a button differs from a dialog by %.2f", th.Dark(), r)
		}
		focused := over(get(theme.ColorNameFocus), get(theme.ColorNameButton))
		text("focused button", ink, focused)
		text("focused primary button", get(theme.ColorNameForegroundOnPrimary), over(get(theme.ColorNameFocus), get(theme.ColorNamePrimary)))
		if r := Contrast(focused, get(theme.ColorNameButton)); r < 3 {
			t.Errorf("dark %v: a focused button differs from an unfocused one by %.2f, want 3", th.Dark(), r)
		}
		for _, g := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameInputBackground} {
			for _, n := range []fyne.ThemeColorName{theme.ColorNameInputBorder, theme.ColorNamePrimary} {
				if r := Contrast(get(n), get(g)); r < 3 {
					t.Errorf("dark %v: mark %s on %s has %.2f", th.Dark(), n, g, r)
				}
			}
			if r := Contrast(over(get(theme.ColorNameScrollBar), get(theme.ColorNameScrollBarBackground)), get(g)); r < 3 {
				t.Errorf("dark %v: scroll bar on %s has %.2f", th.Dark(), g, r)
			}
		}
	}
}

func TestThemeDefinesAllOfFyne(t *testing.T) {
	for name, th := range map[string]*Theme{"light": New(false), "dark": New(true)} {
		test.AssertAllColorNamesDefined(t, th, name)
		for _, style := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}, {Monospace: true}, {Symbol: true}} {
			if th.Font(style) == nil {
				t.Errorf("%s: no font for %+v", name, style)
			}
		}
		for _, size := range []fyne.ThemeSizeName{theme.SizeNameScrollBar, theme.SizeNameSeparatorThickness, theme.SizeNameText} {
			if th.Size(size) <= 0 {
				t.Errorf("%s: size %s is %v", name, size, th.Size(size))
			}
		}
		if th.Icon(theme.IconNameConfirm) == nil {
			t.Errorf("%s: no icons", name)
		}
	}
}

func TestThemeIgnoresTheVariantItIsAskedFor(t *testing.T) {
	test.NewTempApp(t)
	for _, dark := range []bool{false, true} {
		th := New(dark)
		for _, name := range []fyne.ThemeColorName{theme.ColorNameBackground, "a name of tomorrow"} {
			if a, b := th.Color(name, theme.VariantDark), th.Color(name, theme.VariantLight); a != b {
				t.Errorf("dark %v: %s is %v or %v", dark, name, a, b)
			}
		}
	}
}

func TestScaledGrowsTextOnly(t *testing.T) {
	th := New(false)
	big := th.Scaled(1.5)
	for name, want := range map[fyne.ThemeSizeName]float32{theme.SizeNameText: 1.5, theme.SizeNameCaptionText: 1.5,
		theme.SizeNamePadding: 1, theme.SizeNameScrollBar: 1} {
		if got := big.Size(name) / th.Size(name); got != want {
			t.Errorf("%s grew %v, want %v", name, got, want)
		}
	}
	if th.Scaled(99).Size(theme.SizeNameText) != 3*th.Size(theme.SizeNameText) {
		t.Error("a scale of 99 is not brought to 3")
	}
}

func TestPaletteFollowsTheTheme(t *testing.T) {
	test.NewTempApp(t)
	for _, c := range []struct {
		name string
		th   fyne.Theme
		want *Palette
	}{
		{"ours, light", New(false), &day}, {"ours, dark and scaled", New(true).Scaled(1.2), &night},
		{"Fyne's light", theme.LightTheme(), &day}, {"Fyne's dark", theme.DarkTheme(), &night}, //nolint:staticcheck // a foreign theme
	} {
		if Of(c.th) != c.want {
			t.Errorf("%s: the wrong palette", c.name)
		}
	}
}

// A curve with an outline shows on any sky, since one of its two colours stands out. The bound is WCAG 2.2, 1.4.11.
func TestCurveStandsOutFromEverySky(t *testing.T) {
	for altitude := -30.0; altitude <= 90; altitude += 0.1 {
		zenith, low := Sky(altitude)
		for height := 0.0; height <= 1; height += 0.1 {
			c := SkyAt(zenith, low, height)
			if r := max(Contrast(day.Curve, c), Contrast(day.Casing, c)); r < 3 {
				t.Fatalf("sun at %.1f, height %.1f: the curve has %.2f", altitude, height, r)
			}
		}
	}
}

// A rising sun brightens the sky overhead, and no step of a tenth of a degree can be seen as an edge.
func TestSkyBrightensWithoutSteps(t *testing.T) {
	before, beforeLow := Sky(-30)
	for altitude := -30.0; altitude <= 90; altitude += 0.1 {
		zenith, low := Sky(altitude)
		if Luminance(zenith) < Luminance(before)-0.01 {
			t.Errorf("at %.1f the zenith darkens", altitude)
		}
		if Contrast(zenith, before) > 1.05 || Contrast(low, beforeLow) > 1.05 {
			t.Errorf("at %.1f the sky jumps", altitude)
		}
		before, beforeLow = zenith, low
	}
	if z, _ := Sky(math.NaN()); z != skyStops[0].zenith {
		t.Error("no night for an altitude that is no number")
	}
}

// A letter the font lacks would show as an empty box. The papers' fonts are of the same family, so that the window shows them as they print.
func TestFontsHaveTheSignsWeDraw(t *testing.T) {
	regular, bold := New(false).Font(fyne.TextStyle{}), New(false).Font(fyne.TextStyle{Bold: true})
	for name, data := range map[string][]byte{"regular": regular.Content(), "bold": bold.Content(),
		"papers' regular": assets.SansRegular, "papers' bold": assets.SansBold} {
		f, err := sfnt.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		if family, err := f.Name(&buf, sfnt.NameIDFamily); err != nil || family != "Noto Sans" {
			t.Errorf("%s is of the family %q, %v", name, family, err)
		}
		for _, r := range "°‹›…–—·%!äéñøłŁşčαЖ€£" {
			if i, err := f.GlyphIndex(&buf, r); err != nil || i == 0 {
				t.Errorf("%s lacks %q", name, r)
			}
		}
	}
}

// TestDropDownOutOfSightChangesItsArrow: one on a page out of sight while the theme changed has its arrow as one that was made after it.
func TestDropDownOutOfSightChangesItsArrow(t *testing.T) {
	a := test.NewTempApp(t)
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(200, 60))
	picture := func(s *widget.Select) image.Image {
		w.SetContent(s)
		s.Refresh() // as a page that comes into sight is
		return w.Canvas().Capture()
	}
	a.Settings().SetTheme(New(false))
	drop := widget.NewSelect([]string{"x"}, nil)
	light := picture(drop)
	w.SetContent(widget.NewLabel("another page"))
	a.Settings().SetTheme(New(true))
	dark, fresh := picture(drop), picture(widget.NewSelect([]string{"x"}, nil))
	if !reflect.DeepEqual(dark, fresh) || reflect.DeepEqual(dark, light) {
		t.Error("it is not as one made in the new theme")
	}
}
