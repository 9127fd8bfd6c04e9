// Package assets holds what is built into the program: fonts, the icon, and the table of place names.
//
// Everything here is read-only; nobody may write into the byte slices. The bulky tables are unpacked when first asked
// for, not when the program starts. The programs that made the icon and the tables are under gen.
//
// Invariants: imports nothing of ours, opens no file, knows no window.
package assets

import _ "embed"

// SansRegular and SansBold are Noto Sans 2.004 as TrueType: Latin, Greek, Cyrillic, Vietnamese and more, for
// the papers; the window has Fyne's copies of an earlier edition. They lack arrows, check marks, boxes, and − ≥ ≤: draw those as shapes or say them in words. They have - – — • ·
// and °. SIL Open Font License 1.1, in fonts/OFL.txt.
var (
	//go:embed fonts/NotoSans-Regular.ttf
	SansRegular []byte
	//go:embed fonts/NotoSans-Bold.ttf
	SansBold []byte
	//go:embed fonts/OFL.txt
	SansLicense string
)

// Icon is the program's icon: PNG, 512 x 512 pixels, drawn by gen/icon.
//
//go:embed icon.png
var Icon []byte
