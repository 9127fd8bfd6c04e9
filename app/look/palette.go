package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Palette names the colours of our own drawings by what they mean. Marks (lines, edges, bars) reach 3:1 on Paper, Lane and
// the fill they belong to; Ink and Muted reach 4.5:1 on every ground and fill except Ground and Curve's.
type Palette struct {
	Paper, Lane, Card color.NRGBA // grounds: the page, a row of a drawing, a raised card or an input
	Rule              color.NRGBA // hour lines and separators: a help to the eye, never the only sign of anything
	Ink, Muted        color.NRGBA // text; text of second rank
	Accent, OnAccent  color.NRGBA // what is chosen, focused or to be pressed; text on it

	Must, Should, Nice Block // blocks by the importance of their scene

	Sun      Fill        // a face in the sun
	Light    Fill        // a light window
	Meal     Fill        // a meal
	OnCamera color.NRGBA // mark: a person in the scene being made
	Present  color.NRGBA // mark: a person at the property
	Waiting  color.NRGBA // mark: a person waiting, drawn as a hatch
	Moving   color.NRGBA // mark: kit on its way from space to space
	Limit    color.NRGBA // mark: call and wrap

	Warning, Bad, Good color.NRGBA // text and marks of state

	Curve, Casing color.NRGBA // a line over the sky and its outline: one of the two stands out from any sky
	Ground, Ridge color.NRGBA // what blocks the sun, and its upper edge
	Cloud         color.NRGBA // laid over the sky

	Daylight, Night color.NRGBA // quiet grounds: the hours between sunrise and sunset, and the others
	Shade           color.NRGBA // laid over a ground where no sun comes; partly transparent
	Roof            color.NRGBA // the house from above
	Glow            Fill        // the sun itself, and a wall in it
}

// Fill is an area with an edge: text on Area is Ink, and Edge is also the colour of marks drawn on Area.
type Fill struct{ Area, Edge color.NRGBA }

// Block is the fill of a scene: Soft is Area's paler companion, for the set-up that leads to the shooting.
type Block struct {
	Fill
	Soft color.NRGBA
}

// Of returns the palette that goes with a theme: ours if the theme is ours, else the one nearer to its background.
func Of(th fyne.Theme) *Palette {
	if t, ok := th.(*Theme); ok {
		return t.palette
	}
	if Luminance(th.Color(theme.ColorNameBackground, fyne.CurrentApp().Settings().ThemeVariant())) < 0.18 {
		return &night
	}
	return &day
}

func hex(rgb uint32) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: 0xff}
}

// Alpha returns c at an opacity of 0..1.
func Alpha(c color.NRGBA, opacity float64) color.NRGBA {
	c.A = uint8(max(0, min(1, opacity))*255 + 0.5)
	return c
}

// day is paper and ink with copper.
var day = Palette{
	Paper: hex(0xFAF5EB), Lane: hex(0xF0E8D8), Card: hex(0xFFFDF7),
	Rule: hex(0xD9CDB8),
	Ink:  hex(0x221D16), Muted: hex(0x625748),
	Accent: hex(0x9C4A17), OnAccent: hex(0xFFFFFF),

	Must:   Block{Fill{hex(0xF4D3B8), hex(0x9C4A17)}, hex(0xFAEADC)},
	Should: Block{Fill{hex(0xE3E3B4), hex(0x5F6A1C)}, hex(0xF1F1D8)},
	Nice:   Block{Fill{hex(0xD8DEE4), hex(0x54657A)}, hex(0xEAEDF0)},

	Sun:      Fill{hex(0xFFD04A), hex(0x946200)},
	Light:    Fill{hex(0xFFE7A0), hex(0x946200)},
	Meal:     Fill{hex(0xE6E0EC), hex(0x75628F)},
	OnCamera: hex(0x9C4A17),
	Present:  hex(0x7D7263),
	Waiting:  hex(0x8A5A00),
	Moving:   hex(0x625748),
	Limit:    hex(0x3D3529),

	Warning: hex(0x9A4A00), Bad: hex(0xA8201A), Good: hex(0x3C6A22),

	Curve: hex(0xFFF6DC), Casing: hex(0x1C160E),
	Ground: hex(0x3B3227), Ridge: hex(0xB8A88C), Cloud: hex(0x7D828C),

	Daylight: hex(0xFFFDF7), Night: hex(0xE4DDD6),
	Shade: Alpha(hex(0x1C160E), 0.2), Roof: hex(0xECE2D0), Glow: Fill{hex(0xFFD04A), hex(0x946200)},
}

