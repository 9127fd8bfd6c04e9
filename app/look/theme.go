// Package look is how Eavelight looks: a light theme of warm paper and ink with a copper accent, a dark one of night blue
// with amber, the sizes of text and gaps, and the colours of our own drawings that Fyne has no names for.
//
// A Theme is fixed: it ignores the variant Fyne hands it, because "follow the system" is decided before a theme is made.
// Every pair of text and ground reaches 4.5:1 and every pair of mark and ground 3:1 by the WCAG 2.2 formula; the pairs are
// listed in the tests. Colour never carries a meaning alone: whoever draws adds a shape, a pattern or a word.
//
// Invariants: a leaf, imports nothing of ours; never fyne.io/fyne/v2/app.
package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Theme is a fyne.Theme of one fixed variant. Make it with New; it is never changed afterwards.
type Theme struct {
	dark    bool
	scale   float32 // of text and of what must grow with it
	palette *Palette
	colors  map[fyne.ThemeColorName]color.Color
}

var _ fyne.Theme = (*Theme)(nil)

// New returns the dark or the light theme at normal text size.
func New(dark bool) *Theme {
	p := &day
	if dark {
		p = &night
	}
	return &Theme{dark: dark, scale: 1, palette: p, colors: p.fyneColors()}
}

// Scaled returns the theme with text, and all that must grow with it, times factor: 1.5 for 150 %. Factors outside 0.5..3
// are brought to the nearer end.
func (t *Theme) Scaled(factor float32) *Theme {
	c := *t
	c.scale = max(0.5, min(3, factor))
	return &c
}

// Dark reports which of the two variants this is.
func (t *Theme) Dark() bool { return t.dark }

// Color returns our colour for one of Fyne's names; the variant is ignored. A name Fyne adds later gets Fyne's own colour.
func (t *Theme) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	if c, ok := t.colors[name]; ok {
		return c
	}
	return theme.DefaultTheme().Color(name, t.variant())
}

func (t *Theme) variant() fyne.ThemeVariant {
	if t.dark {
		return theme.VariantDark
	}
	return theme.VariantLight
}

// Font returns Fyne's own, which are of the family that the papers are printed in. A copy of ours would be read beside them at every start,
// for Fyne looks in its own for the letters that a theme's lack.
func (t *Theme) Font(style fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(style) }

// icon is one of Fyne's, as a theme has it. The arrow of a drop-down is drawn anew only for another icon than before: on a page out of
// sight while the theme changed, the same one would stay dark on dark.
type icon struct {
	fyne.ThemedResource
	dark bool
}

// Icon returns Fyne's icon of that name.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource {
	fynes := theme.DefaultTheme().Icon(name)
	if themed, ok := fynes.(fyne.ThemedResource); ok {
		return icon{themed, t.dark}
	}
	return fynes
}

// growing are the sizes that follow the text, in Fyne's units (pixels at scale 1); the density is a desktop's, so that a page
// reads at 1280 x 800.
var growing = map[fyne.ThemeSizeName]float32{
	theme.SizeNameText:           13,
	theme.SizeNameCaptionText:    11,
	theme.SizeNameHeadingText:    20,
	theme.SizeNameSubHeadingText: 16,
	theme.SizeNameInlineIcon:     18,
	theme.SizeNameLineSpacing:    3,
}

// fixed are the sizes that do not.
var fixed = map[fyne.ThemeSizeName]float32{
	theme.SizeNamePadding:         4,
	theme.SizeNameInnerPadding:    6,
	theme.SizeNameInputRadius:     4,
	theme.SizeNameSelectionRadius: 3,
}

// Size returns our size for one of Fyne's names, and Fyne's own for the rest.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 {
	if s, ok := growing[name]; ok {
		return s * t.scale
	}
	if s, ok := fixed[name]; ok {
		return s
	}
	return theme.DefaultTheme().Size(name)
}
