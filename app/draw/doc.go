// Package draw holds Eavelight's own drawn widgets: for a day the sky ribbon, the face hours, the board, the people's rows and
// the date strip; for a year the map; for the property the plan of the house, with the slider that moves the sun over it; for
// the price the histogram of what it may cost, the swings of what moves that, and what others offer; for lists the grid, a table
// with a cursor.
// They know numbers, texts and colours, not the plan: whoever shows them turns a plan into rows first.
//
// Each is one Fyne widget. It is made once, gets its whole content by Set, on the UI goroutine, and keeps nothing that Set
// does not tell it but the choice made in it, the hover and the focus. The widgets of the Day page share one Axis, so that
// one moment stands at one x in all of them.
//
// How they draw: a widget lists rectangles, lines and texts from bottom to top onto a pool (pieces), which reuses last
// time's canvas objects; free shapes go into one picture, drawn at device scale and kept until content or size changes.
// What follows the pointer is a piece, or is drawn on a copy of what is kept.
// Texts are cut to their room with an ellipsis, and sizes come from the theme, so that they grow with it.
//
// Invariants: imports look, tongue and say only of ours; never fyne.io/fyne/v2/app; no renderer holds state that matters.
package draw