// night is night blue with amber.
var night = Palette{
	Paper: hex(0x0E1626), Lane: hex(0x1A2438), Card: hex(0x172034),
	Rule: hex(0x35425C),
	Ink:  hex(0xF7F1E4), Muted: hex(0xB8C0D0),
	Accent: hex(0xF3B14C), OnAccent: hex(0x1A1305),

	Must:   Block{Fill{hex(0x5A3916), hex(0xF3B14C)}, hex(0x3A2D22)},
	Should: Block{Fill{hex(0x394420), hex(0xB3C46A)}, hex(0x262F2A)},
	Nice:   Block{Fill{hex(0x33415A), hex(0x98ADCC)}, hex(0x253148)},

	Sun:      Fill{hex(0x8A6412), hex(0xFFD35C)},
	Light:    Fill{hex(0x4A3C12), hex(0xD9B24C)},
	Meal:     Fill{hex(0x372F52), hex(0xA99AD0)},
	OnCamera: hex(0xF3B14C),
	Present:  hex(0x8591A8),
	Waiting:  hex(0xD9A441),
	Moving:   hex(0xB8C0D0),
	Limit:    hex(0xDCD5C4),

	Warning: hex(0xFFB066), Bad: hex(0xFF9A91), Good: hex(0x93CF7B),

	Curve: hex(0xFFF6DC), Casing: hex(0x1C160E),
	Ground: hex(0x070B14), Ridge: hex(0x7C8AA6), Cloud: hex(0x7D828C),

	Daylight: hex(0x223049), Night: hex(0x0A1020),
	Shade: Alpha(hex(0x000000), 0.4), Roof: hex(0x4E5B76), Glow: Fill{hex(0xFFD35C), hex(0xFFF0C0)},
}

// fyneColors maps Fyne's names. Focus, hover and pressed are laid over a ground by Fyne, so they are partly transparent; the
// focus colour is chosen so that a focused button differs from an unfocused one by 3:1 while its text keeps 4.5:1.
func (p *Palette) fyneColors() map[fyne.ThemeColorName]color.Color {
	button, border, focus := hex(0xF6EEDF), hex(0x857864), hex(0xA25D2F)
	success, warning, bad := hex(0x3C6A22), hex(0x8A5200), hex(0xA8201A)
	shadow, selection := Alpha(hex(0x3B2C14), 0.25), 0.16 // so that every word in colour is read on a selected line
	overlay := p.Card
	if p == &night {
		button, border, focus = hex(0x1A2439), hex(0x7483A0), hex(0xA7792A)
		success, warning, bad = p.Good, p.Warning, p.Bad
		shadow, selection = Alpha(hex(0x000000), 0.5), 0.28
		overlay = hex(0x111A2B) // darker than buttons and fields, which would not show on a card
	}
	return map[fyne.ThemeColorName]color.Color{
		theme.ColorNameBackground:          p.Paper,
		theme.ColorNameButton:              button,
		theme.ColorNameDisabledButton:      p.Lane,
		theme.ColorNameDisabled:            p.Muted,
		theme.ColorNameError:               bad,
		theme.ColorNameFocus:               Alpha(focus, 0.8),
		theme.ColorNameForeground:          p.Ink,
		theme.ColorNameForegroundOnError:   p.onState(),
		theme.ColorNameForegroundOnPrimary: p.OnAccent,
		theme.ColorNameForegroundOnSuccess: p.onState(),
		theme.ColorNameForegroundOnWarning: p.onState(),
		theme.ColorNameHeaderBackground:    p.Lane,
		theme.ColorNameHover:               Alpha(p.Ink, 0.08),
		theme.ColorNameHyperlink:           p.Accent,
		theme.ColorNameInputBackground:     p.Card,
		theme.ColorNameInputBorder:         border,
		theme.ColorNameMenuBackground:      p.Card,
		theme.ColorNameOverlayBackground:   overlay,
		theme.ColorNamePlaceHolder:         p.Muted,
		theme.ColorNamePressed:             Alpha(p.Ink, 0.16),
		theme.ColorNamePrimary:             p.Accent,
		theme.ColorNameScrollBar:           Alpha(p.Ink, 0.55),
		theme.ColorNameScrollBarBackground: p.Lane,
		theme.ColorNameSelection:           Alpha(p.Accent, selection),
		theme.ColorNameSeparator:           p.Rule,
		theme.ColorNameShadow:              shadow,
		theme.ColorNameSuccess:             success,
		theme.ColorNameWarning:             warning,
	}
}

// onState is the text on Error, Success and Warning grounds: those are dark by day and light by night.
func (p *Palette) onState() color.NRGBA {
	if p == &night {
		return p.OnAccent
	}
	return hex(0xFFFFFF)
}
